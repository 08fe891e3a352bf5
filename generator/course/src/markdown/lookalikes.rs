//! What looks like more than text and is none: Markdown takes it for plain words without a word of its own, and a learner
//! would see the signs. A caution among them would be no caution.

use std::ops::Range;

use faults::Code;
use pulldown_cmark::{Event, Tag};

use super::run::Run;
use super::structure::in_capitals;
use super::writer::Writer;
use super::{Events, SIGNALS};

/// Signs that people and word processors put before the items of a list.
const BULLETS: [char; 6] = ['•', '◦', '‣', '▪', '·', '●'];

/// A line that is meant as something else than text, by the code of its words.
fn meant(line: &str) -> Option<&'static str> {
    let line = line.trim();
    let marks = line.len() - line.trim_start_matches('#').len();
    let heading = (1..=6).contains(&marks) && line[marks..].starts_with(char::is_alphabetic);
    let row = line.len() > 2 && line.starts_with('|') && line.ends_with('|');
    if heading {
        Some("heading")
    } else if row {
        Some("table")
    } else if line.starts_with(BULLETS) {
        Some("item")
    } else {
        None
    }
}

impl<'a> Writer<'_, 'a> {
    /// A line of a paragraph that is meant as a heading, a row of a table or an item of a list: the first one is told.
    pub(super) fn lookalikes(&mut self, range: &Range<usize>) {
        let mut from = range.start;
        for line in self.text.body()[range.clone()].split_inclusive('\n') {
            let start = from + (line.len() - line.trim_start().len());
            from += line.len();
            // A quotation within has its own marks before each line.
            if let Some(what) = meant(line.trim_start_matches(['>', ' '])) {
                self.fault(Code::MarkdownLookalike, &(start..start + line.trim().len()))
                    .values
                    .push(("what", what.to_owned()));
                return;
            }
        }
    }

    /// A quotation that begins with a signal word that is not bold, from which no panel would come.
    pub(super) fn plain_signal(&mut self, rest: Events<'_, 'a>) {
        let (text, range) = match rest {
            [_, _, (Event::Text(text), range), ..]
            | [_, _, (Event::Start(Tag::Emphasis), _), (Event::Text(text), range), ..] => (text, range),
            _ => return,
        };
        let word = text.split(|next: char| !next.is_alphabetic()).next().unwrap_or_default();
        let (alone, colon) = (word.len() == text.trim().len(), text[word.len()..].starts_with([':', '!']));
        let known = SIGNALS.iter().find(|known| **known == word.to_uppercase());
        if let Some(known) = known.filter(|_| in_capitals(word) || alone || colon) {
            self.fault(Code::SignalWordPlain, &(range.start..range.start + word.len()))
                .values
                .push(("word", (*known).to_owned()));
        }
    }

    /// A `$` that opens a formula in which nothing closes it. Prices have a digit behind theirs.
    pub(super) fn open_formula(&mut self, run: &Run) {
        let body = self.text.body();
        for (at, _) in run.text.match_indices('$') {
            let escaped = run.source(at).checked_sub(1).is_some_and(|before| body.as_bytes()[before] == b'\\');
            let rest = &run.text[at + 1..];
            let is_latex = rest.starts_with(['\\', '{'])
                || rest.starts_with(char::is_alphabetic) && rest.contains(['=', '_', '^', '\\']);
            if is_latex && !escaped {
                let end = at + 1 + rest.find(char::is_whitespace).unwrap_or(rest.len());
                self.fault(Code::FormulaUnclosed, &run.range(&(at..end)));
                return;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_that_are_meant_as_more_are_known() {
        for (line, what) in [
            ("##The trace", Some("heading")),
            ("#3 is a tag", None),
            ("| Tag | Set |", Some("table")),
            ("|x| is a size", None),
            ("• one", Some("item")),
            ("text", None),
        ] {
            assert_eq!(meant(line), what, "{line}");
        }
    }
}
