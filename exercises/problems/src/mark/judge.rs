//! Judging a number with its unit.

use relief::units::Unit;
use relief::{Kind, Quantity};

use super::{AT_THE_LIMIT, Marked, NEAR, Typed, Verdict, slack, tolerance};
use crate::answer::{Reading, read};
use crate::display::unit_text;
use crate::draw::Problem;
use crate::formula::{Node, Value};
use crate::recipe::{Ask, Form, Limit, Mistake, NumberAsk};
use crate::rounding::Rounded;
use crate::slips;

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
            let judge = Judge::new(problem, number, right);
            judge.number(value, unit, || carried(problem, ask, answers)).with("unit", asked_text)
        }
    }
}

/// What the right way gives for a part from the learner's own earlier answers; `None` where no earlier answer that the
/// part goes on from was readable and wrong.
fn carried(problem: &Problem, ask: &Ask, answers: &Typed) -> Option<Quantity> {
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
    if !differs || !goes_on(problem, &number.answer) {
        return None;
    }
    let value = number.answer.quantity(&scope).ok()?;
    let right = number.answer.quantity(&problem.scope).ok()?;
    ((value.si - right.si).abs() > slack(right.si)).then_some(Quantity::new(value.si, number.kind))
}

/// A learner's own answer to an earlier part, where it was a number of the right kind.
fn own(problem: &Problem, number: &NumberAsk, typed: &str) -> Option<Quantity> {
    let Reading::Number(value, unit) = read(typed, problem.setting.mark) else { return None };
    let asked = number.unit.of(problem.setting.system).0;
    match unit.or(asked) {
        Some(unit) if unit.measures(number.kind) => Some(unit.quantity(value, number.kind)),
        Some(_) => None,
        None => number.kind.is_pure().then(|| Quantity::new(value, number.kind)),
    }
}

/// Whether a formula names an earlier part.
fn goes_on(problem: &Problem, node: &Node) -> bool {
    match node {
        Node::Name(name) => problem.recipe.asks.iter().any(|ask| ask.id == *name),
        Node::Negated(inner) => goes_on(problem, inner),
        Node::Binary(_, left, right) => goes_on(problem, left) || goes_on(problem, right),
        Node::Call(_, arguments, _) => arguments.iter().flatten().any(|argument| goes_on(problem, argument)),
        Node::Number(_) | Node::Quantity { .. } | Node::Choice(_) => false,
    }
}

/// What is needed to judge one number.
struct Judge<'p> {
    problem: &'p Problem<'p>,
    number: &'p NumberAsk,
    right: Quantity,
    asked: Option<&'static Unit>,
    grid: Option<Rounded>,
}

impl<'p> Judge<'p> {
    fn new(problem: &'p Problem, number: &'p NumberAsk, right: Quantity) -> Self {
        let system = problem.setting.system;
        Self { problem, number, right, asked: number.unit.of(system).0, grid: number.grid(system) }
    }

