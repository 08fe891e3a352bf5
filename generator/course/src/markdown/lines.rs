//! Lines of text that are not Markdown: titles, captions, alternative texts of pictures.

use std::ops::Range;

use super::braces::{self, Brace};
use super::computed::{mark_of, mark_of_given, number, shifted, unknown};
use super::page::Page;
use super::references::References;
use super::run::Run;
use super::sources::unsourced;
use super::text::Mode;
use crate::fault::{Fault, Place};
use crate::marks::OTHER;
use crate::scenario::Scenario;

/// What lines may use, and the page that they are a part of.
pub(crate) struct Lines<'l> {
    pub(crate) references: &'l References<'l>,
    pub(crate) scenario: &'l Scenario,
    pub(crate) page: &'l mut Page,
    pub(crate) faults: &'l mut Vec<Fault>,
}

impl Lines<'_> {
    /// A line with its worked numbers and values of the scenario put in. Other numbers with a unit are refused: a line can
    /// have no note. `place` gives the place of bytes of the line.
    pub(crate) fn line(&mut self, text: &str, place: impl Fn(Range<usize>) -> Place) -> String {
        let (mut out, mut read, mut from) = (String::with_capacity(text.len()), Run::default(), 0);
        while let Some(brace) = braces::next(text, from, Mode::Lesson, |_| false) {
            let whole = brace.whole();
            let before = from..whole.start;
            out.push_str(&text[before.clone()]);
            read.push(&text[before.clone()], &before);
            let mark = self.brace(text, &brace, &place, &mut out);
            read.push(mark.encode_utf8(&mut [0; 4]), &whole);
            from = whole.end;
        }
        out.push_str(&text[from..]);
        read.push(&text[from..], &(from..text.len()));
        self.faults.extend(unsourced(&self.references.finder, &read, place));
        out
    }

    /// Puts in what is written in braces; returns the mark for it in the line that is searched for numbers.
    fn brace(&mut self, text: &str, brace: &Brace, place: impl Fn(Range<usize>) -> Place, out: &mut String) -> char {
        match brace {
            Brace::Computed(inner) => {
                self.computed(&text[inner.clone()], |span| place(shifted(&span, inner.start)), out)
            }
            Brace::Name(inner) => self.given(&text[inner.clone()], place(brace.whole()), out),
            Brace::Unreadable(range, code) => {
                self.faults.push(Fault::at(*code, place(range.clone())));
                OTHER
            }
        }
    }

    fn computed(&mut self, formula: &str, place: impl Fn(Range<usize>) -> Place, out: &mut String) -> char {
        self.page.use_named(self.scenario, formula);
        match number(formula, self.scenario, self.references.mark()) {
            Ok(shown) => out.push_str(&shown),
            Err(found) => self.faults.extend(found.into_iter().map(|fault| fault.map(&place))),
        }
        mark_of(formula)
    }

    fn given(&mut self, name: &str, place: Place, out: &mut String) -> char {
        let Some(found) = self.scenario.find(name) else {
            self.faults.extend(unknown(self.scenario, name, place));
            return OTHER;
        };
        self.page.use_given(found);
        let given = self.scenario.given(found);
        out.push_str(&given.shown);
        mark_of_given(given)
    }
}
