//! What a relation is: its inputs, outputs, law, source and function, in one row of the registry.

use crate::kind::Kind;
use crate::quantity::{Quantity, Typed};
use crate::system::{Manner, System};

/// One relation of the registry.
#[derive(Debug)]
pub struct Relation {
    /// The name, the same on the command line, in recipes and in addresses.
    pub id: &'static str,
    /// What it takes, in order.
    pub inputs: &'static [Input],
    /// What it gives; the first is the one meant where none is named.
    pub outputs: &'static [Output],
    /// The law, once for each form in which the trade prints it.
    pub forms: Forms,
    /// The function itself; called only with arguments that were checked.
    pub(crate) run: fn(&Arguments) -> Result<Outputs, RelationError>,
}

/// A law as it is printed: its constants belong to its units.
#[derive(Debug)]
pub struct Printed {
    /// The law as LaTeX, where `#name` stands for the input or output of that name. Empty in a build without texts.
    pub law: &'static str,
    /// The unit in which each kind of quantity stands in the law; the usual one where nothing is said.
    pub units: &'static [(Kind, &'static str)],
    /// Where the law comes from.
    pub source: Source,
}

/// The printed forms of a law.
#[derive(Debug)]
pub enum Forms {
    /// One form serves both systems.
    Same(Printed),
    /// A form for each system, of one and the same formula: they differ by the rounding of their constants alone, and
    /// what either gives is right.
    Each {
        /// In customary units.
        us: Printed,
        /// In SI units.
        si: Printed,
    },
    /// A statement for each system, which are no conversions of each other: a limit that a code rounds in each, or a
    /// number that belongs to its units. The system of the problem decides.
    BySystem {
        /// In customary units.
        us: Printed,
        /// In SI units.
        si: Printed,
    },
}

impl Forms {
    /// The form for a system.
    #[must_use]
    pub const fn of(&self, system: System) -> &Printed {
        match (self, system) {
            (Self::Same(printed), _)
            | (Self::Each { us: printed, .. } | Self::BySystem { us: printed, .. }, System::Us)
            | (Self::Each { si: printed, .. } | Self::BySystem { si: printed, .. }, System::Si) => printed,
        }
    }

    /// Whether the two systems have a form each.
    #[must_use]
    pub const fn are_two(&self) -> bool {
        !matches!(self, Self::Same(_))
    }
}

/// One input of a relation.
#[derive(Debug)]
pub struct Input {
    /// The name: a full word, the same everywhere.
    pub name: &'static str,
    /// The symbol as LaTeX.
    pub symbol: &'static str,
    /// What may be given.
    pub form: Form,
    /// What is taken where nothing is given.
    pub default: Option<Default>,
}

/// What an input takes.
#[derive(Debug)]
pub enum Form {
    /// A quantity of a kind, within a lawful range (SI).
    Quantity(Kind, Range),
    /// One of these names.
    Choice(&'static [&'static str]),
}

/// What is taken where an input is not given, and why.
#[derive(Debug)]
pub struct Default {
    /// The value.
    pub value: Argument,
    /// Where it comes from.
    pub source: &'static str,
}

/// One output of a relation.
#[derive(Debug)]
pub struct Output {
    /// The name.
    pub name: &'static str,
    /// The symbol as LaTeX.
    pub symbol: &'static str,
    /// What it gives. The first output of a relation is always a quantity.
    pub gives: Gives,
    /// Which side a shown value may be rounded to.
    pub safe_side: SafeSide,
}

/// What an output gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gives {
    /// A quantity of a kind.
    Quantity(Kind),
    /// One of these names.
    Choice(&'static [&'static str]),
}

/// The side to which a shown result may be rounded without becoming dangerous.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SafeSide {
    /// Neither side is safer: rounded to the nearest.
    Neither,
    /// More is safer: a size.
    Up,
    /// Less is safer: a limit that must not be passed.
    Down,
}

impl From<SafeSide> for crate::shown::Rounding {
    fn from(side: SafeSide) -> Self {
        match side {
            SafeSide::Neither => Self::Nearest,
            SafeSide::Up => Self::Up,
            SafeSide::Down => Self::Down,
        }
    }
}

