//! The cover: what the course is for, and the list of its sheets.

use course::{Lesson, addresses};
use serde::Serialize;

use super::{coverage, practising, progress};
use crate::render::context::{Link, Page};
use crate::render::error::RenderError;
use crate::render::kind::{Entry, Navigation, Order, PageKind};
use crate::render::renderer::{Renderer, objectives};
use crate::render::sheets::lesson_number;

/// Where the cover is.
const ADDRESS: &str = "index.html";

pub(super) const KIND: PageKind = PageKind {
    name: "index",
    root: "",
    order: Order::Sheets,
    navigation: Navigation::Leads,
    entries: |_, words| vec![Entry::new(words.get("pages.nav.index"), ADDRESS)],
    render: |renderer, page, _| renderer.index(page),
};

#[derive(Serialize)]
struct LessonRow<'c> {
    number: usize,
    title: &'c str,
    summary: &'c str,
    href: String,
    objectives: Vec<&'c str>,
}

#[derive(Serialize)]
struct SheetRow<'w> {
    #[serde(flatten)]
    link: Link,
    summary: &'w str,
}

impl Renderer<'_> {
    fn index(&self, page: Page) -> Result<String, RenderError> {
        let page = Page { title: self.course.title.clone(), ..page };
        let lessons = self.course.lessons.iter().enumerate();
        let lessons: Vec<_> = lessons.map(|(place, lesson)| self.lesson_row(place, lesson)).collect();
        self.page("index.html", &page, |context| {
            context.insert("lessons", &lessons);
            context.insert("practice", &self.practice_rows());
            context.insert("coverage", &self.sheet_link(coverage::ADDRESS));
        })
    }

    fn lesson_row<'r>(&self, place: usize, lesson: &'r Lesson) -> LessonRow<'r> {
        LessonRow {
            number: lesson_number(place),
            title: &lesson.title,
            summary: &lesson.summary,
            href: self.address(&addresses::lesson(&lesson.id)),
            objectives: objectives(lesson),
        }
    }

    fn practice_rows(&self) -> Vec<SheetRow<'_>> {
        let sheets = [(practising::ADDRESS, "pages.practising.summary"), (progress::ADDRESS, "pages.progress.summary")];
        let row =
            |(address, summary)| Some(SheetRow { link: self.sheet_link(address)?, summary: self.words.get(summary) });
        sheets.into_iter().filter_map(row).collect()
    }

    /// The link to a sheet from the cover.
    fn sheet_link(&self, address: &str) -> Option<Link> {
        self.prepared.sheets.link_to(&self.address(address), "")
    }
}
