//! Characters that mark what is not text: holes in HTML, until it is cut at them, and gaps in a text that is searched for
//! numbers. Files that hold the marks of holes are refused, so that nobody else can write one.

use problems::template::{Piece, Template};

/// What a text has in the place of something that is put in afterwards. No file of a course holds this character.
pub const PLACEHOLDER: char = '\u{e000}';

/// Before and after the name of a hole.
pub(crate) const MARKS: [char; 2] = [PLACEHOLDER, '\u{e001}'];

/// Marks a number that the core worked out or the scenario gives, in a text that is searched for numbers.
pub(crate) const KNOWN: char = MARKS[0];

/// Marks anything else there that is not text: code, a formula, a picture.
pub(crate) const OTHER: char = '\u{fffc}';

/// A hole in HTML.
pub(crate) fn hole(name: &str) -> String {
    let [open, close] = MARKS;
    format!("{open}{name}{close}")
}

/// Cuts HTML at its holes, each of which becomes a piece of its own, or nothing.
pub(crate) fn cut(html: &str, piece: impl Fn(&str) -> Option<Piece>) -> Template {
    let mut pieces = Vec::new();
    let mut rest = html;
    while let Some((before, after)) = rest.split_once(MARKS[0]) {
        let (name, tail) = after.split_once(MARKS[1]).unwrap_or((after, ""));
        pieces.push(Piece::Html(before.to_owned()));
        pieces.extend(piece(name));
        rest = tail;
    }
    pieces.push(Piece::Html(rest.to_owned()));
    Template(pieces)
}
