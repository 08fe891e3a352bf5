//! The window of an answer: all numbers that somebody may have meant who typed it.

use relief::units::Unit;
use relief::{Kind, Quantity};

use crate::answer::Precision;
use crate::rounding::RoundingGrid;

/// Half of a window is at least this share of the number: so much may come from rounding between steps.
const LEAST: f64 = 1e-4;

/// What was typed, and how exactly.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Window {
    /// The number that was typed (SI).
    pub(crate) si: f64,
    /// Half of one in the last figure that was typed (SI).
    half: f64,
    /// What one of the typed unit is in SI.
    factor: f64,
    precision: Precision,
    grid: Option<RoundingGrid>,
    asked: Option<&'static Unit>,
    kind: Kind,
}

impl Window {
    /// The window of a number of a kind, typed in a unit; with the numbers to which the answer had to be rounded, in the
    /// unit asked for.
    pub(crate) fn new(
        typed: Quantity,
        unit: Option<&Unit>,
        precision: Precision,
        (grid, asked): (Option<RoundingGrid>, Option<&'static Unit>),
    ) -> Self {
        let factor = unit.map_or(1.0, Unit::factor);
        Self { si: typed.si, half: precision.step / 2.0 * factor, factor, precision, grid, asked, kind: typed.kind }
    }

    /// Whether a number may have been typed so: rounded to the figures that were typed, or as the answer had to be.
    pub(crate) fn holds(&self, si: f64) -> bool {
        (si - self.si).abs() <= self.reach(si) || self.is_rounded(si)
    }

    /// How far from a number the typed one may be.
    fn reach(&self, si: f64) -> f64 {
        (self.half * (1.0 + 1e-9)).max(si.abs() * LEAST)
    }

    fn is_rounded(&self, si: f64) -> bool {
        let value = |si| self.asked.map_or(si, |unit| unit.value(Quantity::new(si, self.kind)));
        self.grid.is_some_and(|grid| (grid.round(value(si)) - value(self.si)).abs() <= value(self.si).abs() * 1e-9)
    }

    /// How much of the span from a quarter to four times the right answer, by logarithms, the windows of a number take
    /// where it is typed as exactly, and may be off by a share of it.
    pub(crate) fn share(&self, si: f64, right: f64, off: f64) -> f64 {
        let times = si / right;
        if !(0.25..=4.0).contains(&times) {
            return 0.0;
        }
        let size = si.abs() / self.factor;
        let first = libm::floor(libm::log10(size)) + 1.0;
        let step = libm::pow(10.0, first - f64::from(self.precision.figures)) / size;
        let grid = self.grid.map_or(0.0, |grid| {
            let value = self.asked.map_or(si, |unit| unit.value(Quantity::new(si, self.kind)));
            grid.step(value) / value.abs()
        });
        let typed = if self.precision.step > 0.0 { step } else { 0.0 };
        typed.max(grid).max(2.0 * LEAST).max(2.0 * off) / libm::log(16.0)
    }
}
