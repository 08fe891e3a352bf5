//! Judging a number with its unit.

use relief::units::Unit;
use relief::{Kind, Quantity};

use super::asked::{AlsoRight, Limit, Mistake, Number, slack};
use super::latitude::{self, Latitude, Open};
use super::window::Window;
use crate::answer::{Reading, precision, read};
use crate::display::unit_text;
use crate::facts::{Facts, NumberAt};
use crate::formula::{Scope, Value};
use crate::rounding::RoundingGrid;
use crate::slips;
use crate::verdict::{Marked, Typed, Verdict};
use crate::working;

/// How near a wrong number is still called near, as a share of the right one.
const NEAR: f64 = 0.05;

/// Marks what was typed for a number, after what was answered before it.
pub(crate) fn mark(facts: &Facts, at: NumberAt, right: Quantity, typed: &str, answers: &Typed) -> Marked {
    mark_one_of(facts, at, right, &Open::new(), typed, answers)
}

/// Marks one of several answers to the same number, which have what is left open in common.
pub(crate) fn mark_one_of(
    facts: &Facts,
    at: NumberAt,
    right: Quantity,
    open: &Open,
    typed: &str,
    answers: &Typed,
) -> Marked {
    let asked = at.number.unit_in(facts.setting.system);
    let asked_text = asked.map_or(String::new(), |unit| unit_text(unit, 2.0));
    match read(typed, facts.setting.mark) {
        Reading::Blank => Marked::new(Verdict::Blank),
        Reading::Unreadable => Marked::new(Verdict::Unreadable),
        Reading::UnknownUnit(unit) => {
            Marked::new(Verdict::Unreadable).with("typed_unit", unit).with("unit", asked_text)
        }
        Reading::Ambiguous(readings) => Marked { readings: readings.to_vec(), ..Marked::new(Verdict::Ambiguous) },
        Reading::Number(value, unit) => {
            let grid = at.number.grid(facts.setting.system);
            let in_unit = unit.or(asked);
            let si = in_unit.map_or(value, |unit| unit.quantity(value, right.kind).si);
            let precision = precision(typed, facts.setting.mark);
            let window = Window::new(Quantity::new(si, right.kind), in_unit, precision, (grid, asked));
            let judge = Judge { facts, at, right, open, asked, grid, answers, window };
            judge.number(value, unit).with("unit", asked_text)
        }
    }
}

/// What right working gives for a number from the learner's own earlier answers, with the values of all names; `None`
/// where no earlier answer that it goes on from was readable and wrong.
fn carried(facts: &Facts, at: NumberAt, answers: &Typed) -> Option<(Scope, Quantity)> {
    if !latitude::rests_on_number(facts, at.number) {
        return None;
    }
    let mut scope = facts.scope.clone();
    let mut differs = false;
    for earlier in facts.numbers_before(at.id) {
        let typed = answers.iter().find(|(id, _)| id == earlier.id);
        let value = match typed.and_then(|(_, typed)| own(facts, earlier.number, typed)) {
            Some(own) => own,
            None if differs => earlier.number.answer.quantity(&scope).ok()?,
            None => continue,
        };
        let right = facts.scope.get(earlier.id);
        differs |= matches!(right, Some(Value::Quantity(right)) if (right.si - value.si).abs() > slack(right.si));
        scope.set(earlier.id, Value::Quantity(Quantity::new(value.si, earlier.number.kind)));
    }
    if !differs {
        return None;
    }
    let (value, right) = (at.number.right(&scope).ok()?, at.number.right(&facts.scope).ok()?);
    ((value.si - right.si).abs() > slack(right.si)).then_some((scope, value))
}

/// A learner's own answer to an earlier part, where it was a number of the right kind.
pub(super) fn own(facts: &Facts, number: &Number, typed: &str) -> Option<Quantity> {
    let Reading::Number(value, unit) = read(typed, facts.setting.mark) else { return None };
    match unit.or(number.unit_in(facts.setting.system)) {
        Some(unit) if unit.measures(number.kind) => Some(unit.quantity(value, number.kind)),
        Some(_) => None,
        None => number.kind.is_pure().then(|| Quantity::new(value, number.kind)),
    }
}

