//! The sheet of progress: how a learner has done, lesson by lesson.

use course::addresses;

use crate::render::context::Page;
use crate::render::error::RenderError;
use crate::render::kind::{Entry, Navigation, Order, PageKind};
use crate::render::renderer::Renderer;
use crate::theme;

/// Where the sheet is.
pub(super) const ADDRESS: &str = "practice/progress.html";

pub(super) const KIND: PageKind = PageKind {
    name: "practice",
    root: addresses::ROOT,
    order: Order::Sheets,
    navigation: Navigation::Left,
    entries: |_, words| vec![Entry::new(words.get("pages.progress.title"), ADDRESS)],
    render: |renderer, page, _| renderer.progress(page),
};

impl Renderer<'_> {
    fn progress(&self, mut page: Page) -> Result<String, RenderError> {
        page.load(theme::PROGRESS);
        self.page("progress.html", &page, |context| {
            context.insert("lessons", &self.practised_lessons());
            context.insert("levels", &self.levels());
        })
    }
}
