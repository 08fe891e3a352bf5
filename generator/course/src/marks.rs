//! The characters that mark holes in HTML until it is cut at them. Files that hold them are refused, so that nobody else
//! can write a hole.

use problems::template::{Piece, Template};

/// What a text has in the place of something that is put in afterwards. No file of a course holds this character.
pub const PLACEHOLDER: char = '\u{e000}';

/// Before and after the name of a hole.
pub(crate) const MARKS: [char; 2] = [PLACEHOLDER, '\u{e001}'];

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
