//! The formula language of recipes and lessons: named arguments, quantities with units, kinds checked when it is read.
//!
//! ```text
//! rate_for_rise(area: bore_area(bore: seat), rise: opening * 10 %, full_lift: 1/4 in)
//! ```

mod check;
mod node;
mod parse;
mod scan;

use core::ops::Range;

use faults::{Code, Fault};
use relief::{Exact, Kind, Quantity, Style, System, units::Unit};
use serde::Serialize;

use crate::stored::{Stored, Unfit};

pub(crate) use check::STATED_IN;
pub(crate) use node::Pass;

pub use node::{Call, Comparison, EvaluateError, Node, Operation};

/// The deepest that a formula may nest, in brackets or in what it is computed from; deeper ones are refused, so that no
/// stack is used up, and the compiled form (three levels of JSON for a call) stays within what its reader allows.
const MOST_DEPTH: usize = 36;

/// The longest formula that is read, in bytes: far longer than any that a person checks.
const LONGEST: usize = 4000;

/// What is wrong with a formula; its place is the bytes in the formula's text.
pub type FormulaFault = Fault<Range<usize>>;

/// Reads a number with or without a unit, as it stands in a formula: `1 1/4 in`, `-0.5`, `10 %`.
#[must_use]
pub fn literal(text: &str) -> Option<(Exact, Style, Option<&'static Unit>)> {
    let (negative, text) = match text.trim().strip_prefix(['-', '−']) {
        Some(rest) => (true, rest),
        None => (false, text),
    };
    match scan::scan(text).ok()?.as_slice() {
        [(scan::Token::Number { value, style, unit }, _)] => {
            Some((if negative { value.negated() } else { *value }, *style, *unit))
        }
        _ => None,
    }
}

/// What a name in a formula may stand for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NameKind {
    /// A quantity of a kind.
    Quantity(Kind),
    /// One of these named choices.
    Choice(Vec<String>),
}

/// The names that a formula may use.
pub type Names = Vec<(String, NameKind)>;

/// The value of a name or formula.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A quantity.
    Quantity(Quantity),
    /// A named choice.
    Choice(String),
}

/// The values of the names of a formula, and the system of units that it is worked in.
#[derive(Clone, Debug, PartialEq)]
pub struct Scope {
    system: System,
    values: Vec<(String, Value)>,
}

impl Scope {
    /// No names yet.
    #[must_use]
    pub fn new(system: System) -> Self {
        Self { system, values: Vec::new() }
    }

    /// The same names and values, worked in a system.
    #[must_use]
    pub fn in_system(&self, system: System) -> Self {
        Self { system, values: self.values.clone() }
    }

    /// The system, whose printed forms are taken.
    #[must_use]
    pub fn system(&self) -> System {
        self.system
    }

    /// The value of a name.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&Value> {
        self.values.iter().find(|(known, _)| known == name).map(|(_, value)| value)
    }

    /// Gives a name a value, in place of an earlier one.
    pub fn set(&mut self, name: &str, value: Value) {
        match self.values.iter_mut().find(|(known, _)| known == name) {
            Some((_, old)) => *old = value,
            None => self.values.push((name.to_owned(), value)),
        }
    }
}

impl Default for Scope {
    /// No names, worked in SI.
    fn default() -> Self {
        Self::new(System::Si)
    }
}

/// A checked formula with the kind of its result.
#[derive(Clone, Debug, PartialEq)]
pub struct Formula {
    node: Node,
    kind: Kind,
}

