//! What every page is rendered with.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use course::{Course, Lesson, ThemeLexicon, addresses};
use problems::DecimalMark;
use problems::System;
use tera::{Context, Tera};

use super::context::{CourseContext, Nav, Page};
use super::error::RenderError;
use super::revision::revision;
use super::sheets::Sheets;
use crate::theme;
use crate::words::Words;

/// What rendering needs of a course beside the course itself, worked out once.
pub(super) struct Prepared {
    tera: Tera,
    pub(super) sheets: Sheets,
    navigation: Vec<Led>,
    /// The places of the lessons, by their ids.
    lessons: BTreeMap<String, usize>,
    /// The practice block of each recipe, which is the same in every lesson, once a page has needed it.
    pub(super) practice: BTreeMap<String, OnceLock<String>>,
}

/// A kind of page that the navigation leads to.
pub(super) struct Led {
    pub(super) kind: &'static str,
    /// The address of its first page.
    pub(super) address: String,
    /// Whether things are looked up there.
    pub(super) reference: bool,
}

impl Prepared {
    /// Prepares the templates for a course whose pages are these sheets.
    ///
    /// # Errors
    /// [`RenderError::Template`].
    pub(super) fn new(
        course: &Course,
        words: &Words,
        sheets: Sheets,
        navigation: Vec<Led>,
    ) -> Result<Self, RenderError> {
        let mut tera = theme::templates()?;
        let shared = tera.global_context();
        shared.insert("course", &CourseContext::new(course, words, &revision(course)));
        shared.insert("words", words.section("pages"));
        shared.insert("live", words.section("live"));
        theme::render_common(&mut tera)?;
        let places = course.lessons.iter().enumerate().map(|(place, lesson)| (lesson.id.clone(), place));
        let practice = course.recipes.iter().map(|file| (file.recipe.id.clone(), OnceLock::new()));
        Ok(Self { tera, sheets, navigation, lessons: places.collect(), practice: practice.collect() })
    }
}

/// Renders the pages of a course.
pub(super) struct Renderer<'c> {
    pub(super) course: &'c Course,
    pub(super) words: &'c Words,
    pub(super) lexicon: ThemeLexicon<'c>,
    pub(super) prepared: &'c Prepared,
}

impl<'c> Renderer<'c> {
    pub(super) fn new(course: &'c Course, words: &'c Words, prepared: &'c Prepared) -> Self {
        let lexicon = ThemeLexicon::new(words, DecimalMark::of(course.decimal_mark));
        let lexicon = lexicon.with(&course.own_relations(), &course.words);
        Self { course, words, lexicon, prepared }
    }

    /// The page at a place among all pages, without what only its kind has.
    pub(super) fn blank(&self, kind: &'static str, root: &'static str, place: usize) -> Page {
        let mut page = Page {
            lang: self.course.language.clone(),
            dir: "ltr",
            title: self.prepared.sheets.title(place).to_owned(),
            kind,
            root,
            scripts: Vec::new(),
            sheet: self.prepared.sheets.sheet(place, root),
            training_figures: false,
        };
        page.load(theme::EVERY_PAGE);
        page
    }

    /// Renders the template of a page with the page and whatever else it needs.
    pub(super) fn page(
        &self,
        template: &str,
        page: &Page,
        fill: impl FnOnce(&mut Context),
    ) -> Result<String, RenderError> {
        let mut context = Context::new();
        context.insert("nav", &self.nav(page));
        context.insert("page", page);
        fill(&mut context);
        self.template(template, &context)
    }

    /// Renders any template.
    pub(super) fn template(&self, name: &str, context: &Context) -> Result<String, RenderError> {
        Ok(self.prepared.tera.render(name, context)?)
    }

    fn nav(&self, page: &Page) -> Vec<Nav> {
        let item = |led: &Led| Nav {
            title: self.words.get(&format!("pages.nav.{}", led.kind)).to_owned(),
            href: format!("{}{}", page.root, led.address),
            current: page.kind == led.kind,
            reference: led.reference,
        };
        self.prepared.navigation.iter().map(item).collect()
    }

    /// The address of a page from the top of the site.
    pub(super) fn address(&self, page: &str) -> String {
        addresses::from_top(&self.course.language, page)
    }

    /// The link to a page from any page but the cover.
    pub(super) fn href(&self, page: &str) -> String {
        addresses::from_page(&self.course.language, page)
    }

    /// A lesson by its id.
    pub(super) fn find_lesson(&self, id: &str) -> Option<&'c Lesson> {
        self.course.lessons.get(*self.prepared.lessons.get(id)?)
    }

    pub(super) fn mark(&self) -> DecimalMark {
        DecimalMark::of(self.course.decimal_mark)
    }

    pub(super) fn system(&self) -> System {
        self.course.units
    }
}

/// The texts of what a lesson teaches.
pub(super) fn objectives(lesson: &Lesson) -> Vec<&str> {
    lesson.objectives.iter().map(|objective| objective.text.as_str()).collect()
}
