//! Comparisons of quantities: with a limit, and of inputs that must be in order.

use crate::quantity::{Gauge, Typed};
use crate::relation::RelationError;

/// How far a number may pass a limit: a whole number of psi does not always come back whole from SI units.
const SLACK: f64 = 1e-9;

/// Whether a number lies above a limit, by more than the last bits of a conversion.
pub(crate) fn above(value: f64, limit: f64) -> bool {
    value > limit * (1.0 + SLACK)
}

/// Refuses two inputs of which the first is above the second.
pub(crate) fn in_order<Q: Typed>(low: (&'static str, Q), high: (&'static str, Q)) -> Result<(), RelationError> {
    if low.1.si() <= high.1.si() { Ok(()) } else { Err(RelationError::Order { low: low.0, high: high.0 }) }
}

/// Refuses two inputs of which the first is not below the second.
pub(crate) fn below<Q: Typed>(low: (&'static str, Q), high: (&'static str, Q)) -> Result<(), RelationError> {
    if low.1.si() < high.1.si() { Ok(()) } else { Err(RelationError::Order { low: low.0, high: high.0 }) }
}

/// Refuses a pressure below zero, which an input has left.
pub(crate) fn something_left(pressure: Gauge, input: &'static str) -> Result<Gauge, RelationError> {
    if pressure.si() >= 0.0 { Ok(pressure) } else { Err(RelationError::NothingLeft { input }) }
}

/// The larger of two quantities of one kind.
pub(crate) fn larger<Q: Typed>(one: Q, other: Q) -> Q {
    if one.si() >= other.si() { one } else { other }
}
