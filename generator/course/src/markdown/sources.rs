//! Where the numbers of a lesson come from: worked out, given by the scenario, or cited in the same block.

use std::ops::Range;

use faults::Code;

use super::checking::Checking;
use super::open::Open;
use super::run::Run;
use super::text::Mode;
use crate::fault::{Fault, Place};
use crate::marks::{KNOWN, OTHER};
use crate::quantities::{Finder, may_hold_number};

/// The open parts of a text, and the numbers in them for which no source was seen.
#[derive(Default)]
pub(super) struct Sources {
    /// The text of the block so far, across emphasis and links, with marks for what is not text.
    reading: Run,
    parts: Vec<Part>,
}

/// An open part of the text.
struct Part {
    open: Open,
    /// Whether its own text may hold a number, so that it is read.
    reads: bool,
    /// Whether a note is referred to in it.
    cited: bool,
    /// Numbers for which no source was seen so far.
    found: Vec<Fault>,
}

impl Sources {
    /// How deep the open parts nest.
    pub(super) fn depth(&self) -> usize {
        self.parts.len()
    }

    /// The part that was opened last.
    pub(super) fn innermost(&self) -> Option<Open> {
        self.parts.last().map(|part| part.open)
    }

    /// Whether such a part is open.
    pub(super) fn is_in(&self, open: Open) -> bool {
        self.parts.iter().any(|part| part.open == open)
    }

    /// Opens a part of the text: these bytes of the Markdown.
    pub(super) fn enter(&mut self, open: Open, range: &Range<usize>, checking: &mut Checking) {
        let reads = if open.is_inline() {
            self.reads()
        } else {
            self.settle(checking);
            let text = checking.text;
            text.mode == Mode::Lesson && open.holds_text() && may_hold_number(&text.body()[range.clone()])
        };
        self.parts.push(Part { open, reads, cited: false, found: Vec::new() });
    }

    /// Whether the text of the open part is read. Recipes draw their numbers, and terms have one source for all.
    fn reads(&self) -> bool {
        self.parts.last().is_some_and(|part| part.reads)
    }

    /// Closes the part that was opened last. Its numbers without a source may still get one from what is around it.
    pub(super) fn leave(&mut self, checking: &mut Checking) -> Option<Open> {
        if !self.innermost().is_some_and(Open::is_inline) {
            self.settle(checking);
        }
        let part = self.parts.pop()?;
        match self.parts.last_mut() {
            Some(parent) if part.cited => parent.cited |= part.open.cites_around(parent.open),
            Some(parent) => parent.found.extend(part.found),
            None if part.cited => (),
            None => checking.faults.extend(part.found),
        }
        Some(part.open)
    }

    /// Notes that the part that is open has a note.
    pub(super) fn cite(&mut self) {
        if let Some(part) = self.parts.last_mut() {
            part.cited = true;
        }
    }

    /// Takes text of a run as it is written.
    pub(super) fn read_along(&mut self, run: &Run, range: &Range<usize>) {
        if self.reads() {
            self.reading.append(run, range);
        }
    }

    /// Takes something that is not text.
    pub(super) fn read_other(&mut self, range: &Range<usize>) {
        self.read_mark(OTHER, range);
    }

    /// Takes the end of a line.
    pub(super) fn read_space(&mut self, range: &Range<usize>) {
        self.read_mark(' ', range);
    }

    /// Takes a mark for something that is not text: [`KNOWN`] for a number whose source is known.
    pub(super) fn read_mark(&mut self, mark: char, range: &Range<usize>) {
        if self.reads() {
            self.reading.push(mark.encode_utf8(&mut [0; 4]), range);
        }
    }

    /// Notes a number with a unit in a formula, which a note in the same block may cite.
    pub(super) fn read_latex(&mut self, latex: &str, range: &Range<usize>, checking: &mut Checking) {
        if self.reads()
            && let Some(found) = in_latex(latex)
        {
            let fault = checking.text.fault(Code::NumberUnsourced, range).with("found", found);
            self.found(vec![fault], checking);
        }
        self.read_other(range);
    }

    /// Looks through the text of a block that ends, or that another block cuts.
    pub(super) fn settle(&mut self, checking: &mut Checking) {
        if self.reading.text.is_empty() {
            return;
        }
        let text = checking.text;
        let found = unsourced(&checking.references.finder, &self.reading, |range| text.place(&range));
        self.reading.clear();
        self.found(found, checking);
    }

    fn found(&mut self, found: Vec<Fault>, checking: &mut Checking) {
        if self.is_in(Open::Note) {
            return; // A note is the source.
        }
        match self.parts.last_mut() {
            Some(part) => part.found.extend(found),
            None => checking.faults.extend(found),
        }
    }
}

/// The numbers with a unit in a text, each a fault where no source is found for it.
pub(super) fn unsourced(finder: &Finder, reading: &Run, place: impl Fn(Range<usize>) -> Place) -> Vec<Fault> {
    let fault = |found: Range<usize>| {
        let text = reading.text[found.clone()].trim_end();
        // To the last byte of the number, so that marks after it are left out.
        let source = reading.source(found.start)..reading.source(found.start + text.len() - 1) + 1;
        let more = if reading.text[found.end..].starts_with(KNOWN) { " …" } else { "" };
        Fault::at(Code::NumberUnsourced, place(source)).with("found", format!("{text}{more}"))
    };
    finder.find(&reading.text).into_iter().map(fault).collect()
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
