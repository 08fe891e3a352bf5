//! The sheet of practice: what to choose from, and the list of all recipes.

use course::addresses;

use crate::render::context::Page;
use crate::render::error::RenderError;
use crate::render::kind::{Entry, Navigation, Order, PageKind};
use crate::render::renderer::Renderer;
use crate::theme;

/// Where the sheet is.
pub(super) const ADDRESS: &str = "practice/index.html";

pub(super) const KIND: PageKind = PageKind {
    name: "practice",
    root: addresses::ROOT,
    order: Order::Sheets,
    navigation: Navigation::Leads,
    entries: |_, words| vec![Entry::new(words.get("pages.nav.practice"), ADDRESS)],
    render: |renderer, page, _| renderer.practising(page),
};

impl Renderer<'_> {
    fn practising(&self, mut page: Page) -> Result<String, RenderError> {
        page.training_figures = true;
        for scripts in [theme::ENGINE, theme::PROBLEM, theme::SESSION] {
            page.load(scripts);
        }
        self.page("practising.html", &page, |context| {
            context.insert("lessons", &self.practised_lessons());
            context.insert("levels", &self.levels());
        })
    }
}
