//! What a learner typed, read as people type it.

use relief::Exact;
use relief::units::{self, Unit};

use crate::decimal_mark::DecimalMark;

/// The longest answer that is looked at, in bytes.
const LONGEST: usize = 200;

/// What was typed, as it is understood.
#[derive(Clone, Debug, PartialEq)]
pub enum Reading {
    /// Nothing.
    Blank,
    /// No number that can be made sense of.
    Unreadable,
    /// A number, followed by something that is not a unit we know.
    UnknownUnit(String),
    /// A number that could be either of these.
    Ambiguous([String; 2]),
    /// A number, and the unit where one was typed.
    Number(f64, Option<&'static Unit>),
}

/// Reads an answer: `4.75 in2`, `4,75 in²`, `1 3/8"`, `1.2e3 kPa`, `25psi`, `1 200`, `−3 turns`.
#[must_use]
pub fn read(text: &str, mark: DecimalMark) -> Reading {
    if text.len() > LONGEST {
        return Reading::Unreadable;
    }
    let plain = plain(text);
    let text = plain.trim().trim_start_matches(['=', '≈', '~']).trim();
    if text.is_empty() {
        return Reading::Blank;
    }
    let (number, unit) = split(text);
    let value = match number_of(number, mark) {
        Ok(value) => value,
        Err(Unread::Ambiguous(readings)) => {
            return Reading::Ambiguous(readings.map(|reading| format!("{reading} {unit}").trim().to_owned()));
        }
        Err(Unread::Not) => return Reading::Unreadable,
    };
    match (unit.is_empty(), units::find(unit)) {
        (true, _) => Reading::Number(value, None),
        (false, Some(unit)) => Reading::Number(value, Some(unit)),
        (false, None) => Reading::UnknownUnit(unit.to_owned()),
    }
}

/// How exactly a number was typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Precision {
    /// One in the last figure that was typed, in the typed unit; nothing for a fraction.
    pub(crate) step: f64,
    /// How many significant figures were typed.
    pub(crate) figures: u8,
}

/// How exactly a number was typed: `0.250` to a thousandth, `3500` to tens, since zeros at the end of a whole number may
/// only hold a place. Up to three figures of a whole number are always taken as meant.
pub(crate) fn precision(text: &str, mark: DecimalMark) -> Precision {
    const MEANT: usize = 3;
    const EXACT: Precision = Precision { step: 0.0, figures: 6 };
    let plain = plain(text);
    let (number, _) = split(plain.trim().trim_start_matches(['=', '≈', '~']).trim());
    let number = without_stop(number.trim_start_matches(['-', '+']).trim());
    let (digits, exponent) = number.split_once(['e', 'E']).unwrap_or((number, "0"));
    let (Ok(digits), Ok(exponent)) = (ungrouped(digits, mark), exponent.parse::<i32>()) else { return EXACT };
    if !digits.bytes().any(|byte| (b'1'..=b'9').contains(&byte)) {
        // Nothing is exactly nothing.
        return EXACT;
    }
    let (whole, part) = digits.split_once('.').unwrap_or((&digits, ""));
    let significant = |text: &str| text.trim_start_matches('0').len();
    let held = if part.is_empty() { whole.len() - whole.trim_end_matches('0').len() } else { 0 };
    let held = held.min(significant(whole).saturating_sub(MEANT));
    let figures = if significant(whole) > 0 { significant(whole) + part.len() - held } else { significant(part) };
    let place = i32::try_from(held).unwrap_or(0) - i32::try_from(part.len()).unwrap_or(0);
    let step = libm::pow(10.0, f64::from(place.saturating_add(exponent).clamp(-300, 300)));
    Precision { step, figures: u8::try_from(figures).unwrap_or(u8::MAX).max(1) }
}

enum Unread {
    Not,
    Ambiguous([String; 2]),
}

/// Fractions that are one character.
const FRACTIONS: [(char, &str); 15] = [
    ('½', " 1/2"),
    ('¼', " 1/4"),
    ('¾', " 3/4"),
    ('⅛', " 1/8"),
    ('⅜', " 3/8"),
    ('⅝', " 5/8"),
    ('⅞', " 7/8"),
    ('⅓', " 1/3"),
    ('⅔', " 2/3"),
    ('⅕', " 1/5"),
    ('⅖', " 2/5"),
    ('⅗', " 3/5"),
    ('⅘', " 4/5"),
    ('⅙', " 1/6"),
    ('⅚', " 5/6"),
];

