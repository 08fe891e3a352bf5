//! The lawful range of an input.

/// A bound of a lawful range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bound {
    /// The bound itself is lawful.
    Including(f64),
    /// The bound itself is not lawful.
    Above(f64),
}

/// The lawful values of an input, in SI units. The upper bound is always lawful itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The lower bound.
    pub low: Bound,
    /// The upper bound.
    pub high: f64,
    /// Whether the upper bound is only there to keep numbers within what can be worked, and says nothing of valves.
    pub open: bool,
}

impl Range {
    /// Above zero, up to `high`.
    #[must_use]
    pub const fn positive(high: f64) -> Self {
        Self { low: Bound::Above(0.0), high, open: true }
    }

    /// From zero up to `high`.
    #[must_use]
    pub const fn from_zero(high: f64) -> Self {
        Self { low: Bound::Including(0.0), high, open: true }
    }

    /// From `low` to `high`.
    #[must_use]
    pub const fn between(low: f64, high: f64) -> Self {
        Self { low: Bound::Including(low), high, open: false }
    }

    /// Whether a number is lawful; one that is not finite never is.
    #[must_use]
    #[inline]
    pub fn contains(&self, si: f64) -> bool {
        let above = match self.low {
            Bound::Including(low) => si >= low,
            Bound::Above(low) => si > low,
        };
        above && si <= self.high
    }
}
