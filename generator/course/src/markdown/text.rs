//! A text, and what it may contain.

use std::ops::Range;

use faults::Code;

use crate::fault::{Fault, Place};
use crate::scenario::Scenario;

/// What a text may use, and what is checked in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Mode {
    /// A lesson: everything.
    Lesson,
    /// The text of a term: no headings, blocks or notes.
    Term,
    /// The text of a recipe: sections with holes.
    Recipe,
}

/// A text and its place in a file.
#[derive(Clone, Copy)]
pub(crate) struct Text<'a> {
    pub(crate) file: &'a str,
    /// The whole file.
    pub(crate) source: &'a str,
    /// Where the Markdown starts in it.
    pub(crate) base: usize,
    pub(crate) mode: Mode,
    /// The term whose text it is.
    pub(crate) own_term: Option<&'a str>,
    /// The made-up numbers that it may name.
    pub(crate) scenario: &'a Scenario,
}

impl<'a> Text<'a> {
    /// The Markdown.
    pub(crate) fn body(&self) -> &'a str {
        &self.source[self.base..]
    }

    /// Bytes of the Markdown as a place.
    pub(crate) fn place(&self, range: &Range<usize>) -> Place {
        Place::new(self.file, self.base + range.start..self.base + range.end)
    }

    /// A fault at bytes of the Markdown.
    pub(super) fn fault(&self, code: Code, range: &Range<usize>) -> Fault {
        Fault::at(code, self.place(range))
    }

    /// The first line of a part of the Markdown.
    pub(super) fn first_line(&self, range: &Range<usize>) -> Range<usize> {
        range.start..range.start + self.body()[range.clone()].lines().next().map_or(0, str::len)
    }
}
