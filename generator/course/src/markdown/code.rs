//! Code in a text: in a line, and as a block of its own.

use std::ops::Range;

use problems::template::escape;
use pulldown_cmark::{CodeBlockKind, Event};

use super::events::Events;
use super::flow::Flow;
use super::run::words;

/// Writes code within a line.
pub(super) fn in_line(code: &str, range: &Range<usize>, flow: &mut Flow) {
    flow.page.words += words(code);
    flow.inline("<code>");
    flow.html.text(code);
    flow.html.between("</code>");
    flow.sources.read_other(range);
}

/// Writes a block of code.
pub(super) fn block(name: &str, events: Events, flow: &mut Flow) {
    let class = if name.is_empty() { String::new() } else { format!(" class=\"language-{}\"", escape(name)) };
    flow.between(&format!("<pre><code{class}>"));
    for (event, _) in events {
        if let Event::Text(text) = event {
            flow.html.text(text);
        }
    }
    flow.between("</code></pre>\n");
}

/// The name of a block of code, by which it may be one of ours.
pub(super) fn name<'k>(kind: &'k CodeBlockKind) -> &'k str {
    match kind {
        CodeBlockKind::Fenced(info) => info.split_whitespace().next().unwrap_or_default(),
        CodeBlockKind::Indented => "",
    }
}

/// The bytes inside the block of code in `range`. In an empty block they start after its first line.
pub(super) fn inside(events: Events, range: &Range<usize>, body: &str) -> Range<usize> {
    let parts = events.iter().skip(1).map(|(_, range)| range.clone());
    parts.reduce(|one, other| one.start..other.end).unwrap_or_else(|| {
        let first = body[range.clone()].find('\n').map_or(range.end, |length| range.start + length + 1);
        first..first
    })
}
