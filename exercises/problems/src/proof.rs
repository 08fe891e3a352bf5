//! Proof: a recipe is drawn over many seeds before anyone sees it, and refused where a draw would let a learner down.

use core::ops::RangeInclusive;
use std::collections::BTreeSet;

use crate::display::Mark;
use crate::draw::{Answer, DrawError, Problem, Setting, draw};
use crate::mark::{Verdict, mark, slack, tolerance};
use crate::recipe::{Form, NumberAsk, Recipe, System};
use crate::seed::{FIRST_ATTEMPT, Seed};

/// What proof found of a recipe in one system of units.
#[derive(Clone, Debug, PartialEq)]
pub struct Spread {
    /// The system.
    pub system: System,
    /// How many draws were made.
    pub draws: usize,
    /// How many of them differ in what is given.
    pub distinct: usize,
    /// The least and greatest right answer of each number, in the unit asked for.
    pub answers: Vec<(String, f64, f64)>,
}

/// Why a recipe is refused.
#[derive(Clone, Debug, PartialEq)]
pub struct ProofFault {
    /// The rule that it breaks.
    pub code: &'static str,
    /// The seed whose draw shows it.
    pub seed: u64,
    /// The system of units.
    pub system: System,
    /// What a message needs to know.
    pub values: Vec<(&'static str, String)>,
}

/// The fewest different problems that a recipe must have in each system, where it draws anything.
const FEWEST_DISTINCT: usize = 8;
/// Believable numbers in the unit asked for: a learner can read and type them.
const BELIEVABLE: RangeInclusive<f64> = 1e-3..=1e6;

/// Draws a recipe for every seed in both systems of units.
///
/// # Errors
/// The first fault in each system.
pub fn prove(recipe: &Recipe, seeds: RangeInclusive<u64>) -> Result<Vec<Spread>, Vec<ProofFault>> {
    let (mut spreads, mut faults) = (Vec::new(), Vec::new());
    for system in System::BOTH {
        match prove_in(recipe, seeds.clone(), system) {
            Ok(spread) => spreads.push(spread),
            Err(fault) => faults.push(fault),
        }
    }
    if faults.is_empty() { Ok(spreads) } else { Err(faults) }
}

fn prove_in(recipe: &Recipe, seeds: RangeInclusive<u64>, system: System) -> Result<Spread, ProofFault> {
    let setting = Setting { system, mark: Mark::Point };
    let mut statements = BTreeSet::new();
    let mut spread = Spread { system, draws: 0, distinct: 0, answers: Vec::new() };
    let last = *seeds.end();
    for seed in seeds {
        let fault = |code, values| ProofFault { code, seed, system, values };
        let drawn = Seed { text: seed.to_string(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
        let problem = draw(recipe, &drawn, setting).map_err(|error| {
            let values = vec![("part", part_of(&error)), ("error", explain(&error))];
            fault(error_code(&error), values)
        })?;
        check(&problem).map_err(|(code, values)| fault(code, values))?;
        note(&problem, &mut spread);
        statements.insert(problem.givens.iter().map(|given| given.text.clone()).collect::<Vec<_>>());
    }
    spread.distinct = statements.len();
    let enough = spread.distinct >= FEWEST_DISTINCT.min(spread.draws);
    if enough || recipe.draws.is_empty() {
        return Ok(spread);
    }
    let values = vec![("found", spread.distinct.to_string()), ("least", FEWEST_DISTINCT.to_string())];
    Err(ProofFault { code: "proof-repeats", seed: last, system, values })
}

fn error_code(error: &DrawError) -> &'static str {
    match error {
        DrawError::NeverMet => "proof-never-met",
        DrawError::NoValue(..) => "proof-no-value",
        DrawError::RightOptions(..) => "proof-right-options",
        DrawError::AllOrNone(..) => "proof-all-or-none",
        DrawError::Tie(..) => "proof-tie",
        DrawError::NoFigure(..) => "proof-no-figure",
    }
}

fn part_of(error: &DrawError) -> String {
    match error {
        DrawError::NeverMet => String::new(),
        DrawError::NoValue(name, _)
        | DrawError::RightOptions(name, _)
        | DrawError::AllOrNone(name)
        | DrawError::Tie(name)
        | DrawError::NoFigure(name, _) => name.clone(),
    }
}

fn explain(error: &DrawError) -> String {
    match error {
        DrawError::NeverMet | DrawError::AllOrNone(_) | DrawError::Tie(_) => String::new(),
        DrawError::NoFigure(_, rule) => rule.clone(),
        DrawError::NoValue(_, error) => error.to_string(),
        DrawError::RightOptions(_, count) => count.to_string(),
    }
}

type Found = (&'static str, Vec<(&'static str, String)>);

fn check(problem: &Problem) -> Result<(), Found> {
    for (index, condition) in problem.recipe.plausible.iter().enumerate() {
        match condition.holds(&problem.scope) {
            Ok(true) => {}
            Ok(false) => return Err(("proof-not-plausible", vec![("condition", (index + 1).to_string())])),
            Err(error) => {
                return Err(("proof-no-value", vec![("part", "plausible".into()), ("error", error.to_string())]));
            }
        }
    }
    for (ask, answer) in problem.recipe.asks.iter().zip(&problem.answers) {
        if let (Form::Number(number), Answer::Number(right)) = (&ask.form, answer) {
            number_ask(problem, &ask.id, number, *right)?;
        }
    }
    Ok(())
}

fn number_ask(problem: &Problem, id: &str, number: &NumberAsk, right: relief::Quantity) -> Result<(), Found> {
    let part = || ("part", id.to_owned());
    let unit = number.unit.of(problem.setting.system).0;
    let value = unit.map_or(right.si, |unit| unit.value(right));
    if !BELIEVABLE.contains(&value.abs()) {
        return Err((
            "proof-unbelievable",
            vec![part(), ("found", relief::shown(value, 4, relief::Rounding::Nearest))],
        ));
    }
    let shown = problem.text(id);
    if mark(problem, id, &shown).is_none_or(|marked| marked.verdict != Verdict::Right) {
        return Err(("proof-shown-answer-wrong", vec![part(), ("found", shown)]));
    }
    mistakes(problem, number, right).map_err(|(code, mut values)| {
        values.push(part());
        (code, values)
    })
}

/// No mistake may come near the right answer, and no two mistakes near each other: their explanations would be wrong.
fn mistakes(problem: &Problem, number: &NumberAsk, right: relief::Quantity) -> Result<(), Found> {
    let mut known = vec![("", right)];
    for mistake in &number.mistakes {
        let value = mistake.answer.quantity(&problem.scope);
        let value = value
            .map_err(|error| ("proof-no-value", vec![("part", mistake.name.clone()), ("error", error.to_string())]))?;
        for (name, other) in &known {
            let reach = tolerance(problem, number, value) + tolerance(problem, number, *other) + slack(value.si);
            if (value.si - other.si).abs() <= reach {
                let code = if name.is_empty() { "proof-mistake-hidden" } else { "proof-mistakes-alike" };
                return Err((code, vec![("mistake", mistake.name.clone()), ("other", (*name).to_owned())]));
            }
        }
        known.push((&mistake.name, value));
    }
    Ok(())
}

fn note(problem: &Problem, spread: &mut Spread) {
    spread.draws += 1;
    for (ask, answer) in problem.recipe.asks.iter().zip(&problem.answers) {
        let (Form::Number(number), Answer::Number(right)) = (&ask.form, answer) else { continue };
        let unit = number.unit.of(spread.system).0;
        let value = unit.map_or(right.si, |unit| unit.value(*right));
        match spread.answers.iter_mut().find(|(id, ..)| *id == ask.id) {
            Some((_, least, greatest)) => {
                *least = least.min(value);
                *greatest = greatest.max(value);
            }
            None => spread.answers.push((ask.id.clone(), value, value)),
        }
    }
}
