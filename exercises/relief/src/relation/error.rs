//! Why a relation gives no result.

use super::range::Range;
use crate::kind::Kind;
use crate::quantity::Quantity;

/// Why a relation gives no result.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RelationError {
    /// An input was not given and has no default.
    Missing {
        /// The input's name.
        input: &'static str,
    },
    /// No input has the name at this place of the call.
    Unknown {
        /// Which of the given arguments, from zero.
        place: usize,
    },
    /// An input was given twice.
    Repeated {
        /// The input's name.
        input: &'static str,
    },
    /// An input was given a quantity of another kind.
    WrongKind {
        /// The input's name.
        input: &'static str,
        /// The kind it takes.
        expected: Kind,
        /// The kind it was given.
        found: Kind,
    },
    /// An input was given a quantity where it takes a name, or a name that it does not know.
    WrongChoice {
        /// The input's name.
        input: &'static str,
        /// The names it takes; empty where it takes a quantity.
        known: &'static [&'static str],
    },
    /// A value outside the lawful range.
    OutOfRange {
        /// The input's name.
        input: &'static str,
        /// Its symbol as LaTeX.
        symbol: &'static str,
        /// The value given.
        value: Quantity,
        /// The lawful range, SI.
        range: Range,
    },
    /// Two inputs in the wrong order: the first must not be above the second.
    Order {
        /// The input that must be the lower one.
        low: &'static str,
        /// The input that must be the higher one.
        high: &'static str,
    },
    /// An input leaves nothing: the result would be below zero.
    NothingLeft {
        /// The input.
        input: &'static str,
    },
    /// The flow is below critical: another relation holds.
    Subcritical {
        /// The relation that does.
        instead: &'static str,
    },
    /// The flow is critical: another relation holds.
    Critical {
        /// The relation that does.
        instead: &'static str,
    },
    /// A factor is left at one where it is not one.
    FactorNeeded {
        /// The input.
        input: &'static str,
        /// The relation that gives it.
        instead: &'static str,
    },
    /// No standard orifice is large enough.
    TooLarge {
        /// The input.
        input: &'static str,
    },
    /// The result is too large or too small for a number.
    NotFinite,
}

impl RelationError {
    /// The code under which words for this error are kept.
    #[must_use]
    pub fn id(&self) -> &'static str {
        match self {
            Self::Missing { .. } => "missing",
            Self::Unknown { .. } => "unknown",
            Self::Repeated { .. } => "repeated",
            Self::WrongKind { .. } => "wrong_kind",
            Self::WrongChoice { .. } => "wrong_choice",
            Self::OutOfRange { .. } => "out_of_range",
            Self::Order { .. } => "order",
            Self::NothingLeft { .. } => "nothing_left",
            Self::Subcritical { .. } => "subcritical",
            Self::Critical { .. } => "critical",
            Self::FactorNeeded { .. } => "factor_needed",
            Self::TooLarge { .. } => "too_large",
            Self::NotFinite => "not_finite",
        }
    }
}

impl core::fmt::Display for RelationError {
    fn fmt(&self, out: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(out, "{}: {self:?}", self.id())
    }
}

impl core::error::Error for RelationError {}
