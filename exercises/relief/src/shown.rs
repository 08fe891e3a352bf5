//! Numbers as people read them: so many significant figures, rounded to the nearest or to the safe side.

use crate::exact::nearest;

/// How a number is rounded when it is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rounding {
    /// To the nearest.
    Nearest,
    /// To the larger number: for a size that must not be too small.
    Up,
    /// To the smaller number: for a limit that must not be passed.
    Down,
}

/// `value` with `figures` significant figures, without trailing zeros after the decimal mark `.`; whole numbers are
/// never shortened by more than their places after the mark. A value that is not finite is written as `?`.
#[must_use]
pub fn shown(value: f64, figures: u8, rounding: Rounding) -> String {
    if !value.is_finite() {
        return "?".to_owned();
    }
    let places = places_for(value, figures);
    let text = at_places(value, places, rounding);
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// The number that [`shown`] writes.
#[must_use]
pub fn round_to_figures(value: f64, figures: u8, rounding: Rounding) -> f64 {
    nearest(&shown(value, figures, rounding)).unwrap_or(value)
}

/// Places after the mark so that the first digit of `value` is the first of `figures`. The scientific form is used to
/// find the first digit, since it is rounded correctly on every target.
fn places_for(value: f64, figures: u8) -> usize {
    let text = format!("{:.*e}", usize::from(figures.max(1)) - 1, value.abs());
    let exponent: i32 = text.split_once('e').and_then(|(_, power)| power.parse().ok()).unwrap_or(0);
    usize::try_from((i32::from(figures) - 1 - exponent).max(0)).unwrap_or(0)
}

/// Rounds in steps of the last place. A value within a billionth of the printed one is taken as that one, so that the
/// last bits of a conversion never push a whole number to the next step.
fn at_places(value: f64, places: usize, rounding: Rounding) -> String {
    let step = libm::pow(10.0, -f64::from(u32::try_from(places).unwrap_or(0)));
    // A half goes up, as people are taught, even where a conversion has left it a few bits short.
    let nudge = value.abs() * 1e-12;
    let raised = if nudge < step / 1000.0 { value + nudge.copysign(value) } else { value };
    let text = format!("{raised:.places$}");
    if rounding == Rounding::Nearest {
        return text;
    }
    let printed = nearest(&text).unwrap_or(value);
    let close = (printed - value).abs() <= value.abs() * 1e-9;
    match rounding {
        Rounding::Up if !close && printed < value => format!("{:.places$}", printed + step),
        Rounding::Down if !close && printed > value => format!("{:.places$}", printed - step),
        _ => text,
    }
}

#[cfg(test)]
mod tests {
    use super::{Rounding::*, *};

    #[test]
    fn figures_are_significant_ones() {
        assert_eq!(shown(31.847_133_76, 4, Nearest), "31.85");
        assert_eq!(shown(0.012_345_6, 3, Nearest), "0.0123");
        assert_eq!(shown(1234.56, 4, Nearest), "1235");
        assert_eq!(shown(123_456.0, 4, Nearest), "123456");
        assert_eq!(shown(9.9996, 4, Nearest), "10");
        assert_eq!(shown(2.8125, 4, Nearest), "2.813");
        assert_eq!(shown(2.812_499_999_999_999, 4, Nearest), "2.813");
        assert_eq!(shown(-2.8125, 4, Nearest), "-2.813");
        assert_eq!(shown(2.812_499_999_999_999, 16, Nearest), "2.812499999999999");
        assert_eq!(shown(10.0, 4, Nearest), "10");
        assert_eq!(shown(-0.000_000_1, 1, Nearest), "-0.0000001");
        assert_eq!(shown(0.0, 4, Nearest), "0");
    }

    #[test]
    fn the_safe_side_is_kept() {
        assert_eq!(shown(4.7512, 3, Up), "4.76");
        assert_eq!(shown(4.7512, 3, Down), "4.75");
        assert_eq!(shown(4.7588, 3, Down), "4.75");
        assert_eq!(shown(10.000_000_000_000_2, 4, Up), "10");
        assert_eq!(shown(9.999_999_999_999_9, 4, Down), "10");
    }
}
