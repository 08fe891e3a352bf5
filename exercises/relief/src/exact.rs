//! Exact numbers: what an author wrote or a draw gave, kept as a fraction and converted to binary once.

use core::cmp::Ordering;

/// A fraction in lowest terms; the denominator is positive.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Exact {
    numerator: i64,
    denominator: i64,
}

/// How an exact number is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Style {
    /// With a decimal mark and so many places.
    Decimal(u8),
    /// As a mixed number: `1 1/4`.
    Mixed,
}

/// Why a text is not an exact number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ExactError {
    /// Not a number at all.
    NotANumber,
    /// More digits than an exact number can keep (about eighteen).
    TooLong,
    /// The lower part of a fraction is zero.
    ZeroDenominator,
}

impl Exact {
    /// Zero.
    pub const ZERO: Self = Self { numerator: 0, denominator: 1 };

    /// `numerator / denominator` in lowest terms.
    ///
    /// # Errors
    /// [`ExactError::ZeroDenominator`], or [`ExactError::TooLong`] where it does not fit.
    pub fn new(numerator: i128, denominator: i128) -> Result<Self, ExactError> {
        if denominator == 0 {
            return Err(ExactError::ZeroDenominator);
        }
        let divisor = greatest_common_divisor(numerator.unsigned_abs(), denominator.unsigned_abs());
        let divisor = i128::try_from(divisor).map_err(|_| ExactError::TooLong)? * denominator.signum();
        // The lowest i64 is left out, so that the sign of every exact number can be changed.
        let fit = |part: i128| i64::try_from(part / divisor).ok().filter(|part| *part > i64::MIN);
        let fit = |part| fit(part).ok_or(ExactError::TooLong);
        Ok(Self { numerator: fit(numerator)?, denominator: fit(denominator)? })
    }

    /// Reads `12`, `-0.25`, `3/8` or `1 3/8`, with `.` as the decimal mark, and says how it was written.
    ///
    /// # Errors
    /// [`ExactError`], by its rule.
    pub fn parse(text: &str) -> Result<(Self, Style), ExactError> {
        let text = text.trim();
        let (negative, text) = match text.strip_prefix('-') {
            Some(rest) => (true, rest.trim_start()),
            None => (false, text.strip_prefix('+').unwrap_or(text)),
        };
        let (value, style) = if text.contains('/') { (mixed(text)?, Style::Mixed) } else { decimal(text)? };
        Ok((if negative { value.negated() } else { value }, style))
    }

    /// The upper part.
    #[must_use]
    pub const fn numerator(self) -> i64 {
        self.numerator
    }

    /// The lower part, positive.
    #[must_use]
    pub const fn denominator(self) -> i64 {
        self.denominator
    }

    /// The nearest binary number. Both parts are below 2⁵³ in everything the product draws, so this rounds once.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "rounding to the nearest is what is wanted")]
    pub fn to_f64(self) -> f64 {
        self.numerator as f64 / self.denominator as f64
    }

    /// The number with its sign changed.
    #[must_use]
    pub const fn negated(self) -> Self {
        Self { numerator: -self.numerator, denominator: self.denominator }
    }

    /// `self + step * count`.
    ///
    /// # Errors
    /// [`ExactError::TooLong`] where it does not fit.
    pub fn plus_steps(self, step: Self, count: i64) -> Result<Self, ExactError> {
        let (a, b) = (i128::from(self.numerator), i128::from(self.denominator));
        let (c, d) = (i128::from(step.numerator), i128::from(step.denominator));
        let product = c.checked_mul(i128::from(count)).and_then(|c| c.checked_mul(b)).ok_or(ExactError::TooLong)?;
        let sum = a.checked_mul(d).and_then(|ad| ad.checked_add(product)).ok_or(ExactError::TooLong)?;
        Self::new(sum, b * d)
    }

    /// How many steps lead from here to `end`: `None` where the step is not positive, the end lies before the start, or
    /// the steps do not reach it exactly.
    #[must_use]
    pub fn steps_to(self, end: Self, step: Self) -> Option<i64> {
        let gap = end.plus_steps(self, -1).ok()?;
        if step.numerator <= 0 || gap.numerator < 0 {
            return None;
        }
        let quotient = Self::new(
            i128::from(gap.numerator) * i128::from(step.denominator),
            i128::from(gap.denominator) * i128::from(step.numerator),
        );
        quotient.ok().filter(|count| count.denominator == 1).map(|count| count.numerator)
    }