impl Formula {
    /// Reads and checks a formula; where a kind is expected, one of another kind is refused.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn read(text: &str, names: &Names, expected: Option<Kind>) -> Result<Self, Vec<FormulaFault>> {
        let raw = parse::formula(text).map_err(|fault| vec![fault])?;
        let (node, kind) = check::quantity(&raw, names, expected).map_err(|fault| vec![fault])?;
        match expected {
            Some(expected) if !expected.accepts(kind) => Err(vec![
                FormulaFault::at(Code::FormulaResultKind, raw.span)
                    .with("expected", expected.id())
                    .with("found", kind.id()),
            ]),
            _ => Ok(Self { node, kind }),
        }
    }

    /// Reads and checks a formula that gives a named choice, such as the letter of an orifice, and evaluates it.
    ///
    /// # Errors
    /// What is wrong with it; nothing where it has no value.
    pub fn choice(text: &str, names: &Names, scope: &Scope) -> Result<String, Vec<FormulaFault>> {
        let raw = parse::formula(text).map_err(|fault| vec![fault])?;
        let node = check::named_choice(&raw, names).map_err(|fault| vec![fault])?;
        match node.evaluate(scope) {
            Ok(Value::Choice(name)) => Ok(name),
            _ => Err(Vec::new()),
        }
    }

    /// The kind of its result.
    #[must_use]
    pub fn kind(&self) -> Kind {
        self.kind
    }

    /// Its value for the names in a scope.
    ///
    /// # Errors
    /// As [`Node::evaluate`].
    pub fn evaluate(&self, scope: &Scope) -> Result<Quantity, EvaluateError> {
        self.node.quantity(scope)
    }

    /// Whether its result may be written without a unit: a number, a quotient, or a ratio that the trade writes as a number.
    #[must_use]
    pub fn is_bare(&self) -> bool {
        match &self.node {
            _ if self.kind == Kind::Number => true,
            Node::Call(call) => relief::is_bare(call.relation, self.kind),
            Node::Binary(Operation::Over, ..) => self.kind == Kind::Ratio,
            _ => false,
        }
    }

    /// The system that its units belong to: those written in it, those of its names, and the one that its result is shown
    /// in. Customary where all are customary, SI where they are mixed; `None` where there is no unit of one system alone.
    pub fn system(&self, unit_of: impl Fn(&str) -> Option<&'static Unit>, result: Option<&Unit>) -> Option<System> {
        let mut units = vec![result.and_then(|unit| unit.system)];
        self.node.any(&mut |node| {
            units.push(match node {
                Node::Quantity { unit, .. } => unit.system,
                Node::Name(name) => unit_of(name).and_then(|unit| unit.system),
                _ => None,
            });
            false
        });
        System::of_units(units)
    }

    /// The way in which its value is rounded when it is shown.
    #[must_use]
    pub fn rounding(&self) -> relief::Rounding {
        self.node.rounding()
    }

    /// The checked tree.
    #[must_use]
    pub fn into_node(self) -> Node {
        self.node
    }
}

/// A checked condition: comparisons that must all hold.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Condition(Vec<(Node, Comparison, Node)>);

impl Stored for Condition {
    #[inline]
    fn read(tree: serde_json::Value) -> Result<Self, Unfit> {
        Stored::read(tree).map(Self)
    }
}

impl Condition {
    /// Reads and checks a condition: comparisons joined by `and`.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn read(text: &str, names: &Names) -> Result<Self, Vec<FormulaFault>> {
        let raw = parse::condition(text).map_err(|fault| vec![fault])?;
        let (mut tests, mut faults) = (Vec::new(), Vec::new());
        for test in raw {
            match check::test(&test, names) {
                Ok(test) => tests.push(test),
                Err(fault) => faults.push(fault),
            }
        }
        if faults.is_empty() { Ok(Self(tests)) } else { Err(faults) }
    }

    /// A condition that always holds.
    #[must_use]
    pub fn always() -> Self {
        Self(Vec::new())
    }

    /// Whether all its comparisons hold.
    ///
    /// # Errors
    /// As [`Node::evaluate`].
    pub fn holds(&self, scope: &Scope) -> Result<bool, EvaluateError> {
        for (left, comparison, right) in &self.0 {
            let holds = match (left.evaluate(scope)?, right.evaluate(scope)?) {
                (Value::Quantity(left), Value::Quantity(right)) => comparison.holds(left.si, right.si),
                (Value::Choice(left), Value::Choice(right)) => (left == right) == (*comparison == Comparison::Equal),
                _ => return Err(EvaluateError::Unfit),
            };
            if !holds {
                return Ok(false);
            }
        }
        Ok(true)
    }
}

#[cfg(test)]
mod tests;
