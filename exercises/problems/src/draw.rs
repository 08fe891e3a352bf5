//! A drawn problem: what is given, and what is right.

use relief::{Exact, Kind, Quantity};

use crate::display::{self, Mark};
use crate::forms::{choices, order, pairs, parts, plot, truth};
use crate::formula::{EvaluateError, Node, Scope, Value};
use crate::recipe::{Ask, Draw, Form, Given, Measure, Recipe, Source, System};
use crate::seed::{Seed, Stream};

/// How often a draw that its recipe does not want is made again before it is given up.
const MOST_TRIES: u32 = 1000;

/// How a problem is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Setting {
    /// The system of units.
    pub system: System,
    /// The decimal mark that it is printed with.
    pub mark: Mark,
}

/// A drawn problem.
#[derive(Debug)]
pub struct Problem<'r> {
    /// The recipe.
    pub recipe: &'r Recipe,
    /// How it is set.
    pub setting: Setting,
    /// How often all of it was drawn again until it met what the recipe requires.
    pub redraws: u32,
    /// What was drawn, in the order of the recipe.
    pub givens: Vec<GivenValue>,
    /// What is right, in the order of the parts.
    pub answers: Vec<Answer>,
    /// The values of all names.
    pub scope: Scope,
}

/// A drawn value.
#[derive(Clone, Debug, PartialEq)]
pub struct GivenValue {
    /// The name.
    pub name: String,
    /// The number or choice, as data: `1.25`, `3/8`, `single`.
    pub value: String,
    /// The symbol of the unit; none for a bare number or a choice.
    pub unit: Option<&'static str>,
    /// As the learner reads it.
    pub text: String,
}

/// What is right. Places are those in the recipe; `order` is the order in which they are shown.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// This quantity.
    Number(Quantity),
    /// This option.
    OneOf {
        /// The options as they are shown.
        order: Vec<usize>,
        /// The right one.
        right: usize,
    },
    /// These options and no others.
    SeveralOf {
        /// The options as they are shown.
        order: Vec<usize>,
        /// The right ones.
        right: Vec<usize>,
    },
    /// The items in this order.
    InOrder {
        /// The items as they are shown.
        order: Vec<usize>,
        /// The right order.
        right: Vec<usize>,
    },
    /// Each item with its own partner.
    Match {
        /// The items as they are shown.
        items: Vec<usize>,
        /// The partners as they are shown: those of the pairs first, then the spare ones.
        partners: Vec<usize>,
    },
    /// This part of the figure.
    PointAt {
        /// The right part.
        right: usize,
    },
    /// The statement is true or false, for this reason.
    TrueOrFalse {
        /// Whether it is true.
        right: bool,
        /// The reasons as they are shown.
        order: Vec<usize>,
        /// The right reason.
        reason: usize,
    },
}

/// Why nothing could be drawn. A proven recipe gives none of these.
#[derive(Clone, Debug, PartialEq)]
pub enum DrawError {
    /// No draw in a thousand met what the recipe requires.
    NeverMet,
    /// The formula of a name has no value.
    NoValue(String, EvaluateError),
    /// So many options of a part are right, and not one.
    RightOptions(String, usize),
    /// All options of a part are right, or none.
    AllOrNone(String),
    /// Two items of a part have the same value, so that neither comes first.
    Tie(String),
    /// The figure of a part cannot be drawn from these values, by the rule named.
    NoFigure(String, String),
}

impl DrawError {
    /// The code under which words for this error are kept.
    #[must_use]
    pub fn id(&self) -> &'static str {
        match self {
            Self::NeverMet => "never_met",
            Self::NoValue(..) => "no_value",
            Self::RightOptions(..) => "right_options",
            Self::AllOrNone(..) => "all_or_none",
            Self::Tie(..) => "tie",
            Self::NoFigure(..) => "no_figure",
        }
    }
}

/// A number to more figures than anybody types: what a conversion leaves in the last bits is not among them.
fn full(value: f64) -> String {
    relief::shown(value, FULL_FIGURES, relief::Rounding::Nearest)
}

/// Figures of a number that stands for itself.
const FULL_FIGURES: u8 = 15;

/// What is given in a problem.
pub(crate) struct Drawn {
    pub(crate) redraws: u32,
    pub(crate) givens: Vec<GivenValue>,
    scope: Scope,
}