/// Where a law or value comes from.
#[derive(Debug)]
pub struct Source {
    /// The document with its edition and clause; empty for common practice.
    pub document: &'static str,
    /// How well it is known.
    pub status: Status,
}

/// How well a source is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// Seen in the text or an excerpt of the document.
    Read,
    /// Some of it seen, the rest remembered: the document says which.
    Partly,
    /// As a library or another text that cites the document has it.
    Cited,
    /// Remembered, not seen.
    Memory,
    /// Common practice in the trade, no source.
    CommonPractice,
    /// Follows from definitions or geometry.
    Derived,
}

impl Status {
    /// The code under which words for this status are kept.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Read => "read",
            Self::Partly => "partly",
            Self::Cited => "cited",
            Self::Memory => "memory",
            Self::CommonPractice => "common_practice",
            Self::Derived => "derived",
        }
    }
}

/// A bound of a lawful range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bound {
    /// The bound itself is lawful.
    Including(f64),
    /// The bound itself is not lawful.
    Above(f64),
}

/// The lawful values of an input, in SI units. The upper bound is always lawful itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The lower bound.
    pub low: Bound,
    /// The upper bound.
    pub high: f64,
    /// Whether the upper bound is only there to keep numbers within what can be worked, and says nothing of valves.
    pub open: bool,
}

impl Range {
    /// Above zero, up to `high`.
    #[must_use]
    pub const fn positive(high: f64) -> Self {
        Self { low: Bound::Above(0.0), high, open: true }
    }

    /// From zero up to `high`.
    #[must_use]
    pub const fn from_zero(high: f64) -> Self {
        Self { low: Bound::Including(0.0), high, open: true }
    }

    /// From `low` to `high`.
    #[must_use]
    pub const fn between(low: f64, high: f64) -> Self {
        Self { low: Bound::Including(low), high, open: false }
    }

    /// Whether a number is lawful; one that is not finite never is.
    #[must_use]
    #[inline]
    pub fn contains(&self, si: f64) -> bool {
        let above = match self.low {
            Bound::Including(low) => si >= low,
            Bound::Above(low) => si > low,
        };
        above && si <= self.high
    }
}

/// A value given to an input.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Argument {
    /// A quantity.
    Quantity(Quantity),
    /// One of the input's names.
    Choice(&'static str),
}

/// The arguments of one call, complete, in the order of the inputs and each within its lawful range; and the manner in
/// which it is worked.
#[derive(Debug)]
pub struct Arguments<'a> {
    given: &'a [Argument],
    /// In which form, and how lines are rounded.
    pub(crate) manner: Manner,
}

impl Arguments<'_> {
    /// The quantity at a place, as its type.
    #[inline]
    pub(crate) fn get<Q: Typed>(&self, index: usize) -> Q {
        match self.given.get(index) {
            Some(Argument::Quantity(quantity)) => Q::from_si(quantity.si),
            _ => Q::from_si(f64::NAN),
        }
    }

    /// The choice at a place.
    pub(crate) fn choice(&self, index: usize) -> &'static str {
        match self.given.get(index) {
            Some(Argument::Choice(choice)) => choice,
            _ => "",
        }
    }
}

/// What a relation gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Outputs {
    /// One value.
    One(Quantity),
    /// Two values, in the order of the outputs.
    Two(Quantity, Quantity),
    /// A value, and one of the names of the second output.
    Named(Quantity, &'static str),
}

impl Outputs {
    /// The first value.
    #[must_use]
    pub fn first(&self) -> Quantity {
        match self {
            Self::One(value) | Self::Two(value, _) | Self::Named(value, _) => *value,
        }
    }

    /// The output at a place.
    #[must_use]
    pub fn get(&self, place: usize) -> Option<Argument> {
        match (self, place) {
            (_, 0) => Some(Argument::Quantity(self.first())),
            (Self::Two(_, value), 1) => Some(Argument::Quantity(*value)),
            (Self::Named(_, name), 1) => Some(Argument::Choice(name)),
            _ => None,
        }
    }

