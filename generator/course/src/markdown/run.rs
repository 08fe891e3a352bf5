//! Runs of text: pieces of one line of thought put together again, so that a term or a computed number may cross a line
//! end, and looked through once.

use std::ops::Range;

use faults::Code;

use super::braces::{self, Brace};
use super::writer::{Open, Writer};
use super::{MARKS, Mode};

/// Text that is gathered, and where it came from.
#[derive(Default)]
pub(crate) struct Run {
    pub(super) text: String,
    /// Where each piece starts in the run, and its bytes in the Markdown.
    pieces: Vec<(usize, Range<usize>)>,
}

impl Run {
    pub(super) fn push(&mut self, text: &str, range: &Range<usize>) {
        self.pieces.push((self.text.len(), range.clone()));
        self.text.push_str(text);
    }

    /// Adds a part of another run, with where each piece of it came from.
    pub(super) fn append(&mut self, other: &Self, range: &Range<usize>) {
        let first = other.pieces.partition_point(|(start, _)| *start <= range.start).saturating_sub(1);
        for (index, (start, source)) in other.pieces.iter().enumerate().skip(first) {
            let end = other.pieces.get(index + 1).map_or(other.text.len(), |(next, _)| *next);
            let part = (*start).max(range.start)..end.min(range.end);
            if !part.is_empty() {
                let from = (source.start + (part.start - start)).min(source.end);
                self.push(&other.text[part], &(from..source.end));
            }
            if end >= range.end {
                break;
            }
        }
    }

    /// Empties it; its room is used again.
    pub(super) fn clear(&mut self) {
        self.text.clear();
        self.pieces.clear();
    }

    /// Where a byte of the run stands in the Markdown.
    pub(super) fn source(&self, at: usize) -> usize {
        let piece = self.pieces.partition_point(|(start, _)| *start <= at).saturating_sub(1);
        self.pieces.get(piece).map_or(0, |(start, range)| (range.start + (at - start)).min(range.end))
    }

    /// Where bytes of the run stand in the Markdown.
    pub(super) fn range(&self, range: &Range<usize>) -> Range<usize> {
        let start = self.source(range.start);
        start..self.source(range.end).max(start)
    }
}

impl<'a> Writer<'_, 'a> {
    /// Writes the text gathered so far.
    pub(super) fn flush_run(&mut self) {
        if self.run.text.is_empty() {
            return;
        }
        let mut run = std::mem::take(&mut self.run);
        if !(self.paragraph_due && run.text.trim().is_empty()) {
            self.write_run(&run);
        }
        run.clear();
        self.run = run;
    }

    fn write_run(&mut self, run: &Run) {
        self.page.words += words(&run.text);
        self.explained_by(&run.text);
        // Most texts hold none of what is looked for from here on, and to see that takes one quick look.
        if run.text.bytes().fold(false, |found, byte| found | matches!(byte, b'[' | b']' | b'$')) {
            self.lost_links(run);
            self.open_formula(run);
        }
        let body = self.text.body().as_bytes();
        let escaped = |open: usize| run.source(open).checked_sub(1).is_some_and(|before| body[before] == b'\\');
        let mut from = 0;
        while let Some(brace) = braces::next(&run.text, from, self.text.mode, escaped) {
            let whole = brace.whole();
            self.plain(run, from..whole.start);
            match &brace {
                Brace::Computed(inner) => self.computed(run, inner),
                Brace::Name(inner) if self.text.mode == Mode::Lesson => self.given(run, inner),
                Brace::Name(inner) => self.hole(run, inner),
                Brace::Unreadable(range, code) => {
                    self.fault(*code, &run.range(range));
                }
            }
            from = whole.end;
        }
        self.plain(run, from..run.text.len());
    }

    fn hole(&mut self, run: &Run, inner: &Range<usize>) {
        let name = &run.text[inner.clone()];
        let place = self.text.place(&run.range(&(inner.start - 1..inner.end + 1)));
        self.holes.entry(name.to_owned()).or_insert(place);
        self.write_html(&format!("{}{name}{}", MARKS[0], MARKS[1]));
    }

    /// Writes text with nothing special in it but terms.
    fn plain(&mut self, run: &Run, range: Range<usize>) {
        let text = &run.text[range.clone()];
        if text.is_empty() {
            return;
        }
        self.read_along(run, &range);
        if self.text.mode == Mode::Recipe || !self.links_terms() {
            return self.write_text(text);
        }
        let shelf = self.shelf;
        let mut written = 0;
        for (term, range) in shelf.terms.mentions(text) {
            if self.linked[term] {
                continue;
            }
            self.mention(term);
            self.write_text(&text[written..range.start]);
            self.write_html(shelf.terms.link(term));
            self.write_text(&text[range.clone()]);
            self.out.push_str("</a>");
            written = range.end;
        }
        if written < text.len() {
            self.write_text(&text[written..]);
        }
    }

    /// Notes that a term is linked to.
    pub(super) fn mention(&mut self, term: usize) {
        if !std::mem::replace(&mut self.linked[term], true) {
            let id = self.shelf.terms.id(term);
            if !self.page.terms.iter().any(|known| known == id) {
                self.page.terms.push(id.to_owned());
            }
        }
    }

    /// Whether terms are linked where the walk stands: not in links and headings, and not once all are.
    fn links_terms(&self) -> bool {
        !self.open.iter().any(|open| matches!(open, Open::Link | Open::Heading))
            && self.linked.iter().any(|linked| !linked)
    }

    /// Links and notes that Markdown did not take for such, which stay in the text as brackets.
    fn lost_links(&mut self, run: &Run) {
        if let Some(at) = run.text.find("](") {
            let end = run.text[at..].find(')').map_or(run.text.len(), |length| at + length + 1);
            self.fault(Code::LinkBroken, &run.range(&(at..end)));
        }
        if let Some(at) = run.text.find("[[") {
            let end = run.text[at..].find("]]").map_or(run.text.len(), |length| at + length + 2);
            self.fault(Code::LinkBroken, &run.range(&(at..end)));
        }
        if let Some(at) = run.text.find("[^") {
            let end = run.text[at..].find(']').map_or(run.text.len(), |length| at + length + 1);
            let name = run.text[at + 2..end].trim_end_matches(']').to_owned();
            self.fault(Code::NoteUnknown, &run.range(&(at..end))).values.push(("name", name));
        }
    }
}

/// How many words a text has. To compare every two neighbours takes less than to go from word to word.
pub(super) fn words(text: &str) -> usize {
    let gap = |byte: u8| byte.is_ascii_whitespace();
    let bytes = text.as_bytes();
    let starts = bytes.windows(2).filter(|pair| gap(pair[0]) && !gap(pair[1])).count();
    starts + usize::from(bytes.first().is_some_and(|first| !gap(*first)))
}
