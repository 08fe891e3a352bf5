//! A drawn problem: what is given, and what is right.

use relief::{Exact, Kind, Quantity};

use crate::display::{self, Mark};
use crate::formula::{EvaluateError, Node, Scope, Value};
use crate::recipe::{Ask, Draw, Form, Given, Measure, OneOfAsk, Recipe, Source, System};
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

/// What is right.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// This quantity.
    Number(Quantity),
    /// This option.
    OneOf {
        /// The order in which the options are shown, by their places in the recipe.
        order: Vec<usize>,
        /// The place in the recipe of the right one.
        right: usize,
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
}

impl DrawError {
    /// The code under which words for this error are kept.
    #[must_use]
    pub fn id(&self) -> &'static str {
        match self {
            Self::NeverMet => "never_met",
            Self::NoValue(..) => "no_value",
            Self::RightOptions(..) => "right_options",
        }
    }
}

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
        answers.push(answer(ask, seed, &mut scope)?);
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
    let mut scope = Scope::default();
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

fn answer(ask: &Ask, seed: &Seed, scope: &mut Scope) -> Result<Answer, DrawError> {
    match &ask.form {
        Form::Number(number) => {
            let no_value = |error| DrawError::NoValue(ask.id.clone(), error);
            let value = number.answer.quantity(scope).map_err(no_value)?;
            let value = Quantity::new(value.si, number.kind);
            scope.set(&ask.id, Value::Quantity(value));
            Ok(Answer::Number(value))
        }
        Form::OneOf(one_of) => options(ask, one_of, seed, scope),
    }
}

fn options(ask: &Ask, one_of: &OneOfAsk, seed: &Seed, scope: &Scope) -> Result<Answer, DrawError> {
    let mut right = Vec::new();
    for (place, option) in one_of.options.iter().enumerate() {
        let holds = option.right.as_ref().map_or(Ok(false), |condition| condition.holds(scope));
        if holds.map_err(|error| DrawError::NoValue(ask.id.clone(), error))? {
            right.push(place);
        }
    }
    let count = one_of.options.len();
    let order = if one_of.keep_order { (0..count).collect() } else { seed.stream(&ask.id).shuffled(count) };
    match right.as_slice() {
        [right] => Ok(Answer::OneOf { order, right: *right }),
        _ => Err(DrawError::RightOptions(ask.id.clone(), right.len())),
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

    /// The right answer of a part, as the learner reads it, rounded to the safe side where it is a limit.
    #[must_use]
    pub fn answer_text(&self, ask: &Ask, answer: &Answer) -> String {
        match (&ask.form, answer) {
            (Form::Number(number), Answer::Number(value)) => {
                let unit = number.unit.of(self.setting.system).0;
                display::computed(*value, unit, number.rounding(), self.setting.mark)
            }
            (Form::OneOf(one_of), Answer::OneOf { right, .. }) => {
                one_of.options.get(*right).map(|option| self.fill(&option.say)).unwrap_or_default()
            }
            _ => String::new(),
        }
    }
}
