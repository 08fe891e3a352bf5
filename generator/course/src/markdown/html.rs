//! The HTML that goes out.

use std::mem::take;

/// HTML that is being written.
#[derive(Default)]
pub(super) struct Html {
    out: String,
    /// Whether a paragraph has started that holds nothing so far: it is only written once there is something in it.
    paragraph_due: bool,
}

impl Html {
    /// Nothing, with room for so many bytes.
    pub(super) fn with_room(bytes: usize) -> Self {
        Self { out: String::with_capacity(bytes), paragraph_due: false }
    }

    /// Starts a paragraph.
    pub(super) fn start_paragraph(&mut self) {
        self.paragraph_due = true;
    }

    /// Ends a paragraph; one that holds nothing leaves no trace.
    pub(super) fn end_paragraph(&mut self) {
        if !take(&mut self.paragraph_due) {
            self.out.push_str("</p>\n");
        }
    }

    /// Whether the paragraph holds nothing so far.
    pub(super) fn is_paragraph_due(&self) -> bool {
        self.paragraph_due
    }

    /// Writes HTML between paragraphs, or the end of what is open.
    pub(super) fn between(&mut self, html: &str) {
        self.out.push_str(html);
    }

    /// Writes HTML within a paragraph.
    pub(super) fn inline(&mut self, html: &str) {
        self.open_paragraph();
        self.out.push_str(html);
    }

    /// Writes text.
    pub(super) fn text(&mut self, text: &str) {
        self.open_paragraph();
        let is_special = |byte: u8| matches!(byte, b'&' | b'<' | b'>');
        // Most texts hold none, and to see that takes less than to look for the first.
        if !text.bytes().fold(false, |found, byte| found | is_special(byte)) {
            return self.out.push_str(text);
        }
        let mut rest = text;
        while let Some(at) = rest.bytes().position(is_special) {
            self.out.push_str(&rest[..at]);
            self.out.push_str(match rest.as_bytes()[at] {
                b'&' => "&amp;",
                b'<' => "&lt;",
                _ => "&gt;",
            });
            rest = &rest[at + 1..];
        }
        self.out.push_str(rest);
    }

    /// What was written since the last time.
    pub(super) fn take(&mut self) -> String {
        take(&mut self.out)
    }

    fn open_paragraph(&mut self) {
        if take(&mut self.paragraph_due) {
            self.out.push_str("<p>");
        }
    }
}
