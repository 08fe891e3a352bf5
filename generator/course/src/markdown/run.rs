//! Runs of text: pieces of one line of thought put together again, so that a term or a computed number may cross a line
//! end, and looked through once.

use std::ops::Range;

use super::writer::{Open, Writer};
use super::{MARKS, Mode};
use problems::template::is_name;

/// Text that is gathered, and where it came from.
#[derive(Default)]
pub(super) struct Run {
    pub(super) text: String,
    /// Where each piece starts in the run, and its bytes in the Markdown.
    pieces: Vec<(usize, Range<usize>)>,
}

impl Run {
    pub(super) fn push(&mut self, text: &str, range: &Range<usize>) {
        self.pieces.push((self.text.len(), range.clone()));
        self.text.push_str(text);
    }

    /// Where a byte of the run stands in the Markdown.
    fn source(&self, at: usize) -> usize {
        let piece = self.pieces.partition_point(|(start, _)| *start <= at).saturating_sub(1);
        self.pieces.get(piece).map_or(0, |(start, range)| (range.start + (at - start)).min(range.end))
    }

    /// Where bytes of the run stand in the Markdown.
    pub(super) fn range(&self, range: &Range<usize>) -> Range<usize> {
        let start = self.source(range.start);
        start..self.source(range.end).max(start)
    }
}

/// Something in braces that is not plain text.
enum Brace {
    /// `{= formula in unit}`, without its `{=` and `}`.
    Computed(Range<usize>),
    /// `{name}`, the name without its braces.
    Hole(Range<usize>),
    /// A brace that should have been one of these.
    Unreadable(Range<usize>, &'static str),
}

impl Brace {
    /// The bytes with the braces.
    fn whole(&self) -> Range<usize> {
        match self {
            Self::Computed(inner) => inner.start - 2..inner.end + 1,
            Self::Hole(inner) => inner.start - 1..inner.end + 1,
            Self::Unreadable(whole, _) => whole.clone(),
        }
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
        run.text.clear();
        run.pieces.clear();
        self.run = run; // Its room is used again.
    }

    fn write_run(&mut self, run: &Run) {
        self.page.words += run.text.split_ascii_whitespace().count();
        self.explained_by(&run.text);
        self.lost_links(run);
        let mut from = 0;
        while let Some(brace) = self.next_brace(run, from) {
            let whole = brace.whole();
            self.plain(&run.text[from..whole.start]);
            match &brace {
                Brace::Computed(inner) => self.computed(run, inner),
                Brace::Hole(inner) => self.hole(run, inner),
                Brace::Unreadable(range, code) => {
                    self.fault(code, &run.range(range));
                }
            }
            from = whole.end;
        }
        self.plain(&run.text[from..]);
    }

    /// The next brace that is not plain text. One after a backslash is.
    fn next_brace(&self, run: &Run, from: usize) -> Option<Brace> {
        let text = run.text.as_str();
        let mut search = from;
        loop {
            let open = search + text[search..].find('{')?;
            search = open + 1;
            let before = run.source(open).checked_sub(1);
            if before.is_some_and(|before| self.text.body().as_bytes()[before] == b'\\') {
                continue;
            }
            let close = text[open..].find('}').map(|length| open + length);
            let inner = |skip: usize| close.map(|close| open + skip..close);
            match (text.as_bytes().get(open + 1), self.text.mode) {
                (Some(b'='), _) => {
                    return Some(
                        inner(2).map_or(Brace::Unreadable(open..text.len(), "computed-unclosed"), Brace::Computed),
                    );
                }
                (_, Mode::Recipe) => {
                    let hole = inner(1).filter(|inner| is_name(&text[inner.clone()]));
                    let end = close.map_or(text.len(), |close| close + 1);
                    return Some(hole.map_or_else(|| unreadable(text, open..end), Brace::Hole));
                }
                _ => (),
            }
        }
    }

    fn hole(&mut self, run: &Run, inner: &Range<usize>) {
        let name = &run.text[inner.clone()];
        let place = self.text.place(&run.range(&(inner.start - 1..inner.end + 1)));
        self.holes.entry(name.to_owned()).or_insert(place);
        self.write_html(&format!("{}{name}{}", MARKS[0], MARKS[1]));
    }

    /// Writes text with nothing special in it but terms.
    fn plain(&mut self, text: &str) {
        if text.is_empty() {
            return;
        }
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
        if let Some(at) = find_pair(&run.text, ']', "](") {
            let end = run.text[at..].find(')').map_or(run.text.len(), |length| at + length + 1);
            self.fault("link-broken", &run.range(&(at..end)));
        }
        if let Some(at) = find_pair(&run.text, '[', "[^") {
            let end = run.text[at..].find(']').map_or(run.text.len(), |length| at + length + 1);
            let name = run.text[at + 2..end].trim_end_matches(']').to_owned();
            self.fault("note-unknown", &run.range(&(at..end))).values.push(("name", name));
        }
    }
}

/// Finds two characters that begin with `first`. Most texts do not hold the first, and one is looked for much faster.
fn find_pair(text: &str, first: char, both: &str) -> Option<usize> {
    let start = text.find(first)?;
    text[start..].find(both).map(|at| start + at)
}

fn unreadable(text: &str, whole: Range<usize>) -> Brace {
    let steps = text[whole.clone()].starts_with("{steps");
    Brace::Unreadable(whole, if steps { "recipe-steps-not-alone" } else { "recipe-hole-unreadable" })
}
