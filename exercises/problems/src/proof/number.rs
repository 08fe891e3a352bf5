//! What proof asks of a number: a size that can be believed, an answer that is right as shown, mistakes told apart.

use core::ops::RangeInclusive;

use faults::Code;
use relief::relations::pressures::STANDARD_ATMOSPHERE;
use relief::{Kind, Quantity, Rounding};

use super::digits;
use super::fault::{Found, found};
use crate::display::unit_text;
use crate::draw::Problem;
use crate::mark::{Verdict, mark, slack, tolerance};
use crate::recipe::{Mistake, NumberAsk};
use crate::slips;

/// Believable numbers in the unit asked for, where a recipe says nothing of it: a learner can read and type them.
const BELIEVABLE: RangeInclusive<f64> = 1e-3..=1e6;

/// How many times the one end of a believable range may be the other: a wider one says nothing.
const WIDEST: f64 = 1e4;

/// Whether the right answer and the mistakes of a draw can be marked fairly.
pub(super) fn check(problem: &Problem, part: &str, number: &NumberAsk, right: Quantity) -> Result<(), Found> {
    let checked = size(problem, number, right)
        .and_then(|()| as_shown(problem, part))
        .and_then(|()| mistakes(problem, part, number, right));
    checked.map_err(|found| found.with("part", part))
}

/// A quantity in the unit that a part is asked in, rounded as it is asked for.
pub(super) fn as_asked(problem: &Problem, number: &NumberAsk, quantity: Quantity) -> f64 {
    let system = problem.setting.system;
    let value = number.unit.of(system).0.map_or(quantity.si, |unit| unit.value(quantity));
    number.grid(system).map_or(value, |grid| grid.round(value))
}

/// Whether the answer is of a size that people meet: the one that the recipe states, or one that can be typed.
fn size(problem: &Problem, number: &NumberAsk, right: Quantity) -> Result<(), Found> {
    let system = problem.setting.system;
    let value = as_asked(problem, number, right);
    let asked = number.unit.of(system).0;
    let shown = || relief::shown(value, 4, Rounding::Nearest);
    let in_unit = || asked.map_or_else(shown, |unit| format!("{} {}", shown(), unit_text(unit, value)));
    if !is_possible(right) {
        return Err(found(Code::ProofImpossible, [("found", in_unit())]));
    }
    let Some(stated) = number.believable.as_ref().map(|range| range.of(system)) else {
        let usual = BELIEVABLE.contains(&value.abs());
        return if usual { Ok(()) } else { Err(found(Code::ProofUnbelievable, [("found", shown())])) };
    };
    let (low, high) = (stated.low.to_f64(), stated.high.to_f64());
    let texts = || stated.texts(asked, problem.setting.mark);
    if width(low, high, value) > WIDEST * (1.0 + 1e-9) {
        let [low, high] = texts();
        return Err(found(Code::ProofBelievableWide, [("low", low), ("high", high)]));
    }
    // The last bits of a conversion never decide.
    let near = slack(low).max(slack(high));
    if (low - near..=high + near).contains(&value) {
        return Ok(());
    }
    let [low, high] = texts();
    Err(found(Code::ProofNotBelievable, [("found", in_unit()), ("low", low), ("high", high)]))
}

/// Whether there can be such a thing: no pressure lies below a vacuum, and no temperature below the absolute zero.
fn is_possible(quantity: Quantity) -> bool {
    match quantity.kind {
        Kind::Gauge => quantity.si >= -STANDARD_ATMOSPHERE,
        Kind::Absolute | Kind::Temperature => quantity.si >= 0.0,
        _ => true,
    }
}

/// How many times the smaller end of a range goes into the greater. Where zero lies between them, the answer that was
/// drawn stands for the smaller end.
fn width(low: f64, high: f64, value: f64) -> f64 {
    let (smaller, greater) = (low.abs().min(high.abs()), low.abs().max(high.abs()));
    let smaller = if low * high > 0.0 { smaller } else { value.abs() };
    if smaller > 0.0 { greater / smaller } else { 1.0 }
}

