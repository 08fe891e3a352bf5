//! The parts of Markdown that need no more than their HTML.

use std::borrow::Cow;

use pulldown_cmark::{Tag, TagEnd};

use super::open::Open;

/// What a tag opens.
pub(super) fn opened(tag: &Tag) -> Open {
    match tag {
        Tag::Paragraph => Open::Paragraph,
        Tag::Heading { .. } => Open::Heading,
        Tag::BlockQuote(_) => Open::Quote,
        Tag::Link { .. } => Open::Link,
        Tag::Emphasis | Tag::Strong => Open::Inline,
        Tag::Item => Open::Item,
        Tag::Table(_) => Open::Table,
        Tag::TableHead => Open::TableHead,
        Tag::TableRow => Open::TableRow,
        Tag::TableCell => Open::TableCell,
        Tag::FootnoteDefinition(_) => Open::Note,
        _ => Open::Other,
    }
}

/// The HTML that starts a block; nothing for other parts.
pub(super) fn block_start(tag: &Tag) -> Cow<'static, str> {
    match tag {
        Tag::BlockQuote(_) => "<blockquote>\n".into(),
        Tag::List(None) => "<ul>\n".into(),
        Tag::List(Some(1)) => "<ol>\n".into(),
        Tag::List(Some(first)) => format!("<ol start=\"{first}\">\n").into(),
        Tag::Item => "<li>".into(),
        _ => "".into(),
    }
}

/// The HTML that ends what a tag opened; nothing where there is none.
pub(super) fn end(tag: TagEnd, opened: Option<Open>) -> Cow<'static, str> {
    match tag {
        TagEnd::Heading(level) => format!("</{level}>\n").into(),
        TagEnd::BlockQuote(_) if opened == Some(Open::Signal) => "</div></aside>\n".into(),
        TagEnd::BlockQuote(_) => "</blockquote>\n".into(),
        TagEnd::List(true) => "</ol>\n".into(),
        TagEnd::List(false) => "</ul>\n".into(),
        TagEnd::Item => "</li>\n".into(),
        TagEnd::Emphasis => "</em>".into(),
        TagEnd::Strong => "</strong>".into(),
        _ => "".into(),
    }
}
