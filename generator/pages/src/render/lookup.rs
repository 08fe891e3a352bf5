//! The list of terms, and a sheet for each.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;
use tera::Context;

use super::context::Page;
use super::coverage::TERMS_COVERAGE;
use super::lessons::ROOT;
use super::{REFERENCE, RenderError, Renderer, Sheet};

#[derive(Serialize)]
struct TermContext<'t> {
    id: &'t str,
    term: &'t str,
    /// Where a letter begins, that letter.
    letter: Option<String>,
    also: &'t [String],
    definition: &'t str,
    not: Vec<Other<'t>>,
    definition_html: &'t str,
    body_html: &'t str,
    source: &'t str,
    lessons: Vec<UsedIn<'t>>,
    /// The way to the rest of them.
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

/// The most lessons that the sheet of a term lists; where more use it, the sheet of coverage has them all.
const MOST_LESSONS: usize = 24;

/// The lessons of a course by their ids, with their titles.
pub(super) type Titles<'t> = BTreeMap<&'t str, &'t str>;

impl Renderer<'_> {
    /// The sheet with all terms.
    pub(super) fn terms(&self) -> Result<String, RenderError> {
        let mut letters = BTreeSet::new();
        let mut begun = |term: &course::Term| Some(letter(&term.term)).filter(|letter| letters.insert(letter.clone()));
        let none = Titles::new();
        let entry = |term| TermContext { letter: begun(term), ..self.term(term, &none) };
        let terms: Vec<_> = self.course.terms.iter().map(entry).collect();
        let title = self.words.get("pages.nav.terms").to_owned();
        let sheet = self.after_practice();
        let page = Page { training_figures: true, ..self.blank_page(title, "terms", ROOT, sheet) };
        self.page("terms.html", &page, |context| context.insert("terms", &terms))
    }

    /// A term as a lesson shows it.
    pub(super) fn term_alone(&self, id: &str) -> Result<String, RenderError> {
        let Some(term) = self.course.terms.iter().find(|term| term.id == id) else { return Ok(String::new()) };
        let mut context = Context::new();
        context.insert("term", &self.term(term, &self.titles()));
        context.insert("list", &format!("{ROOT}{}", self.address(REFERENCE)));
        Ok(self.tera.render("term-alone.html", &context)?)
    }

    /// The titles of the lessons, for the sheets of terms.
    pub(super) fn titles(&self) -> Titles<'_> {
        self.course.lessons.iter().map(|lesson| (lesson.id.as_str(), lesson.title.as_str())).collect()
    }

    /// The sheet of the term at a place in the course.
    pub(super) fn term_page(&self, place: usize, titles: &Titles) -> Result<(String, String), RenderError> {
        let term = &self.course.terms[place];
        let blank = self.blank_page(term.term.clone(), "terms", ROOT, self.after_practice());
        let page = Page { training_figures: true, sheet: self.term_sheet(place), ..blank };
        let html = self.page("term.html", &page, |context| {
            context.insert("term", &self.term(term, titles));
            context.insert("list", "index.html");
        })?;
        Ok((self.address(&format!("terms/{}.html", term.id)), html))
    }

    /// The sheets of terms are within the sheet of all terms: 5-1, 5-2 and so on.
    fn term_sheet(&self, place: usize) -> Sheet {
        let terms = &self.course.terms;
        let one = |place: usize| terms.get(place).map(|term| (term.term.as_str(), term.id.as_str()));
        self.sheet_within(self.after_practice(), "pages.nav.terms", place, one)
    }

    fn term<'t>(&'t self, term: &'t course::Term, titles: &Titles<'t>) -> TermContext<'t> {
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
            letter: None,
            also: &term.also,
            definition: &term.definition,
            not: term.not.iter().filter_map(other).collect(),
            definition_html: &term.definition_html,
            body_html: &term.body_html,
            source: &term.source,
            lessons: term.lessons.iter().take(MOST_LESSONS).filter_map(lesson).collect(),
            more: self.used_in_more(term),
        }
    }
}

impl Renderer<'_> {
    /// The way to the lessons that use a term and are not listed on its sheet.
    fn used_in_more(&self, term: &course::Term) -> Option<UsedInMore> {
        let more = term.lessons.len().checked_sub(MOST_LESSONS).filter(|more| *more > 0)?;
        let text = self.words.fill("pages.terms.more", &[("count", &more.to_string())]);
        Some(UsedInMore { text, href: format!("{ROOT}{}#{}", self.address(TERMS_COVERAGE), term.id) })
    }
}

/// The letter under which a term stands: capitals, for what begins with one mark or another.
fn letter(term: &str) -> String {
    term.trim().chars().next().map_or_else(String::new, |first| first.to_uppercase().collect())
}
