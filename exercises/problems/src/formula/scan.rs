//! Text of a formula to tokens with their places.

use core::ops::Range;

use faults::Code;
use relief::{Exact, Style, units};

use super::fault::FormulaFault;

/// One token.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Token {
    /// A number with the unit that follows it.
    Number { value: Exact, style: Style, unit: Option<&'static units::Unit> },
    /// A name: a draw, a relation, an input, a choice.
    Name(String),
    /// A text in quotation marks.
    Text(String),
    /// A sign: one of `+ - * / ( ) , :` or a comparison.
    Sign(&'static str),
}

/// A token and its bytes in the text.
pub(super) type Spanned = (Token, Range<usize>);

const SIGNS: &[&str] =
    &[".", ">=", "<=", "!=", "**", "+", "-", "*", "/", "^", "(", ")", ",", ":", ">", "<", "=", "×", "·", "−", "≥", "≤"];

/// Powers that are written as one raised digit.
const RAISED: [(&str, &str); 2] = [("²", "2"), ("³", "3")];

/// Splits a formula into tokens.
pub(super) fn scan(text: &str) -> Result<Vec<Spanned>, FormulaFault> {
    let mut tokens = Vec::new();
    let mut at = 0;
    while let Some(next) = text[at..].chars().next() {
        if next.is_whitespace() {
            at += next.len_utf8();
            continue;
        }
        if let Some((sign, digit)) = RAISED.into_iter().find(|(sign, _)| text[at..].starts_with(sign)) {
            let span = at..at + sign.len();
            let value = Exact::parse(digit).map_or(Exact::ZERO, |(value, _)| value);
            tokens.push((Token::Sign("^"), span.clone()));
            tokens.push((Token::Number { value, style: Style::Decimal(0), unit: None }, span.clone()));
            at = span.end;
            continue;
        }
        let (token, length) = token(&text[at..], tokens.last().map(|(token, _)| token))
            .map_err(|code| FormulaFault::at(code, at..at + next.len_utf8()).with("found", next))?;
        tokens.push((token, at..at + length));
        at += length;
    }
    Ok(tokens)
}

fn token(rest: &str, before: Option<&Token>) -> Result<(Token, usize), Code> {
    let point = rest.strip_prefix('.').is_some_and(|after| after.starts_with(|next: char| next.is_ascii_digit()));
    if point || rest.starts_with(|next: char| next.is_ascii_digit()) {
        return number(rest, before);
    }
    if let Some(quote) = rest.chars().next().filter(|first| ['"', '\''].contains(first)) {
        let text = rest[1..].split_once(quote).map(|(text, _)| text).ok_or(Code::FormulaQuote)?;
        return Ok((Token::Text(text.trim().to_owned()), text.len() + 2));
    }
    if let Some(sign) = SIGNS.iter().find(|sign| rest.starts_with(**sign)) {
        return Ok((Token::Sign(plain_sign(sign)), sign.len()));
    }
    if rest.starts_with('π') {
        return Ok((Token::Name("pi".to_owned()), 'π'.len_utf8()));
    }
    let length = rest.find(|next: char| !next.is_ascii_alphanumeric() && next != '_').unwrap_or(rest.len());
    if length == 0 { Err(Code::FormulaCharacter) } else { Ok((Token::Name(rest[..length].to_owned()), length)) }
}

fn plain_sign(sign: &'static str) -> &'static str {
    match sign {
        "×" | "·" => "*",
        "−" => "-",
        "**" => "^",
        "≥" => ">=",
        "≤" => "<=",
        other => other,
    }
}

/// A number, a fraction or a mixed number, and the unit after it. `1/4` between two numbers is a fraction only where a
/// unit follows or nothing that could be divided comes before it; the value is the same in both cases. Beside a power it is a
/// division, of which the power is worked first.
fn number(rest: &str, before: Option<&Token>) -> Result<(Token, usize), Code> {
    let digits = digits(rest);
    let divides = matches!(before, Some(Token::Sign("/" | "^")));
    let fraction = (!divides).then(|| fraction(rest, digits)).flatten();
    let fraction = fraction.filter(|length| !rest[*length..].trim_start().starts_with(['^', '²', '³']));
    let length = fraction.unwrap_or(digits);
    let (value, style) = Exact::parse(&rest[..length]).map_err(|_| Code::FormulaNumber)?;
    let gap = rest[length..].len() - rest[length..].trim_start().len();
    let (unit, unit_length) = units::beginning(&rest[length + gap..], gap > 0).unzip();
    if unit.is_none() && rest[length..].starts_with(|next: char| next.is_ascii_alphabetic()) {
        // A choice may begin with a digit: `at: 100F`. With a decimal mark it is a number and a wrong ending.
        if rest[..length].contains('.') {
            return Err(Code::FormulaNumber);
        }
        let end = rest.find(|next: char| !next.is_ascii_alphanumeric()).unwrap_or(rest.len());
        return Ok((Token::Name(rest[..end].to_owned()), end));
    }
    Ok((Token::Number { value, style, unit }, length + unit_length.map_or(0, |unit| gap + unit)))
}

fn digits(rest: &str) -> usize {
    rest.find(|next: char| !next.is_ascii_digit() && next != '.').unwrap_or(rest.len())
}

/// The length of `3/8` or `1 3/8` at the start of `rest`, where a unit or the end of the number follows.
fn fraction(rest: &str, whole: usize) -> Option<usize> {
    let simple = |start: usize| {
        let slash = start + digits(&rest[start..]);
        let lower = rest[slash..].strip_prefix('/').map(digits).filter(|length| *length > 0)?;
        let text = &rest[start..slash + 1 + lower];
        (slash > start && !text.contains('.')).then_some(slash + 1 + lower)
    };
    let gap = rest[whole..].len() - rest[whole..].trim_start_matches(' ').len();
    simple(0).or_else(|| (gap > 0).then(|| simple(whole + gap)).flatten())
}
