//! The printed forms of a law.

use super::source::Source;
use crate::kind::Kind;
use crate::system::System;

/// The symbol of a unit for each of some kinds; an empty one for a bare number.
pub type Units = &'static [(Kind, &'static str)];

/// A law as it is printed: its constants belong to its units.
#[derive(Debug)]
pub struct Printed {
    /// The law as LaTeX, with `#name` in the place of the input or output of that name. Empty in a build without texts.
    pub law: &'static str,
    /// The unit of each kind of quantity in the law; the usual one where none is given. Where one form serves both systems,
    /// these are its SI units: in customary units the usual ones go together.
    pub units: Units,
    /// Where the law comes from.
    pub source: Source,
}

/// The printed forms of a law.
#[derive(Debug)]
pub enum Forms {
    /// One form serves both systems.
    Same(Printed),
    /// A form for each system, of one and the same formula: they differ by the rounding of their constants alone, and
    /// what either gives is right.
    Each {
        /// In customary units.
        us: Printed,
        /// In SI units.
        si: Printed,
    },
    /// A statement for each system, neither a conversion of the other: a limit that a code rounds in each, or a number
    /// that belongs to its units. The system of the problem decides.
    BySystem {
        /// In customary units.
        us: Printed,
        /// In SI units.
        si: Printed,
    },
}

impl Forms {
    /// The form for a system.
    #[must_use]
    pub const fn of(&self, system: System) -> &Printed {
        match (self, system) {
            (Self::Same(printed), _)
            | (Self::Each { us: printed, .. } | Self::BySystem { us: printed, .. }, System::Us)
            | (Self::Each { si: printed, .. } | Self::BySystem { si: printed, .. }, System::Si) => printed,
        }
    }

    /// The units that a law has in the form for a system.
    pub(crate) const fn units(&self, system: System) -> Units {
        match (self, system) {
            (Self::Same(_), System::Us) => &[],
            _ => self.of(system).units,
        }
    }

    /// Whether the two systems have a form each.
    #[must_use]
    pub const fn are_two(&self) -> bool {
        !matches!(self, Self::Same(_))
    }
}
