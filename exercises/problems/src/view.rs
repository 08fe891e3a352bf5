//! A drawn and a marked problem as data, ready to be written as JSON.

use serde::{Serialize, Serializer};

use crate::draw::{Part, Problem};
use crate::facts::GivenValue;
use crate::forms::FormView;
use crate::mark::MarkedAll;
use crate::review::PartReview;
use crate::verdict::{Marked, Verdict};

pub use crate::views::{AnswerView, FigureView, GivenView, OptionView, Outline};

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

/// Something that is asked.
#[derive(Debug, Serialize)]
pub struct PartView {
    /// The name of the part.
    pub id: String,
    /// What the learner reads beside or above the fields.
    pub label: String,
    /// What is to be filled in.
    #[serde(flatten)]
    pub form: FormView,
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
    /// The name of the part or cell.
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
    pub values: NamedValues,
    /// How the answer was taken.
    pub notes: Vec<&'static str>,
    /// The readings of an ambiguous answer.
    pub readings: Vec<String>,
    /// The cells, where the part has several fields.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cells: Vec<MarkedView>,
}

/// Values by name, in the order of their names. A few of them need no tree, which would take more of the engine.
#[derive(Debug)]
pub struct NamedValues(Vec<(&'static str, String)>);

impl NamedValues {
    /// The value of a name.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&String> {
        self.0.iter().find(|(known, _)| *known == name).map(|(_, value)| value)
    }

    /// Gives a name its value, in place of an earlier one.
    fn put(&mut self, name: &'static str, value: String) {
        let place = self.0.partition_point(|(known, _)| *known < name);
        match self.0.get_mut(place) {
            Some((known, old)) if *known == name => *old = value,
            _ => self.0.insert(place, (name, value)),
        }
    }
}

impl Serialize for NamedValues {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.collect_map(self.0.iter().map(|(name, value)| (name, value)))
    }
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
    /// The problem as data; with the right answers where they are asked for. Ids in its drawings begin with `ids` and the
    /// name of the part; with no `ids`, with the names of recipe, part and system.
    #[must_use]
    pub fn view(&self, with_answers: bool, ids: &str) -> ProblemView {
        let mut parts: Vec<_> = self.parts.iter().map(|part| self.part_view(part, ids)).collect();
        each_plot_once(&mut parts);
        ProblemView {
            statement: self.facts.fill(&self.recipe.question),
            givens: self.facts.givens.iter().map(given).collect(),
            parts,
            answers: with_answers.then(|| self.answer_views()),
        }
    }

    /// The worked solution as data.
    #[must_use]
    pub fn solution(&self) -> SolutionView {
        SolutionView {
            answers: self.answer_views(),
            start: self.recipe.start.as_ref().map(|start| self.facts.fill(start)),
            working: self.facts.fill(&self.recipe.working),
        }
    }

    /// What its author sees of everything that is asked.
    #[must_use]
    pub fn review(&self) -> Vec<PartReview> {
        let review = |part: &Part| PartReview {
            id: part.ask.id.clone(),
            label: part.ask.label.clone(),
            form: part.ask.form.id(),
            reviewed: part.drawn.review(part.of(&self.facts)),
        };
        self.parts.iter().map(review).collect()
    }

    fn answer_views(&self) -> Vec<AnswerView> {
        let view = |part: &Part| AnswerView {
            id: part.ask.id.clone(),
            label: part.ask.label.clone(),
            shown: part.drawn.shown(part.of(&self.facts)),
            exact: part.drawn.exact(part.of(&self.facts)),
            cells: part.drawn.cells(part.of(&self.facts)),
        };
        self.parts.iter().map(view).collect()
    }

    fn part_view(&self, part: &Part, ids: &str) -> PartView {
        let id = &part.ask.id;
        let ids = match ids {
            "" => format!("{}-{id}-{}", self.recipe.id, self.facts.setting.system.id()),
            ids => format!("{ids}-{id}"),
        };
        PartView { id: id.clone(), label: part.ask.label.clone(), form: part.drawn.view(part.of(&self.facts), &ids) }
    }
}

/// Says of each plot whether an earlier part shows it too.
fn each_plot_once(parts: &mut [PartView]) {
    let mut shown = Vec::new();
    for figure in parts.iter_mut().filter_map(|part| part.form.figure()) {
        figure.again = shown.contains(&figure.rows);
        if !figure.again {
            shown.push(figure.rows.clone());
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
        let mut values = NamedValues(Vec::new());
        self.values.into_iter().for_each(|(name, value)| values.put(name, value));
        match &self.verdict {
            Verdict::Slip(slip) => values.put("slip", slip.id().to_owned()),
            Verdict::Mistake(name) => values.put("mistake", name.clone()),
            _ => {}
        }
        MarkedView {
            id,
            verdict: self.verdict.id(),
            credit: self.credit,
            html: self.html,
            told: self.told,
            values,
            notes: self.notes,
            readings: self.readings,
            cells: self.cells.into_iter().map(|(id, cell)| cell.view(id)).collect(),
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