/// Typographic characters as a keyboard has them; vulgar fractions spelt out; `×10³` as an exponent.
fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    for next in text.chars() {
        match next {
            '\u{2212}' | '\u{2013}' | '\u{2010}' | '\u{2011}' | '\u{fe63}' | '\u{ff0d}' => out.push('-'),
            // The right-hand quote is what a phone gives for the straight one.
            '\u{2019}' | '\u{2032}' => out.push('\''),
            '\u{2044}' | '\u{2215}' => out.push('/'),
            space if space.is_whitespace() => out.push(' '),
            ascii if ascii.is_ascii() => out.push(ascii),
            other => match FRACTIONS.iter().find(|(sign, _)| *sign == other) {
                Some((_, spelt)) => out.push_str(spelt),
                None => out.push(other),
            },
        }
    }
    if out.contains(TIMES) { power_of_ten(&out) } else { out }
}

/// The signs between a number and a power of ten.
const TIMES: [char; 5] = ['×', 'x', 'X', '*', '·'];

/// `1.2 x 10^3` and `1.2×10³` as `1.2e3`. Without a sign that it is raised, `10` and a digit are a number like any other:
/// `2 x 105` is not 200 000.
fn power_of_ten(text: &str) -> String {
    let Some((before, after)) = TIMES.iter().find_map(|sign| {
        let (before, after) = text.split_once(*sign)?;
        Some((before.trim_end(), after.trim_start().strip_prefix("10")?))
    }) else {
        return text.to_owned();
    };
    match exponent(after) {
        Some((exponent, rest)) => format!("{before}e{exponent}{rest}"),
        None => text.to_owned(),
    }
}

/// The exponent at the start of a text, `^-3`, `**3` or `⁻³`, in plain digits; and what follows it.
fn exponent(text: &str) -> Option<(String, &str)> {
    let raised = ["^", "**"].iter().find_map(|sign| text.trim_start().strip_prefix(sign));
    let digits = raised.unwrap_or(text).trim_start();
    let plain = |next: char| match raised {
        Some(_) => (next.is_ascii_digit() || next == '-').then_some(next),
        None => {
            "⁰¹²³⁴⁵⁶⁷⁸⁹⁻".chars().zip("0123456789-".chars()).find(|(sign, _)| *sign == next).map(|(_, plain)| plain)
        }
    };
    let exponent: String = digits.chars().map_while(plain).collect();
    let length = digits.chars().take_while(|next| plain(*next).is_some()).map(char::len_utf8).sum();
    exponent.parse::<i32>().ok()?;
    Some((exponent, &digits[length..]))
}

/// The number and the unit. The number ends at the first letter or sign that cannot be part of one.
fn split(text: &str) -> (&str, &str) {
    let exponent = |at: usize| {
        let after = text[at + 1..].strip_prefix(['-', '+']).unwrap_or(&text[at + 1..]);
        let before = text[..at].ends_with(|last: char| last.is_ascii_digit());
        before && after.starts_with(|next: char| next.is_ascii_digit())
    };
    let grouping = |at: usize| {
        let digit = |next: char| next.is_ascii_digit();
        text[..at].ends_with(digit) && text[at + 1..].starts_with(digit)
    };
    let end = text.char_indices().find(|(at, next)| match next {
        '0'..='9' | '.' | ',' | ' ' | '/' | '+' | '-' => false,
        'e' | 'E' => !exponent(*at),
        '\'' => !grouping(*at),
        _ => true,
    });
    let (number, unit) = text.split_at(end.map_or(text.len(), |(at, _)| at));
    let at = if unit.is_empty() { number.len() } else { before_per(number) };
    (text[..at].trim(), text[at..].trim())
}

/// Where a number ends before the `1/` or the `/` of its unit: `40 1/min`, `40/min`.
fn before_per(number: &str) -> usize {
    let short = number.trim_end();
    let one = short.strip_suffix("1/").filter(|whole| whole.ends_with(' ') && !whole.trim().is_empty());
    let slash =
        || short.strip_suffix('/').filter(|whole| whole.ends_with(|last: char| last.is_ascii_digit() || last == ' '));
    one.or_else(slash).map_or(number.len(), str::len)
}

