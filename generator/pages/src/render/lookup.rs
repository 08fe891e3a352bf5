//! The list of terms.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::context::Page;
use super::lessons::ROOT;
use super::{RenderError, Renderer};

#[derive(Serialize)]
struct TermContext<'t> {
    id: &'t str,
    term: &'t str,
    /// Where a letter begins, that letter.
    letter: Option<String>,
    also: &'t [String],
    not: Vec<Other<'t>>,
    definition_html: &'t str,
    body_html: &'t str,
    source: &'t str,
    lessons: Vec<UsedIn<'t>>,
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

/// The lessons of a course by their ids, with their titles.
type Titles<'t> = BTreeMap<&'t str, &'t str>;

impl Renderer<'_> {
    pub(super) fn terms(&self) -> Result<String, RenderError> {
        let lessons = self.course.lessons.iter();
        let titles: Titles = lessons.map(|lesson| (lesson.id.as_str(), lesson.title.as_str())).collect();
        let mut letters = BTreeSet::new();
        let mut begun = |term: &course::Term| Some(letter(&term.term)).filter(|letter| letters.insert(letter.clone()));
        let terms: Vec<_> = self.course.terms.iter().map(|term| self.term(term, begun(term), &titles)).collect();
        let title = self.words.get("pages.nav.terms").to_owned();
        let sheet = self.after_practice();
        let page = Page { caution: true, ..self.blank_page(title, "terms", ROOT, sheet) };
        self.page("terms.html", &page, |context| context.insert("terms", &terms))
    }

    fn term<'t>(&'t self, term: &'t course::Term, letter: Option<String>, titles: &Titles<'t>) -> TermContext<'t> {
        let other = |id: &String| {
            let found = self.course.terms.iter().find(|term| term.id == *id)?;
            Some(Other { id: &found.id, term: &found.term })
        };
        let lesson = |id: &String| {
            let title = titles.get(id.as_str())?;
            Some(UsedIn { title, href: format!("../lessons/{id}.html") })
        };
        TermContext {
            id: &term.id,
            term: &term.term,
            letter,
            also: &term.also,
            not: term.not.iter().filter_map(other).collect(),
            definition_html: &term.definition_html,
            body_html: &term.body_html,
            source: &term.source,
            lessons: term.lessons.iter().filter_map(lesson).collect(),
        }
    }
}

/// The letter under which a term stands: capitals, for what begins with one mark or another.
fn letter(term: &str) -> String {
    term.trim().chars().next().map_or_else(String::new, |first| first.to_uppercase().collect())
}
