//! Why a figure cannot be drawn.

use relief::Kind;

/// Why a figure cannot be drawn from what it was given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FigureError {
    /// A parameter that the figure needs was not given.
    MissingParameter {
        /// Its name.
        parameter: &'static str,
    },
    /// The figure takes no parameter of this name.
    UnknownParameter {
        /// The name given.
        parameter: String,
        /// The names that it takes.
        known: Vec<&'static str>,
    },
    /// A parameter was given a quantity of another kind, or in a unit that does not measure its kind.
    WrongKind {
        /// Its name.
        parameter: &'static str,
        /// The kind it takes.
        expected: Kind,
        /// The kind it was given.
        found: Kind,
    },
    /// A parameter is not a number above zero that can be drawn (a reseating pressure may be zero).
    OutOfRange {
        /// Its name.
        parameter: &'static str,
    },
    /// Two pressures in the wrong order: the first must be below the second.
    OutOfOrder {
        /// The parameter that must be the lower one.
        low: &'static str,
        /// The parameter that must be the higher one.
        high: &'static str,
    },
    /// The prefix cannot begin an id: it must be a letter followed by letters, digits, `-` or `_`.
    UnusablePrefix {
        /// The prefix given.
        prefix: String,
    },
}

impl FigureError {
    /// The code under which words for this error are kept.
    #[must_use]
    pub fn id(&self) -> &'static str {
        match self {
            Self::MissingParameter { .. } => "missing_parameter",
            Self::UnknownParameter { .. } => "unknown_parameter",
            Self::WrongKind { .. } => "wrong_kind",
            Self::OutOfRange { .. } => "out_of_range",
            Self::OutOfOrder { .. } => "out_of_order",
            Self::UnusablePrefix { .. } => "unusable_prefix",
        }
    }

    /// The parameter at fault, to find its place in what the author wrote; of two, the lower one.
    #[must_use]
    pub fn parameter(&self) -> Option<&str> {
        match self {
            Self::MissingParameter { parameter }
            | Self::WrongKind { parameter, .. }
            | Self::OutOfRange { parameter }
            | Self::OutOfOrder { low: parameter, .. } => Some(parameter),
            Self::UnknownParameter { parameter, .. } => Some(parameter),
            Self::UnusablePrefix { .. } => None,
        }
    }
}

impl core::fmt::Display for FigureError {
    fn fmt(&self, out: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::MissingParameter { parameter } => write!(out, "parameter `{parameter}` is missing"),
            Self::UnknownParameter { parameter, known } if known.is_empty() => {
                write!(out, "unknown parameter `{parameter}`; this figure takes none")
            }
            Self::UnknownParameter { parameter, known } => {
                write!(out, "unknown parameter `{parameter}`; known are {}", known.join(", "))
            }
            Self::WrongKind { parameter, expected, found } => {
                write!(out, "parameter `{parameter}` takes {}, not {}", expected.id(), found.id())
            }
            Self::OutOfRange { parameter } => write!(out, "parameter `{parameter}` cannot be drawn"),
            Self::OutOfOrder { low, high } => write!(out, "`{low}` must be below `{high}`"),
            Self::UnusablePrefix { prefix } => write!(out, "prefix `{prefix}` cannot begin an id"),
        }
    }
}

impl core::error::Error for FigureError {}
