//! The slips one after the other, the likelier ones first.

use super::finding::Finding;
use super::values::known;
use super::work::Work;

/// Tries all slips in the order of [`super::Slip::ALL`].
pub(super) fn all(finding: &mut Finding, work: &Work) {
    let known = known(work.facts, work.at.id);
    let steps = work.places().steps();
    work.zeros(finding);
    work.at_the_end(finding);
    work.misread(finding);
    work.before_the_end(finding, &steps, &known);
    work.other_values(finding, &known);
    work.exchanged(finding, &known);
    work.numbers(finding, &steps);
    work.sign(finding, &steps);
}
