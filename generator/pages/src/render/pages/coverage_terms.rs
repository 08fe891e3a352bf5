//! Coverage of terms, for instructors: where each is used, and where it is first explained.

use course::{Coverage, Term, addresses};
use serde::Serialize;

use crate::render::context::Page;
use crate::render::coverage_cells::OnSheet;
use crate::render::error::RenderError;
use crate::render::kind::{Entry, Navigation, Order, PageKind};
use crate::render::renderer::Renderer;
use crate::render::sheets::lesson_number;
use crate::render::term_entry::TERMS_COVERAGE;

pub(super) const KIND: PageKind = PageKind {
    name: "coverage",
    root: addresses::ROOT,
    order: Order::Within,
    navigation: Navigation::Left,
    entries: |_, words| vec![Entry::new(words.get("pages.coverage.terms_title"), TERMS_COVERAGE)],
    render: |renderer, page, _| renderer.coverage_of_terms(&page),
};

/// The most lessons for which terms are shown in a grid with a column for each; with more they are shown in a list.
const WIDEST_GRID: usize = 24;

#[derive(Serialize)]
struct TermRow<'c> {
    id: &'c str,
    term: &'c str,
    first: Option<OnSheet<'c>>,
    /// The sheets that use it later.
    later: Vec<usize>,
    /// For each lesson in a grid: 2 where it is the first to use the term, 1 where it uses it, 0 where it does not.
    cells: Vec<u8>,
}

impl Renderer<'_> {
    fn coverage_of_terms(&self, page: &Page) -> Result<String, RenderError> {
        let coverage = Coverage::of(self.course);
        let lessons: Vec<_> = (0..self.course.lessons.len()).map(|place| self.on_sheet(place)).collect();
        let grid = lessons.len() <= WIDEST_GRID;
        let columns = if grid { lessons.len() } else { 0 };
        let row = |term| self.term_row(term, coverage.using(&term.id), columns);
        self.page("coverage-terms.html", page, |context| {
            context.insert("grid", &grid);
            context.insert("lessons", &lessons);
            context.insert("terms", &self.course.terms.iter().map(row).collect::<Vec<_>>());
        })
    }

    /// A term with the places of the lessons that use it, in a grid of so many columns.
    fn term_row<'r>(&'r self, term: &'r Term, used: &[usize], columns: usize) -> TermRow<'r> {
        let mut cells = vec![0; columns];
        for (nth, place) in used.iter().enumerate().filter(|(_, place)| **place < columns) {
            cells[*place] = if nth == 0 { 2 } else { 1 };
        }
        TermRow {
            id: &term.id,
            term: &term.term,
            first: used.first().map(|place| self.on_sheet(*place)),
            later: used.iter().skip(1).map(|place| lesson_number(*place)).collect(),
            cells,
        }
    }
}
