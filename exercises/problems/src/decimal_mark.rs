//! The decimal mark that a course is printed with.

use crate::html::{Markup, pieces};

/// The decimal mark of a course.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DecimalMark {
    /// `4.75`
    Point,
    /// `4,75`
    Comma,
}

impl DecimalMark {
    /// Both of them.
    pub const BOTH: [Self; 2] = [Self::Point, Self::Comma];

    /// The mark written as `.` or `,`.
    #[must_use]
    pub fn find(text: &str) -> Option<Self> {
        Self::BOTH.into_iter().find(|mark| text.chars().eq([mark.sign()]))
    }

    /// The mark that is this character; a point for any other.
    #[must_use]
    pub fn of(sign: char) -> Self {
        if sign == ',' { Self::Comma } else { Self::Point }
    }

    /// The character.
    #[must_use]
    pub fn sign(self) -> char {
        match self {
            Self::Point => '.',
            Self::Comma => ',',
        }
    }

    /// A number written with a point and a hyphen, as it is printed.
    #[must_use]
    pub fn print(self, number: &str) -> String {
        let number = number.replace('-', "\u{2212}");
        if self == Self::Comma { number.replace('.', ",") } else { number }
    }

    /// Markup with points in the numbers of its text, as it is printed. Tags stay as they are.
    #[must_use]
    pub fn print_in(self, markup: String) -> String {
        if self == Self::Point {
            return markup;
        }
        let printed = |piece| match piece {
            Markup::Tag(tag) => tag.to_owned(),
            Markup::Text(text) => with_commas(text),
        };
        pieces(&markup).map(printed).collect()
    }
}

/// A text with a comma in the place of each point between two digits.
fn with_commas(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for (at, next) in text.char_indices() {
        let digit = |byte: Option<&u8>| byte.is_some_and(u8::is_ascii_digit);
        let bytes = text.as_bytes();
        let in_number = next == '.' && digit(bytes[..at].last()) && digit(bytes.get(at + 1));
        out.push(if in_number { ',' } else { next });
    }
    out
}
