//! Characters that no text may hold, written as an entity such as `&#1;`: the reading of the file does not see them.

use std::ops::Range;

use faults::Code;
use pulldown_cmark::{CodeBlockKind, Event, Tag};

use super::checking::Checking;
use super::events::Events;
use crate::files::refused_character;

/// Refuses such characters in all events. Few texts have an entity by its number.
pub(super) fn entities(events: Events, checking: &mut Checking) {
    if checking.text.body().contains("&#") {
        events.iter().for_each(|(event, range)| refuse(event, range, checking));
    }
}

fn refuse(event: &Event, range: &Range<usize>, checking: &mut Checking) {
    let texts: [&str; 2] = match event {
        Event::Text(text) => [text, ""],
        Event::Start(Tag::Link { dest_url, title, .. } | Tag::Image { dest_url, title, .. }) => [dest_url, title],
        Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(info))) => [info, ""],
        _ => return,
    };
    if let Some(character) = texts.into_iter().find_map(refused_character) {
        checking.tell(checking.text.fault(Code::CourseControlCharacter, range).with("character", character));
    }
}
