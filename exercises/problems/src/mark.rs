//! Marking: what was typed against what is right, with the reason where it is not.

use crate::draw::Problem;

pub use crate::verdict::{Marked, Typed, Verdict};

/// A marked question.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkedAll {
    /// The credit of the whole, in percent: the mean of the parts; nothing, where an answer on the unsafe side fails it.
    pub credit: u8,
    /// Whether an unsafe answer fails the whole.
    pub failed: bool,
    /// The parts, in the order of the recipe. One without an answer is blank.
    pub parts: Vec<(String, Marked)>,
}

/// Marks all parts of a question.
#[must_use]
pub fn mark_all(problem: &Problem, typed: &Typed) -> MarkedAll {
    let mut failed = false;
    let mut parts = Vec::with_capacity(problem.parts.len());
    for part in &problem.parts {
        let (marked, fails) = part.drawn.mark(part.of(&problem.facts), typed);
        failed |= fails;
        parts.push((part.ask.id.clone(), marked));
    }
    let sum: usize = parts.iter().map(|(_, marked)| usize::from(marked.credit)).sum();
    let mean = u8::try_from(sum / parts.len().max(1)).unwrap_or(0);
    MarkedAll { credit: if failed { 0 } else { mean }, failed, parts }
}

/// Marks what was typed for a part or a cell, as if nothing had been answered before; `None` where there is no such part.
#[must_use]
pub fn mark(problem: &Problem, part: &str, typed: &str) -> Option<Marked> {
    mark_part(problem, part, &[(part.to_owned(), typed.to_owned())])
}

/// Marks one part, or one cell of a part, of what was answered; `None` where there is no such thing.
#[must_use]
pub fn mark_part(problem: &Problem, id: &str, answers: &Typed) -> Option<Marked> {
    let part = problem.part(id)?;
    let mut marked = part.drawn.mark(part.of(&problem.facts), answers).0;
    match marked.cells.iter().position(|(cell, _)| cell == id) {
        Some(place) => Some(marked.cells.swap_remove(place).1),
        None => Some(marked),
    }
}
