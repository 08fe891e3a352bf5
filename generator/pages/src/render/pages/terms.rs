//! The list of all terms.

use std::collections::BTreeSet;

use course::{Term, addresses};

use crate::render::context::Page;
use crate::render::error::RenderError;
use crate::render::kind::{Entry, Navigation, Order, PageKind};
use crate::render::renderer::Renderer;

pub(super) const KIND: PageKind = PageKind {
    name: "terms",
    root: addresses::ROOT,
    order: Order::Sheets,
    navigation: Navigation::Reference,
    entries: |_, words| vec![Entry::new(words.get("pages.nav.terms"), addresses::TERMS)],
    render: |renderer, page, _| renderer.terms(page),
};

impl Renderer<'_> {
    fn terms(&self, page: Page) -> Result<String, RenderError> {
        let mut letters = BTreeSet::new();
        let mut begun = |term: &Term| Some(letter(&term.term)).filter(|letter| letters.insert(letter.clone()));
        let entry = |term| self.listed_term(term, begun(term));
        let terms: Vec<_> = self.course.terms.iter().map(entry).collect();
        let page = Page { training_figures: true, ..page };
        self.page("terms.html", &page, |context| context.insert("terms", &terms))
    }
}

/// The letter under which a term is listed: capitals, for what begins with one mark or another.
fn letter(term: &str) -> String {
    term.trim().chars().next().map_or_else(String::new, |first| first.to_uppercase().collect())
}
