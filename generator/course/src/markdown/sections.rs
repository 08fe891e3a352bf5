//! The sections of a recipe's text, with their holes.

use std::collections::BTreeMap;
use std::mem::take;

use faults::Code;
use problems::template::{Piece, Template};

use super::checking::Checking;
use super::page::Section;
use crate::fault::Place;
use crate::marks;

/// The section that is being read.
#[derive(Default)]
pub(super) struct Sections {
    /// Its title, and the place of that; none before the first heading.
    open: Option<(String, Place)>,
    holes: BTreeMap<String, Place>,
}

impl Sections {
    /// Starts a section.
    pub(super) fn start(&mut self, title: String, place: Place) {
        self.open = Some((title, place));
    }

    /// Notes a hole; returns its mark for the HTML.
    pub(super) fn hole(&mut self, name: &str, place: impl FnOnce() -> Place) -> String {
        if !self.holes.contains_key(name) {
            self.holes.insert(name.to_owned(), place());
        }
        marks::hole(name)
    }

    /// Ends the section that is open. Text before the first one is a fault.
    pub(super) fn end(&mut self, html: &str, checking: &mut Checking) -> Option<Section> {
        let holes = take(&mut self.holes);
        if let Some((title, place)) = self.open.take() {
            return Some(Section { title, place, template: template(html), holes });
        }
        if !html.trim().is_empty() {
            let body = checking.text.body();
            let start = body.len() - body.trim_start().len();
            checking.refuse(Code::RecipeTextBeforeSection, &checking.text.first_line(&(start..body.len())));
        }
        None
    }
}

/// Cuts HTML at the marks of its holes.
fn template(html: &str) -> Template {
    let piece = |hole: &str| match hole.strip_prefix("steps:") {
        Some(part) => Some(Piece::Steps(part.to_owned())),
        None => Some(Piece::Hole(hole.to_owned())),
    };
    let mut template = marks::cut(html.trim_end(), piece);
    template.0.retain(|piece| !matches!(piece, Piece::Html(html) if html.is_empty()));
    template
}
