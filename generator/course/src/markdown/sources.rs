//! Where the numbers of a lesson come from: worked out, given by the scenario, or cited in the block that they stand in.

use std::ops::Range;

use faults::Code;

use super::Mode;
use super::run::Run;
use super::writer::{Open, Writer};
use crate::fault::{Fault, Place};
use crate::quantities::{Finder, KNOWN, OTHER, may_hold_number};

/// What the walk keeps to tell where numbers come from.
#[derive(Default)]
pub(super) struct Sources {
    /// The text of the block so far, across emphasis and links, with marks for what is no text.
    reading: Run,
    /// What is known of each open part; as many as the walk has open.
    parts: Vec<Part>,
}

/// An open part of the text.
#[derive(Default)]
struct Part {
    /// Whether its own text may hold a number, so that it is read.
    reads: bool,
    /// Whether a note is referred to in it.
    cited: bool,
    /// Numbers for which no source was seen so far.
    found: Vec<Fault>,
}

impl Writer<'_, '_> {
    /// Opens a part of the text, which stands in these bytes of the Markdown.
    pub(super) fn enter(&mut self, open: Open, range: &Range<usize>) {
        let reads = if is_inline(open) {
            self.reads()
        } else {
            self.settle();
            self.text.mode == Mode::Lesson && holds_text(open) && may_hold_number(&self.text.body()[range.clone()])
        };
        self.open.push(open);
        self.sources.parts.push(Part { reads, ..Part::default() });
    }

    /// Whether the text where the walk stands is read. Recipes draw their numbers, and terms have one source for all.
    fn reads(&self) -> bool {
        self.sources.parts.last().is_some_and(|part| part.reads)
    }

    /// Closes the part that was opened last. Its numbers without a source may still get one from what is around it.
    pub(super) fn leave(&mut self) -> Option<Open> {
        if !self.open.last().is_some_and(|open| is_inline(*open)) {
            self.settle();
        }
        let (open, part) = (self.open.pop()?, self.sources.parts.pop()?);
        let around = self.open.last().copied();
        match self.sources.parts.last_mut() {
            Some(parent) if part.cited => parent.cited |= cites_around(open, around),
            Some(parent) => parent.found.extend(part.found),
            None if part.cited => (),
            None => self.faults.extend(part.found),
        }
        Some(open)
    }

    /// Notes that the part that is open has a note.
    pub(super) fn cite(&mut self) {
        if let Some(part) = self.sources.parts.last_mut() {
            part.cited = true;
        }
    }

    /// Takes text of a run as it is written.
    pub(super) fn read_along(&mut self, run: &Run, range: &Range<usize>) {
        if self.reads() {
            self.sources.reading.append(run, range);
        }
    }

    /// Takes what is no text.
    pub(super) fn read_other(&mut self, range: &Range<usize>) {
        self.read_mark(OTHER, range);
    }

    /// Takes the end of a line.
    pub(super) fn read_space(&mut self, range: &Range<usize>) {
        self.read_mark(' ', range);
    }

    /// Takes a mark for something that is no text: [`KNOWN`] for a number whose source is known.
    pub(super) fn read_mark(&mut self, mark: char, range: &Range<usize>) {
        if self.reads() {
            self.sources.reading.push(mark.encode_utf8(&mut [0; 4]), range);
        }
    }

    /// Notes a number with a unit in a formula, which a note in the same block may cite.
    pub(super) fn read_latex(&mut self, latex: &str, range: &Range<usize>) {
        if self.reads()
            && let Some(found) = in_latex(latex)
        {
            let fault = Fault::at(Code::NumberUnsourced, self.text.place(range)).with("found", found);
            self.found(vec![fault]);
        }
        self.read_other(range);
    }

    /// Looks through the text of a block that ends, or that another block cuts.
    pub(super) fn settle(&mut self) {
        if self.sources.reading.text.is_empty() {
            return;
        }
        let mut reading = std::mem::take(&mut self.sources.reading);
        let text = self.text;
        let found = numbers(&self.shelf.finder, &reading, |range| text.place(&range));
        self.found(found);
        reading.clear();
        self.sources.reading = reading;
    }