    /// The quantities among them.
    pub fn quantities(&self) -> impl Iterator<Item = Quantity> {
        (0..2).filter_map(|place| match self.get(place) {
            Some(Argument::Quantity(value)) => Some(value),
            _ => None,
        })
    }
}

/// Why a relation gives no result.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RelationError {
    /// An input was not given and has no default.
    Missing {
        /// The input's name.
        input: &'static str,
    },
    /// No input has the name at this place of the call.
    Unknown {
        /// Which of the given arguments, from zero.
        place: usize,
    },
    /// An input was given twice.
    Repeated {
        /// The input's name.
        input: &'static str,
    },
    /// An input was given a quantity of another kind.
    WrongKind {
        /// The input's name.
        input: &'static str,
        /// The kind it takes.
        expected: Kind,
        /// The kind it was given.
        found: Kind,
    },
    /// An input was given a quantity where it takes a name, or a name that it does not know.
    WrongChoice {
        /// The input's name.
        input: &'static str,
        /// The names it takes; empty where it takes a quantity.
        known: &'static [&'static str],
    },
    /// A value outside the lawful range.
    OutOfRange {
        /// The input's name.
        input: &'static str,
        /// Its symbol as LaTeX.
        symbol: &'static str,
        /// The value given.
        value: Quantity,
        /// The lawful range, SI.
        range: Range,
    },
    /// Two inputs in the wrong order: the first must not be above the second.
    Order {
        /// The input that must be the lower one.
        low: &'static str,
        /// The input that must be the higher one.
        high: &'static str,
    },
    /// An input takes all that there is: the result would be below zero.
    NothingLeft {
        /// The input.
        input: &'static str,
    },
    /// The flow is below critical: another relation holds.
    Subcritical {
        /// The relation that does.
        instead: &'static str,
    },
    /// The flow is critical: another relation holds.
    Critical {
        /// The relation that does.
        instead: &'static str,
    },
    /// A factor is left at one where it is not one.
    FactorNeeded {
        /// The input.
        input: &'static str,
        /// The relation that gives it.
        instead: &'static str,
    },
    /// No standard orifice is large enough.
    TooLarge {
        /// The input.
        input: &'static str,
    },
    /// The result is too large or too small for a number.
    NotFinite,
}

impl RelationError {
    /// The code under which words for this error are kept.
    #[must_use]
    pub fn id(&self) -> &'static str {
        match self {
            Self::Missing { .. } => "missing",
            Self::Unknown { .. } => "unknown",
            Self::Repeated { .. } => "repeated",
            Self::WrongKind { .. } => "wrong_kind",
            Self::WrongChoice { .. } => "wrong_choice",
            Self::OutOfRange { .. } => "out_of_range",
            Self::Order { .. } => "order",
            Self::NothingLeft { .. } => "nothing_left",
            Self::Subcritical { .. } => "subcritical",
            Self::Critical { .. } => "critical",
            Self::FactorNeeded { .. } => "factor_needed",
            Self::TooLarge { .. } => "too_large",
            Self::NotFinite => "not_finite",
        }
    }
}

impl PartialEq for Relation {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

impl core::fmt::Display for RelationError {
    fn fmt(&self, out: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(out, "{}: {self:?}", self.id())
    }
}

impl core::error::Error for RelationError {}

impl Relation {
    /// The kind of its first output.
    #[must_use]
    pub fn kind(&self) -> Kind {
        match self.outputs[0].gives {
            Gives::Quantity(kind) => kind,
            Gives::Choice(_) => Kind::Number,
        }
    }

    /// The place and row of the output with a name.
    #[must_use]
    pub fn output(&self, name: &str) -> Option<(usize, &'static Output)> {
        self.outputs.iter().enumerate().find(|(_, output)| output.name == name)
    }

    /// The place and row of the input with a name.
    #[must_use]
    pub fn input(&self, name: &str) -> Option<(usize, &'static Input)> {
        self.inputs.iter().enumerate().find(|(_, input)| input.name == name)
    }

