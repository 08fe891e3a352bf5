//! Links from words of a text to the terms that they are.

use std::mem::replace;

use super::terms::Terms;

/// Which terms a text links to: each where it is first mentioned.
pub(super) struct Mentions<'a> {
    pub(super) terms: &'a Terms,
    /// Which are linked by now.
    linked: Vec<bool>,
    /// How many are not.
    left: usize,
    /// The ids of the terms in the order of their first mention.
    ids: Vec<String>,
}

impl<'a> Mentions<'a> {
    /// None so far. A text about a term does not link to it.
    pub(super) fn new(terms: &'a Terms, own: Option<&str>) -> Self {
        let mut mentions = Self { terms, linked: vec![false; terms.count()], left: terms.count(), ids: Vec::new() };
        if let Some(own) = own.and_then(|id| terms.find(id)) {
            mentions.link(own);
        }
        mentions
    }

    /// Whether there are terms that could still be linked to.
    pub(super) fn are_left(&self) -> bool {
        self.left > 0
    }

    /// Notes that a term is mentioned; says whether for the first time.
    pub(super) fn note(&mut self, term: usize) -> bool {
        let first = self.link(term);
        let id = self.terms.id(term);
        if first && !self.ids.iter().any(|known| known == id) {
            self.ids.push(id.to_owned());
        }
        first
    }

    fn link(&mut self, term: usize) -> bool {
        let first = !replace(&mut self.linked[term], true);
        self.left -= usize::from(first);
        first
    }

    /// Links all terms again, as at the start of a text; gives what [`Self::go_on`] goes on from.
    pub(super) fn start_anew(&mut self) -> (Vec<bool>, usize) {
        let count = self.terms.count();
        (replace(&mut self.linked, vec![false; count]), replace(&mut self.left, count))
    }

    /// Goes on from what was linked before.
    pub(super) fn go_on(&mut self, (linked, left): (Vec<bool>, usize)) {
        (self.linked, self.left) = (linked, left);
    }

    /// The ids of the terms, in the order of their first mention.
    pub(super) fn into_ids(self) -> Vec<String> {
        self.ids
    }
}
