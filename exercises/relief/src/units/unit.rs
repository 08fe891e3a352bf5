//! One unit: its names, its kinds and its exact factor.

use crate::kind::Kind::{self, Difference};
use crate::quantity::Quantity;
use crate::system::System;

/// One unit.
#[derive(Debug)]
pub struct Unit {
    /// The symbol, as it is printed.
    pub symbol: &'static str,
    /// Other ways of writing it, lower case, singular.
    pub names: &'static [&'static str],
    /// The kinds that a number in this unit may be of; the first is meant where the place does not say.
    pub kinds: &'static [Kind],
    /// The system that it belongs to; none where both use it.
    pub system: Option<System>,
    /// How many SI units make one: upper part of the exact factor.
    pub(super) upper: f64,
    /// Lower part of the exact factor.
    pub(super) lower: f64,
    /// What is added to a number in this unit before it is scaled: the zero of a temperature scale, in its own degrees.
    pub(super) offset: f64,
    /// Where the factor comes from.
    pub source: &'static str,
}

impl PartialEq for Unit {
    fn eq(&self, other: &Self) -> bool {
        self.symbol == other.symbol
    }
}

impl Unit {
    /// A quantity of `kind` from a number in this unit.
    #[must_use]
    pub fn quantity(&self, value: f64, kind: Kind) -> Quantity {
        Quantity::new((value + self.offset) * self.upper / self.lower, kind)
    }

    /// The number of a quantity in this unit. The kind is not looked at: ask [`Unit::measures`] first.
    #[must_use]
    pub fn value(&self, quantity: Quantity) -> f64 {
        quantity.si * self.lower / self.upper - self.offset
    }

    /// Whether a quantity of `kind` may be given in this unit.
    #[must_use]
    pub fn measures(&self, kind: Kind) -> bool {
        self.kinds.contains(&kind)
    }

    /// Whether its zero is not that of what it measures: a scale of temperature.
    #[must_use]
    pub fn is_scale(&self) -> bool {
        self.offset.abs() > 0.0
    }

    /// The kind that a number in this unit is of where its place does not say.
    #[must_use]
    pub fn usual_kind(&self) -> Kind {
        self.kinds[0]
    }

    /// How many SI units make one.
    #[must_use]
    pub fn factor(&self) -> f64 {
        self.upper / self.lower
    }

    /// Whether the symbol leaves open which kind of pressure is meant: `psi`, `bar`, `kPa`.
    #[must_use]
    pub fn is_bare_pressure(&self) -> bool {
        self.kinds.len() > 1 && self.usual_kind() == Difference
    }
}
