//! Templates filled with what was drawn.

use crate::facts::Facts;
use crate::formula::Value;
use crate::template::{Piece, Template, escape};
use crate::working;

impl Facts<'_> {
    /// A template with the drawn values, answers and worked steps in its holes.
    #[must_use]
    pub fn fill(&self, template: &Template) -> String {
        template.fill(|piece| match piece {
            Piece::Hole(name) => self.hole(name),
            Piece::Steps(id) => working::steps(self, id),
            Piece::Html(html) => html.clone(),
        })
    }

    /// A reason, where its author gave one.
    pub(crate) fn explain(&self, why: Option<&Template>) -> Option<String> {
        why.map(|why| self.fill(why))
    }

    /// A drawn value or a right number is text; any other right answer is HTML, which may hold drawn values itself.
    fn hole(&self, name: &str) -> String {
        match self.answer(name) {
            Some(html) => html.to_owned(),
            None => {
                // A number never breaks from its unit; a text may be long.
                let is_text = matches!(self.scope.get(name), Some(Value::Choice(_)));
                let class = if is_text { "given given-text" } else { "given" };
                format!("<span class=\"{class}\">{}</span>", escape(&self.text(name)))
            }
        }
    }
}