/// What is needed to judge one number.
struct Judge<'p> {
    facts: &'p Facts<'p>,
    at: NumberAt<'p>,
    right: Quantity,
    open: &'p Open,
    asked: Option<&'static Unit>,
    grid: Option<RoundingGrid>,
    answers: &'p Typed,
    window: Window,
}

impl<'p> Judge<'p> {
    fn number(&self, value: f64, typed: Option<&'static Unit>) -> Marked {
        let unit = typed.or(self.asked);
        let si = self.window.si;
        let measures = unit.map_or(self.right.kind.is_pure(), |unit| unit.measures(self.right.kind));
        let mut marked = if measures { self.measured(si, value, typed) } else { self.unlike(si, value, unit) };
        if let Some(typed) = typed {
            marked = marked.with("typed_unit", unit_text(typed, 2.0));
        }
        marked.notes.extend(self.notes(typed, measures));
        marked
    }

    fn notes(&self, typed: Option<&'static Unit>, measures: bool) -> Option<&'static str> {
        match (typed, self.right.kind) {
            (None, _) if self.asked.is_some() => Some("unit_assumed"),
            (Some(unit), Kind::Gauge) if measures && unit.is_bare_pressure() => Some("taken_as_gauge"),
            (Some(unit), Kind::Absolute) if measures && unit.is_bare_pressure() => Some("taken_as_absolute"),
            _ => None,
        }
    }

    /// A number in a unit of the right kind.
    fn measured(&self, si: f64, value: f64, typed: Option<&'static Unit>) -> Marked {
        // Most answers are looked at no closer than this.
        if self.is_right(si, Latitude::around(self.right.si)) {
            return Marked::new(Verdict::Right);
        }
        let (is_right, open) = self.worked(si);
        if is_right {
            return Marked::new(Verdict::Right);
        }
        if let Some(also) =
            self.other(&|judge, also| (also.beyond_limit || !self.is_unsafe(si, open)) && judge.worked(si).0)
        {
            let html = Some(self.facts.fill(&also.when));
            return Marked { html, notes: vec!["also_right"], ..Marked::new(Verdict::Right) };
        }
        if self.has_any_other_unit(value, typed, open) {
            return Marked::new(Verdict::WrongUnit);
        }
        self.noted(self.to_compare(self.explained(si, open)), si, open)
    }

    /// Whether an answer is right, worked from the key or from the learner's own right answers; and what all of them leave
    /// open: what is unsafe by every right method is unsafe.
    fn worked(&self, si: f64) -> (bool, Latitude) {
        let mut open = *self.open.get_or_init(|| latitude::from(self.facts, self.at, &self.facts.scope, self.right));
        let mut is_right = self.is_right(si, open);
        for (right, own) in latitude::of_right_ones(self.facts, self.at, self.answers) {
            is_right |= Self { right, ..*self }.is_right(si, own);
            open = open.joined(own);
        }
        (is_right, open)
    }

    /// The first of the other right answers of which something holds, judged as if it were the only one.
    fn other(&self, holds: &dyn Fn(&Judge, &AlsoRight) -> bool) -> Option<&'p AlsoRight> {
        self.at.number.also_right.iter().find(|also| {
            let at = NumberAt { number: &also.number, ..self.at };
            let right = also.number.right(&self.facts.scope);
            right.is_ok_and(|right| holds(&Judge { at, right, open: &Open::new(), ..*self }, also))
        })
    }

    /// Whether something holds of the answer, or of one of those that are right as well.
    fn any(&self, holds: &dyn Fn(&Judge) -> bool) -> bool {
        holds(self) || self.other(&|judge, _| holds(judge)).is_some()
    }

