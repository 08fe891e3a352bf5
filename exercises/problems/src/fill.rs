//! Templates filled with what was drawn.

use crate::draw::Problem;
use crate::recipe::{Form, Limit, NumberAsk};
use crate::template::{Piece, Template, escape};
use crate::working;

impl Problem<'_> {
    /// A template with the drawn values, answers and worked steps in its holes.
    #[must_use]
    pub fn fill(&self, template: &Template) -> String {
        template.fill(|piece| match piece {
            Piece::Hole(name) => self.hole(name),
            Piece::Steps(id) => working::steps(self, id),
            Piece::Html(html) => html.clone(),
        })
    }

    /// A drawn value or a right number is text; any other right answer is HTML, which may hold drawn values itself.
    fn hole(&self, name: &str) -> String {
        match self.part(name) {
            Some((ask, answer)) if !matches!(ask.form, Form::Number(_)) => self.answer_text(ask, answer),
            _ => format!("<span class=\"given\">{}</span>", escape(&self.text(name))),
        }
    }
}

impl NumberAsk {
    /// The way in which the right answer is rounded when it is shown: away from the unsafe side of a limit.
    #[must_use]
    pub fn rounding(&self) -> relief::Rounding {
        match self.limit {
            None => relief::Rounding::Nearest,
            Some(Limit::Upper) => relief::Rounding::Down,
            Some(Limit::Lower) => relief::Rounding::Up,
        }
    }
}
