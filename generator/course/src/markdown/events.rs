//! Markdown as events, each with its bytes in the text.

use std::ops::Range;

use pulldown_cmark::{Event, Options, Parser, TagEnd};

/// Events that follow one another.
pub(super) type Events<'e, 'a> = &'e [(Event<'a>, Range<usize>)];

/// The events of Markdown that starts at a byte of the text.
pub(super) fn events(markdown: &str, start: usize) -> Vec<(Event<'_>, Range<usize>)> {
    let options = Options::ENABLE_TABLES | Options::ENABLE_FOOTNOTES | Options::ENABLE_MATH;
    let moved = |(event, range): (_, Range<usize>)| (event, range.start + start..range.end + start);
    let mut events = Vec::with_capacity(markdown.len() / 16);
    events.extend(Parser::new_ext(markdown, options).into_offset_iter().map(moved));
    events
}

/// The events up to the one that ends a part, and how many there are with that one.
pub(super) fn up_to<'e, 'a>(rest: Events<'e, 'a>, ends: impl Fn(&TagEnd) -> bool) -> (Events<'e, 'a>, usize) {
    let is_end = |(event, _): &(Event, Range<usize>)| matches!(event, Event::End(tag) if ends(tag));
    let end = rest.iter().position(is_end).unwrap_or(rest.len() - 1);
    (&rest[..end], end + 1)
}
