//! Numbers with a unit as people write them in a text: `110 to 120 psig`, `3/8 in.`, `10-psi`, `±3 %`, `½ turn`.

mod number;
mod unit;

use std::ops::Range;

use crate::Words;
use crate::marks::KNOWN;
use number::number;
use unit::Unit;
pub(crate) use unit::is_unit;

/// Whether Markdown may hold a number, which may also be written by its name after `&`.
pub(crate) fn may_hold_number(markdown: &str) -> bool {
    number::may_begin_in(markdown.as_bytes()) || markdown.contains('&')
}

/// Finds numbers with a unit. What it knows of the language are three short lists of words.
#[derive(Debug, Default)]
pub(crate) struct Finder {
    /// What is counted through, so that the number after it is a name: "step 2 in the list".
    labels: Vec<String>,
    /// What follows the word "in" where it does not mean inches.
    after_in: Vec<String>,
    /// What connects the two ends of a range.
    between: Vec<String>,
}

/// A place in a text that is looked through.
#[derive(Clone, Copy)]
struct At<'t> {
    text: &'t str,
    /// Where the number, or the first of a range, starts.
    start: usize,
    /// Where that first number ends.
    first: usize,
    /// Where the number that the unit would belong to ends.
    end: usize,
    /// Whether it is a plain count, without sign, mark or fraction.
    whole: bool,
}

impl Finder {
    /// A finder with the words of a theme.
    pub(crate) fn new(words: &dyn Words) -> Self {
        let list = |name: &str| {
            let text = words.text(&format!("reading.{name}")).unwrap_or_default();
            text.split_whitespace().map(str::to_owned).collect()
        };
        Self { labels: list("labels"), after_in: list("after_in"), between: list("between") }
    }

    /// The bytes of every number with its unit, in order. A range counts as one.
    pub(crate) fn find(&self, text: &str) -> Vec<Range<usize>> {
        let mut found = Vec::new();
        let mut from = 0;
        while let Some(start) = number::next(text, from) {
            let at = self.range(text, start);
            from = at.end;
            if number::is_part_of_name(text, start..at.first) {
                from = number::end_of_name(text, at.end);
            } else if let Some(end) = self.end(at) {
                from = end.max(at.end);
                found.push(number::with_sign(text, start)..from);
            }
        }
        found
    }

    /// The end of what the number is measured in, if it is measured in something.
    fn end(&self, at: At) -> Option<usize> {
        if at.text[at.end..].starts_with(KNOWN) {
            return Some(at.end); // The other end of the range is known, so this one is a number of the same unit.
        }
        let unit = unit::after(at.text, at.start, at.end)?;
        (!self.is_label(at, &unit) && self.is_unit(at, &unit)).then_some(unit.end)
    }

    /// From one number over all that a range joins to it.
    fn range<'t>(&self, text: &'t str, start: usize) -> At<'t> {
        let first = number(&text[start..]);
        let end = start + first.length;
        let mut at = At { text, start, first: end, end, whole: first.whole };
        while let Some(next) = self.joined(text, at.end) {
            if text[next..].starts_with(KNOWN) {
                return At { end: next, ..at };
            }
            let more = number(&text[next..]);
            if more.length == 0 {
                break;
            }
            at = At { end: next + more.length, whole: at.whole && more.whole, ..at };
        }
        at
    }

    /// Where the next number of a range starts after the end of one.
    fn joined(&self, text: &str, end: usize) -> Option<usize> {
        let rest = text[end..].trim_start();
        let sign = rest.strip_prefix(['-', '\u{2010}', '\u{2011}', '–', '—', '…']).or_else(|| rest.strip_prefix(".."));
        let word = || {
            let gap = rest.len() < text.len() - end;
            let after = self.between.iter().find_map(|word| rest.strip_prefix(word.as_str()))?;
            (gap && after.starts_with(char::is_whitespace)).then_some(after)
        };
        let after = sign.or_else(word)?.trim_start_matches('.').trim_start();
        let next = text.len() - after.len();
        let goes_on = after.starts_with(KNOWN) || number::starts(after);
        goes_on.then_some(next)
    }

    /// Whether the number is the name of what comes before it: `step 2`, `Table 3`.
    fn is_label(&self, at: At, unit: &Unit) -> bool {
        let word = number::word_before(at.text, at.start);
        at.whole && unit.spaced && self.labels.contains(&word.to_lowercase())
    }

    /// Whether what looks like a unit is one, where it could be another word.
    fn is_unit(&self, at: At, unit: &Unit) -> bool {
        let written = &at.text[unit.start..unit.end];
        let rest = &at.text[unit.end..];
        let compound = unit.spaced && rest.starts_with(['-', '\u{2010}', '\u{2011}']);
        let single = written.chars().count() == 1 && written.starts_with(char::is_alphabetic);
        if !single && written != "in" {
            return true;
        }
        let designation = at.whole && unit.spaced && number::is_in_capitals(number::word_before(at.text, at.start));
        if designation {
            return false; // "ISO 4126-1 in Europe"
        }
        if single {
            return !compound && unit::SINGLE_LETTERS.contains(&written);
        }
        let next = rest.trim_start();
        let word = next.split(|next: char| !next.is_alphanumeric()).next().unwrap_or_default();
        let counted = number::starts(next) && next.len() < rest.len(); // "1 in 10"
        let year = at.whole && number::is_year(&at.text[at.start..at.end]);
        !(unit.spaced && (compound || counted || year || self.after_in.contains(&word.to_lowercase())))
    }
}

/// The lists of the theme's English, for tests.
#[cfg(test)]
pub(crate) struct EnglishWords;

#[cfg(test)]
impl Words for EnglishWords {
    fn text(&self, key: &str) -> Option<String> {
        let words = include_str!("../../../theme/words/en.yaml");
        let list = words.split("\nreading:\n").nth(1)?;
        let line = list.lines().find_map(|line| line.trim_start().strip_prefix(key.strip_prefix("reading.")?))?;
        Some(line.trim_start_matches(':').trim().to_owned())
    }
}

#[cfg(test)]
mod tests;
