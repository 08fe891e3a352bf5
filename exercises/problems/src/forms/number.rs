//! A number with a unit.

use relief::{System, units};
use serde::Serialize;

use super::form::AnswerForm;
use super::keys::{NoKeys, PartKeys, SaidText, SharedKeys};
use crate::display::{self, unit_text};
use crate::facts::{DrawError, Facts, NumberAt, PartOf, Setting};
use crate::formula::NameKind;
use crate::number::check::NumberKeys;
use crate::number::{self, Limit, Number};
use crate::proof;
use crate::proof::found::Found;
use crate::recipe::checking::{Check, Path};
use crate::recipe::written::Entries;
use crate::review::{AlsoReview, MistakeReview, Reviewed};
use crate::rounding::{Grid, RoundingGrid, Side};
use crate::seed::Seed;
use crate::verdict::{Marked, Typed, typed};
use crate::views::{FigureView, Outline};

/// A number, and the plot that it is read off where there is one.
#[derive(Debug, Serialize)]
pub(crate) struct View {
    form: &'static str,
    /// The unit asked for, as it is printed.
    pub(super) unit: Option<String>,
    /// The units that it may be given in.
    pub(super) units: Vec<String>,
    /// How it is to be rounded.
    pub(super) round: Option<RoundView>,
    /// Which limit it is, `upper` or `lower`, where nothing else says to which side to round.
    limit: Option<&'static str>,
    /// The plot that it is read off.
    pub(super) figure: Option<FigureView>,
    /// The words that say how to round, or which limit it is, by their key.
    pub(super) rounding: Option<&'static str>,
}

/// How a number is to be rounded: to so many figures or to the multiples of a step.
#[derive(Debug, Serialize)]
pub(super) struct RoundView {
    /// `nearest`, `up`, `down` or `safe`.
    side: &'static str,
    /// Significant figures.
    figures: Option<u8>,
    /// The step with its unit, as it is printed.
    to: Option<String>,
}

/// The keys of a number, among those that several forms share.
pub(super) fn keys(shared: &SharedKeys) -> NumberKeys<'_> {
    NumberKeys {
        answer: shared.answer.as_deref(),
        unit: shared.unit.as_ref(),
        within: shared.within.as_ref(),
        limit: shared.limit.as_deref(),
        unsafe_fails: shared.unsafe_fails,
        round: shared.round.as_ref(),
        usual_range: shared.usual_range.as_ref(),
        also_right: shared.also_right.as_deref(),
        mistakes: shared.mistakes.as_ref(),
    }
}

/// The names of the mistakes of a number.
pub(super) fn mistake_names(mistakes: Option<&Entries<String>>) -> Vec<&str> {
    mistakes.into_iter().flat_map(|mistakes| &mistakes.0).map(|(name, _)| name.as_str()).collect()
}

/// A number is what is right.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Answer(pub relief::Quantity);

impl AnswerForm for Number {
    const NAME: &'static str = "number";
    const KEYS: &'static [&'static str] =
        &["answer", "unit", "within", "limit", "unsafe_fails", "round", "usual_range", "also_right", "mistakes"];
    #[cfg(feature = "schema")]
    const NEEDED: &'static [&'static str] = &["answer"];
    type Keys = NoKeys;
    type Answer = Answer;
    type View = View;

    fn check(PartKeys { shared, .. }: PartKeys<NoKeys>, path: &Path, check: &mut Check) -> Option<Self> {
        number::check::number(keys(shared), path, check)
    }

    fn texts<'k>(_: PartKeys<'k, NoKeys>) -> Vec<SaidText<'k>> {
        Vec::new()
    }

    fn mistakes<'k>(keys: PartKeys<'k, NoKeys>) -> Vec<&'k str> {
        mistake_names(keys.shared.mistakes.as_ref())
    }

    fn name_kind(&self) -> NameKind {
        NameKind::Quantity(self.kind)
    }

    fn numbers<'f>(&'f self, id: &'f str, label: &'f str) -> Vec<NumberAt<'f>> {
        vec![NumberAt { id, label, number: self }]
    }

    fn names_danger(&self) -> bool {
        self.limit.is_some()
    }

    fn words(&self) -> Vec<&'static str> {
        let rounded = self.round.map(|_| "answers.rounded");
        rounded.into_iter().chain(self.usual_range.as_ref().map(|_| "answers.usual_range")).collect()
    }

    fn draw(&self, id: &str, _: &Seed, facts: &mut Facts) -> Result<Answer, DrawError> {
        let right = self.right(&facts.scope).map_err(|error| DrawError::NoValue(id.to_owned(), error))?;
        facts.learn(right);
        Ok(Answer(right))
    }

    fn mark(&self, answer: &Answer, part: PartOf, answers: &Typed) -> Marked {
        number::mark(part.facts, self.at(part), answer.0, typed(answers, part.id), answers)
    }

    fn fails(&self, marked: &Marked) -> bool {
        self.unsafe_fails && marked.is_unsafe()
    }

    fn view(&self, _: &Answer, part: PartOf, _: &str) -> View {
        self.asked_view(part.facts.setting)
    }

    fn outline(view: &View) -> Vec<Outline<'_>> {
        let unit = view.unit.as_deref().map(Outline::Unit);
        let rounding = rounding(view.rounding, view.round.as_ref());
        let rows = view.figure.as_ref().map(|figure| rows(&figure.heads, &figure.rows));
        unit.into_iter().chain(rounding).chain(rows).collect()
    }

    fn shown(&self, answer: &Answer, part: PartOf) -> String {
        part.facts.number_text(self, answer.0)
    }

    fn exact(&self, answer: &Answer, part: PartOf) -> String {
        self.typed_text(answer.0, part.facts.setting.system)
    }

    fn review(&self, answer: &Answer, part: PartOf) -> Reviewed {
        self.reviewed(answer.0, part.facts)
    }

    fn prove(&self, answer: &Answer, part: PartOf) -> Result<(), Found> {
        proof::number::check(part.facts, self.at(part), answer.0)
    }
}

