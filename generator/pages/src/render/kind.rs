//! What a kind of page is: one page alone, or one for each lesson, recipe, term, family.

use course::Course;

use super::context::Page;
use super::error::RenderError;
use super::renderer::Renderer;
use crate::words::Words;

/// A kind of page. Each has a file of its own in `pages`.
pub(super) struct PageKind {
    /// What templates and style sheets call it.
    pub(super) name: &'static str,
    /// The path from its pages to the top of the site.
    pub(super) root: &'static str,
    /// Where its pages are in the set of sheets.
    pub(super) order: Order,
    pub(super) navigation: Navigation,
    /// Its pages in a course, in order.
    pub(super) entries: fn(&Course, &Words) -> Vec<Entry>,
    /// Renders the page at a place among them. The page that it is given is ready but for what only this kind has.
    pub(super) render: fn(&Renderer, Page, usize) -> Result<String, RenderError>,
}

/// Where pages are in the set of sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Order {
    /// Each is a sheet.
    Sheets,
    /// They are sheets within the last sheet before them, which lists them.
    Within,
}

/// Whether the navigation leads to the first page of a kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Navigation {
    /// It does not.
    Left,
    /// It does.
    Leads,
    /// It does, and the cover lists the page among those where things are looked up.
    Reference,
}

/// A page of a course.
pub(super) struct Entry {
    /// Its title in links and in the set of sheets.
    pub(super) title: String,
    /// Its address below the folder of the language; that of the cover is from the top of the site.
    pub(super) address: String,
}

impl Entry {
    pub(super) fn new(title: impl Into<String>, address: impl Into<String>) -> Self {
        Self { title: title.into(), address: address.into() }
    }
}
