//! The two systems of units, and the manner in which a relation is worked.

use crate::shown::{Rounding, round_to_figures};

/// A system of units in which the trade prints its formulas.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum System {
    /// United States customary units.
    Us,
    /// The International System and the metric units used beside it.
    Si,
}

impl System {
    /// Both systems.
    pub const BOTH: [Self; 2] = [Self::Us, Self::Si];

    /// The name in recipes, on the command line and in addresses.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Us => "us",
            Self::Si => "si",
        }
    }

    /// The system with an id.
    #[must_use]
    pub fn find(id: &str) -> Option<Self> {
        Self::BOTH.into_iter().find(|system| system.id() == id)
    }

    /// The system that some units belong to: customary where all that belong to one are customary, SI where any is not;
    /// `None` where none of them belongs to one alone.
    pub fn of_units(units: impl IntoIterator<Item = Option<Self>>) -> Option<Self> {
        let mut known = units.into_iter().flatten();
        let first = known.next()?;
        Some(if first == Self::Us && known.all(|system| system == Self::Us) { Self::Us } else { Self::Si })
    }
}

/// How a relation is worked: in which printed form, and how intermediate lines are rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Manner {
    /// The system whose printed form is taken.
    pub form: System,
    /// To how many significant figures the lines within the relation are rounded, as people do who write them down;
    /// `None` rounds none of them.
    pub figures: Option<u8>,
}

impl Manner {
    /// The printed form of a system, with no line rounded.
    #[must_use]
    pub const fn unrounded(form: System) -> Self {
        Self { form, figures: None }
    }

    /// A line within a relation: a number in the unit of the form.
    #[must_use]
    pub fn line(self, value: f64) -> f64 {
        self.figures.map_or(value, |figures| round_to_figures(value, figures, Rounding::Nearest))
    }

    /// The first of two values in customary units, the second in SI units.
    pub fn choose<T>(self, us: T, si: T) -> T {
        match self.form {
            System::Us => us,
            System::Si => si,
        }
    }
}
