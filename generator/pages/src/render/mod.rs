//! A checked course as the files of a site.

mod context;
mod coverage;
mod lessons;
mod live;
mod lookup;
mod pages;
mod practice;
mod relations;
mod tables;

use course::{Course, FEWEST_FILES, Lesson, ThemeLexicon, on_threads};
pub(crate) use live::in_mark;
use problems::System;
use problems::display::Mark;
use problems::draw::DrawError;
use sha2::{Digest, Sha256};
use tera::{Context, Tera};

use crate::words::Words;
use crate::{engine, theme};
use context::{CourseContext, Link, Nav, Page, Sheet, SheetLink};

/// Why a page could not be rendered. A checked and proven course gives none of these.
#[derive(Debug, thiserror::Error)]
pub enum RenderError {
    /// A template is at fault.
    #[error("template: {0}")]
    Template(#[from] tera::Error),
    /// A recipe could not be drawn.
    #[error("recipe {recipe}: the sample problem cannot be drawn ({})", error.id())]
    Draw {
        /// The recipe.
        recipe: String,
        /// Why not.
        error: Box<DrawError>,
    },
    /// A relation could not be worked.
    #[error("relation {relation}: {code}")]
    Work {
        /// The relation.
        relation: &'static str,
        /// Why not.
        code: &'static str,
    },
    /// A figure could not be drawn.
    #[error("figure {0}: {1}")]
    Figure(String, String),
}

/// Where rendered files go, from any thread: place in the site, and bytes.
pub type Sink<'a, E> = dyn Fn(&str, &[u8]) -> Result<(), E> + Sync + 'a;

/// What rendering needs of a course, worked out once.
pub(crate) struct Renderer<'c> {
    course: &'c Course,
    words: &'c Words,
    lexicon: ThemeLexicon<'c>,
    tera: Tera,
    sheets: Vec<SheetLink>,
}

/// The pages that come after the lessons, by their address without the language and the key of their title.
const REFERENCE: &str = "terms/index.html";

impl<'c> Renderer<'c> {
    /// Prepares the templates for a course.
    ///
    /// # Errors
    /// [`RenderError::Template`].
    pub(crate) fn new(course: &'c Course, words: &'c Words) -> Result<Self, RenderError> {
        let mut tera = theme::templates()?;
        let shared = tera.global_context();
        shared.insert("course", &CourseContext::new(course, &revision(course)));
        shared.insert("words", words.section("pages"));
        shared.insert("live", words.section("live"));
        theme::render_common(&mut tera)?;
        let sheets = sheets(course, words);
        let lexicon = ThemeLexicon::new(words, Mark::of(course.decimal_mark));
        Ok(Self { course, words, lexicon, tera, sheets })
    }

    /// Renders every file of the site, the pages on several threads; of several errors, that of the first page is told.
    ///
    /// # Errors
    /// [`RenderError`], or what the sink refuses.
    pub(crate) fn render<E: From<RenderError> + Send>(&self, sink: &Sink<E>) -> Result<(), E> {
        self.assets(sink)?;
        for (address, table) in tables::files() {
            sink(&self.address(&address), self.table_file(table).as_bytes())?;
        }
        let common = self.common()?;
        let written = on_threads(&self.site_pages(), FEWEST_FILES, |page| {
            let (address, html) = self.site_page(*page, &common)?;
            sink(&address, html.as_bytes())
        });
        written.into_iter().collect()
    }

    /// How many files [`Renderer::render`] gives.
    pub(crate) fn files(&self) -> usize {
        // The scripts of words and of units are made.
        let assets = theme::STYLES.len() + theme::SCRIPTS.len() + engine::FILES.len() + 2 + self.course.images.len();
        // A recipe has its page and its script.
        let inner = coverage::INNER.len() + self.course.terms.len() + 2 * self.course.recipes.len();
        assets + self.sheets.len() + inner + tables::files().count()
    }

    fn assets<E: From<RenderError>>(&self, sink: &Sink<E>) -> Result<(), E> {
        for (name, text) in theme::STYLES {
            sink(&format!("styles/{name}"), text.as_bytes())?;
        }
        for (name, text) in theme::SCRIPTS {
            sink(&format!("scripts/{name}"), text.as_bytes())?;
        }
        for (name, text) in engine::FILES {
            sink(name, text.as_bytes())?;
        }
        let mut live = self.words.section("live").clone();
        live["choices"] = self.words.section("choices").clone();
        let words = format!("window.SEATWORK_WORDS = {};\n", script_text(&live.to_string()));
        sink("scripts/words.js", words.as_bytes())?;
        let menus = format!("window.SEATWORK_UNITS = {};\n", script_text(&live::menus().to_string()));
        sink("scripts/units.js", menus.as_bytes())?;
        for recipe in &self.course.recipes {
            let id = script_text(&serde_json::Value::from(recipe.recipe.id.as_str()).to_string());
            let json = script_text(&serde_json::Value::from(recipe.recipe.write()).to_string());
            let text = format!(
                "window.SEATWORK_RECIPES = window.SEATWORK_RECIPES || {{}};\nwindow.SEATWORK_RECIPES[{id}] = {json};\n"
            );
            sink(&format!("recipes/{}.js", recipe.recipe.id), text.as_bytes())?;
        }
        for image in &self.course.images {
            sink(&image.file, &image.bytes)?;
        }
        Ok(())
    }

