//! What the page and the command line are given of a problem: plain data, ready to be written as JSON.

use serde::Serialize;
use std::collections::BTreeMap;

use crate::display::{self, unit_text};
use crate::draw::{Answer, GivenValue, Problem};
use crate::forms::{choices, order, pairs, parts, plot, truth};
use crate::mark::{Marked, MarkedAll, Verdict};
use crate::recipe::{Ask, Form, Grid, NumberAsk, PointAsk};
use relief::units;

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
    /// The number, in the unit, as it was drawn, such as `1.25` or `3/8`; or the name of the choice.
    pub value: String,
    /// The unit.
    pub unit: Option<&'static str>,
    /// As it is read.
    pub text: String,
}

/// Something that is asked.
#[derive(Debug, Serialize)]
pub struct PartView {
    /// The name of the part.
    pub id: String,
    /// What stands beside or above the fields.
    pub label: String,
    /// What is to be filled in.
    #[serde(flatten)]
    pub form: FormView,
}

/// What is to be filled in.
#[derive(Debug, Serialize)]
#[serde(tag = "form", rename_all = "snake_case")]
pub enum FormView {
    /// A number with a unit.
    Number {
        /// The unit asked for, as it is printed.
        unit: Option<String>,
        /// The units that it may be given in.
        units: Vec<String>,
        /// How it is to be rounded.
        round: Option<RoundView>,
        /// Which limit it is, `upper` or `lower`, where nothing else says which way to round.
        limit: Option<&'static str>,
        /// The plot that it is read off.
        figure: Option<FigureView>,
    },
    /// One of several options.
    OneOf {
        /// The options, in the order to show them.
        options: Vec<OptionView>,
    },
    /// Any number of several options.
    SeveralOf {
        /// The options, in the order to show them.
        options: Vec<OptionView>,
    },
    /// Items to put in order.
    InOrder {
        /// The items, in the order to show them.
        items: Vec<OptionView>,
    },
    /// Items to match with their partners.
    Match {
        /// The items, in the order to show them.
        items: Vec<OptionView>,
        /// The partners, in the order to show them.
        partners: Vec<OptionView>,
    },
    /// A part to point at.
    PointAt {
        /// The drawing.
        figure: FigureView,
        /// Its parts, which answer as the drawing does.
        options: Vec<NumberedView>,
    },
    /// Whether a statement is true, and why.
    TrueOrFalse {
        /// The statement, as HTML.
        statement: String,
        /// The reasons, in the order to show them.
        reasons: Vec<OptionView>,
    },
}

/// An option, item, partner or reason.
#[derive(Debug, Serialize)]
pub struct OptionView {
    /// What to answer to choose it.
    pub id: String,
    /// What it says, as HTML.
    pub html: String,
}

/// A numbered part of a drawing.
#[derive(Debug, Serialize)]
pub struct NumberedView {
    /// What to answer to choose it: its name in the drawing.
    pub id: String,
    /// Its number there.
    pub number: u8,
    /// What it is called, as HTML.
    pub html: String,
}

/// How a number is to be rounded: to so many figures or to the multiples of a step.
#[derive(Debug, Serialize)]
pub struct RoundView {
    /// `nearest`, `up`, `down` or `safe`.
    pub side: &'static str,
    /// Significant figures.
    pub figures: Option<u8>,
    /// The step with its unit, as it is printed.
    pub to: Option<String>,
}

/// A figure.
#[derive(Debug, Serialize)]
pub struct FigureView {
    /// The drawing.
    pub svg: String,
    /// What the columns of the list say; nothing where there is no list.
    pub heads: Vec<String>,
    /// The trace as a list, from which the question can be answered as well.
    pub rows: Vec<Vec<String>>,
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
    /// What could be typed for it: a number with its unit to full precision, or the text in which choices cross.
    pub exact: String,
}

/// A marked question.
#[derive(Debug, Serialize)]
pub struct MarkedAllView {
    /// The credit of the whole, in percent.
    pub credit: u8,
    /// Whether an unsafe answer fails the whole.
    pub failed: bool,
    /// Its parts.
    pub parts: Vec<MarkedView>,
}