fn number_of(text: &str, mark: DecimalMark) -> Result<f64, Unread> {
    let (sign, text) = match text.strip_prefix('-') {
        Some(rest) => ("-", rest.trim_start()),
        None => ("", text.strip_prefix('+').map_or(text, str::trim_start)),
    };
    let text = without_stop(text);
    let (digits, exponent) = text.split_once(['e', 'E']).unwrap_or((text, "0"));
    let value = if text.contains('/') {
        fraction(text).ok_or(Unread::Not)?
    } else {
        exponent.parse::<i32>().map_err(|_| Unread::Not)?;
        let exponent = &text[digits.len()..];
        let digits = ungrouped(digits, mark).map_err(|unread| unread.completed(sign, exponent))?;
        decimal(&digits, exponent).ok_or(Unread::Not)?
    };
    Ok(if sign.is_empty() { value } else { -value })
}

impl Unread {
    /// The readings with the sign and the exponent that were typed.
    fn completed(self, sign: &str, exponent: &str) -> Self {
        match self {
            Self::Not => Self::Not,
            Self::Ambiguous(readings) => Self::Ambiguous(readings.map(|digits| format!("{sign}{digits}{exponent}"))),
        }
    }
}

/// The text without the full stop, or the comma, of the sentence that it ends.
fn without_stop(text: &str) -> &str {
    let short = text.strip_suffix(['.', ',']).unwrap_or(text);
    if short.ends_with(|last: char| last.is_ascii_digit()) { short } else { text }
}

/// The number nearest to digits with a point and an exponent. One that is too great or too small to be kept is none.
fn decimal(digits: &str, exponent: &str) -> Option<f64> {
    let value = relief::nearest(&format!("{digits}{exponent}"))?;
    let lost = value == 0.0 && digits.bytes().any(|byte| (b'1'..=b'9').contains(&byte));
    (value.is_finite() && !lost).then_some(value)
}

/// `3/8`, `1 3/8` or `1-3/8`. `1 - 3/8` could be meant as a subtraction, and `1 200/3` as a grouped number: behind a whole
/// number only a fraction below one is read.
fn fraction(text: &str) -> Option<f64> {
    let front = text.split('/').next()?.trim_end();
    if front.starts_with(['-', '+']) {
        return None;
    }
    let (whole, upper) = front.rsplit_once([' ', '-']).unwrap_or(("", front));
    if whole.ends_with([' ', '-']) && front.contains('-') {
        return None;
    }
    let (value, _) = Exact::parse(text).ok()?;
    let part = Exact::parse(&text[front.len() - upper.len()..]).ok()?.0.to_f64();
    (whole.is_empty() || part < 1.0).then(|| value.to_f64())
}

/// The digits with a point as decimal mark and without grouping.
fn ungrouped(text: &str, mark: DecimalMark) -> Result<String, Unread> {
    let text = groups(text, [' ', '\'']).ok_or(Unread::Not)?;
    let found = |sign: char| text.matches(sign).count();
    let plain = |decimal: char, group: char| {
        let whole = text.split(decimal).next().unwrap_or_default();
        let part = &text[whole.len()..];
        let whole = groups(whole, [group, group]).filter(|_| !part.contains(group));
        whole.map(|whole| format!("{whole}{}", part.replace(decimal, "."))).ok_or(Unread::Not).and_then(checked)
    };
    match (found('.'), found(',')) {
        (0, 0) => checked(text),
        (1, 0) => single(&text, '.', mark),
        (0, 1) => single(&text, ',', mark),
        (1, _) if text.rfind('.') > text.rfind(',') => plain('.', ','),
        (_, 1) if text.rfind(',') > text.rfind('.') => plain(',', '.'),
        (0, _) => groups(&text, [',', ',']).ok_or(Unread::Not).and_then(checked),
        (_, 0) => groups(&text, ['.', '.']).ok_or(Unread::Not).and_then(checked),
        _ => Err(Unread::Not),
    }
}

/// One mark: the decimal mark of the course is what it is; the other mark is ambiguous where it could group thousands.
fn single(text: &str, sign: char, mark: DecimalMark) -> Result<String, Unread> {
    let decimal = checked(text.replace(sign, "."));
    let (whole, part) = text.split_once(sign).unwrap_or((text, ""));
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    let may_group =
        part.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0') && digits(whole) && digits(part);
    if sign == mark.sign() || !may_group {
        return decimal;
    }
    Err(Unread::Ambiguous([format!("{whole}{part}"), format!("{whole}{}{part}", mark.sign())]))
}

/// The digits without grouping signs; `None` where the groups are not of three digits.
fn groups(text: &str, signs: [char; 2]) -> Option<String> {
    if !text.contains(signs) {
        return Some(text.to_owned());
    }
    let (whole, part) = text.find(['.', ',']).filter(|_| signs[0] == ' ').map_or((text, ""), |at| text.split_at(at));
    let mut pieces = whole.split(signs);
    let first = pieces.next().filter(|first| (1..=3).contains(&first.len()) && !first.starts_with('0'))?;
    let rest: Vec<&str> = pieces.collect();
    rest.iter().all(|piece| piece.len() == 3).then(|| format!("{first}{}{part}", rest.concat()))
}

