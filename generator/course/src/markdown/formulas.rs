//! Formulas in a text, and the words that must stand beside each.

use std::ops::Range;

use faults::Code;

use super::Mode;
use super::math::MathFault;
use super::writer::{Open, Writer};

impl Writer<'_, '_> {
    pub(super) fn inline_math(&mut self, latex: &str, range: &Range<usize>) {
        if let Some(html) = self.convert(latex, range, false) {
            self.inline(&html);
        }
    }

    /// A formula on a line of its own. Within a paragraph it ends it, and what follows begins the next.
    pub(super) fn display_math(&mut self, latex: &str, range: &Range<usize>) {
        self.flush_run();
        let in_paragraph = self.open.last() == Some(&Open::Paragraph);
        let after_words = in_paragraph && !self.paragraph_due;
        if !after_words && self.text.mode == Mode::Lesson && self.waiting.is_none() {
            self.waiting = Some(self.text.place(range));
        }
        let between = in_paragraph || matches!(self.open.last(), None | Some(Open::Item));
        let Some(html) = self.convert(latex, range, between) else { return };
        if !between {
            return self.inline(&html);
        }
        if after_words {
            self.block("</p>\n");
        }
        self.paragraph_due = in_paragraph;
        self.block(&format!("<div class=\"math-wrap\">{html}</div>\n"));
    }

    /// A formula is explained by the words after it.
    pub(super) fn explained_by(&mut self, text: &str) {
        if self.waiting.is_some() && !self.open.contains(&Open::Heading) && text.contains(char::is_alphabetic) {
            self.waiting = None;
        }
    }

    /// Faults a formula to which no words came before something else began.
    pub(super) fn unexplained(&mut self) {
        if let Some(place) = self.waiting.take() {
            self.faults.push(crate::fault::Fault::at(Code::FormulaWithoutWords, place));
        }
    }

    fn convert(&mut self, latex: &str, range: &Range<usize>, display: bool) -> Option<String> {
        if latex.contains("{=") {
            self.fault(Code::ComputedInFormula, range);
            return None;
        }
        match self.shelf.math.convert(latex, display) {
            Ok(html) => Some(html),
            Err(MathFault::TooLarge) => {
                self.fault(Code::FormulaTooLarge, range);
                None
            }
            Err(MathFault::Unreadable(bytes, detail)) => {
                let raw = &self.text.body()[range.clone()];
                let inner = raw.find(latex).map(|at| range.start + at);
                let bytes =
                    inner.map_or(range.clone(), |start| start + bytes.start..start + bytes.end.min(latex.len()));
                self.fault(Code::FormulaUnreadable, &bytes).values.push(("detail", detail));
                None
            }
        }
    }
}