/// Draws a problem.
///
/// # Errors
/// [`DrawError`], by its rule.
pub fn draw<'r>(recipe: &'r Recipe, seed: &Seed, setting: Setting) -> Result<Problem<'r>, DrawError> {
    let Drawn { redraws, givens, mut scope } = draw_givens(recipe, seed, setting)?;
    let mut answers = Vec::with_capacity(recipe.asks.len());
    for ask in &recipe.asks {
        answers.push(answer(ask, seed, &mut scope, setting.system)?);
    }
    Ok(Problem { recipe, setting, redraws, givens, answers, scope })
}

/// Draws what is given, again until it meets what the recipe requires.
pub(crate) fn draw_givens(recipe: &Recipe, seed: &Seed, setting: Setting) -> Result<Drawn, DrawError> {
    let mut streams: Vec<Stream> = recipe.draws.iter().map(|draw| seed.stream(&draw.name)).collect();
    for redraws in 0..MOST_TRIES {
        let (givens, scope) = draw_all(recipe, &mut streams, setting)?;
        if meets(recipe, &scope)? {
            return Ok(Drawn { redraws, givens, scope });
        }
    }
    Err(DrawError::NeverMet)
}

fn draw_all(recipe: &Recipe, streams: &mut [Stream], setting: Setting) -> Result<(Vec<GivenValue>, Scope), DrawError> {
    let mut scope = Scope::new(setting.system);
    let mut givens = Vec::with_capacity(recipe.draws.len());
    for (draw, stream) in recipe.draws.iter().zip(streams) {
        let (given, value) = one(draw, stream, &scope, setting)?;
        scope.set(&draw.name, value);
        givens.push(given);
    }
    Ok((givens, scope))
}

fn meets(recipe: &Recipe, scope: &Scope) -> Result<bool, DrawError> {
    for condition in &recipe.require {
        match condition.holds(scope) {
            Ok(true) => {}
            Ok(false) => return Ok(false),
            Err(error) => return Err(DrawError::NoValue("require".to_owned(), error)),
        }
    }
    Ok(true)
}

fn one(draw: &Draw, stream: &mut Stream, scope: &Scope, setting: Setting) -> Result<(GivenValue, Value), DrawError> {
    let given = match draw.source.of(setting.system) {
        Source::Range { start, step, count, measure } => {
            let value = start.plus_steps(*step, i64::from(stream.below(*count))).unwrap_or(*start);
            Given::Quantity { value, measure: *measure }
        }
        Source::Choose(options) => {
            let place = stream.below(u32::try_from(options.len()).unwrap_or(u32::MAX));
            let option = usize::try_from(place).ok().and_then(|place| options.get(place));
            option.ok_or_else(|| unfit(draw))?.clone()
        }
        Source::From { formula, grid, measure } => {
            let no_value = |error| DrawError::NoValue(draw.name.clone(), error);
            let value = on_grid(formula, *grid, *measure, scope).map_err(no_value)?;
            Given::Quantity { value, measure: *measure }
        }
    };
    Ok(shown(&draw.name, &given, setting.mark))
}

fn unfit(draw: &Draw) -> DrawError {
    DrawError::NoValue(draw.name.clone(), EvaluateError::Unfit)
}

/// The value rounded to the grid, and used rounded.
fn on_grid(formula: &Node, grid: Exact, measure: Measure, scope: &Scope) -> Result<Exact, EvaluateError> {
    let quantity = formula.quantity(scope)?;
    let value = measure.unit.map_or(quantity.si, |unit| unit.value(quantity));
    let steps = (value / grid.to_f64()).round();
    if steps.abs() > 1e12 {
        return Err(EvaluateError::NotFinite);
    }
    #[expect(clippy::cast_possible_truncation, reason = "whole and below 1e12")]
    let steps = steps as i64;
    Exact::ZERO.plus_steps(grid, steps).map_err(|_| EvaluateError::NotFinite)
}

fn shown(name: &str, given: &Given, mark: Mark) -> (GivenValue, Value) {
    let name = name.to_owned();
    match given {
        Given::Quantity { value, measure } => {
            let number = value.to_f64();
            let quantity =
                measure.unit.map_or(Quantity::new(number, Kind::Number), |unit| unit.quantity(number, measure.kind));
            let unit = measure.unit.map(|unit| unit.symbol);
            let text = display::exact(*value, *measure, mark);
            (GivenValue { name, value: value.text(measure.style), unit, text }, Value::Quantity(quantity))
        }
        Given::Choice { name: choice, text } => {
            let given = GivenValue { name, value: choice.clone(), unit: None, text: text.clone() };
            (given, Value::Choice(choice.clone()))
        }
    }
}

