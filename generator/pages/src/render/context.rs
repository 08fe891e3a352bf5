//! What every template is given.

use course::Course;
use serde::Serialize;

/// The course, as every template sees it.
#[derive(Debug, Serialize)]
pub(crate) struct CourseContext<'c> {
    title: &'c str,
    owner: &'c str,
    id: &'c str,
    safety: &'c str,
    units: &'static str,
    decimal_mark: String,
    revision: &'c str,
}

impl<'c> CourseContext<'c> {
    pub(crate) fn new(course: &'c Course, revision: &'c str) -> Self {
        Self {
            title: &course.title,
            owner: &course.owner,
            id: &course.id,
            safety: &course.safety,
            units: course.units.id(),
            decimal_mark: course.decimal_mark.to_string(),
            revision,
        }
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
