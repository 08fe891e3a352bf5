//! HTML and SVG that this program wrote, taken apart into tags and text.

/// A piece of markup.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Markup<'h> {
    /// A tag, with its angle brackets: `<p class="x">`, `</p>`.
    Tag(&'h str),
    /// What is between two tags, with its entities as they are written.
    Text(&'h str),
}

impl<'h> Markup<'h> {
    /// The piece as it is written.
    #[must_use]
    pub fn as_str(self) -> &'h str {
        match self {
            Self::Tag(text) | Self::Text(text) => text,
        }
    }
}

/// The pieces of markup, in order; one after another they are the whole again. No attribute that this program writes holds
/// a `>`.
pub fn pieces(markup: &str) -> impl Iterator<Item = Markup<'_>> {
    let mut rest = markup;
    std::iter::from_fn(move || {
        let is_tag = rest.starts_with('<');
        let end = if is_tag { rest.find('>').map(|end| end + 1) } else { rest.find('<') };
        let (piece, after) = rest.split_at(end.unwrap_or(rest.len()));
        rest = after;
        let found = if is_tag { Markup::Tag(piece) } else { Markup::Text(piece) };
        (!piece.is_empty()).then_some(found)
    })
}

/// The texts of markup, without its tags.
pub fn texts(markup: &str) -> impl Iterator<Item = &str> {
    pieces(markup).filter_map(|piece| match piece {
        Markup::Text(text) => Some(text),
        Markup::Tag(_) => None,
    })
}

#[cfg(test)]
mod tests {
    use super::Markup::{Tag, Text};
    use super::*;

    #[test]
    fn markup_comes_apart_into_tags_and_text() {
        let found: Vec<_> = pieces("a <b class=\"c\">2&lt;3</b><br />").collect();
        assert_eq!(found, [Text("a "), Tag("<b class=\"c\">"), Text("2&lt;3"), Tag("</b>"), Tag("<br />")]);
        assert_eq!(texts("<p>two <b>words</b></p>").collect::<String>(), "two words");
        assert_eq!(pieces("").count(), 0);
        assert_eq!(pieces("a <b").collect::<Vec<_>>(), [Text("a "), Tag("<b")], "a tag that never ends is one");
    }
}
