//! Marking: what was typed against what is right, with the reason where it is not.

use relief::units::Unit;
use relief::{Kind, Quantity};

use crate::answer::{Reading, read};
use crate::display::unit_text;
use crate::draw::{Answer, Problem};
use crate::recipe::{Form, Limit, Mistake, NumberAsk, OneOfAsk, Tolerance};
use crate::slips::{self, Slip};

/// What marking found.
#[derive(Clone, Debug, PartialEq)]
pub enum Verdict {
    /// Right.
    Right,
    /// The number asked for, with another unit.
    WrongUnit,
    /// A unit that measures something else.
    WrongKind,
    /// What a named mistake gives.
    Mistake(String),
    /// What a common slip gives.
    Slip(Slip),
    /// On the unsafe side of a limit.
    Unsafe,
    /// None of these.
    Wrong,
    /// An option that is not right.
    WrongOption,
    /// Could be two numbers.
    Ambiguous,
    /// No number with a unit.
    Unreadable,
    /// Nothing.
    Blank,
}

impl Verdict {
    /// The code under which words for this verdict are kept.
    #[must_use]
    pub fn id(&self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::WrongUnit => "wrong_unit",
            Self::WrongKind => "wrong_kind",
            Self::Mistake(_) => "mistake",
            Self::Slip(_) => "slip",
            Self::Unsafe => "unsafe",
            Self::Wrong => "wrong",
            Self::WrongOption => "wrong_option",
            Self::Ambiguous => "ambiguous",
            Self::Unreadable => "unreadable",
            Self::Blank => "blank",
        }
    }

    /// The credit, in percent.
    #[must_use]
    pub fn credit(&self) -> u8 {
        match self {
            Self::Right => 100,
            Self::WrongUnit => 50,
            _ => 0,
        }
    }
}

/// A marked answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Marked {
    /// What was found.
    pub verdict: Verdict,
    /// What the recipe says of it, as HTML.
    pub html: Option<String>,
    /// What a message needs to know, by name.
    pub values: Vec<(&'static str, String)>,
    /// How the answer was taken: `taken_as_gauge`, `taken_as_absolute`, `unit_assumed`, `unsafe_side`.
    pub notes: Vec<&'static str>,
    /// The two readings of an ambiguous answer.
    pub readings: Vec<String>,
}

impl Marked {
    fn new(verdict: Verdict) -> Self {
        Self { verdict, html: None, values: Vec::new(), notes: Vec::new(), readings: Vec::new() }
    }

    fn with(mut self, name: &'static str, value: impl Into<String>) -> Self {
        self.values.push((name, value.into()));
        self
    }
}

/// Marks what was typed for a part; `None` where there is no such part.
#[must_use]
pub fn mark(problem: &Problem, part: &str, typed: &str) -> Option<Marked> {
    let (ask, answer) = problem.part(part)?;
    match (&ask.form, answer) {
        (Form::Number(number), Answer::Number(right)) => Some(mark_number(problem, number, *right, typed)),
        (Form::OneOf(one_of), Answer::OneOf { right, .. }) => Some(mark_option(problem, one_of, *right, typed)),
        _ => None,
    }
}

/// The answer to a choice is the place of the option in the recipe, which does not change with the order shown.
fn mark_option(problem: &Problem, one_of: &OneOfAsk, right: usize, typed: &str) -> Marked {
    if typed.trim().is_empty() {
        return Marked::new(Verdict::Blank);
    }
    let place = typed.trim().parse().ok().filter(|place: &usize| *place < one_of.options.len());
    let Some(place) = place else { return Marked::new(Verdict::Unreadable) };
    let verdict = if place == right { Verdict::Right } else { Verdict::WrongOption };
    let why = one_of.options[place].why.as_ref();
    Marked { html: why.map(|why| problem.fill(why)), ..Marked::new(verdict) }
}

fn mark_number(problem: &Problem, number: &NumberAsk, right: Quantity, typed: &str) -> Marked {
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
            let judge = Judge { problem, number, right, asked, tolerance: tolerance(problem, number, right) };
            judge.number(value, unit).with("unit", asked_text)
        }
    }
}

