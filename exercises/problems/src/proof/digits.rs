//! Digits that nobody would write: a learner never meets a lift of 0.2708333 in in a workshop.

use faults::Code;
use relief::Style;

use super::found::{Found, found};
use crate::facts::GivenValue;
use crate::recipe::{Given, Source};

/// The most significant figures of a number that is derived or computed.
const MOST_FIGURES: usize = 5;
/// The most of one that its author wrote: 101.325 kPa is a number that people do write.
const MOST_WRITTEN: usize = 6;
/// The most digits in all, with leading and trailing zeros.
const MOST_DIGITS: usize = 9;
/// The finest fraction that is marked on a rule.
const FINEST_FRACTION: u32 = 64;

/// Whether a drawn value is written as people write numbers.
pub(super) fn given(source: &Source, given: &GivenValue) -> Result<(), Found> {
    let (style, most) = match source {
        Source::Range { measure, .. } => (measure.style, MOST_WRITTEN),
        Source::From { measure, .. } => (measure.style, MOST_FIGURES),
        Source::Choose(options) => match options.first() {
            Some(Given::Quantity { measure, .. }) => (measure.style, MOST_WRITTEN),
            _ => return Ok(()),
        },
    };
    // A choice may mix fractions and decimals.
    let fits = if style == Style::Mixed || given.value.contains('/') {
        fraction_fits(&given.value)
    } else {
        decimal_fits(&given.value, most)
    };
    if fits {
        return Ok(());
    }
    Err(found(Code::ProofAbsurdDigits, [("part", given.name.clone()), ("found", given.text.clone())]))
}

/// Whether a right answer is written as people write numbers.
pub(super) fn answer(shown: &str) -> Result<(), Found> {
    let number = shown.split('\u{a0}').next().unwrap_or(shown);
    let fits = number.contains('/') || decimal_fits(number, MOST_WRITTEN);
    if fits { Ok(()) } else { Err(found(Code::ProofAbsurdDigits, [("found", shown.to_owned())])) }
}

fn decimal_fits(text: &str, most: usize) -> bool {
    let digits = text.chars().filter(char::is_ascii_digit).count();
    digits <= MOST_DIGITS && figures(text) <= most
}

fn fraction_fits(text: &str) -> bool {
    let lower = text.split_once('/').and_then(|(_, lower)| lower.parse().ok()).unwrap_or(1);
    lower <= FINEST_FRACTION && text.len() <= MOST_DIGITS
}

/// The significant figures of a decimal number; the zeros at the end of a whole one are taken as not significant.
fn figures(text: &str) -> usize {
    let digits: String = text.chars().filter(char::is_ascii_digit).collect();
    let digits = digits.trim_start_matches('0');
    if text.contains('.') { digits.len() } else { digits.trim_end_matches('0').len() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_counted_as_people_count_them() {
        for (text, expected) in [("0.0450", 3), ("1200", 2), ("101.325", 6), ("-12.5", 3), ("0", 0), ("100.0", 4)] {
            assert_eq!(figures(text), expected, "{text}");
        }
    }

    #[test]
    fn absurd_digits_are_seen() {
        assert!(decimal_fits("11500000", MOST_WRITTEN) && !decimal_fits("0.2708333", MOST_WRITTEN));
        assert!(!decimal_fits("0.0000000012", MOST_WRITTEN));
        assert!(fraction_fits("1 3/64") && !fraction_fits("1 3/128"));
        assert!(answer("12\u{a0}in").is_ok() && answer("12.345678\u{a0}in").is_err());
    }
}
