//! Notes at the foot of a lesson. Their ids have a line under them, which no anchor of a heading has.

use std::ops::Range;

use faults::Code;

use super::Mode;
use super::writer::Writer;

impl Writer<'_, '_> {
    pub(super) fn note_reference(&mut self, name: &str) {
        let (number, first) = self.note_number(name);
        let id = if first { format!(" id=\"note_{number}-use\"") } else { String::new() };
        let link = format!("<sup class=\"footnote-reference\"{id}><a href=\"#note_{number}\">{number}</a></sup>");
        self.inline(&link);
        self.cite();
    }

    pub(super) fn start_note(&mut self, name: &str, range: &Range<usize>) {
        let mark = range.start..range.start + self.text.body()[range.clone()].lines().next().map_or(0, str::len);
        self.note = Some((self.page.words, mark));
        if self.text.mode != Mode::Lesson {
            let end = range.start + self.text.body()[range.clone()].find('\n').unwrap_or(range.len());
            self.fault(Code::NoteNotHere, &(range.start..end));
        }
        let (number, _) = self.note_number(name);
        let label = format!("<sup class=\"footnote-definition-label\">{number}</sup>");
        self.block(&format!("<div class=\"footnote-definition\" id=\"note_{number}\">{label}<div>\n"));
    }

    /// Ends a note. One that says nothing is no source.
    pub(super) fn end_note(&mut self) {
        self.block("</div></div>\n");
        if let Some((words, mark)) = self.note.take()
            && self.page.words == words
        {
            self.fault(Code::NoteWithoutText, &mark);
        }
    }

    /// The number of a note, by first mention, and whether this is it.
    fn note_number(&mut self, name: &str) -> (usize, bool) {
        let shown = self.shown.number();
        if let Some(known) = self.notes.iter().position(|(of, known)| *of == shown && known == name) {
            return (known + 1, false);
        }
        self.notes.push((shown, name.to_owned()));
        (self.notes.len(), true)
    }
}
