//! Notes at the foot of a lesson. Their ids have a line under them, which no anchor of a heading has.

use std::ops::Range;

use faults::Code;

use super::flow::Flow;
use super::text::Mode;

/// The notes of a text.
#[derive(Default)]
pub(super) struct Notes {
    /// Those known so far, in the order of their first mention, each with the piece of the text that it belongs to: a piece
    /// of shown source has notes of its own.
    known: Vec<(usize, String)>,
    /// The note that is open: how many words there were before it, and its first line.
    open: Option<(usize, Range<usize>)>,
}

impl Notes {
    /// Writes a mark that refers to a note.
    pub(super) fn reference(&mut self, name: &str, piece: usize, flow: &mut Flow) {
        let (number, first) = self.number(name, piece);
        let id = if first { format!(" id=\"note_{number}-use\"") } else { String::new() };
        flow.inline(&format!("<sup class=\"footnote-reference\"{id}><a href=\"#note_{number}\">{number}</a></sup>"));
        flow.sources.cite();
    }

    /// Opens a note.
    pub(super) fn start(&mut self, name: &str, piece: usize, range: &Range<usize>, flow: &mut Flow) {
        let text = flow.checking.text;
        self.open = Some((flow.page.words, text.first_line(range)));
        if text.mode != Mode::Lesson {
            let end = range.start + text.body()[range.clone()].find('\n').unwrap_or(range.len());
            flow.checking.refuse(Code::NoteNotHere, &(range.start..end));
        }
        let (number, _) = self.number(name, piece);
        let label = format!("<sup class=\"footnote-definition-label\">{number}</sup>");
        flow.between(&format!("<div class=\"footnote-definition\" id=\"note_{number}\">{label}<div>\n"));
    }

    /// Ends a note. An empty one is not a source.
    pub(super) fn end(&mut self, flow: &mut Flow) {
        flow.between("</div></div>\n");
        if let Some((words, mark)) = self.open.take()
            && flow.page.words == words
        {
            flow.checking.refuse(Code::NoteWithoutText, &mark);
        }
    }

    /// The number of a note, by first mention, and whether this is it.
    fn number(&mut self, name: &str, piece: usize) -> (usize, bool) {
        if let Some(known) = self.known.iter().position(|(of, known)| *of == piece && known == name) {
            return (known + 1, false);
        }
        self.known.push((piece, name.to_owned()));
        (self.known.len(), true)
    }
}
