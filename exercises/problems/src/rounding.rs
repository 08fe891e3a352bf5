//! Rounding as a learner is told to: to a step or to so many figures, to the nearest or to one side.

use relief::{Exact, Style};
use serde::Serialize;

use crate::recipe::Pair;
use crate::stored::{stored_cases, stored_fields};

/// To how many significant figures an answer can be rounded.
pub(crate) const FIGURES: core::ops::RangeInclusive<u8> = 1..=6;

/// A value this near to a number of the grid, in steps, is that number: the last bits of a conversion never push a whole
/// number to the next step.
const NEAR: f64 = 1e-6;

/// How an answer has to be rounded.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RoundTo {
    /// To which numbers.
    pub to: Pair<Grid>,
    /// To which side.
    pub side: Side,
}

/// The numbers that an answer is rounded to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Grid {
    /// Those with so many significant figures.
    Figures(u8),
    /// The multiples of a step in the unit asked for.
    Step {
        /// The step.
        #[serde(serialize_with = "crate::stored::exact::serialize")]
        step: Exact,
        /// How the step is written.
        #[serde(serialize_with = "crate::stored::style::serialize")]
        style: relief::Style,
    },
}

/// The side an answer is rounded to. The safe one is `Up` or `Down` by the time a recipe is compiled, and is marked as
/// safe so that the learner learns no more than that.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// To the nearest.
    Nearest,
    /// To the next one up.
    Up,
    /// To the next one down.
    Down,
    /// Away from the unsafe side of the limit.
    Safe,
}

impl Side {
    /// The name in recipes and words.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Nearest => "nearest",
            Self::Up => "up",
            Self::Down => "down",
            Self::Safe => "safe",
        }
    }

    /// All of them.
    pub const ALL: [Self; 4] = [Self::Nearest, Self::Up, Self::Down, Self::Safe];
}

stored_fields!(RoundTo { to, side });
stored_cases!(Grid { "figures" => Figures(figures), "step" => Step { step, style } });
stored_cases!(Side { "nearest" => Nearest, "up" => Up, "down" => Down, "safe" => Safe });

/// The numbers to which an answer is rounded, and to which side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoundingGrid {
    grid: Grid,
    side: Side,
    up: bool,
}

impl RoundingGrid {
    /// A grid with the side to which its numbers are rounded; `up` where that is the upper one.
    pub(crate) fn new(grid: Grid, side: Side, up: bool) -> Self {
        Self { grid, side, up }
    }
}

impl Grid {
    /// The distance from one of its numbers to the next, about a value.
    #[must_use]
    pub fn step(&self, value: f64) -> f64 {
        match self {
            Self::Step { step, .. } => step.to_f64(),
            Self::Figures(figures) => libm::pow(10.0, f64::from(exponent(value) - i32::from(*figures) + 1)),
        }
    }
}

impl RoundingGrid {
    /// The distance from one number to the next, about a value.
    #[must_use]
    pub fn step(&self, value: f64) -> f64 {
        self.grid.step(value)
    }

    /// How far rounding may move a value: half a step to the nearest, a whole one to a side.
    #[must_use]
    pub fn reach(&self, value: f64) -> f64 {
        self.step(value) * if self.side == Side::Nearest { 0.5 } else { 1.0 }
    }

    /// A value in the unit asked for, rounded.
    #[must_use]
    pub fn round(&self, value: f64) -> f64 {
        let steps = value / self.step(value);
        let nearest = steps.round();
        let whole = match (self.side, self.up) {
            _ if (steps - nearest).abs() <= NEAR => nearest,
            (Side::Nearest, _) => nearest,
            (_, true) => steps.ceil(),
            (_, false) => steps.floor(),
        };
        self.times(whole, value)
    }

    fn times(&self, count: f64, value: f64) -> f64 {
        self.multiple(count, value).map_or(count * self.step(value), Exact::to_f64)
    }

