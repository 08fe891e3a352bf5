//! Judging a number with its unit.

use relief::units::Unit;
use relief::{Kind, Quantity};

use super::{Marked, NEAR, Typed, Verdict, Window, slack, tolerance};
use crate::answer::{Reading, precision, read};
use crate::display::unit_text;
use crate::draw::Problem;
use crate::formula::{Scope, Value};
use crate::latitude::{self, Latitude};
use crate::recipe::{Ask, Form, Limit, Mistake, NumberAsk};
use crate::rounding::Rounded;
use crate::slips;
use crate::working;

/// Marks what was typed for a number.
pub(super) fn mark(
    problem: &Problem,
    ask: &Ask,
    number: &NumberAsk,
    right: Quantity,
    typed: &str,
    answers: &Typed,
) -> Marked {
    let setting = problem.setting;
    let asked = number.unit.of(setting.system).0;
    let asked_text = asked.map_or(String::new(), |unit| unit_text(unit, 2.0));
    match read(typed, setting.mark) {
        Reading::Blank => Marked::new(Verdict::Blank),
        Reading::Unreadable => Marked::new(Verdict::Unreadable),
        Reading::UnknownUnit(unit) => {
            Marked::new(Verdict::Unreadable).with("typed_unit", unit).with("unit", asked_text)
        }
        Reading::Ambiguous(readings) => Marked { readings: readings.to_vec(), ..Marked::new(Verdict::Ambiguous) },
        Reading::Number(value, unit) => {
            let grid = number.grid(setting.system);
            let in_unit = unit.or(asked);
            let si = in_unit.map_or(value, |unit| unit.quantity(value, right.kind).si);
            let precision = precision(typed, setting.mark);
            let window = Window::new(Quantity::new(si, right.kind), in_unit, precision, (grid, asked));
            let judge = Judge { problem, ask, number, right, asked, grid, answers, window };
            judge.number(value, unit).with("unit", asked_text)
        }
    }
}

/// What the right way gives for a part from the learner's own earlier answers, with the values of all names; `None` where
/// no earlier answer that the part goes on from was readable and wrong.
fn carried(problem: &Problem, ask: &Ask, answers: &Typed) -> Option<(Scope, Quantity)> {
    let mut scope = problem.scope.clone();
    let mut differs = false;
    for earlier in problem.recipe.asks.iter().take_while(|earlier| earlier.id != ask.id) {
        let Form::Number(number) = &earlier.form else { continue };
        let typed = answers.iter().find(|(id, _)| *id == earlier.id).and_then(|(_, typed)| own(problem, number, typed));
        let value = match typed {
            Some(own) => own,
            None if differs => number.answer.quantity(&scope).ok()?,
            None => continue,
        };
        let right = problem.scope.get(&earlier.id);
        differs |= matches!(right, Some(Value::Quantity(right)) if (right.si - value.si).abs() > slack(right.si));
        scope.set(&earlier.id, Value::Quantity(Quantity::new(value.si, number.kind)));
    }
    let Form::Number(number) = &ask.form else { return None };
    if !differs || !latitude::rests_on_part(problem, number) {
        return None;
    }
    let value = number.answer.quantity(&scope).ok()?;
    let right = number.answer.quantity(&problem.scope).ok()?;
    ((value.si - right.si).abs() > slack(right.si)).then_some((scope, Quantity::new(value.si, number.kind)))
}

/// A learner's own answer to an earlier part, where it was a number of the right kind.
pub(crate) fn own(problem: &Problem, number: &NumberAsk, typed: &str) -> Option<Quantity> {
    let Reading::Number(value, unit) = read(typed, problem.setting.mark) else { return None };
    let asked = number.unit.of(problem.setting.system).0;
    match unit.or(asked) {
        Some(unit) if unit.measures(number.kind) => Some(unit.quantity(value, number.kind)),
        Some(_) => None,
        None => number.kind.is_pure().then(|| Quantity::new(value, number.kind)),
    }
}