    /// Works the SI form of the relation for named arguments.
    ///
    /// # Errors
    /// As [`Relation::evaluate_in`].
    pub fn evaluate(&self, given: &[(&str, Argument)]) -> Result<Outputs, RelationError> {
        self.evaluate_in(given, Manner::unrounded(System::Si))
    }

    /// Works the relation for named arguments, in a manner.
    ///
    /// # Errors
    /// [`RelationError`], by its rule; there is never a panic or a result that is not finite.
    pub fn evaluate_in(&self, given: &[(&str, Argument)], manner: Manner) -> Result<Outputs, RelationError> {
        let mut ordered = [None; MOST_INPUTS];
        for (place, (name, value)) in given.iter().enumerate() {
            let (index, input) = self.input(name).ok_or(RelationError::Unknown { place })?;
            if ordered[index].replace(*value).is_some() {
                return Err(RelationError::Repeated { input: input.name });
            }
        }
        let mut complete = [Argument::Choice(""); MOST_INPUTS];
        for (index, input) in self.inputs.iter().enumerate() {
            let default = input.default.as_ref().map(|default| default.value);
            complete[index] = ordered[index].or(default).ok_or(RelationError::Missing { input: input.name })?;
        }
        self.evaluate_ordered(&complete[..self.inputs.len()], manner)
    }

    /// Works the relation for a complete list of arguments in the order of its inputs.
    ///
    /// # Errors
    /// As [`Relation::evaluate_in`].
    pub fn evaluate_ordered(&self, arguments: &[Argument], manner: Manner) -> Result<Outputs, RelationError> {
        let admitted = self.inputs.len() == arguments.len()
            && self.inputs.iter().zip(arguments).all(|(input, given)| input.admits(given));
        if !admitted {
            return Err(self.refusal(arguments));
        }
        let outputs = (self.run)(&Arguments { given: arguments, manner })?;
        let second = if let Outputs::Two(_, value) = outputs { value.si } else { 0.0 };
        if outputs.first().si.is_finite() && second.is_finite() { Ok(outputs) } else { Err(RelationError::NotFinite) }
    }
}

impl Relation {
    /// Why a list of arguments is refused. Kept apart from the question whether it is, which is asked far more often.
    #[cold]
    fn refusal(&self, arguments: &[Argument]) -> RelationError {
        let checks = self.inputs.iter().enumerate().map(|(index, input)| input.check(arguments.get(index)));
        checks.filter_map(Result::err).next().unwrap_or(RelationError::Unknown { place: self.inputs.len() })
    }
}

/// The most inputs a relation may have; a test walks the registry against it.
pub(crate) const MOST_INPUTS: usize = 12;

impl Input {
    /// Whether a value may be given: the right kind within the lawful range, or a known choice.
    #[inline]
    fn admits(&self, given: &Argument) -> bool {
        match (&self.form, given) {
            (Form::Quantity(kind, range), Argument::Quantity(value)) => {
                range.contains(value.si) && kind.accepts(value.kind)
            }
            (Form::Choice(known), Argument::Choice(name)) => known.contains(name),
            _ => false,
        }
    }

    fn check(&self, given: Option<&Argument>) -> Result<(), RelationError> {
        let input = self.name;
        let Some(given) = given else { return Err(RelationError::Missing { input }) };
        match (&self.form, given) {
            (Form::Choice(known), Argument::Choice(name)) if known.contains(name) => Ok(()),
            (Form::Choice(known), _) => Err(RelationError::WrongChoice { input, known }),
            (Form::Quantity(..), Argument::Choice(_)) => Err(RelationError::WrongChoice { input, known: &[] }),
            (Form::Quantity(kind, range), Argument::Quantity(value)) => {
                if !kind.accepts(value.kind) {
                    return Err(RelationError::WrongKind { input, expected: *kind, found: value.kind });
                }
                if range.contains(value.si) {
                    return Ok(());
                }
                Err(RelationError::OutOfRange { input, symbol: self.symbol, value: *value, range: *range })
            }
        }
    }
}
