//! Columns and cells in short.

use super::layout::{Cell, Column};
use crate::quantity::Quantity;
use crate::units;

/// Figures of a number that is shown as it is stated.
pub(super) const STATED: u8 = 6;
/// Figures of a number that is worked or converted.
pub(super) const WORKED: u8 = 4;

pub(super) const fn plain(name: &'static str) -> Column {
    Column { under: None, name: Some(name), unit: None }
}

pub(super) fn under(heading: &'static str, symbol: &str) -> Column {
    Column { under: Some(heading), name: None, unit: units::find(symbol) }
}

pub(super) fn in_unit(symbol: &str, quantity: Quantity) -> Cell {
    units::find(symbol).map_or(Cell::Nothing, |unit| Cell::Number(unit.value(quantity), WORKED))
}

/// A share in percent.
pub(super) fn share(share: f64) -> Cell {
    Cell::Number(share * 100.0, STATED)
}
