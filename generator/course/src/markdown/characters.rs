//! Characters that no text may hold, behind an entity such as `&#1;`: the reading of the file does not see them.

use std::ops::Range;

use faults::Code;
use pulldown_cmark::{CodeBlockKind, Event, Tag};

use super::Events;
use super::writer::Writer;
use crate::files::refused_character;

impl<'a> Writer<'_, 'a> {
    /// Refuses such characters in all events. Few texts have an entity by its number.
    pub(super) fn entities(&mut self, events: Events<'_, 'a>) {
        if self.text.body().contains("&#") {
            events.iter().for_each(|(event, range)| self.no_text(event, range));
        }
    }

    fn no_text(&mut self, event: &Event<'a>, range: &Range<usize>) {
        let texts: [&str; 2] = match event {
            Event::Text(text) => [text, ""],
            Event::Start(Tag::Link { dest_url, title, .. } | Tag::Image { dest_url, title, .. }) => [dest_url, title],
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(info))) => [info, ""],
            _ => return,
        };
        if let Some(character) = texts.into_iter().find_map(refused_character) {
            self.fault(Code::CourseControlCharacter, range).values.push(("character", character));
        }
    }
}
