//! What proof asks of a number: a size that can be believed, an answer that is right as shown, mistakes told apart.

use core::ops::RangeInclusive;

use relief::Quantity;

use super::digits;
use super::fault::{Found, found};
use crate::draw::Problem;
use crate::mark::{Verdict, mark, slack, tolerance};
use crate::recipe::NumberAsk;

/// Believable numbers in the unit asked for: a learner can read and type them.
const BELIEVABLE: RangeInclusive<f64> = 1e-3..=1e6;

/// Whether the right answer and the mistakes of a draw can be marked fairly.
pub(super) fn check(problem: &Problem, part: &str, number: &NumberAsk, right: Quantity) -> Result<(), Found> {
    let value = in_unit(problem, number, right);
    if !BELIEVABLE.contains(&value.abs()) {
        let shown = relief::shown(value, 4, relief::Rounding::Nearest);
        return Err(found("proof-unbelievable", [("part", part.to_owned()), ("found", shown)]));
    }
    let shown = problem.text(part);
    digits::answer(part, &shown)?;
    if mark(problem, part, &shown).is_none_or(|marked| marked.verdict != Verdict::Right) {
        return Err(found("proof-shown-answer-wrong", [("part", part.to_owned()), ("found", shown)]));
    }
    mistakes(problem, number, right).map_err(|(code, mut values)| {
        values.push(("part", part.to_owned()));
        (code, values)
    })
}

/// A quantity in the unit that a part is asked in.
pub(super) fn in_unit(problem: &Problem, number: &NumberAsk, quantity: Quantity) -> f64 {
    number.unit.of(problem.setting.system).0.map_or(quantity.si, |unit| unit.value(quantity))
}

/// No mistake may come near the right answer, and no two mistakes near each other: their explanations would be wrong.
fn mistakes(problem: &Problem, number: &NumberAsk, right: Quantity) -> Result<(), Found> {
    let mut known = vec![("", right)];
    for mistake in &number.mistakes {
        let value = mistake.answer.quantity(&problem.scope).map_err(|error| {
            found("proof-no-value", [("mistake", mistake.name.clone()), ("error", error.to_string())])
        })?;
        for (name, other) in &known {
            let reach = reach(problem, number, value) + reach(problem, number, *other);
            if (value.si - other.si).abs() <= reach {
                let code = if name.is_empty() { "proof-mistake-hidden" } else { "proof-mistakes-alike" };
                return Err(found(code, [("mistake", mistake.name.clone()), ("other", (*name).to_owned())]));
            }
        }
        known.push((&mistake.name, value));
    }
    Ok(())
}

/// How far from a value still is taken for it.
fn reach(problem: &Problem, number: &NumberAsk, value: Quantity) -> f64 {
    tolerance(problem, number, value) + slack(value.si)
}

/// The named mistake that comes nearest to the right answer, and how far away it is in reaches of the right answer.
pub(super) fn nearest_mistake<'p>(problem: &Problem, number: &'p NumberAsk, right: Quantity) -> Option<(&'p str, f64)> {
    let reach = reach(problem, number, right);
    let distance = |value: Quantity| (value.si - right.si).abs() / reach;
    let known = number.mistakes.iter().filter_map(|mistake| {
        let value = mistake.answer.quantity(&problem.scope).ok()?;
        Some((mistake.name.as_str(), distance(value))).filter(|(_, distance)| distance.is_finite())
    });
    known.min_by(|(_, one), (_, other)| one.total_cmp(other))
}
