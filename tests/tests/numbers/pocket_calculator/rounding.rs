//! How a person rounds and writes a number.

use problems::System;
use problems::number::{Limit, Number, Tolerance};
use problems::rounding::{Grid, Side};

/// A number this near to a whole count of steps, in steps, is that count: a pocket calculator shows ten digits.
const SHOWN: f64 = 1e-8;

/// How many figures a person gives where nothing else is asked for.
const FIGURES: i32 = 4;

/// How many figures the lines of a working show.
pub(crate) const SHOWN_FIGURES: i32 = 5;

/// To which side a number is rounded.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Way {
    Down,
    Nearest,
    Up,
}

impl Way {
    /// As a part asks for it; away from the unsafe side where it does not say.
    pub(crate) fn asked(number: &Number) -> Self {
        match (number.round.map(|round| round.side), number.limit) {
            (Some(Side::Nearest), _) | (None, None) => Self::Nearest,
            (Some(Side::Up), _) | (_, Some(Limit::Lower)) => Self::Up,
            (Some(Side::Down | Side::Safe), _) | (_, Some(Limit::Upper)) => Self::Down,
        }
    }

    /// The opposite side.
    pub(crate) fn turned(self) -> Self {
        match self {
            Self::Down => Self::Up,
            Self::Nearest => Self::Nearest,
            Self::Up => Self::Down,
        }
    }
}

/// The step to which a part is rounded.
pub(crate) fn step(number: &Number, system: System, value: f64) -> f64 {
    match number.round.map(|round| *round.to.of(system)) {
        Some(Grid::Step { step, .. }) => step.to_f64(),
        Some(Grid::Figures(figures)) => step_of(value, i32::from(figures)),
        None => step_of(value, FIGURES),
    }
}

/// The place of the last of so many figures.
pub(crate) fn step_of(value: f64, figures: i32) -> f64 {
    let scientific = format!("{:e}", value.abs());
    let exponent: i32 = scientific.split_once('e').and_then(|(_, power)| power.parse().ok()).unwrap_or(0);
    libm::pow(10.0, f64::from(exponent - figures + 1))
}

/// A value on a step.
pub(crate) fn to_step(value: f64, step: f64, way: Way) -> f64 {
    let steps = value / step;
    // A half goes up, also where a division leaves a little less.
    let nearest = (steps * (1.0 + 1e-12)).round();
    let whole = match way {
        _ if (steps - nearest).abs() < SHOWN * nearest.abs().max(1.0) => nearest,
        Way::Down => steps.floor(),
        Way::Nearest => nearest,
        Way::Up => steps.ceil(),
    };
    whole * step
}

/// To so many figures.
pub(crate) fn to_figures(value: f64, figures: i32, way: Way) -> f64 {
    if value == 0.0 { value } else { to_step(value, step_of(value, figures), way) }
}

/// A value as a part asks for it to be rounded.
pub(crate) fn as_asked(number: &Number, system: System, value: f64) -> f64 {
    to_step(value, step(number, system, value), Way::asked(number))
}

/// A number as it is typed: no more digits than it has.
pub(crate) fn typed(value: f64) -> String {
    let text = format!("{value:.10}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// How far from a value the tolerance of a part reaches, in the unit asked for.
pub(crate) fn reach(number: &Number, system: System, value: f64) -> f64 {
    match number.within.of(system) {
        Tolerance::Share(share) => share.to_f64() * value.abs(),
        Tolerance::Amount(amount) => amount.to_f64(),
    }
}
