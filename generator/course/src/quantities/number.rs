//! Numbers as people write them: `12`, `1,200`, `0.5`, `3/8`, `1 3/8`, `1½`, `1.2e3`, `10³`.

use std::ops::Range;

/// A number at the start of a text.
#[derive(Clone, Copy, Debug)]
pub(super) struct Number {
    /// Its bytes; none where there is no number, or a designation such as `4.3.1.2`.
    pub(super) length: usize,
    /// Whether it is a plain count.
    pub(super) whole: bool,
}

/// Where the next number starts.
pub(super) fn next(text: &str, from: usize) -> Option<usize> {
    let mut at = from;
    loop {
        at += first_byte(&text.as_bytes()[at..])?;
        if text.is_char_boundary(at) && starts(&text[at..]) {
            return Some(at);
        }
        at += 1;
    }
}

/// The first byte that a number may begin with. Pieces that hold none are passed without a stop.
fn first_byte(bytes: &[u8]) -> Option<usize> {
    const PIECE: usize = 64;
    let piece = bytes.chunks(PIECE).position(may_begin_in)? * PIECE;
    bytes[piece..].iter().position(|byte| may_begin(*byte)).map(|at| piece + at)
}

/// Whether a number may begin somewhere in a text. To look at all of it takes less than to stop at the first.
pub(super) fn may_begin_in(bytes: &[u8]) -> bool {
    bytes.iter().fold(false, |found, byte| found | may_begin(*byte))
}

/// Whether a number may begin with a byte. Fractions in one character begin with one of two.
fn may_begin(byte: u8) -> bool {
    byte.is_ascii_digit() || matches!(byte, 0xc2 | 0xe2)
}

/// Whether a text starts with a number.
pub(super) fn starts(text: &str) -> bool {
    text.starts_with(|first: char| first.is_ascii_digit() || is_fraction(first))
}

fn is_fraction(sign: char) -> bool {
    matches!(sign, '¼'..='¾' | '\u{2150}'..='\u{215e}')
}

/// The number at the start of a text.
pub(super) fn number(text: &str) -> Number {
    let whole = digits(text);
    let (marked, marks) = with_marks(text, whole);
    let end = if marks == 0 { fraction(text, whole).unwrap_or(marked) } else { marked };
    let end = power(text, exponent(text, end));
    Number { length: end, whole: marks == 0 && end == whole }
}

fn digits(text: &str) -> usize {
    text.bytes().take_while(u8::is_ascii_digit).count()
}

/// The end of a number with its decimal and grouping marks, and how many there are.
fn with_marks(text: &str, whole: usize) -> (usize, usize) {
    let (mut end, mut marks) = (whole, 0);
    while let Some(mark) = text[end..].chars().next().filter(|_| whole > 0) {
        let after = &text[end + mark.len_utf8()..];
        let count = digits(after);
        let groups = count == 3 && whole <= 3 && !text.starts_with('0');
        let goes_on = match mark {
            '.' | ',' => count > 0,
            '\'' | '’' | ' ' | '\u{a0}' | '\u{2009}' | '\u{202f}' => groups && !after[count..].starts_with('/'),
            _ => false,
        };
        if !goes_on {
            break;
        }
        (end, marks) = (end + mark.len_utf8() + count, marks + 1);
    }
    (end, marks)
}

/// The end of `3/8`, `1 3/8`, `1-3/8`, `½` or `1 ½`.
fn fraction(text: &str, whole: usize) -> Option<usize> {
    let simple = |from: usize| {
        let upper = from + digits(&text[from..]);
        let after = text[upper..].strip_prefix(['/', '\u{2044}'])?;
        let lower = digits(after);
        (upper > from && lower > 0).then_some(text.len() - after.len() + lower)
    };
    let sign = |from: usize| text[from..].chars().next().filter(|sign| is_fraction(*sign));
    let single = |from: usize| sign(from).map(|sign| from + sign.len_utf8());
    let gap = text[whole..].chars().next().filter(|gap| whole > 0 && (gap.is_whitespace() || *gap == '-'));
    let behind = whole + gap.map_or(0, char::len_utf8);
    simple(0).or_else(|| single(whole)).or_else(|| gap.and_then(|_| simple(behind).or_else(|| single(behind))))
}

