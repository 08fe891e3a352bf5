//! What printed forms and rounded lines leave open: the numbers that a careful person with a pocket calculator may
//! come to, of which none is wrong.
//!
//! A formula that the trade prints in two systems has constants that were rounded apart, and who writes a line of the
//! working down rounds it. An earlier answer that was marked right counts as such a line. A verdict must not depend on
//! any of these choices.

use core::cell::OnceCell;

use relief::units::Unit;
use relief::{Argument, Input, Kind, Manner, Quantity, Rounding, System, law_unit, round_to_figures};

use super::asked::Number;
use super::judge;
use crate::display::{self, WORKING_FIGURES};
use crate::facts::{Facts, GivenValue, NumberAt};
use crate::formula::{Call, Node, Pass, Scope, Value};
use crate::rounding::Grid;
use crate::verdict::{Typed, Verdict, typed};

/// How intermediate lines may be rounded: not at all, as workings print them, or to the four figures that are the
/// fewest to go on with.
const FIGURES: [Option<u8>; 3] = [None, Some(WORKING_FIGURES), Some(4)];

/// The last bits do not decide which of two steps is larger.
const NEAR: f64 = 1e-9;

/// What is left open about the right answer of a number, worked out when it is first asked for: many answers are judged
/// without.
pub(crate) type Open = OnceCell<Latitude>;

/// The lowest and the highest number that is left open (SI).
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Latitude {
    pub(crate) low: f64,
    pub(crate) high: f64,
}

impl Latitude {
    /// Nothing but one number.
    pub(crate) fn around(value: f64) -> Self {
        Self { low: value, high: value }
    }

    fn take_in(&mut self, value: f64) {
        *self = self.joined(Self::around(value));
    }

    /// All that either leaves open.
    pub(crate) fn joined(self, other: Self) -> Self {
        Self { low: self.low.min(other.low), high: self.high.max(other.high) }
    }
}

/// What follows from a learner's own earlier answers that were marked right: the answer, and what is left open about it,
/// for each earlier answer up to which the learner may have gone on from what was typed, and with all digits after it.
pub(crate) fn of_right_ones(facts: &Facts, at: NumberAt, answers: &Typed) -> Vec<(Quantity, Latitude)> {
    let mut own: Vec<(Quantity, Latitude)> = Vec::new();
    for scope in right_ones(facts, at, answers) {
        let Ok(value) = at.number.right(&scope) else { continue };
        if facts.scope.get(at.id) != Some(&Value::Quantity(value)) {
            own.push((value, from(facts, at, &scope, value)));
        }
    }
    own
}

/// What is left open where a number goes on from the earlier answers in a scope.
pub(crate) fn from(facts: &Facts, at: NumberAt, scope: &Scope, right: Quantity) -> Latitude {
    let mut latitude = Latitude::around(right.si);
    for manner in manners(facts.setting.system) {
        let lines = Lines { facts, last: at.number, manner };
        for scope in lines.scopes(at, scope) {
            if let Ok(Value::Quantity(value)) = at.number.answer.pass(&scope, &lines) {
                latitude.take_in(value.si);
            }
        }
    }
    latitude
}

/// The manners in which a problem of a system may be worked: in its own form, whose lines the working prints, rounded or
/// not; and in the other printed form.
fn manners(system: System) -> impl Iterator<Item = Manner> {
    let other = if system == System::Us { System::Si } else { System::Us };
    FIGURES.into_iter().map(move |figures| Manner { form: system, figures }).chain([Manner::unrounded(other)])
}

/// Right answers as each printed form gives them, with nothing rounded between steps: customary, SI.
pub(crate) fn by_form(facts: &Facts, number: &Number) -> [Option<Quantity>; 2] {
    System::BOTH.map(|form| {
        let lines = Lines { facts, last: number, manner: Manner::unrounded(form) };
        match number.answer.pass(&facts.scope, &lines) {
            Ok(Value::Quantity(value)) => Some(value),
            _ => None,
        }
    })
}

/// The values of all names with the learner's own earlier answers that were marked right and differ from the key: with the
/// first of them, with the first two, and so on. Earlier numbers that follow are worked on from these.
fn right_ones(facts: &Facts, at: NumberAt, answers: &Typed) -> Vec<Scope> {
    let own: Vec<Option<Quantity>> =
        facts.numbers_before(at.id).map(|earlier| right_one(facts, *earlier, answers)).collect();
    let last_ones = own.iter().enumerate().filter(|(_, own)| own.is_some()).map(|(place, _)| place);
    last_ones.filter_map(|last| with_own(facts, at, &own[..=last])).collect()
}

/// The values of all names with the first of a learner's own answers.
fn with_own(facts: &Facts, at: NumberAt, own: &[Option<Quantity>]) -> Option<Scope> {
    let mut scope = facts.scope.clone();
    for (place, earlier) in facts.numbers_before(at.id).enumerate() {
        let value = match own.get(place).copied().flatten() {
            Some(own) => own,
            None if rests_on_number(facts, earlier.number) => earlier.number.right(&scope).ok()?,
            None => continue,
        };
        scope.set(earlier.id, Value::Quantity(value));
    }
    Some(scope)
}

/// A learner's own answer to an earlier part, where it was marked right and is not the key.
fn right_one(facts: &Facts, earlier: NumberAt, answers: &Typed) -> Option<Quantity> {
    let typed = typed(answers, earlier.id);
    let own = judge::own(facts, earlier.number, typed)?;
    let (_, right) = facts.number(earlier.id)?;
    let is_key = facts.scope.get(earlier.id) == Some(&Value::Quantity(own));
    let is_right = !is_key && judge::mark(facts, earlier, right, typed, answers).verdict == Verdict::Right;
    is_right.then_some(own)
}

