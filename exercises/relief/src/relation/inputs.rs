//! What a relation takes: the inputs that its row declares, and the values of one call.

use super::error::RelationError;
use super::range::Range;
use crate::kind::Kind;
use crate::quantity::Quantity;
use crate::system::Manner;

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
    /// What it is beyond its kind.
    pub role: Role,
}

/// What an input is beyond its kind, where people mistake one value for another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// Nothing more.
    Plain,
    /// The whole that the relation gives a share of.
    Whole,
    /// A round opening, given by its diameter.
    Bore,
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
    pub(crate) given: &'a [Argument],
    /// In which form, and how lines are rounded.
    pub(crate) manner: Manner,
}

impl Input {
    /// The kind of quantity that it takes; none where it takes a name.
    #[must_use]
    pub fn kind(&self) -> Option<Kind> {
        if let Form::Quantity(kind, _) = self.form { Some(kind) } else { None }
    }

    /// Whether a value may be given: the right kind within the lawful range, or a known choice.
    #[inline]
    pub(crate) fn admits(&self, given: &Argument) -> bool {
        match (&self.form, given) {
            (Form::Quantity(kind, range), Argument::Quantity(value)) => {
                range.contains(value.si) && kind.accepts(value.kind)
            }
            (Form::Choice(known), Argument::Choice(name)) => known.contains(name),
            _ => false,
        }
    }

    /// Why a value may not be given.
    pub(super) fn check(&self, given: Option<&Argument>) -> Result<(), RelationError> {
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
