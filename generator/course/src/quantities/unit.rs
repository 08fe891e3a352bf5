//! Units after a number, in any spelling that the core reads.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use relief::units;

use crate::marks::{KNOWN, OTHER};

/// The units of one letter that a number in a text may have. Small letters are too often something else.
pub(super) const SINGLE_LETTERS: [&str; 8] = ["m", "N", "K", "W", "F", "C", "L", "J"];

/// Words by which the names of units are cut short at their start, beside those of the table.
const CUT_SHORT: [&str; 7] = ["deg", "°", "sq", "sqin", "sqmm", "sqcm", "cuft"];

/// More bytes than any first word of a unit has.
const LONGEST_FIRST: usize = 24;

/// How many ends of words are tried: the longest name has five words.
const MOST_ENDS: usize = 8;

/// A unit in a text.
pub(super) struct Unit {
    pub(super) start: usize,
    pub(super) end: usize,
    /// Whether there is a space before it, and not nothing or a hyphen.
    pub(super) spaced: bool,
}

/// What the spellings of units start with, in lower case. Most words after a number are none of these, and to see that
/// takes much less than to read a unit.
static FIRST: LazyLock<BTreeSet<String>> = LazyLock::new(|| {
    let spellings = units::UNITS.iter().flat_map(|unit| std::iter::once(&unit.symbol).chain(unit.names));
    let words = spellings.map(|spelling| first_word(spelling).to_lowercase());
    words.chain(CUT_SHORT.map(str::to_owned)).filter(|word| !word.is_empty()).collect()
});

/// The letters at the start of a text, with a degree sign.
fn first_word(text: &str) -> &str {
    let end = text.find(|next: char| !next.is_alphabetic() && next != '°').unwrap_or(text.len());
    &text[..end]
}

/// The unit of the number that ends at `end`. What was before it, from `start`, tells an inch mark from a quotation mark.
pub(super) fn after(text: &str, start: usize, end: usize) -> Option<Unit> {
    let rest = &text[end..];
    let space = rest.len() - rest.trim_start().len();
    let hyphen = rest.chars().next().filter(|next| matches!(next, '-' | '\u{2010}' | '\u{2011}'));
    let gap = if space > 0 { space } else { hyphen.map_or(0, char::len_utf8) };
    let from = end + gap;
    let length = match text[from..].chars().next()? {
        '%' => Some(1),
        mark @ ('"' | '″' | '\'' | '′') if gap == 0 => {
            is_length_mark(text, start, from, mark).then(|| mark.len_utf8())
        }
        '#' | '/' | '1' => spelt(&text[from..]),
        _ => may_begin(&text[from..]).then(|| spelt(&text[from..])).flatten(),
    };
    length.map(|length| Unit { start: from, end: from + length, spaced: space > 0 })
}

/// Whether a text is a unit.
pub(crate) fn is_unit(text: &str) -> bool {
    may_begin(text) && units::find(text).is_some()
}

fn may_begin(text: &str) -> bool {
    let word = first_word(text);
    let mut lower = [0; LONGEST_FIRST];
    let Some(lower) = lower.get_mut(..word.len()).filter(|lower| !lower.is_empty()) else { return false };
    lower.copy_from_slice(word.as_bytes());
    lower.make_ascii_lowercase();
    let is_first = |word: &str| FIRST.contains(word);
    str::from_utf8(lower).is_ok_and(|lower| is_first(lower) || lower.strip_suffix('s').is_some_and(is_first))
}

/// The length of the shortest spelling of a unit that a text starts with and no word goes on after.
fn spelt(text: &str) -> Option<usize> {
    let goes_on = |next: char| next.is_alphanumeric() || matches!(next, '^' | '_' | '°');
    let stop = text.find([',', ';', ':', '!', '?', '"', KNOWN, OTHER]).unwrap_or(text.len());
    let text = &text[..stop];
    let ends = text.char_indices().map(|(at, next)| (at + next.len_utf8(), next));
    let ends =
        ends.filter(|(end, last)| (goes_on(*last) || matches!(last, ')' | '#')) && !text[*end..].starts_with(goes_on));
    ends.take(MOST_ENDS).map(|(end, _)| end).find(|end| units::find(&text[..*end]).is_some_and(is_told))
}

/// Whether a number in a unit needs a source in a text. How long something is done or takes is told as it is.
fn is_told(unit: &units::Unit) -> bool {
    unit.usual_kind() != relief::Kind::Time
}

/// Whether a quotation mark after a number is a mark for inches or feet: no quotation is open before it.
fn is_length_mark(text: &str, start: usize, at: usize, mark: char) -> bool {
    let before = &text[..start];
    let follows = text[at + mark.len_utf8()..].starts_with(char::is_alphanumeric);
    let opens = |(place, _): &(usize, &str)| !before[..*place].ends_with(char::is_alphanumeric);
    match mark {
        '"' => before.matches('"').count().is_multiple_of(2),
        '\'' => !follows && !before.match_indices('\'').any(|open| opens(&open)),
        _ => true,
    }
}