fn checked(text: String) -> Result<String, Unread> {
    let digits = text.bytes().filter(u8::is_ascii_digit).count();
    let marks = text.bytes().filter(|byte| *byte == b'.').count();
    if digits > 0 && marks <= 1 && digits + marks == text.len() { Ok(text) } else { Err(Unread::Not) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn number(text: &str) -> (f64, &'static str) {
        match read(text, DecimalMark::Point) {
            Reading::Number(value, unit) => (value, unit.map_or("", |unit| unit.symbol)),
            other => panic!("{text}: {other:?}"),
        }
    }

    #[test]
    fn answers_are_read_as_people_type_them() {
        let cases: &[(&str, f64, &str)] = &[
            ("4.75 in2", 4.75, "in2"),
            ("4,75 in²", 4.75, "in2"),
            ("1 3/8\"", 1.375, "in"),
            ("1-3/8 in", 1.375, "in"),
            ("1⅜ in", 1.375, "in"),
            ("3/8", 0.375, ""),
            ("1.2e3 kPa", 1200.0, "kPa"),
            ("1.2×10³ kPa", 1200.0, "kPa"),
            ("1.2 x 10^3 kPa", 1200.0, "kPa"),
            ("1.2E-3", 0.0012, ""),
            ("25psi", 25.0, "psi"),
            ("= 25 PSI.", 25.0, "psi"),
            ("1 200 kPa", 1200.0, "kPa"),
            ("1,200.5", 1200.5, ""),
            ("1.200,5", 1200.5, ""),
            ("1,234,567", 1_234_567.0, ""),
            ("1'200", 1200.0, ""),
            ("−3 turns", -3.0, "turn"),
            ("+7.5 %", 7.5, "%"),
            (".5 in", 0.5, "in"),
            ("5'", 5.0, "ft"),
            ("10 percent", 10.0, "%"),
            ("620 pounds per inch", 620.0, "lbf/in"),
            ("0,125", 0.125, ""),
            ("1.125", 1.125, ""),
        ];
        for (text, value, unit) in cases {
            let (found, found_unit) = number(text);
            assert!((found - value).abs() < 1e-12, "{text}: {found}");
            assert_eq!(found_unit, *unit, "{text}");
        }
    }

    #[test]
    fn figures_are_counted_as_they_were_typed() {
        for (text, step, figures) in [
            ("0.458 in2", 1e-3, 3),
            ("0.0450", 1e-4, 3),
            ("3497", 1.0, 4),
            ("3500", 10.0, 3),
            ("12000 lb/h", 100.0, 3),
            ("10 psi", 1.0, 2),
            ("100", 1.0, 3),
            ("1.20e3 kPa", 10.0, 3),
            ("1 200", 10.0, 3),
            ("-4.5", 0.1, 2),
            ("3/8 in", 0.0, 6),
        ] {
            let found = precision(text, DecimalMark::Point);
            assert!((found.step - step).abs() < 1e-12 && found.figures == figures, "{text}: {found:?}");
        }
    }

    #[test]
    fn what_could_be_two_numbers_is_asked_about() {
        let readings = |one: &str, two: &str| Reading::Ambiguous([one.to_owned(), two.to_owned()]);
        assert_eq!(read("1,234 psi", DecimalMark::Point), readings("1234 psi", "1.234 psi"));
        assert_eq!(read("-1.234", DecimalMark::Comma), readings("-1234", "-1,234"));
        assert_eq!(number("1.234").0.to_bits(), 1.234f64.to_bits());
        assert_eq!(read("1,234", DecimalMark::Comma), Reading::Number(1.234, None));
    }

    #[test]
    fn what_is_no_number_is_not_guessed_at() {
        for text in ["abc", "psi", "12 34", "1.2.3", "1,2,3", "--3", "1/0", "1e999", "1/2/3", "e5", "/", "-"] {
            assert_eq!(read(text, DecimalMark::Point), Reading::Unreadable, "{text}");
        }
        assert_eq!(read("  ", DecimalMark::Point), Reading::Blank);
        assert_eq!(read("5 furlongs", DecimalMark::Point), Reading::UnknownUnit("furlongs".to_owned()));
        assert_eq!(read(&"9".repeat(1000), DecimalMark::Point), Reading::Unreadable);
    }
}