/// Whether the answer of a number goes on from another number that is asked.
pub(crate) fn rests_on_number(facts: &Facts, number: &Number) -> bool {
    let is_asked = |name: &str| facts.numbers.iter().any(|at| at.id == name);
    number.answer.any(&mut |piece| matches!(piece, Node::Name(name) if is_asked(name)))
}

/// A formula worked line by line, each rounded as it is written down.
struct Lines<'p> {
    facts: &'p Facts<'p>,
    /// What the last line gives.
    last: &'p Number,
    manner: Manner,
}

impl Lines<'_> {
    /// The values of all names where earlier parts are worked in the same manner: as they are in a scope, and unrounded
    /// where the scope has what was rounded as it was asked for.
    fn scopes(&self, at: NumberAt, scope: &Scope) -> Vec<Scope> {
        let (mut own, mut differs) = (scope.clone(), false);
        for earlier in self.facts.numbers_before(at.id) {
            // What a learner typed goes on as it was typed.
            let kept = self.facts.scope.get(earlier.id) == scope.get(earlier.id);
            if let (true, Ok(Value::Quantity(value))) = (kept, earlier.number.answer.pass(&own, self)) {
                own.set(earlier.id, Value::Quantity(Quantity::new(value.si, earlier.number.kind)));
                differs = true;
            }
        }
        if differs { vec![scope.clone(), own] } else { vec![own] }
    }

    /// A number written down in a unit.
    fn written(&self, value: Quantity, unit: Option<&Unit>) -> Quantity {
        let Some(figures) = self.manner.figures else { return value };
        let round = |number: f64| round_to_figures(number, figures, Rounding::Nearest);
        match unit {
            Some(unit) => unit.quantity(round(unit.value(value)), value.kind),
            None => Quantity::new(round(value.si), value.kind),
        }
    }

    /// Whether the last line may be rounded to nearest before it is rounded as it is asked for: as workings show it, where
    /// that is finer. Any other rounding of it is the answer's own.
    fn is_shown_finer(&self, value: Quantity) -> bool {
        let system = self.facts.setting.system;
        let Some(grid) = self.last.grid(system).filter(|_| self.manner.figures == Some(WORKING_FIGURES)) else {
            return false;
        };
        let asked = self.last.in_unit(value, system);
        grid.step(asked) >= 10.0 * Grid::Figures(WORKING_FIGURES).step(asked) * (1.0 - NEAR)
    }

    /// The unit in which the value of a piece is written down.
    fn unit(&self, node: &Node, kind: Kind) -> Option<&'static Unit> {
        match node {
            Node::Call(call) if relief::is_bare(call.relation, kind) => None,
            Node::Call(call) => law_unit(call.relation, kind, self.form(call)).or_else(|| self.usual(kind)),
            _ => self.usual(kind),
        }
    }

    fn usual(&self, kind: Kind) -> Option<&'static Unit> {
        display::usual_unit(kind, self.facts.setting.system)
    }

    /// The system whose form is taken for a call. Only forms of one formula can replace each other.
    fn form(&self, call: &Call) -> System {
        let other = matches!(call.relation.forms, relief::Forms::Each { .. }).then_some(self.manner.form);
        call.form.or(other).unwrap_or(self.facts.setting.system)
    }

    /// The unit in which an argument is known before it is put into a relation, where it was given and not worked.
    fn given_in(&self, node: Option<&Node>) -> Option<&'static Unit> {
        match node {
            Some(Node::Quantity { unit, .. }) => Some(unit),
            Some(Node::Name(name)) => {
                let given: &GivenValue = self.facts.givens.iter().find(|given| given.name == *name)?;
                given.unit.and_then(|symbol| relief::units::UNITS.iter().find(|unit| unit.symbol == symbol))
            }
            _ => None,
        }
    }
}

impl Pass for Lines<'_> {
    fn argument(&self, call: &Call, input: &Input, node: Option<&Node>, value: Quantity) -> Quantity {
        let Some(in_law) = law_unit(call.relation, value.kind, self.form(call)) else {
            // A default, such as the atmosphere, is looked up and written down.
            let looked_up = node.is_none() && is_measured(input);
            return if looked_up { self.written(value, self.usual(value.kind)) } else { value };
        };
        // What is given in the unit of the law, or was written down in it, is put in as it is.
        let converted = match node {
            Some(Node::Name(_) | Node::Quantity { .. }) => self.given_in(node).is_some_and(|unit| *unit != *in_law),
            Some(_) => true,
            None => is_measured(input),
        };
        if converted { self.written(value, Some(in_law)) } else { value }
    }

    fn line(&self, node: &Node, value: Quantity) -> Quantity {
        if self.last.is_last(node) && !self.is_shown_finer(value) {
            return value;
        }
        self.written(value, self.unit(node, value.kind))
    }

    fn manner(&self, call: &Call, _: &Scope) -> Manner {
        Manner { form: self.form(call), ..self.manner }
    }
}

/// Whether a usual value is one that somebody measured, and no factor.
fn is_measured(input: &Input) -> bool {
    let value = input.default.as_ref().map(|default| default.value);
    matches!(value, Some(Argument::Quantity(value)) if !value.kind.is_pure())
}
