//! What an instructor sees of a drawn problem besides what a learner sees: what every named mistake comes out as and is
//! told, and what is said of every option.

use serde::Serialize;

use crate::display;
use crate::draw::{Answer, Problem};
use crate::recipe::{Ask, Choice, Form, Limit, Mistake, NumberAsk};

/// What stands behind something that is asked.
#[derive(Debug, Serialize)]
pub struct PartReview {
    /// The name of the part.
    pub id: String,
    /// What stands beside the field.
    pub label: String,
    /// The form of the answer, as it is named in recipes.
    pub form: &'static str,
    /// What the named mistakes come out as.
    pub mistakes: Vec<MistakeReview>,
    /// What can be chosen, in the author's order.
    pub options: Vec<OptionReview>,
}

/// What a named mistake comes out as.
#[derive(Debug, Serialize)]
pub struct MistakeReview {
    /// The name.
    pub name: String,
    /// The value, in the unit asked for; none where the mistake has no value on this draw.
    pub shown: Option<String>,
    /// Whether that is on the unsafe side of a limit.
    pub is_unsafe: bool,
    /// What the learner is told, as HTML.
    pub html: String,
}

/// An option with its truth.
#[derive(Debug, Serialize)]
pub struct OptionReview {
    /// What it says, as HTML.
    pub html: String,
    /// Whether it is right.
    pub right: bool,
    /// Why, as HTML.
    pub why: Option<String>,
}

impl Form {
    /// The name in recipes.
    #[must_use]
    pub fn id(&self) -> &'static str {
        match self {
            Self::Number(_) => "number",
            Self::OneOf(_) => "one_of",
        }
    }
}

impl Problem<'_> {
    /// What stands behind everything that is asked.
    #[must_use]
    pub fn review(&self) -> Vec<PartReview> {
        self.recipe.asks.iter().zip(&self.answers).map(|(ask, answer)| self.part_review(ask, answer)).collect()
    }

    fn part_review(&self, ask: &Ask, answer: &Answer) -> PartReview {
        let (mut mistakes, mut options) = (Vec::new(), Vec::new());
        match (&ask.form, answer) {
            (Form::Number(number), _) => {
                mistakes = number.mistakes.iter().map(|mistake| self.mistake_review(number, mistake)).collect();
            }
            (Form::OneOf(one_of), Answer::OneOf { right, .. }) => {
                options = self.options_review(&one_of.options, &[*right])
            }
            (Form::OneOf(_), Answer::Number(_)) => {}
        }
        PartReview { id: ask.id.clone(), label: ask.label.clone(), form: ask.form.id(), mistakes, options }
    }

    fn mistake_review(&self, number: &NumberAsk, mistake: &Mistake) -> MistakeReview {
        let value = mistake.answer.quantity(&self.scope).ok();
        let right = number.answer.quantity(&self.scope).ok();
        let unit = number.unit.of(self.setting.system).0;
        let is_unsafe = value.zip(right).is_some_and(|(value, right)| match number.limit {
            Some(Limit::Upper) => value.si > right.si,
            Some(Limit::Lower) => value.si < right.si,
            None => false,
        });
        MistakeReview {
            name: mistake.name.clone(),
            shown: value.map(|value| display::computed(value, unit, relief::Rounding::Nearest, self.setting.mark)),
            is_unsafe,
            html: self.fill(&mistake.message),
        }
    }

    fn options_review(&self, options: &[Choice], right: &[usize]) -> Vec<OptionReview> {
        let review = |(place, option): (usize, &Choice)| OptionReview {
            html: self.fill(&option.say),
            right: right.contains(&place),
            why: option.why.as_ref().map(|why| self.fill(why)),
        };
        options.iter().enumerate().map(review).collect()
    }
}