    fn number(&self, value: f64, typed: Option<&'static Unit>, carried: impl FnOnce() -> Option<Quantity>) -> Marked {
        let unit = typed.or(self.asked);
        let si = unit.map_or(value, |unit| unit.quantity(value, self.right.kind).si);
        let measures = unit.map_or(self.right.kind.is_pure(), |unit| unit.measures(self.right.kind));
        let mut marked = if measures { self.measured(si, value, typed, carried) } else { self.unlike(si, value, unit) };
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
    fn measured(
        &self,
        si: f64,
        value: f64,
        typed: Option<&'static Unit>,
        carried: impl FnOnce() -> Option<Quantity>,
    ) -> Marked {
        if self.is_right(si) {
            return Marked::new(Verdict::Right);
        }
        if self.has_other_unit(value, typed) {
            return Marked::new(Verdict::WrongUnit);
        }
        let marked = if self.is_not_rounded(si) {
            Marked::new(if self.is_unsafe(si) { Verdict::Unsafe } else { Verdict::Rounding })
        } else if carried().is_some_and(|own| Judge::new(self.problem, self.number, own).is_right(si)) {
            Marked::new(Verdict::Carried)
        } else if let Some(mistake) = self.mistake(si) {
            let html = Some(self.problem.fill(&mistake.message));
            Marked { html, ..Marked::new(Verdict::Mistake(mistake.name.clone())) }
        } else if let Some((slip, values)) = slips::find(self.problem, self.number, self.right, si) {
            Marked { values, ..Marked::new(Verdict::Slip(slip)) }
        } else if self.is_unsafe(si) && self.is_near(si) {
            Marked::new(Verdict::Unsafe)
        } else {
            let near = self.is_near(si).then_some("near");
            Marked { notes: near.into_iter().collect(), ..Marked::new(Verdict::Wrong) }
        };
        self.noted(marked, si)
    }

    /// With what is to be said besides the verdict.
    fn noted(&self, mut marked: Marked, si: f64) -> Marked {
        if self.is_unsafe(si) && marked.verdict != Verdict::Unsafe {
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
        if self.has_other_unit(value, unit) {
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
    fn has_other_unit(&self, value: f64, typed: Option<&'static Unit>) -> bool {
        let asked = self.asked.map_or(value, |unit| unit.quantity(value, self.right.kind).si);
        typed.is_some_and(|typed| Some(typed) != self.asked) && self.is_right(asked)
    }

    /// Within the tolerance, rounded as it was asked for, and not on the unsafe side of a limit.
    fn is_right(&self, si: f64) -> bool {
        if self.is_unsafe(si) {
            return false;
        }
        match self.grid {
            Some(grid) => self.is_rounded(grid, si),
            None => self.is_within(si),
        }
    }

    fn is_within(&self, si: f64) -> bool {
        (si - self.right.si).abs() <= tolerance(self.problem, self.number, self.right) + slack(self.right.si)
    }

    /// On the grid, and what some number within the tolerance is rounded to.
    fn is_rounded(&self, grid: Rounded, si: f64) -> bool {
        let reach = tolerance(self.problem, self.number, self.right);
        let ends = [self.right.si - reach, self.right.si + reach].map(|end| grid.round(self.asked_value(end)));
        let [low, high] = if ends[0] <= ends[1] { ends } else { [ends[1], ends[0]] };
        let value = self.asked_value(si);
        let near = slack(low).max(slack(high));
        grid.has(value) && (low - near..=high + near).contains(&value)
    }

    /// The right number but for its rounding: within the tolerance, or one of the two neighbours on the grid.
    fn is_not_rounded(&self, si: f64) -> bool {
        let Some(grid) = self.grid else { return false };
        let (value, right) = (self.asked_value(si), self.asked_value(self.right.si));
        let neighbour = (value - right).abs() < grid.step(right) * (1.0 - 1e-9);
        self.is_within(si) || neighbour && grid.has(value)
    }

    /// The number in the unit asked for.
    fn asked_value(&self, si: f64) -> f64 {
        self.asked.map_or(si, |unit| unit.value(Quantity::new(si, self.right.kind)))
    }

    fn is_unsafe(&self, si: f64) -> bool {
        let beyond = self.right.si.abs() * AT_THE_LIMIT;
        match self.number.limit {
            None => false,
            Some(Limit::Upper) => si > self.right.si + beyond,
            Some(Limit::Lower) => si < self.right.si - beyond,
        }
    }

    fn is_near(&self, si: f64) -> bool {
        (si - self.right.si).abs() <= self.right.si.abs() * NEAR
    }

    /// The named mistake whose value is nearest, where one is near enough.
    fn mistake(&self, si: f64) -> Option<&'p Mistake> {
        let mut nearest: Option<(f64, &Mistake)> = None;
        for mistake in &self.number.mistakes {
            let Ok(value) = mistake.answer.quantity(&self.problem.scope) else { continue };
            let gap = (si - value.si).abs();
            let near = gap <= slips::reach(self.problem, self.number, value);
            if near && nearest.is_none_or(|(least, _)| gap < least) {
                nearest = Some((gap, mistake));
            }
        }
        nearest.map(|(_, mistake)| mistake)
    }
}