    /// The number as text in a style: `1.50`, `1 1/4`. A fraction that has no such decimal is rounded to the nearest.
    #[must_use]
    pub fn text(self, style: Style) -> String {
        let (sign, upper) = (if self.numerator < 0 { "-" } else { "" }, self.numerator.unsigned_abs());
        let lower = self.denominator.unsigned_abs();
        match style {
            Style::Decimal(places) => format!("{sign}{}", decimal_text(upper, lower, places)),
            Style::Mixed if lower == 1 => format!("{sign}{upper}"),
            Style::Mixed if upper < lower => format!("{sign}{upper}/{lower}"),
            Style::Mixed => format!("{sign}{} {}/{lower}", upper / lower, upper % lower),
        }
    }
}

impl Ord for Exact {
    /// By value: in 128 bits the cross products cannot overflow.
    fn cmp(&self, other: &Self) -> Ordering {
        let one = i128::from(self.numerator) * i128::from(other.denominator);
        one.cmp(&(i128::from(other.numerator) * i128::from(self.denominator)))
    }
}

impl PartialOrd for Exact {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Style {
    /// The style in which both a start and its steps can be written.
    #[must_use]
    pub fn joined(self, other: Self) -> Self {
        match (self, other) {
            (Self::Decimal(a), Self::Decimal(b)) => Self::Decimal(a.max(b)),
            _ => Self::Mixed,
        }
    }
}

/// The number in a decimal text such as `-0.0125` or `1.2e-3`; `None` where the text is not a number, or one that is too
/// great or too small.
///
/// It is the nearest binary number for up to fifteen digits and powers of ten up to 22; beyond, it may be a few of the last
/// bits away. The library's own reader carries ten thousand bytes of powers to be right there too, which the engine in
/// the browser has no room for.
#[must_use]
pub fn nearest(text: &str) -> Option<f64> {
    let (text, negative) = text.strip_prefix('-').map_or((text, false), |rest| (rest, true));
    let (digits, exponent) = text.split_once(['e', 'E']).unwrap_or((text, "0"));
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let all = || whole.bytes().chain(part.bytes());
    if all().next().is_none() || !all().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let exponent: i32 = exponent.strip_prefix('+').unwrap_or(exponent).parse().ok()?;
    let (mut mantissa, mut dropped) = (0_u64, 0_i32);
    for byte in all() {
        match mantissa.checked_mul(10).and_then(|tens| tens.checked_add(u64::from(byte - b'0'))) {
            Some(next) if dropped == 0 => mantissa = next,
            _ => dropped += 1,
        }
    }
    let power = exponent.checked_add(dropped)?.checked_sub(i32::try_from(part.len()).ok()?)?;
    #[expect(clippy::cast_precision_loss, reason = "rounding to the nearest is what is wanted")]
    let value = scaled(mantissa as f64, power);
    let lost = value == 0.0 && mantissa > 0;
    (value.is_finite() && !lost).then_some(if negative { -value } else { value })
}

/// A number times a power of ten. Powers up to 22 are exact.
fn scaled(value: f64, power: i32) -> f64 {
    const EXACT: i32 = 22;
    let ten = |power: i32| (0..power).fold(1.0_f64, |ten, _| ten * 10.0);
    let (mut value, mut left) = (value, power.clamp(-400, 400));
    while left != 0 && value != 0.0 && value.is_finite() {
        let step = left.clamp(-EXACT, EXACT);
        value = if step > 0 { value * ten(step) } else { value / ten(-step) };
        left -= step;
    }
    value
}

fn decimal_text(upper: u64, lower: u64, places: u8) -> String {
    let scale = 10u128.pow(u32::from(places.min(18)));
    let scaled = (u128::from(upper) * scale * 2 + u128::from(lower)) / (u128::from(lower) * 2);
    let (whole, part) = (scaled / scale, scaled % scale);
    match places {
        0 => whole.to_string(),
        _ => format!("{whole}.{part:0width$}", width = usize::from(places.min(18))),
    }
}

fn decimal(text: &str) -> Result<(Exact, Style), ExactError> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = |piece: &str| piece.bytes().all(|byte| byte.is_ascii_digit());
    if whole.len() + part.len() == 0 || !digits(whole) || !digits(part) {
        return Err(ExactError::NotANumber);
    }
    let places = u8::try_from(part.len()).ok().filter(|places| *places <= 18).ok_or(ExactError::TooLong)?;
    let numerator: i128 = format!("{whole}{part}").parse().map_err(|_| ExactError::TooLong)?;
    Ok((Exact::new(numerator, 10i128.pow(u32::from(places)))?, Style::Decimal(places)))
}

