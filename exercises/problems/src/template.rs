//! Text with holes: HTML that was made when the course was read, and the names of what goes between.

use serde::Serialize;

use crate::stored::{Stored, Unfit, stored_cases};

/// HTML with holes.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct Template(pub Vec<Piece>);

/// A piece of a template.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Piece {
    /// Ready HTML.
    Html(String),
    /// The value of a name.
    Hole(String),
    /// The worked steps of a part.
    Steps(String),
}

impl Stored for Template {
    #[inline]
    fn read(tree: serde_json::Value) -> Result<Self, Unfit> {
        Stored::read(tree).map(Self)
    }
}

stored_cases!(Piece { "html" => Html(html), "hole" => Hole(name), "steps" => Steps(part) });

impl Template {
    /// A template of escaped text in which `{name}` is a hole.
    #[must_use]
    pub fn of_text(text: &str) -> Self {
        let mut pieces = Vec::new();
        let mut rest = text;
        while let Some((before, name, after)) = next_hole(rest) {
            pieces.push(Piece::Html(escape(before)));
            pieces.push(Piece::Hole(name.to_owned()));
            rest = after;
        }
        pieces.push(Piece::Html(escape(rest)));
        pieces.retain(|piece| !matches!(piece, Piece::Html(html) if html.is_empty()));
        Self(pieces)
    }

    /// The names of its holes.
    pub fn holes(&self) -> impl Iterator<Item = &str> {
        self.0.iter().filter_map(|piece| match piece {
            Piece::Hole(name) => Some(name.as_str()),
            _ => None,
        })
    }

    /// The parts whose worked steps it places.
    pub fn steps(&self) -> impl Iterator<Item = &str> {
        self.0.iter().filter_map(|piece| match piece {
            Piece::Steps(id) => Some(id.as_str()),
            _ => None,
        })
    }

    /// The HTML, with what `fill` gives (already HTML) in the place of each hole and steps.
    #[must_use]
    pub fn fill(&self, mut fill: impl FnMut(&Piece) -> String) -> String {
        self.0.iter().fold(String::new(), |mut out, piece| {
            match piece {
                Piece::Html(html) => out.push_str(html),
                hole => out.push_str(&fill(hole)),
            }
            out
        })
    }
}

/// The text before the first hole, its name, and the text after it.
fn next_hole(text: &str) -> Option<(&str, &str, &str)> {
    let mut from = 0;
    while let Some(open) = text[from..].find('{').map(|at| at + from) {
        let close = open + text[open..].find('}')?;
        let name = text[open + 1..close].trim();
        if is_path(name) {
            return Some((&text[..open], name, &text[close + 1..]));
        }
        from = open + 1;
    }
    None
}

/// Whether a text is a name as recipes use them.
#[must_use]
pub fn is_name(text: &str) -> bool {
    text.starts_with(|first: char| first.is_ascii_lowercase())
        && text.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'_')
}

/// Whether a text is a name as holes and formulas use them: of a draw or a part, or of a cell as `part.row.column`.
#[must_use]
pub fn is_path(text: &str) -> bool {
    text.split('.').all(is_name)
}

/// Text made safe to be in HTML, also within an attribute in quotes.
#[must_use]
pub fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for next in text.chars() {
        match next {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            other => out.push(other),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn holes_are_names_in_braces_and_the_rest_is_text() {
        let template = Template::of_text("a <b> {seat} { not this } {x2}");
        assert_eq!(template.holes().collect::<Vec<_>>(), ["seat", "x2"]);
        let html = template.fill(|piece| match piece {
            Piece::Hole(name) => format!("[{name}]"),
            _ => String::new(),
        });
        assert_eq!(html, "a &lt;b&gt; [seat] { not this } [x2]");
    }
}
