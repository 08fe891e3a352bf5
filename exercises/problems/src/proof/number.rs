//! What proof asks of a number: a size that can be believed, an answer that is right as shown, mistakes told apart.

use core::ops::RangeInclusive;

use faults::Code;
use relief::relations::pressures::STANDARD_ATMOSPHERE;
use relief::{Kind, Quantity, Rounding, System};

use super::digits;
use super::found::{Found, found};
use crate::display::unit_text;
use crate::facts::{Facts, NumberAt};
use crate::formula::Node;
use crate::number::{self, AlsoRight, Mistake, Number, Open, slack};
use crate::slips;
use crate::verdict::{Marked, Verdict};

/// UsualRange numbers in the unit asked for, where a recipe says nothing of it: a learner can read and type them.
const USUAL: RangeInclusive<f64> = 1e-3..=1e6;

/// What stands for the name of a mistake where another right answer is meant: no name is written so.
const ALSO: &str = "+";

/// How many times the one end of a usual_range range may be the other: a wider one says nothing.
const WIDEST: f64 = 1e4;

/// Whether the right answer and the mistakes of a draw can be marked fairly.
pub(crate) fn check(facts: &Facts, at: NumberAt, right: Quantity) -> Result<(), Found> {
    let checked = measured(facts, at.number)
        .and_then(|()| size(facts, at.number, right))
        .and_then(|()| as_shown(facts, at, right))
        .and_then(|()| mistakes(facts, at, right));
    checked.map_err(|found| found.with("part", at.id))
}

/// Nothing goes on from a number that was not measured.
fn measured(facts: &Facts, number: &Number) -> Result<(), Found> {
    let lacking = |node: &Node| match node {
        Node::Name(name) => facts.answer(name).map(|_| name.clone()),
        _ => None,
    };
    let mut from = None;
    number.answer.any(&mut |node| {
        from = from.take().or_else(|| lacking(node));
        from.is_some()
    });
    from.map_or(Ok(()), |name| Err(found(Code::ProofFromUnmeasured, [("found", name)])))
}

/// A quantity in the unit that a part is asked in, rounded as it is asked for.
pub(super) fn as_asked(facts: &Facts, number: &Number, quantity: Quantity) -> f64 {
    let system = facts.setting.system;
    let value = number.in_unit(quantity, system);
    number.grid(system).map_or(value, |grid| grid.round(value))
}

/// Whether the answer is of a size that people meet: the one that the recipe states, or one that can be typed.
fn size(facts: &Facts, number: &Number, right: Quantity) -> Result<(), Found> {
    let system = facts.setting.system;
    let value = as_asked(facts, number, right);
    let shown = || relief::shown(value, 4, Rounding::Nearest);
    if !is_possible(right) {
        return Err(found(Code::ProofImpossible, [("found", in_unit(number, value, system))]));
    }
    let Some(stated) = number.usual_range.as_ref().map(|range| range.of(system)) else {
        let usual = USUAL.contains(&value.abs());
        return if usual { Ok(()) } else { Err(found(Code::ProofUnusualAnswer, [("found", shown())])) };
    };
    let (low, high) = (stated.low.to_f64(), stated.high.to_f64());
    let texts = || stated.texts(number.unit_in(system), facts.setting.mark);
    if width(low, high, value) > WIDEST * (1.0 + 1e-9) {
        let [low, high] = texts();
        return Err(found(Code::ProofUsualRangeWide, [("low", low), ("high", high)]));
    }
    // The last bits of a conversion never decide.
    let near = slack(low).max(slack(high));
    if (low - near..=high + near).contains(&value) {
        return Ok(());
    }
    let [low, high] = texts();
    Err(found(Code::ProofOutsideUsualRange, [("found", in_unit(number, value, system)), ("low", low), ("high", high)]))
}

