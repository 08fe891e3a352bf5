//! What templates are given.

use course::Course;
use serde::Serialize;

/// The course, as every template sees it.
#[derive(Debug, Serialize)]
pub(super) struct CourseContext<'c> {
    title: &'c str,
    owner: &'c str,
    site: &'c str,
    safety: &'c str,
    units: &'static str,
    decimal_mark: String,
    revision: &'c str,
}

impl<'c> CourseContext<'c> {
    pub(super) fn new(course: &'c Course, revision: &'c str) -> Self {
        Self {
            title: &course.title,
            owner: &course.owner,
            site: &course.site,
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
    /// The way from the page to the top of the site: empty, or `../` as often as it takes.
    pub(super) root: &'static str,
    pub(super) scripts: Vec<String>,
    pub(super) sheet: Sheet,
    /// Whether the page has a calculation, a limit or an adjustment, and so says in its title block what its figures are for.
    pub(super) training_figures: bool,
}

/// The place of a page in the set.
#[derive(Debug, Serialize)]
pub(super) struct Sheet {
    /// A sheet within a sheet has the numbers of both: `5-2`.
    pub(super) number: String,
    pub(super) of: usize,
    pub(super) previous: Option<Link>,
    pub(super) next: Option<Link>,
}

/// A way to another sheet.
#[derive(Clone, Debug, Serialize)]
pub(super) struct Link {
    pub(super) title: String,
    pub(super) href: String,
    pub(super) number: String,
}

/// A sheet by its address from the top of the site.
#[derive(Debug)]
pub(super) struct SheetLink(pub(super) Link);

impl SheetLink {
    /// The same, with the address from a page at `root`.
    pub(super) fn seen_from(&self, root: &str) -> Link {
        Link { href: format!("{root}{}", self.0.href), ..self.0.clone() }
    }
}

/// One of the ways into the course.
#[derive(Debug, Serialize)]
pub(super) struct Nav {
    pub(super) title: String,
    pub(super) href: String,
    pub(super) current: bool,
    /// Whether it leads to where things are looked up.
    pub(super) reference: bool,
}
