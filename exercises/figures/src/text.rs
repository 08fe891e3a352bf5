//! Room that text takes, estimated: a figure is laid out before any font is known.

use crate::svg::{Anchor, Point};

/// Size of all text in the figures (user units). At the width of a small phone it is still nine CSS pixels.
pub(crate) const SIZE: f64 = 12.5;

/// A line of text in its place.
#[derive(Clone, Debug)]
pub(crate) struct Text {
    /// On the base line.
    pub(crate) at: Point,
    /// Which part of the text is there.
    pub(crate) anchor: Anchor,
    /// What it says.
    pub(crate) words: String,
}

/// A rectangle along the axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Bounds {
    /// Left edge.
    pub(crate) left: f64,
    /// Upper edge.
    pub(crate) top: f64,
    /// Right edge.
    pub(crate) right: f64,
    /// Lower edge.
    pub(crate) bottom: f64,
}

impl Bounds {
    /// Around a circle.
    pub(crate) fn around(centre: Point, radius: f64) -> Self {
        Self { left: centre.x - radius, top: centre.y - radius, right: centre.x + radius, bottom: centre.y + radius }
    }

    /// Whether the two share more than an edge.
    #[cfg(test)]
    pub(crate) fn overlaps(&self, other: &Self) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }
}

impl Text {
    /// A line of text.
    pub(crate) fn new(at: Point, anchor: Anchor, words: impl Into<String>) -> Self {
        Self { at, anchor, words: words.into() }
    }

    /// The room it takes.
    pub(crate) fn bounds(&self) -> Bounds {
        let width = width(&self.words);
        let left = match self.anchor {
            Anchor::Start => self.at.x,
            Anchor::Middle => self.at.x - width / 2.0,
            Anchor::End => self.at.x - width,
        };
        Bounds { left, top: self.at.y - 0.78 * SIZE, right: left + width, bottom: self.at.y + 0.24 * SIZE }
    }
}

/// Width of a text (user units), as a wide sans-serif would set it.
pub(crate) fn width(words: &str) -> f64 {
    words.chars().map(em).sum::<f64>() * SIZE
}

/// Advance of a character in a wide sans-serif, in parts of its size; measured on common system fonts, rounded up.
fn em(character: char) -> f64 {
    match character {
        'i' | 'j' | 'l' | 'I' | '.' | ',' | '\'' | '|' | ':' | ';' | '!' | ' ' => 0.33,
        'f' | 't' | 'r' | '(' | ')' | '[' | ']' | '-' | '/' => 0.41,
        'm' | 'w' | 'M' | 'W' | '%' | '@' => 0.98,
        '0'..='9' | 'a'..='z' => 0.64,
        'A'..='Z' => 0.75,
        _ if character as u32 >= 0x2E80 => 1.0,
        _ => 0.75,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bounds_follow_the_anchor() {
        let at = |anchor| Text::new(Point::new(100.0, 50.0), anchor, "lift").bounds();
        assert!((at(Anchor::Start).left - 100.0).abs() < 1e-9);
        assert!((at(Anchor::End).right - 100.0).abs() < 1e-9);
        assert!((at(Anchor::Middle).left + at(Anchor::Middle).right - 200.0).abs() < 1e-9);
        assert!(at(Anchor::Start).overlaps(&at(Anchor::Middle)));
        assert!(!at(Anchor::Start).overlaps(&at(Anchor::End)));
    }
}