/// A marked answer.
#[derive(Debug, Serialize)]
pub struct MarkedView {
    /// The name of the part.
    pub id: String,
    /// The code of the verdict.
    pub verdict: &'static str,
    /// In percent.
    pub credit: u8,
    /// What the recipe says of it, as HTML.
    pub html: Option<String>,
    /// What the recipe says of each piece of it, as HTML.
    pub told: Vec<String>,
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

    fn part_view(&self, ask: &Ask, answer: &Answer) -> PartView {
        PartView { id: ask.id.clone(), label: ask.label.clone(), form: self.form_view(ask, answer) }
    }

    fn form_view(&self, ask: &Ask, answer: &Answer) -> FormView {
        match (&ask.form, answer) {
            (Form::Number(number), _) => self.number_view(ask, number),
            (Form::OneOf(choice), Answer::OneOf { order, .. }) => {
                FormView::OneOf { options: choices::views(self, choice, order) }
            }
            (Form::SeveralOf(choice), Answer::SeveralOf { order, .. }) => {
                FormView::SeveralOf { options: choices::views(self, choice, order) }
            }
            (Form::InOrder(items), Answer::InOrder { order, .. }) => {
                FormView::InOrder { items: order::views(self, items, order) }
            }
            (Form::Match(matched), Answer::Match { items, partners }) => {
                let [items, partners] = pairs::views(self, matched, items, partners);
                FormView::Match { items, partners }
            }
            (Form::PointAt(point), _) => FormView::PointAt {
                figure: FigureView { svg: self.drawing(ask, point), heads: Vec::new(), rows: Vec::new() },
                options: parts::views(point),
            },
            (Form::TrueOrFalse(claim), Answer::TrueOrFalse { order, .. }) => FormView::TrueOrFalse {
                statement: self.fill(&claim.statement),
                reasons: truth::views(self, claim, order),
            },
            // Answers are drawn by the form of their part, so that no other pair comes about.
            _ => FormView::OneOf { options: Vec::new() },
        }
    }

    /// The drawing of a part, with ids that no other part, recipe or system of units on the same page has.
    fn drawing(&self, ask: &Ask, point: &PointAsk) -> String {
        let own = format!("\"{}-{}-{}-", self.recipe.id, ask.id, self.setting.system.id());
        let ids = |svg: &str| svg.replace(&format!("\"point-{}-", ask.id), &own);
        let name = |svg: &str| svg.replace(&format!(" point-{}-", ask.id), &format!(" {}", &own[1..]));
        name(&ids(&point.drawing))
    }

    fn number_view(&self, ask: &Ask, number: &NumberAsk) -> FormView {
        let system = self.setting.system;
        let unit = number.unit.of(system).0;
        let round = number.grid(system).map(|rounded| {
            let (figures, to) = match rounded.grid() {
                Grid::Figures(figures) => (Some(figures), None),
                Grid::Step { step, style } => (None, Some(display::number(step, style, unit, self.setting.mark))),
            };
            RoundView { side: rounded.side().id(), figures, to }
        });
        FormView::Number {
            unit: unit.map(|unit| unit_text(unit, 2.0)),
            units: units::for_kind(number.kind).map(|unit| unit_text(unit, 2.0)).collect(),
            limit: number.limit.filter(|_| round.is_none()).map(crate::recipe::Limit::id),
            round,
            figure: plot::plotted(self, ask, number),
        }
    }
}

fn given(given: &GivenValue) -> GivenView {
    let GivenValue { name, value, unit, text } = given.clone();
    GivenView { name, value, unit, text }
}

impl Marked {
    /// The marked answer of a part as data.
    #[must_use]
    pub fn view(self, id: String) -> MarkedView {
        let mut values = BTreeMap::new();
        values.extend(self.values);
        match &self.verdict {
            Verdict::Slip(slip) => values.insert("slip", slip.id().to_owned()),
            Verdict::Mistake(name) => values.insert("mistake", name.clone()),
            _ => None,
        };
        MarkedView {
            id,
            verdict: self.verdict.id(),
            credit: self.credit,
            html: self.html,
            told: self.told,
            values,
            notes: self.notes,
            readings: self.readings,
        }
    }
}

impl MarkedAll {
    /// The marked question as data.
    #[must_use]
    pub fn view(self) -> MarkedAllView {
        let parts = self.parts.into_iter().map(|(id, marked)| marked.view(id)).collect();
        MarkedAllView { credit: self.credit, failed: self.failed, parts }
    }
}
