//! Colours, and whether they can be read on the grounds of the two looks: the contrast of WCAG 2.2 (1.4.3).

use std::fmt::{self, Display, Formatter};

/// The least contrast of text (WCAG 2.2, 1.4.3).
const LEAST: f64 = 4.5;

/// A colour: red, green and blue.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Colour([u8; 3]);

/// What is behind text in one of the two looks.
pub(crate) struct Ground {
    /// The look, as authors name it.
    pub(crate) name: &'static str,
    /// The sheet, and the panels on it, as `theme/styles/sheet.css` has them.
    grounds: [Colour; 2],
    /// What a colour that is too faint is mixed with.
    towards: Colour,
}

impl Colour {
    /// Reads `#a33a12`.
    pub(crate) fn read(text: &str) -> Option<Self> {
        let digits = text.strip_prefix('#').filter(|digits| digits.len() == 6 && digits.is_ascii())?;
        let part = |at: usize| u8::from_str_radix(digits.get(at..at + 2)?, 16).ok();
        digits.bytes().all(|byte| byte.is_ascii_hexdigit()).then_some(())?;
        Some(Self([part(0)?, part(2)?, part(4)?]))
    }

    /// How bright it is, from 0 to 1.
    fn luminance(self) -> f64 {
        let [red, green, blue] = self.0.map(linear);
        0.2126 * red + 0.7152 * green + 0.0722 * blue
    }

    fn contrast(self, other: Self) -> f64 {
        let (one, other) = (self.luminance(), other.luminance());
        (one.max(other) + 0.05) / (one.min(other) + 0.05)
    }

    /// Mixed with another, so many parts of 255.
    fn mixed(self, other: Self, parts: u32) -> Self {
        let mixed = |(one, other): (u8, u8)| (u32::from(one) * (255 - parts) + u32::from(other) * parts) / 255;
        let [red, green, blue] = self.0;
        let [to_red, to_green, to_blue] = other.0;
        let all = [(red, to_red), (green, to_green), (blue, to_blue)];
        Self(all.map(|pair| u8::try_from(mixed(pair)).unwrap_or(u8::MAX)))
    }
}

/// A part of a colour in light, from 0 to 1 (sRGB, as WCAG 2.2 states it).
fn linear(part: u8) -> f64 {
    let share = f64::from(part) / 255.0;
    if share <= 0.04045 { share / 12.92 } else { libm::pow((share + 0.055) / 1.055, 2.4) }
}

impl Display for Colour {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        let [red, green, blue] = self.0;
        write!(f, "#{red:02x}{green:02x}{blue:02x}")
    }
}

impl Ground {
    /// The grounds of both looks.
    pub(crate) const BOTH: [Self; 2] = [
        Self {
            name: "paper",
            grounds: [Colour([0xfb, 0xfa, 0xf5]), Colour([0xee, 0xf1, 0xf2])],
            towards: Colour([0, 0, 0]),
        },
        Self {
            name: "blueprint",
            grounds: [Colour([0x0f, 0x2a, 0x47]), Colour([0x15, 0x35, 0x57])],
            towards: Colour([255, 255, 255]),
        },
    ];

    /// The contrast of a colour with the ground on which it shows least.
    pub(crate) fn contrast(&self, colour: Colour) -> f64 {
        self.grounds.iter().map(|ground| ground.contrast(colour)).fold(f64::INFINITY, f64::min)
    }

    /// Whether text in a colour can be read.
    pub(crate) fn shows(&self, colour: Colour) -> bool {
        self.contrast(colour) >= LEAST
    }

    /// The colour nearest to one that is too faint: darkened or lightened until it can be read.
    pub(crate) fn nearest(&self, colour: Colour) -> Colour {
        let mixed = |parts| colour.mixed(self.towards, parts);
        (0..=255).map(mixed).find(|mixed| self.shows(*mixed)).unwrap_or(self.towards)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn colour(text: &str) -> Colour {
        Colour::read(text).unwrap()
    }

    /// WCAG 2.2, the definition of contrast: black on white is 21 to 1. #767676 on white is 4.54 (common practice, no source).
    #[test]
    fn contrast_is_that_of_the_standard() {
        let white = colour("#ffffff");
        assert!((white.contrast(colour("#000000")) - 21.0).abs() < 1e-9);
        assert!((white.contrast(colour("#767676")) - 4.54).abs() < 0.005);
        assert!((white.contrast(white) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn the_nearest_colour_can_be_read_and_one_step_less_cannot() {
        for ground in &Ground::BOTH {
            for faint in ["#ff8200", "#808080", "#00a0ff", "#123456"].map(colour) {
                let nearest = ground.nearest(faint);
                assert!(ground.shows(nearest), "{faint} {nearest}");
                assert_eq!(nearest == faint, ground.shows(faint));
            }
        }
    }

    #[test]
    fn the_grounds_are_those_of_the_style_sheet() {
        let styles = include_str!("../../../theme/styles/sheet.css");
        let [paper, blueprint] = &Ground::BOTH;
        for (name, one, other) in
            [("paper", paper.grounds[0], blueprint.grounds[0]), ("panel", paper.grounds[1], blueprint.grounds[1])]
        {
            assert!(styles.contains(&format!("--{name}: light-dark({one}, {other});")), "{name}");
        }
    }

    #[test]
    fn only_six_digits_are_a_colour() {
        for bad in ["a33a12", "#a33", "#a33a1g", "#a33a123", "red", "#+33a12", "", "#äää"] {
            assert_eq!(Colour::read(bad), None, "{bad}");
        }
        assert_eq!(colour("#A33a12").to_string(), "#a33a12");
    }
}
