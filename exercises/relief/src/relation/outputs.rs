//! What a relation gives: the outputs that its row declares, and the values of one call.

use super::inputs::Argument;
use crate::kind::Kind;
use crate::quantity::Quantity;
use crate::shown::Rounding;

/// One output of a relation.
#[derive(Debug)]
pub struct Output {
    /// The name.
    pub name: &'static str,
    /// The symbol as LaTeX.
    pub symbol: &'static str,
    /// What it gives. The first output of a relation is always a quantity.
    pub gives: Gives,
    /// Which side a shown value may be rounded to.
    pub safe_side: SafeSide,
    /// The unit in which the trade states it, where it is not the usual one of its kind.
    pub stated_in: Option<&'static str>,
}

/// What an output gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gives {
    /// A quantity of a kind.
    Quantity(Kind),
    /// One of these names.
    Choice(&'static [&'static str]),
}

/// The side to which a shown result may be rounded without becoming dangerous.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SafeSide {
    /// Neither side is safer: rounded to the nearest.
    Neither,
    /// More is safer: a size.
    Up,
    /// Less is safer: a limit that must not be passed.
    Down,
}

impl From<SafeSide> for Rounding {
    fn from(side: SafeSide) -> Self {
        match side {
            SafeSide::Neither => Self::Nearest,
            SafeSide::Up => Self::Up,
            SafeSide::Down => Self::Down,
        }
    }
}

/// What a relation gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Outputs {
    /// One value.
    One(Quantity),
    /// Two values, in the order of the outputs.
    Two(Quantity, Quantity),
    /// A value, and one of the names of the second output.
    Named(Quantity, &'static str),
}

impl Outputs {
    /// The first value.
    #[must_use]
    pub fn first(&self) -> Quantity {
        match self {
            Self::One(value) | Self::Two(value, _) | Self::Named(value, _) => *value,
        }
    }

    /// The output at a place.
    #[must_use]
    pub fn get(&self, place: usize) -> Option<Argument> {
        match (self, place) {
            (_, 0) => Some(Argument::Quantity(self.first())),
            (Self::Two(_, value), 1) => Some(Argument::Quantity(*value)),
            (Self::Named(_, name), 1) => Some(Argument::Choice(name)),
            _ => None,
        }
    }

    /// The quantities among them.
    pub fn quantities(&self) -> impl Iterator<Item = Quantity> {
        (0..2).filter_map(|place| match self.get(place) {
            Some(Argument::Quantity(value)) => Some(value),
            _ => None,
        })
    }
}
