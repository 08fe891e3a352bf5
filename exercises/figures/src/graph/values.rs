//! The values that a trace is drawn from.

use relief::units::Unit;

use crate::error::FigureError;
use crate::measure::{Measure, Parameters};

/// The highest value that is drawn, in SI units: far above any relief valve.
const LIMIT: f64 = 1e9;

/// A parameter in its own unit.
pub(super) fn value(given: &Parameters, parameter: &'static str) -> Result<(f64, &'static Unit), FigureError> {
    let Measure { quantity, unit } = given.get(parameter).ok_or(FigureError::MissingParameter { parameter })?;
    if (0.0..=LIMIT).contains(&quantity.si) {
        Ok((unit.value(*quantity), unit))
    } else {
        Err(FigureError::OutOfRange { parameter })
    }
}

/// A parameter in another unit of its kind.
pub(super) fn value_in(given: &Parameters, parameter: &'static str, unit: &Unit) -> Result<f64, FigureError> {
    value(given, parameter)?;
    let measure = given.get(parameter).ok_or(FigureError::MissingParameter { parameter })?;
    Ok(unit.value(measure.quantity))
}

/// Refuses two values of which the first is not below the second.
pub(super) fn below(low: (&'static str, f64), high: (&'static str, f64)) -> Result<(), FigureError> {
    if low.1 < high.1 { Ok(()) } else { Err(FigureError::OutOfOrder { low: low.0, high: high.0 }) }
}