/// What is needed to judge one number.
struct Judge<'p> {
    problem: &'p Problem<'p>,
    ask: &'p Ask,
    number: &'p NumberAsk,
    right: Quantity,
    asked: Option<&'static Unit>,
    grid: Option<Rounded>,
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
        let mut open = latitude::from(self.problem, self.ask, self.number, &self.problem.scope, self.right);
        let own = latitude::of_right_ones(self.problem, self.ask, self.number, self.answers);
        let is_own = |&(right, open): &(Quantity, Latitude)| Self { right, ..*self }.is_right(si, open);
        if self.is_right(si, open) || own.iter().any(is_own) {
            return Marked::new(Verdict::Right);
        }
        // What is unsafe for every right way is unsafe.
        open = own.iter().fold(open, |open, (_, own)| open.joined(*own));
        if self.has_other_unit(value, typed, open) {
            return Marked::new(Verdict::WrongUnit);
        }
        let marked = if self.is_not_rounded(si, open) {
            Marked::new(if self.is_unsafe(si, open) { Verdict::Unsafe } else { Verdict::Rounding })
        } else if self.is_carried(si) {
            Marked::new(Verdict::Carried)
        } else if let Some(mistake) = self.mistake(si) {
            let html = Some(self.problem.fill(&mistake.message));
            Marked { html, ..Marked::new(Verdict::Mistake(mistake.name.clone())) }
        } else if self.grid.is_some() && self.window.holds(self.right.si) {
            // Rounded to other figures than those that were asked for.
            Marked::new(if self.is_unsafe(si, open) { Verdict::Unsafe } else { Verdict::Rounding })
        } else if let Some(found) = slips::find(self.problem, self.ask, self.number, self.right, &self.window) {
            let asked = found.asked.then_some("asked");
            Marked {
                values: found.values,
                notes: asked.into_iter().collect(),
                ..Marked::new(Verdict::Slip(found.slip))
            }
        } else if self.is_unsafe(si, open) && self.is_near(si) {
            Marked::new(Verdict::Unsafe)
        } else {
            let near = self.is_near(si).then_some("near");
            Marked { notes: near.into_iter().collect(), ..Marked::new(Verdict::Wrong) }
        };
        self.noted(self.to_compare(marked), si, open)
    }

    /// Where nothing explains an answer for certain, the line of the working to compare first.
    fn to_compare(&self, marked: Marked) -> Marked {
        if marked.verdict != Verdict::Wrong && !marked.notes.contains(&"asked") {
            return marked;
        }
        let line = working::first_line(self.problem, self.number).unwrap_or_else(|| self.ask.label.clone());
        marked.with("compare", line)
    }

    /// Whether an answer is what the right way gives from the learner's own earlier answers.
    fn is_carried(&self, si: f64) -> bool {
        let Some((scope, own)) = carried(self.problem, self.ask, self.answers) else { return false };
        let open = latitude::from(self.problem, self.ask, self.number, &scope, own);
        Self { right: own, ..*self }.is_right(si, open)
    }

    /// With what is to be said besides the verdict.
    fn noted(&self, mut marked: Marked, si: f64, open: Latitude) -> Marked {
        if self.is_unsafe(si, open) && marked.verdict != Verdict::Unsafe {
            marked.notes.push("unsafe_side");
        }
        if let Some([low, high]) = self.not_believable(si) {
            marked.notes.push("not_believable");
            marked = marked.with("low", low).with("high", high);
        }
        marked
    }

    /// The usual range, where the number lies outside it.
    fn not_believable(&self, si: f64) -> Option<[String; 2]> {
        let system = self.problem.setting.system;
        let range = self.number.believable.as_ref()?.of(system);
        let value = self.asked_value(si);
        let inside = (range.low.to_f64()..=range.high.to_f64()).contains(&value);
        (!inside).then(|| range.texts(self.asked, self.problem.setting.mark))
    }

    /// A number in a unit that does not measure what was asked for.
    fn unlike(&self, si: f64, value: f64, unit: Option<&'static Unit>) -> Marked {
        if self.has_other_unit(value, unit, Latitude::around(self.right.si)) {
            return Marked::new(Verdict::WrongUnit);
        }
        let pressures = self.right.kind.is_pressure()
            && unit.is_some_and(|unit| unit.usual_kind().dimension() == self.right.kind.dimension());
        let reach = tolerance(self.problem, self.number, self.right);
        match slips::reference(self.right, si, reach).filter(|_| pressures) {
            Some(slip) => Marked::new(Verdict::Slip(slip)),
            None => Marked::new(Verdict::WrongKind).with("kind", self.right.kind.id()),
        }
    }

    /// The number asked for, but not in the unit asked for.
    fn has_other_unit(&self, value: f64, typed: Option<&'static Unit>, open: Latitude) -> bool {
        let asked = self.asked.map_or(value, |unit| unit.quantity(value, self.right.kind).si);
        typed.is_some_and(|typed| Some(typed) != self.asked) && self.is_right(asked, open)
    }

    /// What may be answered (SI): what is left open, and on a side that is not unsafe as much more as the tolerance.
    fn ends(&self, open: Latitude) -> [f64; 2] {
        let reach = tolerance(self.problem, self.number, self.right);
        let low = if self.number.limit == Some(Limit::Lower) { open.low } else { open.low.min(self.right.si - reach) };
        let high =
            if self.number.limit == Some(Limit::Upper) { open.high } else { open.high.max(self.right.si + reach) };
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
        match self.number.limit {
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
        for mistake in &self.number.mistakes {
            let Ok(value) = mistake.answer.quantity(&self.problem.scope) else { continue };
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