    /// The first reason that explains a number that is not right.
    fn explained(&self, si: f64, open: Latitude) -> Marked {
        let beyond_or = |verdict| Marked::new(if self.is_unsafe(si, open) { Verdict::Unsafe } else { verdict });
        if self.is_not_rounded(si, open) {
            return beyond_or(Verdict::Rounding);
        }
        if self.any(&|judge| judge.is_carried(si)) {
            return Marked::new(Verdict::Carried);
        }
        if let Some(mistake) = self.mistake(si) {
            let html = Some(self.facts.fill(&mistake.message));
            return Marked { html, ..Marked::new(Verdict::Mistake(mistake.name.clone())) };
        }
        if self.grid.is_some() && self.window.holds(self.right.si) {
            // Rounded to other figures than those that were asked for.
            return beyond_or(Verdict::Rounding);
        }
        self.slip().unwrap_or_else(|| self.unexplained(si, open))
    }

    /// A slip that gives this number.
    fn slip(&self) -> Option<Marked> {
        let found = slips::find(self.facts, self.at, self.right, &self.window)?;
        let notes = found.asked.then_some("asked").into_iter().collect();
        Some(Marked { values: found.values, notes, ..Marked::new(Verdict::Slip(found.slip)) })
    }

    fn unexplained(&self, si: f64, open: Latitude) -> Marked {
        if self.is_unsafe(si, open) && self.is_near(si) {
            return Marked::new(Verdict::Unsafe);
        }
        let near = self.is_near(si).then_some("near");
        Marked { notes: near.into_iter().collect(), ..Marked::new(Verdict::Wrong) }
    }

    /// Where nothing explains an answer for certain, the line of the working to compare first.
    fn to_compare(&self, marked: Marked) -> Marked {
        if marked.verdict != Verdict::Wrong && !marked.notes.contains(&"asked") {
            return marked;
        }
        let line = working::first_line(self.facts, self.at.number).unwrap_or_else(|| self.at.label.to_owned());
        marked.with("compare", line)
    }

    /// Whether an answer is what the right method gives from the learner's own earlier answers.
    fn is_carried(&self, si: f64) -> bool {
        let Some((scope, own)) = carried(self.facts, self.at, self.answers) else { return false };
        let open = latitude::from(self.facts, self.at, &scope, own);
        Self { right: own, ..*self }.is_right(si, open)
    }

    /// With what is to be said besides the verdict.
    fn noted(&self, mut marked: Marked, si: f64, open: Latitude) -> Marked {
        if self.is_unsafe(si, open) && marked.verdict != Verdict::Unsafe {
            marked.notes.push("unsafe_side");
        }
        if let Some([low, high]) = self.unusual(si) {
            marked.notes.push("unusual");
            marked = marked.with("low", low).with("high", high);
        }
        marked
    }

    /// The usual range, where the number lies outside it.
    fn unusual(&self, si: f64) -> Option<[String; 2]> {
        let system = self.facts.setting.system;
        let range = self.at.number.usual_range.as_ref()?.of(system);
        let value = self.asked_value(si);
        let inside = (range.low.to_f64()..=range.high.to_f64()).contains(&value);
        (!inside).then(|| range.texts(self.asked, self.facts.setting.mark))
    }

    /// A number in a unit that does not measure what was asked for.
    fn unlike(&self, si: f64, value: f64, unit: Option<&'static Unit>) -> Marked {
        if self.has_any_other_unit(value, unit, Latitude::around(self.right.si)) {
            return Marked::new(Verdict::WrongUnit);
        }
        let pressures = self.right.kind.is_pressure()
            && unit.is_some_and(|unit| unit.usual_kind().dimension() == self.right.kind.dimension());
        let reach = self.at.number.tolerance(self.right, self.facts.setting.system);
        match slips::reference(self.right, si, reach).filter(|_| pressures) {
            Some(slip) => Marked::new(Verdict::Slip(slip)),
            None => Marked::new(Verdict::WrongKind).with("kind", self.right.kind.id()),
        }
    }