fn mixed(text: &str) -> Result<Exact, ExactError> {
    let (front, lower) = text.split_once('/').ok_or(ExactError::NotANumber)?;
    let front = front.trim_end();
    let (whole, upper) = front.rsplit_once([' ', '-']).unwrap_or(("0", front));
    let [whole, upper, lower] = [whole, upper, lower].map(|piece| count(piece.trim()));
    let (whole, upper, lower) = (whole?, upper?, lower?);
    let total = whole.checked_mul(lower).and_then(|part| part.checked_add(upper)).ok_or(ExactError::TooLong)?;
    Exact::new(total, lower)
}

fn count(text: &str) -> Result<i128, ExactError> {
    if text.is_empty() || !text.bytes().all(|byte| byte.is_ascii_digit()) {
        return Err(ExactError::NotANumber);
    }
    if text.len() > 18 { Err(ExactError::TooLong) } else { text.parse().map_err(|_| ExactError::TooLong) }
}

fn greatest_common_divisor(mut a: u128, mut b: u128) -> u128 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a.max(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Exact {
        Exact::parse(text).expect(text).0
    }

    #[test]
    fn numbers_are_kept_as_written() {
        for text in ["12", "0.25", "1.50", "-3.5", "3/8", "1 3/8", "-1 1/4"] {
            let (value, style) = Exact::parse(text).expect(text);
            assert_eq!(value.text(style), text);
        }
    }

    #[test]
    fn what_is_not_a_number_is_refused() {
        for text in ["", "-", ".", "1.2.3", "1,5", "a", "1/", "/2", "1 2", "1/2/3", "--1"] {
            assert!(Exact::parse(text).is_err(), "{text}");
        }
        assert_eq!(Exact::parse("1/0"), Err(ExactError::ZeroDenominator));
        assert_eq!(Exact::parse("12345678901234567890123"), Err(ExactError::TooLong));
    }

    #[test]
    fn steps_are_counted_exactly() {
        assert_eq!(read("1").steps_to(read("3"), read("1/4")), Some(8));
        assert_eq!(read("0.1").steps_to(read("0.7"), read("0.2")), Some(3));
        assert_eq!(read("1").steps_to(read("3"), read("0.3")), None);
        assert_eq!(read("3").steps_to(read("1"), read("1")), None);
        assert_eq!(read("1").plus_steps(read("1/4"), 3), Ok(read("1 3/4")));
    }

    #[test]
    fn fractions_are_in_the_order_of_their_values() {
        assert!(read("1.1") < read("1.5") && read("1/3") < read("0.34") && read("-2") < Exact::ZERO);
    }

    #[test]
    fn decimal_texts_are_read_to_the_nearest_number() {
        for text in
            ["0", "0.1", "-0.25", "1234.5", "1.2e3", "1.2E-3", "101.325", "9.99999999999999", "1e22", ".5", "5."]
        {
            let expected: f64 = text.parse().expect(text);
            assert_eq!(nearest(text).map(f64::to_bits), Some(expected.to_bits()), "{text}");
        }
        for text in ["1e300", "1e-300", "123456789012345678901234567890", "0.1234567890123456789"] {
            let expected: f64 = text.parse().expect(text);
            assert!(nearest(text).is_some_and(|value| (value / expected - 1.0).abs() < 1e-14), "{text}");
        }
        for text in ["", "-", ".", "e5", "1e", "1.2.3", "1e999", "1e-999", "--1", "0x1", "1e99999999999"] {
            assert_eq!(nearest(text), None, "{text}");
        }
    }

    #[test]
    fn conversion_rounds_once() {
        assert_eq!(read("0.1").to_f64().to_bits(), 0.1f64.to_bits());
        assert_eq!(read("1/3").to_f64().to_bits(), (1.0f64 / 3.0).to_bits());
    }
}
