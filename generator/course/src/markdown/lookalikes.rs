//! What looks like more than text but is not: Markdown takes it for plain words without complaint, and a learner
//! would see the signs. A caution among them would be lost.

use std::ops::Range;

use faults::Code;
use pulldown_cmark::{Event, Tag};

use super::checking::Checking;
use super::events::Events;
use super::references::SIGNALS;
use super::run::Run;

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

/// A line of a paragraph that is meant as a heading, a row of a table or an item of a list: the first one is reported.
pub(super) fn lines(range: &Range<usize>, checking: &mut Checking) {
    let mut from = range.start;
    for line in checking.text.body()[range.clone()].split_inclusive('\n') {
        let start = from + (line.len() - line.trim_start().len());
        from += line.len();
        // A quotation within has its own marks before each line.
        if let Some(what) = meant(line.trim_start_matches(['>', ' '])) {
            let line = start..start + line.trim().len();
            return checking.tell(checking.text.fault(Code::MarkdownLookalike, &line).with("what", what));
        }
    }
}

/// A quotation that begins with a signal word that is not bold, from which no panel would come.
pub(super) fn plain_signal(rest: Events, checking: &mut Checking) {
    let (text, range) = match rest {
        [_, _, (Event::Text(text), range), ..]
        | [_, _, (Event::Start(Tag::Emphasis), _), (Event::Text(text), range), ..] => (text, range),
        _ => return,
    };
    let word = text.split(|next: char| !next.is_alphabetic()).next().unwrap_or_default();
    let (alone, colon) = (word.len() == text.trim().len(), text[word.len()..].starts_with([':', '!']));
    let known = SIGNALS.iter().find(|known| **known == word.to_uppercase());
    if let Some(known) = known.filter(|_| in_capitals(word) || alone || colon) {
        let word = range.start..range.start + word.len();
        checking.tell(checking.text.fault(Code::SignalWordPlain, &word).with("word", known));
    }
}

/// Whether a word is written in capital letters.
pub(super) fn in_capitals(word: &str) -> bool {
    word.chars().filter(|next| next.is_uppercase()).count() >= 3 && !word.contains(char::is_lowercase)
}

/// What in a run of text was meant as a link, a note or a formula.
pub(super) fn run(run: &Run, checking: &mut Checking) {
    // Most texts hold none of what is looked for, and to see that takes one quick look.
    if run.text.bytes().fold(false, |found, byte| found | matches!(byte, b'[' | b']' | b'$')) {
        lost_links(run, checking);
        lost_notes(run, checking);
        open_formula(run, checking);
    }
}

/// Links that Markdown did not take for such, which stay in the text as brackets.
fn lost_links(run: &Run, checking: &mut Checking) {
    for (open, close) in [("](", ")"), ("[[", "]]")] {
        if let Some(at) = run.text.find(open) {
            checking.refuse(Code::LinkBroken, &run.range(&(at..end_of(run, at, close))));
        }
    }
}

/// A reference to a note without a text.
fn lost_notes(run: &Run, checking: &mut Checking) {
    if let Some(at) = run.text.find("[^") {
        let end = end_of(run, at, "]");
        let name = run.text[at + 2..end].trim_end_matches(']');
        checking.tell(checking.text.fault(Code::NoteUnknown, &run.range(&(at..end))).with("name", name));
    }
}

fn end_of(run: &Run, at: usize, close: &str) -> usize {
    run.text[at..].find(close).map_or(run.text.len(), |length| at + length + close.len())
}

/// A `$` that opens a formula in which nothing closes it. Prices have a digit after theirs.
fn open_formula(run: &Run, checking: &mut Checking) {
    let body = checking.text.body();
    for (at, _) in run.text.match_indices('$') {
        let escaped = run.source(at).checked_sub(1).is_some_and(|before| body.as_bytes()[before] == b'\\');
        let rest = &run.text[at + 1..];
        let is_latex = rest.starts_with(['\\', '{'])
            || rest.starts_with(char::is_alphabetic) && rest.contains(['=', '_', '^', '\\']);
        if is_latex && !escaped {
            let end = at + 1 + rest.find(char::is_whitespace).unwrap_or(rest.len());
            return checking.refuse(Code::FormulaUnclosed, &run.range(&(at..end)));
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

    #[test]
    fn signal_words_are_in_capitals() {
        assert!(in_capitals("WARNING") && in_capitals("IMPORTANT!"));
        assert!(!in_capitals("Warning") && !in_capitals("No"));
    }
}
