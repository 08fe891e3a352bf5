//! What proof asks of options: a learner can tell them apart.

use std::collections::BTreeMap;

use super::fault::{Found, found};
use crate::draw::Problem;
use crate::recipe::OneOfAsk;

/// Whether no two options of a draw read the same.
pub(super) fn check(problem: &Problem, part: &str, one_of: &OneOfAsk) -> Result<(), Found> {
    alike(part, one_of.options.iter().map(|option| problem.fill(&option.say)))
}

/// Refuses two texts that read the same.
pub(super) fn alike(part: &str, texts: impl Iterator<Item = String>) -> Result<(), Found> {
    let mut seen = BTreeMap::new();
    for (index, text) in texts.enumerate() {
        if let Some(first) = seen.insert(text, index) {
            let [one, other] = [first, index].map(|index| (index + 1).to_string());
            return Err(found("proof-options-alike", [("part", part.to_owned()), ("one", one), ("other", other)]));
        }
    }
    Ok(())
}