fn answer(ask: &Ask, seed: &Seed, scope: &mut Scope, system: System) -> Result<Answer, DrawError> {
    match &ask.form {
        Form::Number(number) => {
            let no_value = |error| DrawError::NoValue(ask.id.clone(), error);
            let value = number.answer.quantity(scope).map_err(no_value)?;
            let value = Quantity::new(value.si, number.kind);
            plot::check(ask, number, scope, system)?;
            // What goes on from a rounded answer goes on from the number that is seen.
            scope.set(&ask.id, Value::Quantity(number.rounded(value, system)));
            Ok(Answer::Number(value))
        }
        Form::OneOf(choice) => choices::draw_one(ask, choice, seed, scope),
        Form::SeveralOf(choice) => choices::draw_several(ask, choice, seed, scope),
        Form::InOrder(items) => order::draw(ask, items, seed, scope),
        Form::Match(matched) => Ok(pairs::draw(ask, matched, seed)),
        Form::PointAt(point) => parts::draw(ask, point, scope),
        Form::TrueOrFalse(claim) => truth::draw(ask, claim, seed, scope),
    }
}

impl Problem<'_> {
    /// The part with an id, and what is right there.
    #[must_use]
    pub fn part(&self, id: &str) -> Option<(&Ask, &Answer)> {
        self.recipe.asks.iter().zip(&self.answers).find(|(ask, _)| ask.id == id)
    }

    /// The value of a name, as the learner reads it: as drawn, or as the right answer of a part.
    #[must_use]
    pub fn text(&self, name: &str) -> String {
        let given = self.givens.iter().find(|given| given.name == name).map(|given| given.text.clone());
        given.or_else(|| self.part(name).map(|(ask, answer)| self.answer_text(ask, answer))).unwrap_or_default()
    }

    /// The right answer of a part, as the learner reads it: HTML. A number is rounded as it is asked for, or to the
    /// safe side where it is a limit.
    #[must_use]
    pub fn answer_text(&self, ask: &Ask, answer: &Answer) -> String {
        match (&ask.form, answer) {
            (Form::Number(number), Answer::Number(value)) => self.number_text(number, *value),
            (Form::OneOf(choice), Answer::OneOf { right, .. }) => choices::shown(self, choice, &[*right]),
            (Form::SeveralOf(choice), Answer::SeveralOf { right, .. }) => choices::shown(self, choice, right),
            (Form::InOrder(items), Answer::InOrder { right, .. }) => order::shown(self, items, right),
            (Form::Match(matched), Answer::Match { .. }) => pairs::shown(self, matched),
            (Form::PointAt(point), Answer::PointAt { right }) => parts::shown(point, *right),
            (Form::TrueOrFalse(claim), Answer::TrueOrFalse { right, reason, .. }) => {
                let reason = claim.reasons.get(*reason).map(|reason| self.fill(&reason.say)).unwrap_or_default();
                let word = self.recipe.word(if *right { "answers.is_true" } else { "answers.is_false" });
                format!("{word}: {reason}")
            }
            _ => String::new(),
        }
    }

    /// A right number, as the learner reads it.
    pub(crate) fn number_text(&self, number: &crate::recipe::NumberAsk, value: Quantity) -> String {
        let Setting { system, mark } = self.setting;
        let unit = number.unit.of(system).0;
        match number.grid(system) {
            Some(grid) => {
                let value = unit.map_or(value.si, |unit| unit.value(value));
                display::on_grid(grid.round(value), &grid, unit, mark)
            }
            None => display::computed(value, unit, number.rounding(), mark),
        }
    }

    /// What could be typed for the right answer of a part: a number with its unit to full precision, or the text in
    /// which a choice, an order or pairs cross.
    #[must_use]
    pub fn exact(&self, ask: &Ask, answer: &Answer) -> String {
        match (&ask.form, answer) {
            (Form::Number(number), Answer::Number(right)) => {
                let system = self.setting.system;
                let unit = number.unit.of(system).0;
                let value = unit.map_or(right.si, |unit| unit.value(*right));
                let value = number.grid(system).map_or(value, |grid| grid.round(value));
                let text = full(value);
                unit.map_or(text.clone(), |unit| format!("{text} {}", unit.symbol))
            }
            (_, Answer::OneOf { right, .. }) => choices::exact(&[*right]),
            (_, Answer::SeveralOf { right, .. } | Answer::InOrder { right, .. }) => choices::exact(right),
            (Form::Match(matched), Answer::Match { .. }) => pairs::exact(matched),
            (Form::PointAt(point), Answer::PointAt { right }) => {
                point.parts.get(*right).map(|part| part.id.clone()).unwrap_or_default()
            }
            (_, Answer::TrueOrFalse { right, reason, .. }) => truth::exact(*right, *reason),
            _ => String::new(),
        }
    }
}