    /// One of the right numbers, but not in the unit asked for.
    fn has_any_other_unit(&self, value: f64, typed: Option<&'static Unit>, open: Latitude) -> bool {
        self.any(&|judge| {
            let is_first = core::ptr::eq(judge.at.number, self.at.number);
            judge.has_other_unit(value, typed, if is_first { open } else { Latitude::around(judge.right.si) })
        })
    }

    /// The number asked for, but not in the unit asked for.
    fn has_other_unit(&self, value: f64, typed: Option<&'static Unit>, open: Latitude) -> bool {
        let asked = self.asked.map_or(value, |unit| unit.quantity(value, self.right.kind).si);
        typed.is_some_and(|typed| Some(typed) != self.asked) && self.is_right(asked, open)
    }

    /// What may be answered (SI): what is left open, and on a side that is not unsafe as much more as the tolerance.
    fn ends(&self, open: Latitude) -> [f64; 2] {
        let reach = self.at.number.tolerance(self.right, self.facts.setting.system);
        let low =
            if self.at.number.limit == Some(Limit::Lower) { open.low } else { open.low.min(self.right.si - reach) };
        let high =
            if self.at.number.limit == Some(Limit::Upper) { open.high } else { open.high.max(self.right.si + reach) };
        [low, high]
    }

    /// Within the tolerance or what the forms leave open, and rounded as it was asked for.
    fn is_right(&self, si: f64, open: Latitude) -> bool {
        let [low, high] = self.ends(open);
        match self.grid {
            Some(grid) => {
                let value = self.asked_value(si);
                let [low, high] = in_order([low, high].map(|end| grid.round(self.asked_value(end))));
                let near = slack(low).max(slack(high));
                grid.has(value) && (low - near..=high + near).contains(&value)
            }
            None => (low - slack(low)..=high + slack(high)).contains(&si),
        }
    }

    /// The right number but for its rounding: between the number before rounding and after it, within the tolerance, or one
    /// of the two neighbours on the grid.
    fn is_not_rounded(&self, si: f64, open: Latitude) -> bool {
        let Some(grid) = self.grid else { return false };
        let [low, high] = in_order(self.ends(open).map(|end| self.asked_value(end)));
        let (value, right) = (self.asked_value(si), self.asked_value(self.right.si));
        let between = low.min(grid.round(low)) <= value && value <= high.max(grid.round(high));
        let neighbour = (value - right).abs() < grid.step(right) * (1.0 - 1e-9) && grid.has(value);
        between || neighbour
    }

    /// The number in the unit asked for.
    fn asked_value(&self, si: f64) -> f64 {
        self.asked.map_or(si, |unit| unit.value(Quantity::new(si, self.right.kind)))
    }

    /// Beyond the limit of every printed form.
    fn is_unsafe(&self, si: f64, open: Latitude) -> bool {
        match self.at.number.limit {
            None => false,
            Some(Limit::Upper) => si > open.high + slack(open.high),
            Some(Limit::Lower) => si < open.low - slack(open.low),
        }
    }

    fn is_near(&self, si: f64) -> bool {
        (si - self.right.si).abs() <= self.right.si.abs() * NEAR
    }

    /// The named mistake whose value is nearest among those that give what was typed, and nearer than the right answer.
    fn mistake(&self, si: f64) -> Option<&'p Mistake> {
        let right = (si - self.right.si).abs();
        let mut nearest: Option<(f64, &Mistake)> = None;
        for mistake in &self.at.number.mistakes {
            let Ok(value) = mistake.answer.quantity(&self.facts.scope) else { continue };
            let gap = (si - value.si).abs();
            if self.window.holds(value.si) && gap < nearest.map_or(right, |(least, _)| least) {
                nearest = Some((gap, mistake));
            }
        }
        nearest.map(|(_, mistake)| mistake)
    }
}

/// Two numbers, the smaller one first.
fn in_order([one, other]: [f64; 2]) -> [f64; 2] {
    if one <= other { [one, other] } else { [other, one] }
}
