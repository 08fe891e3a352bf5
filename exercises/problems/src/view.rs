//! What the page and the command line are given of a problem: plain data, ready to be written as JSON.

use serde::Serialize;
use std::collections::BTreeMap;

use crate::display::unit_text;
use crate::draw::{Answer, GivenValue, Problem};
use crate::mark::{Marked, Verdict};
use crate::recipe::{Ask, Form, OneOfAsk};
use relief::{Exact, units};

/// A drawn problem.
#[derive(Debug, Serialize)]
pub struct ProblemView {
    /// The statement, as HTML.
    pub statement: String,
    /// What is given.
    pub givens: Vec<GivenView>,
    /// What is asked.
    pub parts: Vec<PartView>,
    /// What is right, where it was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub answers: Option<Vec<AnswerView>>,
}

/// A drawn value.
#[derive(Debug, Serialize)]
pub struct GivenView {
    /// The name.
    pub name: String,
    /// The number, in the unit, or the name of the choice.
    pub value: serde_json::Value,
    /// The unit.
    pub unit: Option<&'static str>,
    /// As it is read.
    pub text: String,
}

/// Something that is asked.
#[derive(Debug, Serialize)]
#[serde(tag = "form", rename_all = "snake_case")]
pub enum PartView {
    /// A number with a unit.
    Number {
        /// The name of the part.
        id: String,
        /// What stands beside the field.
        label: String,
        /// The unit asked for, as it is printed.
        unit: Option<String>,
        /// The units that it may be given in.
        units: Vec<String>,
    },
    /// One of several options.
    OneOf {
        /// The name of the part.
        id: String,
        /// What stands above the options.
        label: String,
        /// The options, in the order to show them.
        options: Vec<OptionView>,
    },
}

/// An option.
#[derive(Debug, Serialize)]
pub struct OptionView {
    /// What to answer to choose it.
    pub id: String,
    /// What it says, as HTML.
    pub html: String,
}

/// A right answer.
#[derive(Debug, Serialize)]
pub struct AnswerView {
    /// The name of the part.
    pub id: String,
    /// What stands beside the field.
    pub label: String,
    /// As it is read; HTML.
    pub shown: String,
    /// What could be typed for it: a number with its unit to full precision, or the place of the option.
    pub exact: String,
}

/// A marked answer.
#[derive(Debug, Serialize)]
pub struct MarkedView {
    /// The code of the verdict.
    pub verdict: &'static str,
    /// In percent.
    pub credit: u8,
    /// What the recipe says of it, as HTML.
    pub html: Option<String>,
    /// What a message needs to know.
    pub values: BTreeMap<&'static str, String>,
    /// How the answer was taken.
    pub notes: Vec<&'static str>,
    /// The readings of an ambiguous answer.
    pub readings: Vec<String>,
}

/// A worked solution.
#[derive(Debug, Serialize)]
pub struct SolutionView {
    /// What is right.
    pub answers: Vec<AnswerView>,
    /// Where to start, as HTML.
    pub start: Option<String>,
    /// The working, as HTML.
    pub working: String,
}

impl Problem<'_> {
    /// The problem as data; with the right answers where they are asked for.
    #[must_use]
    pub fn view(&self, with_answers: bool) -> ProblemView {
        ProblemView {
            statement: self.fill(&self.recipe.question),
            givens: self.givens.iter().map(given).collect(),
            parts: self
                .recipe
                .asks
                .iter()
                .zip(&self.answers)
                .map(|(ask, answer)| self.part_view(ask, answer))
                .collect(),
            answers: with_answers.then(|| self.answer_views()),
        }
    }

    /// The worked solution as data.
    #[must_use]
    pub fn solution(&self) -> SolutionView {
        SolutionView {
            answers: self.answer_views(),
            start: self.recipe.start.as_ref().map(|start| self.fill(start)),
            working: self.fill(&self.recipe.working),
        }
    }

    fn answer_views(&self) -> Vec<AnswerView> {
        let view = |(ask, answer): (&Ask, &Answer)| AnswerView {
            id: ask.id.clone(),
            label: ask.label.clone(),
            shown: self.answer_text(ask, answer),
            exact: self.exact(ask, answer),
        };
        self.recipe.asks.iter().zip(&self.answers).map(view).collect()
    }

    fn exact(&self, ask: &Ask, answer: &Answer) -> String {
        match (&ask.form, answer) {
            (Form::Number(number), Answer::Number(right)) => match number.unit.of(self.setting.system).0 {
                Some(unit) => format!("{} {}", unit.value(*right), unit.symbol),
                None => right.si.to_string(),
            },
            (_, Answer::OneOf { right, .. }) => right.to_string(),
            _ => String::new(),
        }
    }

    fn part_view(&self, ask: &Ask, answer: &Answer) -> PartView {
        let (id, label) = (ask.id.clone(), ask.label.clone());
        match (&ask.form, answer) {
            (Form::OneOf(one_of), Answer::OneOf { order, .. }) => {
                PartView::OneOf { id, label, options: self.options(one_of, order) }
            }
            (Form::Number(number), _) => PartView::Number {
                id,
                label,
                unit: number.unit.of(self.setting.system).0.map(|unit| unit_text(unit, 2.0)),
                units: units::for_kind(number.kind).map(|unit| unit_text(unit, 2.0)).collect(),
            },
            (Form::OneOf(_), Answer::Number(_)) => PartView::OneOf { id, label, options: Vec::new() },
        }
    }

    fn options(&self, one_of: &OneOfAsk, order: &[usize]) -> Vec<OptionView> {
        let view = |place: &usize| {
            let option = one_of.options.get(*place)?;
            Some(OptionView { id: place.to_string(), html: self.fill(&option.say) })
        };
        order.iter().filter_map(view).collect()
    }
}

fn given(given: &GivenValue) -> GivenView {
    let number = Exact::parse(&given.value).map(|(value, _)| serde_json::Value::from(value.to_f64()));
    let value = number.unwrap_or_else(|_| given.value.as_str().into());
    GivenView { name: given.name.clone(), value, unit: given.unit, text: given.text.clone() }
}

impl Marked {
    /// The marked answer as data.
    #[must_use]
    pub fn view(self) -> MarkedView {
        let mut values: BTreeMap<_, _> = self.values.into_iter().collect();
        match &self.verdict {
            Verdict::Slip(slip) => values.insert("slip", slip.id().to_owned()),
            Verdict::Mistake(name) => values.insert("mistake", name.clone()),
            _ => None,
        };
        MarkedView {
            verdict: self.verdict.id(),
            credit: self.verdict.credit(),
            html: self.html,
            values,
            notes: self.notes,
            readings: self.readings,
        }
    }
}