/// The distance from the right answer that still counts, in SI units.
pub(crate) fn tolerance(problem: &Problem, number: &NumberAsk, right: Quantity) -> f64 {
    match number.within.of(problem.setting.system) {
        Tolerance::Share(share) => share.to_f64() * right.si.abs(),
        Tolerance::Amount(amount) => {
            let asked = number.unit.of(problem.setting.system).0;
            asked.map_or(amount.to_f64(), |unit| unit.quantity(amount.to_f64(), right.kind).si.abs())
        }
    }
}

/// What is needed to judge one number.
struct Judge<'p> {
    problem: &'p Problem<'p>,
    number: &'p NumberAsk,
    right: Quantity,
    asked: Option<&'static Unit>,
    tolerance: f64,
}

impl Judge<'_> {
    fn number(&self, value: f64, typed: Option<&'static Unit>) -> Marked {
        let unit = typed.or(self.asked);
        let si = unit.map_or(value, |unit| unit.quantity(value, self.right.kind).si);
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
        if self.is_right(si) {
            return Marked::new(Verdict::Right);
        }
        if self.has_other_unit(value, typed) {
            return Marked::new(Verdict::WrongUnit);
        }
        let marked = if let Some(mistake) = self.mistake(si) {
            let html = Some(self.problem.fill(&mistake.message));
            Marked { html, ..Marked::new(Verdict::Mistake(mistake.name.clone())) }
        } else if let Some((slip, values)) = slips::find(self.problem, self.number, self.right, si) {
            Marked { values, ..Marked::new(Verdict::Slip(slip)) }
        } else if self.is_unsafe(si) {
            return Marked::new(Verdict::Unsafe);
        } else {
            Marked::new(Verdict::Wrong)
        };
        let notes = if self.is_unsafe(si) { vec!["unsafe_side"] } else { Vec::new() };
        Marked { notes, ..marked }
    }

    /// A number in a unit that does not measure what was asked for.
    fn unlike(&self, si: f64, value: f64, unit: Option<&'static Unit>) -> Marked {
        if self.has_other_unit(value, unit) {
            return Marked::new(Verdict::WrongUnit);
        }
        let pressures = self.right.kind.is_pressure()
            && unit.is_some_and(|unit| unit.usual_kind().dimension() == self.right.kind.dimension());
        match slips::reference(self.right, si, self.tolerance).filter(|_| pressures) {
            Some(slip) => Marked::new(Verdict::Slip(slip)),
            None => Marked::new(Verdict::WrongKind).with("kind", self.right.kind.id()),
        }
    }

    /// The number asked for, but not in the unit asked for.
    fn has_other_unit(&self, value: f64, typed: Option<&'static Unit>) -> bool {
        let asked = self.asked.map_or(value, |unit| unit.quantity(value, self.right.kind).si);
        typed.is_some_and(|typed| Some(typed) != self.asked) && self.is_right(asked)
    }

    /// Within the tolerance, and not on the unsafe side of a limit.
    fn is_right(&self, si: f64) -> bool {
        (si - self.right.si).abs() <= self.tolerance + slack(self.right.si) && !self.is_unsafe(si)
    }

    fn is_unsafe(&self, si: f64) -> bool {
        match self.number.limit {
            None => false,
            Some(Limit::Upper) => si > self.right.si + slack(self.right.si),
            Some(Limit::Lower) => si < self.right.si - slack(self.right.si),
        }
    }

    /// The named mistake whose value is nearest, where one is near enough.
    fn mistake(&self, si: f64) -> Option<&Mistake> {
        let mut nearest: Option<(f64, &Mistake)> = None;
        for mistake in &self.number.mistakes {
            let Ok(value) = mistake.answer.quantity(&self.problem.scope) else { continue };
            let gap = (si - value.si).abs();
            let near = gap <= tolerance(self.problem, self.number, value) + slack(value.si);
            if near && nearest.is_none_or(|(least, _)| gap < least) {
                nearest = Some((gap, mistake));
            }
        }
        nearest.map(|(_, mistake)| mistake)
    }
}

/// The last bits of a conversion never decide: one part in a billion.
pub(crate) fn slack(si: f64) -> f64 {
    si.abs() * 1e-9
}
