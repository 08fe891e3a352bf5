//! What is given in a problem: drawn, derived and rounded, again until it meets what the recipe requires.

use relief::units::Unit;
use relief::{Exact, Kind, Quantity, System};

use crate::decimal_mark::DecimalMark;
use crate::display;
use crate::facts::{DrawError, GivenValue, Setting};
use crate::formula::{EvaluateError, Node, Scope, Value};
use crate::recipe::{Draw, Given, Measure, Recipe, Source};
use crate::seed::{Seed, Stream};

/// How often a draw that its recipe does not want is made again before it is given up.
pub(crate) const MOST_TRIES: u32 = 1000;

/// What is given in a problem.
pub(crate) struct Givens {
    pub(crate) redraws: u32,
    pub(crate) values: Vec<GivenValue>,
    pub(crate) scope: Scope,
}

/// Draws what is given, again until it meets what the recipe requires.
pub(crate) fn draw_givens(recipe: &Recipe, seed: &Seed, setting: Setting) -> Result<Givens, DrawError> {
    let mut streams: Vec<Stream> = recipe.draws.iter().map(|draw| seed.stream(&draw.name)).collect();
    for redraws in 0..MOST_TRIES {
        let (givens, scope) = draw_all(recipe, &mut streams, setting.system)?;
        if meets(recipe, &scope)? {
            let named = recipe.draws.iter().zip(givens);
            let values = named.map(|(draw, given)| shown(&draw.name, given, setting.mark)).collect();
            return Ok(Givens { redraws, values, scope });
        }
    }
    Err(DrawError::NeverMet)
}

/// The values of all that is tried for a seed, whether the recipe wants it or not.
pub(crate) fn tries<'r>(recipe: &'r Recipe, seed: &Seed, setting: Setting) -> impl Iterator<Item = Scope> + 'r {
    let mut streams: Vec<Stream> = recipe.draws.iter().map(|draw| seed.stream(&draw.name)).collect();
    (0..MOST_TRIES).filter_map(move |_| Some(draw_all(recipe, &mut streams, setting.system).ok()?.1))
}

fn draw_all(recipe: &Recipe, streams: &mut [Stream], system: System) -> Result<(Vec<Given>, Scope), DrawError> {
    let mut scope = Scope::new(system);
    let mut givens = Vec::with_capacity(recipe.draws.len());
    for (draw, stream) in recipe.draws.iter().zip(streams) {
        let given = one(draw, stream, &scope)?;
        scope.set(&draw.name, value(&given));
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

fn one(draw: &Draw, stream: &mut Stream, scope: &Scope) -> Result<Given, DrawError> {
    match draw.source.of(scope.system()) {
        Source::Range { start, step, count, measure } => {
            let value = start.plus_steps(*step, i64::from(stream.below(*count))).unwrap_or(*start);
            Ok(Given::Quantity { value, measure: *measure })
        }
        Source::Choose(options) => {
            let place = stream.below(u32::try_from(options.len()).unwrap_or(u32::MAX));
            let option = usize::try_from(place).ok().and_then(|place| options.get(place));
            option.cloned().ok_or_else(|| unfit(draw))
        }
        Source::From { formula, grid, measure } => {
            let no_value = |error| DrawError::NoValue(draw.name.clone(), error);
            let value = on_grid(formula, *grid, *measure, scope).map_err(no_value)?;
            Ok(Given::Quantity { value, measure: *measure })
        }
    }
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

/// What formulas take it for.
fn value(given: &Given) -> Value {
    match given {
        Given::Quantity { value, measure } => {
            let number = value.to_f64();
            let in_unit = |unit: &Unit| unit.quantity(number, measure.kind);
            Value::Quantity(measure.unit.map_or(Quantity::new(number, Kind::Number), in_unit))
        }
        Given::Choice { name, .. } => Value::Choice(name.clone()),
    }
}

fn shown(name: &str, given: Given, mark: DecimalMark) -> GivenValue {
    let name = name.to_owned();
    match given {
        Given::Quantity { value, measure } => {
            let written = value.text(measure.style);
            let text = display::written(&written, value, measure.unit, mark);
            GivenValue { name, value: written, unit: measure.unit.map(|unit| unit.symbol), text }
        }
        Given::Choice { name: choice, text } => GivenValue { name, value: choice, unit: None, text },
    }
}
