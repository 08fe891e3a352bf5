//! What the search for a slip has tried and found so far.

use relief::Quantity;

use super::slip::Slip;
use crate::number::{Window, slack};

/// What a message needs to know, by name.
pub(crate) type Values = Vec<(&'static str, String)>;

/// How much of the span from a quarter to four times the answer the windows of stated slips may cover, by logarithms: so
/// many numbers made up at random are given a reason that is not theirs.
const STATED: f64 = 0.02;

/// The slip that explains a wrong answer.
pub(crate) struct Found {
    pub(crate) slip: Slip,
    pub(crate) values: Values,
    /// Whether it is only asked about: chance could have given this number as well.
    pub(crate) asked: bool,
}

/// What was tried so far.
pub(crate) struct Finding<'w> {
    pub(super) right: Quantity,
    pub(super) window: &'w Window,
    /// What gave a number already: equal results count once.
    pub(super) seen: Vec<f64>,
    pub(super) covered: f64,
    /// What gives just the number that was typed.
    pub(super) found: Option<Found>,
    /// What comes as near to it as a right answer may be off.
    pub(super) near: Option<Found>,
}

impl Finding<'_> {
    /// Whether there is nothing more to look for.
    pub(super) fn is_done(&self) -> bool {
        self.found.is_some()
    }

    /// Tries what a slip gives (SI), where it gives anything.
    pub(super) fn candidate(&mut self, slip: Slip, si: Option<f64>, values: impl FnOnce() -> Values) {
        self.within(slip, si, 0.0, values);
    }

    /// The same for a slip at the very end of what was right until then: so great a share of its number as an answer may be
    /// off and still be right.
    pub(super) fn within(&mut self, slip: Slip, si: Option<f64>, share: f64, values: impl FnOnce() -> Values) {
        let Some(si) = si.filter(|si| si.is_finite() && !self.is_done()) else { return };
        // What a slip gives explains nothing where it is the right answer too.
        let known = |other: f64| (si - other).abs() <= slack(other);
        if known(self.right.si) || self.seen.iter().any(|other| known(*other)) {
            return;
        }
        self.cover(si, share);
        let is_typed = self.window.holds(si);
        if is_typed || self.near.is_none() && (si - self.window.si).abs() <= share * si.abs() {
            let found = Some(Found { slip, values: values(), asked: self.covered > STATED });
            // Another slip may give just what was typed.
            if is_typed { self.found = found } else { self.near = found }
        }
    }

    pub(super) fn cover(&mut self, si: f64, share: f64) {
        self.seen.push(si);
        self.covered += self.window.share(si, self.right.si, share);
    }
}