/// A value in the unit that is asked for, as a message says it.
fn in_unit(number: &Number, value: f64, system: System) -> String {
    let shown = relief::shown(value, 4, Rounding::Nearest);
    number.unit_in(system).map_or(shown.clone(), |unit| format!("{shown} {}", unit_text(unit, value)))
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
/// drawn is taken for the smaller end.
fn width(low: f64, high: f64, value: f64) -> f64 {
    let (smaller, greater) = (low.abs().min(high.abs()), low.abs().max(high.abs()));
    let smaller = if low * high > 0.0 { smaller } else { value.abs() };
    if smaller > 0.0 { greater / smaller } else { 1.0 }
}

/// Who copies the shown answer is right, and nobody has to copy digits that mean nothing.
fn as_shown(facts: &Facts, at: NumberAt, right: Quantity) -> Result<(), Found> {
    let shown = facts.text(at.id);
    digits::answer(&shown)?;
    match mark(facts, at, right, &Open::new(), &shown).verdict {
        Verdict::Right => Ok(()),
        _ => Err(found(Code::ProofShownAnswerWrong, [("found", shown)])),
    }
}

/// Marks what is typed for a number as if nothing had been answered before.
fn mark(facts: &Facts, at: NumberAt, right: Quantity, open: &Open, typed: &str) -> Marked {
    number::mark_one_of(facts, at, right, open, typed, &[(at.id.to_owned(), typed.to_owned())])
}

/// No mistake may come near the right answer, and no two mistakes near each other: their explanations would be wrong.
fn mistakes(facts: &Facts, at: NumberAt, right: Quantity) -> Result<(), Found> {
    let number = at.number;
    let mut known = vec![("", right)];
    for also in &number.also_right {
        let value = also.number.answer.quantity(&facts.scope);
        known.push((ALSO, value.map_err(|error| found(Code::ProofNoValue, [("error", error.to_string())]))?));
    }
    for mistake in &number.mistakes {
        let value = mistake.answer.quantity(&facts.scope).map_err(|error| {
            found(Code::ProofNoValue, [("mistake", mistake.name.clone()), ("error", error.to_string())])
        })?;
        if let Some((name, other)) = known.iter().find(|(_, other)| are_alike(facts, number, value, *other)) {
            return Err(compared(taken_for(mistake, name), facts, number, [value, *other]));
        }
        known.push((&mistake.name, value));
    }
    // Where answers are rounded, so are those that a mistake gives, and the step decides what they are taken for.
    if number.round.is_none() {
        return Ok(());
    }
    let open = Open::new();
    number.mistakes.iter().try_for_each(|mistake| rounded(facts, at, right, &open, mistake))
}

/// Which of the other right answers make a number right that is not right without them.
pub(super) fn also_right(facts: &Facts, at: NumberAt, right: Quantity) -> Vec<bool> {
    let open = Open::new();
    let counts = |also: &AlsoRight| {
        let value = also.number.answer.quantity(&facts.scope);
        value.is_ok_and(|value| {
            let marked = mark(facts, at, right, &open, &facts.number_text(at.number, value));
            marked.verdict == Verdict::Right && marked.notes.contains(&"also_right")
        })
    };
    at.number.also_right.iter().map(counts).collect()
}

/// What a mistake would hide, or which other one it would be taken for.
fn taken_for(mistake: &Mistake, other: &str) -> Found {
    let code = match other {
        "" => Code::ProofMistakeHidden,
        ALSO => Code::ProofMistakeAlsoRight,
        _ => Code::ProofMistakesAlike,
    };
    found(code, [("mistake", mistake.name.clone()), ("other", other.to_owned())])
}

/// What was found with the two numbers that it is about, and the tolerance.
fn compared(found: Found, facts: &Facts, number: &Number, [comes, against]: [Quantity; 2]) -> Found {
    let system = facts.setting.system;
    let of = |quantity: Quantity| in_unit(number, as_asked(facts, number, quantity), system);
    let reach = number.tolerance(against, system);
    let beyond = Quantity { si: against.si + reach, ..against };
    let amount = (number.in_unit(beyond, system) - number.in_unit(against, system)).abs();
    let tolerance = relief::shown(amount, 2, Rounding::Nearest);
    let tolerance = number.unit_in(system).map_or(tolerance.clone(), |unit| format!("{tolerance} {}", unit.symbol));
    found.with("comes", of(comes)).with("against", of(against)).with("tolerance", tolerance)
}

fn are_alike(facts: &Facts, number: &Number, one: Quantity, other: Quantity) -> bool {
    let reach = |value: Quantity| number.tolerance(value, facts.setting.system) + slack(value.si);
    let near = (one.si - other.si).abs() <= reach(one) + reach(other);
    let [one, other] = [one, other].map(|value| as_asked(facts, number, value));
    near || number.round.is_some() && (one - other).abs() <= slack(one)
}

/// Whether what a mistake gives, rounded as it is asked for, is recognised as that mistake.
fn rounded(facts: &Facts, at: NumberAt, right: Quantity, open: &Open, mistake: &Mistake) -> Result<(), Found> {
    let Ok(value) = mistake.answer.quantity(&facts.scope) else { return Ok(()) };
    let other = match mark(facts, at, right, open, &facts.number_text(at.number, value)).verdict {
        Verdict::Mistake(name) if name == mistake.name => return Ok(()),
        Verdict::Mistake(name) => name,
        _ => String::new(),
    };
    let named = at.number.mistakes.iter().find(|mistake| mistake.name == other);
    let against = named.and_then(|mistake| mistake.answer.quantity(&facts.scope).ok()).unwrap_or(right);
    Err(compared(taken_for(mistake, &other), facts, at.number, [value, against]))
}

/// The named mistake that comes nearest to the right answer, and how far away it is in tolerances of the right answer;
/// where that is rounded, in what rounding may move it.
pub(super) fn nearest_mistake<'p>(facts: &Facts, number: &'p Number, right: Quantity) -> Option<(&'p str, f64)> {
    let reach = slips::reach(facts, number, right);
    let distance = |value: Quantity| (value.si - right.si).abs() / reach;
    let known = number.mistakes.iter().filter_map(|mistake| {
        let value = mistake.answer.quantity(&facts.scope).ok()?;
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
