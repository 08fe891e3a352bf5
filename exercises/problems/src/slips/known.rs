//! Values that a learner has before them, in the place of others.

use relief::{Kind, Quantity};

use super::finding::Finding;
use super::places::At;
use super::slip::Slip;
use super::values::{Known, text_of};
use super::work::Work;
use crate::formula::{Node, Operation};

impl Work<'_> {
    /// An intermediate value, or a given one, in place of the answer.
    pub(super) fn before_the_end(&self, finding: &mut Finding, steps: &[(Node, Quantity)], known: &[Known]) {
        let measures = |value: Quantity| value.kind.dimension() == self.right.kind.dimension();
        for (node, value) in steps.iter().rev().filter(|(_, value)| measures(*value)) {
            if matches!(node, Node::Call(_) | Node::Binary(..)) {
                let values = || vec![("taken", text_of(self.facts, node, *value))];
                finding.candidate(Slip::StoppedEarly, Some(value.si), values);
            }
        }
        // What is only read off and not worked is taken for another value, which says more.
        let is_worked = !matches!(self.at.number.answer, Node::Name(_));
        for known in known.iter().filter(|known| is_worked && measures(known.value)) {
            finding.candidate(Slip::GivenRepeated, Some(known.value.si), || vec![("taken", known.text.clone())]);
        }
    }

    /// One known value where another of its kind belongs: wherever that is named, only where a percentage is taken of it, and
    /// at each of its places alone.
    pub(super) fn other_values(&self, finding: &mut Finding, known: &[Known]) {
        for taken in known.iter().filter(|taken| taken.value.kind == Kind::Gauge) {
            let si = self.places().with(At::All, &|node| self.percentage_of(node, taken.value)).0;
            finding.candidate(Slip::PercentBase, si, Vec::new);
        }
        for belongs in known {
            for taken in known.iter().filter(|taken| is_other(taken, belongs)) {
                if finding.is_done() {
                    return;
                }
                let values = || vec![("taken", taken.text.clone()), ("belongs", belongs.text.clone())];
                let is_it = |node: &Node| matches!(node, Node::Name(name) if *name == belongs.name);
                self.everywhere(finding, Slip::OtherValue, &values, &|node| is_it(node).then_some(taken.value));
            }
        }
    }

    /// A percentage of a gauge pressure, taken of another one.
    fn percentage_of(&self, node: &Node, other: Quantity) -> Option<Quantity> {
        let Node::Binary(Operation::Times, left, right) = node else { return None };
        let (left, right) = self.values(left, right)?;
        let (ratio, base) = if left.kind == Kind::Ratio { (left, right) } else { (right, left) };
        let fits = ratio.kind == Kind::Ratio && base.kind == Kind::Gauge && base.si.to_bits() != other.si.to_bits();
        fits.then(|| Quantity::new(other.si * ratio.si, Kind::Difference))
    }

    /// Two known values of one kind, each in the place of the other.
    pub(super) fn exchanged(&self, finding: &mut Finding, known: &[Known]) {
        for (place, one) in known.iter().enumerate() {
            for other in known[place + 1..].iter().filter(|other| is_other(other, one)) {
                let values = || vec![("taken", other.text.clone()), ("belongs", one.text.clone())];
                let swap = |node: &Node| match node {
                    Node::Name(name) if *name == one.name => Some(other.value),
                    Node::Name(name) if *name == other.name => Some(one.value),
                    _ => None,
                };
                finding.candidate(Slip::Exchanged, self.places().with(At::All, &swap).0, values);
            }
        }
    }
}

/// Whether one known value may be taken for another: of its kind, and not equal to it.
fn is_other(taken: &Known, belongs: &Known) -> bool {
    let (one, other) = (taken.value, belongs.value);
    one.kind == other.kind && one.si.to_bits() != other.si.to_bits()
}
