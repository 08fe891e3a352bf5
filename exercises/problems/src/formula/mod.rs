//! The formula language of recipes and lessons: named arguments, quantities with units, kinds checked when it is read.
//!
//! ```text
//! rate_for_rise(area: bore_area(bore: seat), rise: opening * 10 %, full_lift: 1/4 in)
//! ```

mod check;
mod condition;
mod fault;
mod node;
mod parse;
mod scan;
mod scope;

use faults::Code;
use relief::{Exact, Kind, Quantity, Style, System, units::Unit};

pub use check::PI;
pub(crate) use check::STATED_IN;
pub(crate) use node::Pass;
pub use parse::ROOT;

pub use condition::Condition;
pub use fault::FormulaFault;
pub use node::{Call, Comparison, EvaluateError, Node, Operation};
pub use scope::{NameKind, Names, Scope, Value};

/// Reads a number with or without a unit, as it is written in a formula: `1 1/4 in`, `-0.5`, `10 %`.
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

/// A checked formula with the kind of its result.
#[derive(Clone, Debug, PartialEq)]
pub struct Formula {
    node: Node,
    kind: Kind,
    /// Whether a product of quantities gives the result, which tells no more than its dimension.
    by_product: bool,
}

impl Formula {
    /// Reads and checks a formula; where a kind is expected, one of another kind is refused.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn read(text: &str, names: &Names, expected: Option<Kind>) -> Result<Self, Vec<FormulaFault>> {
        let raw = parse::formula(text).map_err(|fault| vec![fault])?;
        let (node, gave) = check::quantity(&raw, names, expected).map_err(|fault| vec![fault])?;
        let (kind, by_product) = (gave.kind, gave.by_product);
        match expected.map(|expected| (expected, gave.in_place_of(expected))) {
            Some((expected, None)) => {
                Err(vec![check::of_kinds(FormulaFault::at(Code::FormulaResultKind, raw.span), expected, kind)])
            }
            Some((_, Some(kind))) => Ok(Self { node, kind, by_product }),
            None => Ok(Self { node, kind, by_product }),
        }
    }

    /// The same formula with a result in these units, of the kind that they are for where a product gives it: force times arm is
    /// a torque in N m, and work in kJ.
    #[must_use]
    pub fn in_units(self, units: &[&Unit]) -> Self {
        let all_measure = |kind: &Kind| units.iter().all(|unit| unit.measures(*kind));
        let gave = check::Gave { kind: self.kind, by_product: self.by_product };
        let kinds = units.first().map_or(&[][..], |unit| unit.kinds).iter().copied();
        let asked = kinds.filter(all_measure).find(|_| !all_measure(&self.kind));
        Self { kind: asked.and_then(|asked| gave.in_place_of(asked)).unwrap_or(self.kind), ..self }
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

    /// How its value is rounded when it is shown.
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

#[cfg(test)]
mod tests;
