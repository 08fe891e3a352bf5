//! What is looked through for slips, and how a substitution is tried in it.

use relief::Quantity;
use relief::units::Unit;

use super::finding::{Finding, Values};
use super::places::{At, Places, Taken};
use super::slip::Slip;
use crate::facts::{Facts, NumberAt};
use crate::formula::Node;

/// The most places of a formula at which one slip is tried alone.
const MOST_PLACES: usize = 12;

/// A wrong number's part, and what is right there.
pub(super) struct Work<'p> {
    pub(super) facts: &'p Facts<'p>,
    pub(super) at: NumberAt<'p>,
    pub(super) right: Quantity,
}

/// No values for the message.
pub(super) fn nothing() -> Values {
    Vec::new()
}

impl Work<'_> {
    pub(super) fn places(&self) -> Places<'_> {
        Places { facts: self.facts, number: self.at.number }
    }

    /// The unit that is asked for.
    pub(super) fn asked(&self) -> Option<&'static Unit> {
        self.at.number.unit_in(self.facts.setting.system)
    }

    pub(super) fn value(&self, node: &Node) -> Option<Quantity> {
        node.quantity(&self.facts.scope).ok()
    }

    /// The values of two pieces, where both have one.
    pub(super) fn values(&self, one: &Node, other: &Node) -> Option<(Quantity, Quantity)> {
        Some((self.value(one)?, self.value(other)?))
    }

    /// A substitution at all its places at once, and at each of them alone.
    pub(super) fn everywhere(&self, finding: &mut Finding, slip: Slip, values: &dyn Fn() -> Values, taken: &Taken) {
        substitute(finding, slip, values, &|at| self.places().with(at, taken));
    }
}

/// Tries what comes out at all places of a substitution at once, and at each of them alone.
pub(super) fn substitute(
    finding: &mut Finding,
    slip: Slip,
    values: &dyn Fn() -> Values,
    with: &dyn Fn(At) -> (Option<f64>, usize),
) {
    let (all, places) = with(At::All);
    finding.candidate(slip, all, values);
    for place in 0..if places > 1 { places.min(MOST_PLACES) } else { 0 } {
        if finding.is_done() {
            return;
        }
        finding.candidate(slip, with(At::One(place)).0, values);
    }
}