    fn address(&self, rest: &str) -> String {
        format!("{}/{rest}", self.course.language)
    }

    /// Renders a template with the page and whatever else it needs.
    fn page(&self, template: &str, page: &Page, fill: impl FnOnce(&mut Context)) -> Result<String, RenderError> {
        let mut context = Context::new();
        context.insert("nav", &self.nav(page));
        context.insert("page", page);
        fill(&mut context);
        Ok(self.tera.render(template, &context)?)
    }

    /// The sheet with its place in the set and its neighbours, seen from a page at `root`.
    fn sheet(&self, index: usize, root: &str) -> Sheet {
        let link = |index: usize| self.sheets.get(index).map(|sheet| sheet.seen_from(root));
        Sheet {
            number: (index + 1).to_string(),
            of: self.sheets.len(),
            previous: index.checked_sub(1).and_then(link),
            next: link(index + 1),
        }
    }

    fn nav(&self, page: &Page) -> Vec<Nav> {
        let item = |kind: &str, address: &str| Nav {
            title: self.words.get(&format!("pages.nav.{kind}")).to_owned(),
            href: format!("{}{address}", page.root),
            current: page.kind == kind,
            reference: ["terms", "relations", "tables"].contains(&kind),
        };
        let family = relief::FAMILIES.first().map_or("", |family| family.id);
        let tables = relief::TABLES.first().map_or("", |family| family.id);
        vec![
            item("index", "index.html"),
            item("practice", &self.address(practice::PRACTICE)),
            item("terms", &self.address(REFERENCE)),
            item("relations", &self.address(&family_address(family))),
            item("tables", &self.address(&tables_address(tables))),
        ]
    }

    /// The place of the first sheet after those of practice.
    fn after_practice(&self) -> usize {
        1 + self.course.lessons.len() + practice::SHEETS.len()
    }

    fn mark(&self) -> Mark {
        Mark::of(self.course.decimal_mark)
    }

    fn system(&self) -> System {
        self.course.units
    }
}

fn family_address(id: &str) -> String {
    format!("relations/{id}.html")
}

fn tables_address(id: &str) -> String {
    format!("tables/{id}.html")
}

/// All sheets: the cover, the lessons, those of practice, the terms, the relations, the tables, coverage.
fn sheets(course: &Course, words: &Words) -> Vec<SheetLink> {
    let sheet = |title: &str, address: String, number: usize| {
        SheetLink(Link { title: title.to_owned(), href: address, number: number.to_string() })
    };
    let at = |rest: String| format!("{}/{rest}", course.language);
    let mut all = vec![sheet(words.get("pages.nav.index"), "index.html".to_owned(), 1)];
    for lesson in &course.lessons {
        all.push(sheet(&lesson.title, at(format!("lessons/{}.html", lesson.id)), all.len() + 1));
    }
    for (title, address) in practice::SHEETS {
        all.push(sheet(words.get(title), at(address.to_owned()), all.len() + 1));
    }
    all.push(sheet(words.get("pages.nav.terms"), at(REFERENCE.to_owned()), all.len() + 1));
    for family in relief::FAMILIES {
        let title = words.fill("pages.relations.title", &[("family", words.get(&format!("families.{}", family.id)))]);
        all.push(sheet(&title, at(family_address(family.id)), all.len() + 1));
    }
    for family in relief::TABLES {
        let title = tables::tables_title(words, family);
        all.push(sheet(&title, at(tables_address(family.id)), all.len() + 1));
    }
    // Last, where it is in nobody's way: it is for instructors.
    all.push(sheet(words.get(coverage::TITLE), at(coverage::COVERAGE.to_owned()), all.len() + 1));
    all
}

/// Text that may stand in a script file: JSON is not quite a part of JavaScript, and a file may be shown as HTML.
fn script_text(json: &str) -> String {
    json.replace('\u{2028}', "\\u2028").replace('\u{2029}', "\\u2029").replace('<', "\\u003c")
}

/// Four letters and digits that change with anything in the course: the revision in the title block.
fn revision(course: &Course) -> String {
    let mut hash = Sha256::new();
    for text in [&course.title, &course.owner, &course.site, &course.safety] {
        add(&mut hash, text);
    }
    on_threads(&course.lessons, FEWEST_FILES, digest).iter().for_each(|digest| hash.update(digest));
    for text in course.terms.iter().flat_map(|term| [&term.term, &term.definition, &term.body_html]) {
        add(&mut hash, text);
    }
    for recipe in &course.recipes {
        add(&mut hash, &recipe.recipe.write());
    }
    hash.finalize().iter().take(2).map(|byte| format!("{byte:02x}")).collect()
}

/// The digest of a lesson.
fn digest(lesson: &Lesson) -> [u8; 32] {
    let mut hash = Sha256::new();
    add(&mut hash, &lesson.title);
    add(&mut hash, &lesson.summary);
    lessons::each_text(lesson, &mut |text| add(&mut hash, text));
    hash.finalize().into()
}

fn add(hash: &mut Sha256, text: &str) {
    hash.update(text.len().to_le_bytes());
    hash.update(text);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_in_a_script_ends_it() {
        assert_eq!(script_text("\"</script>\u{2028}\""), "\"\\u003c/script>\\u2028\"");
    }
}
