//! A term as pages show it: in the list of terms, on its own sheet, and in a lesson.

use course::{Term, addresses};
use serde::Serialize;

use super::renderer::Renderer;

/// The sheet with every lesson that uses each term.
pub(super) const TERMS_COVERAGE: &str = "coverage/terms.html";

/// The most lessons that a term lists; where more use it, the sheet of coverage has them all.
const MOST_LESSONS: usize = 24;

/// A term.
#[derive(Serialize)]
pub(super) struct TermEntry<'t> {
    id: &'t str,
    term: &'t str,
    /// Where a letter begins, that letter.
    letter: Option<String>,
    also: &'t [String],
    definition: &'t str,
    confused_with: Vec<Other<'t>>,
    definition_html: &'t str,
    body_html: &'t str,
    source: &'t str,
    lessons: Vec<UsedIn<'t>>,
    /// The link to the rest of them.
    more: Option<UsedInMore>,
}

#[derive(Serialize)]
struct Other<'t> {
    id: &'t str,
    term: &'t str,
}

#[derive(Serialize)]
struct UsedIn<'t> {
    title: &'t str,
    href: String,
}

#[derive(Serialize)]
struct UsedInMore {
    text: String,
    href: String,
}

impl Renderer<'_> {
    /// A term with the lessons that use it.
    pub(super) fn term_entry<'t>(&'t self, term: &'t Term) -> TermEntry<'t> {
        let lesson = |id: &String| self.used_in(id);
        let lessons = term.lessons.iter().take(MOST_LESSONS).filter_map(lesson).collect();
        TermEntry { lessons, ..self.listed_term(term, None) }
    }

    /// A term in the list of terms, which names no lessons but leads to them where they are many; with the letter that
    /// begins with it.
    pub(super) fn listed_term<'t>(&'t self, term: &'t Term, letter: Option<String>) -> TermEntry<'t> {
        TermEntry {
            id: &term.id,
            term: &term.term,
            letter,
            also: &term.also,
            definition: &term.definition,
            confused_with: term.confused_with.iter().filter_map(|id| self.other_term(id)).collect(),
            definition_html: &term.definition_html,
            body_html: &term.body_html,
            source: &term.source,
            lessons: Vec::new(),
            more: self.used_in_more(term),
        }
    }

    fn other_term(&self, id: &str) -> Option<Other<'_>> {
        let found = self.course.terms.iter().find(|term| term.id == id)?;
        Some(Other { id: &found.id, term: &found.term })
    }

    fn used_in(&self, id: &str) -> Option<UsedIn<'_>> {
        let title = &self.find_lesson(id)?.title;
        Some(UsedIn { title, href: format!("../{}", addresses::lesson(id)) })
    }

    /// The link to the lessons that use a term and are not listed with it.
    fn used_in_more(&self, term: &Term) -> Option<UsedInMore> {
        let more = term.lessons.len().checked_sub(MOST_LESSONS).filter(|more| *more > 0)?;
        let text = self.words.fill("pages.terms.more", &[("count", &more.to_string())]);
        Some(UsedInMore { text, href: format!("{}#{}", self.href(TERMS_COVERAGE), term.id) })
    }
}