    /// So many steps, in fractions, so that 0.1 times 3 is 0.3; `None` where that is too large.
    fn multiple(&self, count: f64, value: f64) -> Option<Exact> {
        if count.abs() > 1e12 {
            return None;
        }
        #[expect(clippy::cast_possible_truncation, reason = "whole and at most 1e12")]
        let count = count as i64;
        let step = match self.grid {
            Grid::Step { step, .. } => step,
            Grid::Figures(figures) => power_of_ten(exponent(value) - i32::from(figures) + 1)?,
        };
        Exact::ZERO.plus_steps(step, count).ok()
    }

    /// Whether a value in the unit asked for is one of the numbers.
    #[must_use]
    pub fn has(&self, value: f64) -> bool {
        let steps = value / self.step(value);
        (steps - steps.round()).abs() <= NEAR
    }

    /// How its numbers are written: in decimals, or as a workshop writes fractions.
    #[must_use]
    pub fn style(&self, value: f64) -> Style {
        match self.grid {
            Grid::Step { style, .. } => style,
            Grid::Figures(figures) => {
                Style::Decimal(u8::try_from((i32::from(figures) - 1 - exponent(value)).clamp(0, 12)).unwrap_or(0))
            }
        }
    }

    /// A rounded value as a fraction of whole numbers, for writing; `None` where it is too large for one.
    #[must_use]
    pub fn exact(&self, value: f64) -> Option<Exact> {
        self.multiple((value / self.step(value)).round(), value)
    }

    /// To which numbers.
    #[must_use]
    pub fn grid(&self) -> Grid {
        self.grid
    }

    /// To which side.
    #[must_use]
    pub fn side(&self) -> Side {
        self.side
    }
}

/// The power of ten of the first digit. The scientific form is rounded correctly on every target.
fn exponent(value: f64) -> i32 {
    let text = format!("{:.14e}", value.abs());
    text.split_once('e').and_then(|(_, power)| power.parse().ok()).unwrap_or(0)
}

fn power_of_ten(power: i32) -> Option<Exact> {
    let ten = 10i128.checked_pow(power.unsigned_abs())?;
    if power < 0 { Exact::new(1, ten).ok() } else { Exact::new(ten, 1).ok() }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rounded(grid: Grid, side: Side, up: bool) -> RoundingGrid {
        RoundingGrid { grid, side, up }
    }

    fn step(text: &str) -> Grid {
        let (step, style) = Exact::parse(text).expect("step");
        Grid::Step { step, style }
    }

    #[test]
    fn values_go_to_the_side_that_was_asked_for() {
        for (grid, side, up, value, expected) in [
            (step("1/4"), Side::Nearest, false, 1.4, 1.5),
            (step("1/4"), Side::Nearest, false, 1.37, 1.25),
            (step("0.1"), Side::Up, true, 0.21, 0.3),
            (step("0.1"), Side::Down, false, 0.29, 0.2),
            (step("0.1"), Side::Up, true, 0.300_000_000_000_000_04, 0.3),
            (step("5"), Side::Safe, false, 104.9, 100.0),
            (Grid::Figures(3), Side::Nearest, false, 1234.5, 1230.0),
            (Grid::Figures(3), Side::Up, true, 0.012_341, 0.0124),
            (Grid::Figures(2), Side::Nearest, false, -0.0649, -0.065),
            (Grid::Figures(3), Side::Nearest, false, 0.0, 0.0),
        ] {
            let found = rounded(grid, side, up).round(value);
            assert!((found - expected).abs() < 1e-12, "{value}: {found} and not {expected}");
        }
    }

    #[test]
    fn only_numbers_of_the_grid_are_on_it() {
        let quarter = rounded(step("1/4"), Side::Nearest, false);
        assert!(quarter.has(1.25) && !quarter.has(1.3));
        let three = rounded(Grid::Figures(3), Side::Nearest, false);
        assert!(three.has(1230.0) && three.has(0.123) && !three.has(1234.0));
    }
}