/// The sentence that says how to round, or which limit a number is.
pub(super) fn rounding<'v>(key: Option<&str>, round: Option<&RoundView>) -> Option<Outline<'v>> {
    let values = round.into_iter().flat_map(|round| {
        let figures = round.figures.map(|figures| ("figures", figures.to_string()));
        figures.into_iter().chain(round.to.clone().map(|to| ("to", to)))
    });
    Some(Outline::Sentence(format!("live.{}", key?), values.collect()))
}

/// A table of texts that a view already has.
fn rows<'v>(heads: &'v [String], rows: &'v [Vec<String>]) -> Outline<'v> {
    Outline::Rows(heads.into(), rows.into())
}

/// Figures of a number that is typed in full: what a conversion leaves in the last bits is not among them.
const FULL_FIGURES: u8 = 15;

impl Number {
    fn at<'p>(&'p self, part: PartOf<'p>) -> NumberAt<'p> {
        NumberAt { id: part.id, label: part.label, number: self }
    }

    /// What is to be filled in, with no plot.
    pub(super) fn asked_view(&self, setting: Setting) -> View {
        let unit = self.unit_in(setting.system);
        let grid = self.grid(setting.system);
        let limit = self.limit.filter(|_| grid.is_none());
        let rounding = grid.map(|grid| phrase(&grid)).or(limit.map(limit_phrase));
        View {
            form: Self::NAME,
            unit: unit.map(|unit| unit_text(unit, 2.0)),
            units: units::for_kind(self.kind).map(|unit| unit_text(unit, 2.0)).collect(),
            round: grid.map(|grid| round(&grid, unit, setting.mark)),
            limit: limit.map(Limit::id),
            figure: None,
            rounding,
        }
    }

    /// A right answer to full precision, as it could be typed.
    pub(super) fn typed_text(&self, right: relief::Quantity, system: System) -> String {
        let value = self.in_unit(right, system);
        let value = self.grid(system).map_or(value, |grid| grid.round(value));
        let text = relief::shown(value, FULL_FIGURES, relief::Rounding::Nearest);
        self.unit_in(system).map_or(text.clone(), |unit| format!("{text} {}", unit.symbol))
    }

    /// What its author sees of it besides.
    pub(super) fn reviewed(&self, right: relief::Quantity, facts: &Facts) -> Reviewed {
        let also = self.also_right.iter().map(|also| AlsoReview {
            shown: also.number.answer.quantity(&facts.scope).ok().map(|value| facts.number_text(self, value)),
            html: facts.fill(&also.when),
        });
        Reviewed { also_right: also.collect(), mistakes: self.reviewed_mistakes(right, facts), options: Vec::new() }
    }

    /// What the named mistakes come out as.
    pub(super) fn reviewed_mistakes(&self, right: relief::Quantity, facts: &Facts) -> Vec<MistakeReview> {
        let review = |mistake: &number::Mistake| {
            let value = mistake.answer.quantity(&facts.scope).ok();
            let beyond = |value: relief::Quantity| self.limit.is_some_and(|limit| limit.is_beyond(value.si, right.si));
            MistakeReview {
                name: mistake.name.clone(),
                shown: value.map(|value| facts.number_text(self, value)),
                is_unsafe: value.is_some_and(beyond),
                html: facts.fill(&mistake.message),
            }
        };
        self.mistakes.iter().map(review).collect()
    }
}

fn round(grid: &RoundingGrid, unit: Option<&units::Unit>, mark: crate::decimal_mark::DecimalMark) -> RoundView {
    let (figures, to) = match grid.grid() {
        Grid::Figures(figures) => (Some(figures), None),
        Grid::Step { step, style } => (None, Some(display::number(step, style, unit, mark))),
    };
    RoundView { side: grid.side().id(), figures, to }
}

/// The words that say how to round, by their key.
fn phrase(grid: &RoundingGrid) -> &'static str {
    match (grid.grid(), grid.side()) {
        (Grid::Step { .. }, Side::Nearest) => "round.nearest",
        (Grid::Step { .. }, Side::Up) => "round.up",
        (Grid::Step { .. }, Side::Down) => "round.down",
        (Grid::Step { .. }, Side::Safe) => "round.safe",
        (Grid::Figures(_), Side::Nearest) => "round.figures",
        (Grid::Figures(_), Side::Up) => "round.figures_up",
        (Grid::Figures(_), Side::Down) => "round.figures_down",
        (Grid::Figures(_), Side::Safe) => "round.figures_safe",
    }
}

/// The words that say which limit a number is, by their key.
fn limit_phrase(limit: Limit) -> &'static str {
    match limit {
        Limit::Upper => "round.limit_upper",
        Limit::Lower => "round.limit_lower",
    }
}