/// The end with `e3` after it.
fn exponent(text: &str, end: usize) -> usize {
    let Some(after) = text[end..].strip_prefix(['e', 'E']) else { return end };
    let signless = after.strip_prefix(['-', '+', '−']).unwrap_or(after);
    let count = digits(signless);
    if count > 0 && end > 0 { text.len() - signless.len() + count } else { end }
}

/// The end with the raised `³` of `10³` or `10^3` after it.
fn power(text: &str, end: usize) -> usize {
    let rest = &text[end..];
    if rest.bytes().next().is_none_or(|next| next.is_ascii() && next != b'^') {
        return end;
    }
    if let Some(count) = rest.strip_prefix('^').map(digits).filter(|count| *count > 0) {
        return end + 1 + count;
    }
    let raised = rest.find(|next: char| !"⁰¹²³⁴⁵⁶⁷⁸⁹⁻".contains(next)).unwrap_or(rest.len());
    end + if end > 0 { raised } else { 0 }
}

/// Whether a number belongs to a name or a designation: `RV-12`, `A4`, `UG-134`, `§5`, `4.3.1.2`, `12/05/2015`.
pub(super) fn is_part_of_name(text: &str, own: Range<usize>) -> bool {
    let (before, own, after) = (&text[..own.start], &text[own.clone()], &text[own.end..]);
    let in_name = |before: &str| before.ends_with(|last: char| last.is_alphanumeric() || last == '_');
    let joined = before.strip_suffix(['-', '\u{2010}', '\u{2011}', '/', '.']);
    let date = own.contains('/') && after.strip_prefix('/').is_some_and(starts);
    in_name(before) || before.ends_with('§') || joined.is_some_and(in_name) || date || is_outline(own)
}

/// Whether a number has more than one point, and the parts are not groups of three digits.
fn is_outline(number: &str) -> bool {
    number.matches('.').count() > 1 && number.split('.').skip(1).any(|part| part.len() != 3)
}

/// The end of the name that a number belongs to.
pub(super) fn end_of_name(text: &str, end: usize) -> usize {
    let part = |next: char| next.is_alphanumeric() || next == '_';
    text[end..].find(|next: char| !part(next)).map_or(text.len(), |length| end + length)
}

/// Where the sign of a number starts, or the number itself.
pub(super) fn with_sign(text: &str, start: usize) -> usize {
    let before = text[..start].trim_end_matches(' ');
    let unsigned = before.trim_end_matches(['±', '−', '-', '+']);
    let free = unsigned.chars().next_back().is_none_or(|last| last.is_whitespace() || last == '(');
    if free && unsigned.len() < before.len() { unsigned.len() } else { start }
}

/// The word before a number.
pub(super) fn word_before(text: &str, start: usize) -> &str {
    let before = text[..start].trim_end();
    if before.len() == start {
        return "";
    }
    let before = before.strip_suffix('.').unwrap_or(before);
    let from = before.char_indices().rev().find(|(_, last)| !last.is_alphabetic());
    &before[from.map_or(0, |(at, last)| at + last.len_utf8())..]
}

/// Whether a word is the name of a standard or the like, all in capitals.
pub(super) fn is_in_capitals(word: &str) -> bool {
    word.len() > 1 && word.chars().all(char::is_uppercase)
}

/// Whether a count is one that years have.
pub(super) fn is_year(number: &str) -> bool {
    const YEARS: Range<u16> = 1800..2200;
    number.len() == 4 && number.parse().is_ok_and(|year| YEARS.contains(&year))
}