/// Who copies the shown answer is right, and nobody has to copy digits that mean nothing.
fn as_shown(problem: &Problem, part: &str) -> Result<(), Found> {
    let shown = problem.text(part);
    digits::answer(&shown)?;
    match mark(problem, part, &shown) {
        Some(marked) if marked.verdict == Verdict::Right => Ok(()),
        _ => Err(found(Code::ProofShownAnswerWrong, [("found", shown)])),
    }
}

/// No mistake may come near the right answer, and no two mistakes near each other: their explanations would be wrong.
fn mistakes(problem: &Problem, part: &str, number: &NumberAsk, right: Quantity) -> Result<(), Found> {
    let mut known = vec![("", right)];
    for mistake in &number.mistakes {
        let value = mistake.answer.quantity(&problem.scope).map_err(|error| {
            found(Code::ProofNoValue, [("mistake", mistake.name.clone()), ("error", error.to_string())])
        })?;
        if let Some((name, _)) = known.iter().find(|(_, other)| are_alike(problem, number, value, *other)) {
            return Err(taken_for(mistake, name));
        }
        known.push((&mistake.name, value));
    }
    // Where answers are rounded, so are those that a mistake gives, and the step decides what they are taken for.
    if number.round.is_none() {
        return Ok(());
    }
    number.mistakes.iter().try_for_each(|mistake| rounded(problem, part, number, mistake))
}

/// What a mistake would hide, or which other one it would be told as.
fn taken_for(mistake: &Mistake, other: &str) -> Found {
    let code = if other.is_empty() { Code::ProofMistakeHidden } else { Code::ProofMistakesAlike };
    found(code, [("mistake", mistake.name.clone()), ("other", other.to_owned())])
}

fn are_alike(problem: &Problem, number: &NumberAsk, one: Quantity, other: Quantity) -> bool {
    let reach = |value: Quantity| tolerance(problem, number, value) + slack(value.si);
    let near = (one.si - other.si).abs() <= reach(one) + reach(other);
    let [one, other] = [one, other].map(|value| as_asked(problem, number, value));
    near || number.round.is_some() && (one - other).abs() <= slack(one)
}

/// Whether what a mistake gives, rounded as it is asked for, is told as that mistake.
fn rounded(problem: &Problem, part: &str, number: &NumberAsk, mistake: &Mistake) -> Result<(), Found> {
    let Ok(value) = mistake.answer.quantity(&problem.scope) else { return Ok(()) };
    let marked = mark(problem, part, &problem.number_text(number, value));
    match marked.map(|marked| marked.verdict) {
        Some(Verdict::Mistake(name)) if name == mistake.name => Ok(()),
        Some(Verdict::Mistake(name)) => Err(taken_for(mistake, &name)),
        _ => Err(taken_for(mistake, "")),
    }
}

/// The named mistake that comes nearest to the right answer, and how far away it is in tolerances of the right answer;
/// where that is rounded, in what rounding may move it.
pub(super) fn nearest_mistake<'p>(problem: &Problem, number: &'p NumberAsk, right: Quantity) -> Option<(&'p str, f64)> {
    let reach = slips::reach(problem, number, right);
    let distance = |value: Quantity| (value.si - right.si).abs() / reach;
    let known = number.mistakes.iter().filter_map(|mistake| {
        let value = mistake.answer.quantity(&problem.scope).ok()?;
        Some((mistake.name.as_str(), distance(value))).filter(|(_, distance)| distance.is_finite())
    });
    known.min_by(|(_, one), (_, other)| one.total_cmp(other))
}

#[cfg(test)]
mod tests {
    use super::width;

    #[test]
    fn a_range_is_as_wide_as_its_ends_are_apart() {
        for (low, high, value, expected) in
            [(1.0, 100.0, 5.0, 100.0), (-50.0, -5.0, -7.0, 10.0), (0.0, 20.0, 4.0, 5.0), (-20.0, 5.0, 0.0, 1.0)]
        {
            assert!((width(low, high, value) - expected).abs() < 1e-9, "{low} .. {high}");
        }
    }
}