    fn found(&mut self, found: Vec<Fault>) {
        if self.open.contains(&Open::Note) {
            return; // A note is the source.
        }
        match self.sources.parts.last_mut() {
            Some(part) => part.found.extend(found),
            None => self.faults.extend(found),
        }
    }
}

/// Whether text stands in such a part itself, and not only in the parts of it.
fn holds_text(open: Open) -> bool {
    matches!(open, Open::Paragraph | Open::Heading | Open::TableCell | Open::Item)
}

fn is_inline(open: Open) -> bool {
    matches!(open, Open::Inline | Open::Link)
}

/// Whether a note in a part is a note of what is around it: the head of a table speaks for the table, and one paragraph
/// for a whole item or panel.
fn cites_around(open: Open, around: Option<Open>) -> bool {
    match open {
        Open::Inline | Open::Link | Open::TableCell | Open::TableHead => true,
        Open::Paragraph => matches!(around, Some(Open::Item | Open::Quote | Open::Signal)),
        _ => false,
    }
}

fn numbers(finder: &Finder, reading: &Run, place: impl Fn(Range<usize>) -> Place) -> Vec<Fault> {
    let fault = |found: Range<usize>| {
        let text = reading.text[found.clone()].trim_end();
        // To the last byte of the number, so that marks behind it are left out.
        let source = reading.source(found.start)..reading.source(found.start + text.len() - 1) + 1;
        let more = if reading.text[found.end..].starts_with(KNOWN) { " …" } else { "" };
        Fault::at(Code::NumberUnsourced, place(source)).with("found", format!("{text}{more}"))
    };
    finder.find(&reading.text).into_iter().map(fault).collect()
}

/// The numbers with a unit in a text that can have no note, such as a caption.
pub(crate) fn unsourced(finder: &Finder, reading: &Run, place: impl Fn(Range<usize>) -> Place) -> Vec<Fault> {
    numbers(finder, reading, place)
}

/// A number with a unit in a formula: `10\,\text{psi}`, `3\,\%`.
fn in_latex(latex: &str) -> Option<String> {
    if !latex.bytes().any(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let number_before = |at: usize| {
        let before = latex[..at].trim_end_matches([' ', '~', '\\', ',', ';', ':', '!']);
        let start = before.trim_end_matches(|last: char| last.is_ascii_digit() || last == '.').len();
        let index = before[..start].ends_with(['_', '^']);
        (start < before.len() && !index).then(|| before[start..].to_owned())
    };
    let words = ["\\text{", "\\mathrm{"].into_iter().flat_map(|open| {
        latex.match_indices(open).filter_map(move |(at, _)| Some((at, latex[at + open.len()..].split_once('}')?.0)))
    });
    let percent = latex.match_indices("\\%").map(|(at, _)| (at, "%"));
    let mut numbered = words.chain(percent).filter_map(|(at, unit)| Some((number_before(at)?, unit)));
    let (number, unit) = numbered.find(|(_, unit)| relief::units::find(unit).is_some())?;
    Some(format!("{number} {}", unit.trim()))
}

#[cfg(test)]
mod tests {
    use super::in_latex;

    #[test]
    fn formulas_are_looked_through_for_units_in_upright_letters() {
        assert_eq!(in_latex("p = 10\\,\\text{psi}").as_deref(), Some("10 psi"));
        assert_eq!(in_latex("0.5 \\mathrm{ mm}").as_deref(), Some("0.5 mm"));
        assert_eq!(in_latex("3\\,\\%").as_deref(), Some("3 %"));
        for none in ["8 \\, F \\, D", "38 \\, K_\\mathrm{d}", "p_1 \\mathrm{m}", "2 \\quad \\text{(bonnet)}", ""] {
            assert_eq!(in_latex(none), None, "{none}");
        }
    }
}
