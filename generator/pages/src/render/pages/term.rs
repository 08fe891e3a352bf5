//! The sheet of a term.

use course::{Course, Term, addresses};

use crate::render::context::Page;
use crate::render::error::RenderError;
use crate::render::kind::{Entry, Navigation, Order, PageKind};
use crate::render::renderer::Renderer;

pub(super) const KIND: PageKind = PageKind {
    name: "terms",
    root: addresses::ROOT,
    order: Order::Within,
    navigation: Navigation::Left,
    entries: |course, _| entries(course),
    render: |renderer, page, place| renderer.term(page, place),
};

fn entries(course: &Course) -> Vec<Entry> {
    course.terms.iter().map(|term: &Term| Entry::new(&term.term, addresses::term(&term.id))).collect()
}

impl Renderer<'_> {
    fn term(&self, page: Page, place: usize) -> Result<String, RenderError> {
        let page = Page { training_figures: true, ..page };
        self.page("term.html", &page, |context| {
            context.insert("term", &self.term_entry(&self.course.terms[place]));
            context.insert("list", "index.html");
        })
    }
}
