//! What every template is given.

use course::{Course, Imprint, Logo};
use serde::Serialize;

use crate::words::Words;

/// The course, as every template sees it.
#[derive(Debug, Serialize)]
pub(crate) struct CourseContext<'c> {
    title: &'c str,
    owner: &'c str,
    id: &'c str,
    safety: &'c str,
    units: &'static str,
    decimal_mark: String,
    revision: String,
    imprint: Vec<Said<'c>>,
    logo: Option<LogoContext<'c>>,
    /// Whether it has colours of its own.
    coloured: bool,
}

/// A cell of the title block.
#[derive(Debug, Serialize)]
struct Said<'c> {
    name: String,
    text: &'c str,
}

/// The owner's logo.
#[derive(Debug, Serialize)]
struct LogoContext<'c> {
    file: &'c str,
    width: usize,
    height: usize,
}

impl<'c> CourseContext<'c> {
    /// `revision` changes with anything in the course; beside it stands that of the owner.
    pub(crate) fn new(course: &'c Course, words: &Words, revision: &str) -> Self {
        let own = course.revision.as_ref().map(|own| format!("{own} ({revision})"));
        let said = |said: &'c Imprint| Said { name: name(words, said.name).to_owned(), text: &said.text };
        let logo = |logo: &'c Logo| LogoContext { file: &logo.file, width: logo.size.0, height: logo.size.1 };
        Self {
            revision: own.unwrap_or_else(|| revision.to_owned()),
            imprint: course.imprint.iter().map(said).collect(),
            logo: course.logo.as_ref().map(logo),
            coloured: course.colours.is_some(),
            title: &course.title,
            owner: &course.owner,
            id: &course.id,
            safety: &course.safety,
            units: course.units.id(),
            decimal_mark: course.decimal_mark.to_string(),
        }
    }
}

/// What a cell of the title block is called.
fn name<'w>(words: &'w Words, key: &str) -> &'w str {
    match key {
        "revision_date" => words.get("pages.title_block.revision_date"),
        "prepared_by" => words.get("pages.title_block.prepared_by"),
        "checked_by" => words.get("pages.title_block.checked_by"),
        "approved_by" => words.get("pages.title_block.approved_by"),
        "review_due" => words.get("pages.title_block.review_due"),
        _ => words.get("pages.title_block.contact"),
    }
}

/// One page.
#[derive(Debug, Serialize)]
pub(super) struct Page {
    pub(super) lang: String,
    pub(super) dir: &'static str,
    pub(super) title: String,
    pub(super) kind: &'static str,
    /// The path from the page to the top of the site: empty, or `../` as often as it takes.
    pub(super) root: &'static str,
    /// The scripts that it loads, in order.
    pub(super) scripts: Vec<String>,
    pub(super) sheet: Sheet,
    /// Whether the page has a calculation, a limit or an adjustment, so that its title block says what its figures are for.
    pub(super) training_figures: bool,
}

impl Page {
    /// Loads more scripts, by their names.
    pub(super) fn load(&mut self, names: &[&str]) {
        let root = self.root;
        self.scripts.extend(names.iter().map(|name| format!("{root}scripts/{name}")));
    }

    /// Loads the script that holds a recipe.
    pub(super) fn load_recipe(&mut self, id: &str) {
        self.scripts.push(format!("{}recipes/{id}.js", self.root));
    }
}

/// The place of a page in the set of sheets.
#[derive(Debug, Serialize)]
pub(super) struct Sheet {
    /// A sheet within a sheet has the numbers of both: `5-2`.
    pub(super) number: String,
    /// How many sheets there are; nothing on a sheet within one.
    pub(super) of: Option<usize>,
    pub(super) previous: Option<Link>,
    pub(super) next: Option<Link>,
}

/// A link to another sheet.
#[derive(Clone, Debug, Serialize)]
pub(super) struct Link {
    pub(super) title: String,
    pub(super) href: String,
    pub(super) number: String,
}

/// An entry of the navigation.
#[derive(Debug, Serialize)]
pub(super) struct Nav {
    pub(super) title: String,
    pub(super) href: String,
    pub(super) current: bool,
    /// Whether it leads to where things are looked up.
    pub(super) reference: bool,
}
