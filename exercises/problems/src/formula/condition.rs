//! Conditions: comparisons of formulas.

use relief::{Exact, Quantity};
use serde::Serialize;

use super::fault::FormulaFault;
use super::node::{Comparison, EvaluateError, Node};
use super::scope::{Names, Scope, Value};
use super::{check, parse};
use crate::stored::{Stored, Unfit};

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

    /// A condition that never holds.
    #[must_use]
    pub fn never() -> Self {
        let zero = || Node::Number(Exact::ZERO);
        Self(vec![(zero(), Comparison::Above, zero())])
    }

    /// The two sides of the first comparison of quantities that does not hold; `None` where all hold.
    pub(crate) fn failing(&self, scope: &Scope) -> Option<[Quantity; 2]> {
        self.0.iter().find_map(|(left, comparison, right)| {
            let [left, right] = [left.quantity(scope).ok()?, right.quantity(scope).ok()?];
            (!comparison.holds(left.si, right.si)).then_some([left, right])
        })
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
