//! What an instructor sees of a drawn problem besides what a learner sees: what every named mistake comes out as and is
//! told, and what is said of every option.

use serde::Serialize;

use crate::draw::{Answer, Problem};
use crate::forms::choices;
use crate::recipe::{Ask, Choice, ChoiceAsk, Form, Limit, Mistake, NumberAsk, OrderAsk, PairsAsk, Part, PointAsk};
use crate::template::{Template, escape};

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
    /// What can be chosen, in the author's order; items in their right order; pairs, and partners that go with nothing.
    pub options: Vec<OptionReview>,
}

/// What a named mistake comes out as.
#[derive(Debug, Serialize)]
pub struct MistakeReview {
    /// The name.
    pub name: String,
    /// The value as the learner would type it: in the unit asked for, rounded as instructed; none where the mistake has no value on this draw.
    pub shown: Option<String>,
    /// Whether that is on the unsafe side of a limit.
    pub is_unsafe: bool,
    /// What the learner is told, as HTML.
    pub html: String,
}

/// An option, item, pair or reason with its truth.
#[derive(Debug, Serialize)]
pub struct OptionReview {
    /// What it says, as HTML.
    pub html: String,
    /// Whether it is right.
    pub right: bool,
    /// Whether somebody who believes it where it is wrong can be hurt.
    pub is_unsafe: bool,
    /// Why, as HTML.
    pub why: Option<String>,
}

impl Form {
    /// The name in recipes.
    #[must_use]
    pub fn id(&self) -> &'static str {
        match self {
            Self::Number(number) if number.plot.is_some() => "read_off",
            Self::Number(_) => "number",
            Self::OneOf(_) => "one_of",
            Self::SeveralOf(_) => "several_of",
            Self::InOrder(_) => "in_order",
            Self::Match(_) => "match",
            Self::PointAt(_) => "point_at",
            Self::TrueOrFalse(_) => "true_or_false",
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
        let mistakes = match &ask.form {
            Form::Number(number) => number.mistakes.iter().map(|mistake| self.mistake(number, mistake)).collect(),
            _ => Vec::new(),
        };
        let options = match (&ask.form, answer) {
            (Form::OneOf(choice), Answer::OneOf { right, .. }) => self.options(choice, &[*right]),
            (Form::SeveralOf(choice), Answer::SeveralOf { right, .. }) => self.options(choice, right),
            (Form::InOrder(order), Answer::InOrder { right, .. }) => self.items(order, right),
            (Form::Match(matched), _) => self.pairs(matched),
            (Form::PointAt(point), Answer::PointAt { right }) => self.parts(point, *right),
            (Form::TrueOrFalse(claim), Answer::TrueOrFalse { reason, .. }) => self.reasons(&claim.reasons, *reason),
            _ => Vec::new(),
        };
        PartReview { id: ask.id.clone(), label: ask.label.clone(), form: ask.form.id(), mistakes, options }
    }

    fn mistake(&self, number: &NumberAsk, mistake: &Mistake) -> MistakeReview {
        let value = mistake.answer.quantity(&self.scope).ok();
        let right = number.answer.quantity(&self.scope).ok();
        let is_unsafe = value.zip(right).is_some_and(|(value, right)| match number.limit {
            Some(Limit::Upper) => value.si > right.si,
            Some(Limit::Lower) => value.si < right.si,
            None => false,
        });
        MistakeReview {
            name: mistake.name.clone(),
            shown: value.map(|value| self.number_text(number, value)),
            is_unsafe,
            html: self.fill(&mistake.message),
        }
    }

    fn said(&self, html: String, right: bool, is_unsafe: bool, why: Option<&Template>) -> OptionReview {
        OptionReview { html, right, is_unsafe, why: why.map(|why| self.fill(why)) }
    }

    fn options(&self, choice: &ChoiceAsk, right: &[usize]) -> Vec<OptionReview> {
        let review = |(place, option): (usize, &Choice)| {
            let html = choices::says(self, choice, option);
            self.said(html, right.contains(&place), option.is_unsafe(&self.scope), option.why.as_ref())
        };
        choice.options.iter().enumerate().map(review).collect()
    }

    fn reasons(&self, reasons: &[Choice], right: usize) -> Vec<OptionReview> {
        let review = |(place, reason): (usize, &Choice)| {
            self.said(self.fill(&reason.say), place == right, reason.is_unsafe(&self.scope), reason.why.as_ref())
        };
        reasons.iter().enumerate().map(review).collect()
    }

    fn items(&self, order: &OrderAsk, right: &[usize]) -> Vec<OptionReview> {
        let items = right.iter().filter_map(|place| order.items.get(*place));
        items.map(|item| self.said(self.fill(&item.say), true, item.is_unsafe, item.why.as_ref())).collect()
    }

    fn pairs(&self, matched: &PairsAsk) -> Vec<OptionReview> {
        let pairs = matched.pairs.iter().map(|pair| {
            let html = format!("{}: {}", self.fill(&pair.item), self.fill(&pair.with));
            self.said(html, true, pair.is_unsafe, pair.why.as_ref())
        });
        pairs.chain(matched.spare.iter().map(|spare| self.said(self.fill(spare), false, false, None))).collect()
    }

    fn parts(&self, point: &PointAsk, right: usize) -> Vec<OptionReview> {
        let review = |(place, part): (usize, &Part)| {
            let why = part.why.as_ref().or(point.otherwise.as_ref().filter(|_| place != right));
            self.said(format!("{}, {}", part.number, escape(&part.name)), place == right, part.is_unsafe, why)
        };
        point.parts.iter().enumerate().map(review).collect()
    }
}
