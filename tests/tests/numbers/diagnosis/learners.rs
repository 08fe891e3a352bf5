//! The learners. Each reworks the formula of an answer with one thing wrong.

use problems::draw::Problem;
use problems::formula::{Node, Operation, Value};
use problems::number::Number;
use problems::recipe::System;
use relief::units::Unit;
use relief::{Argument, Form, Gives, Kind, Manner, Quantity, Relation};

/// What a learner has in hand.
pub(crate) struct Work<'p> {
    pub(crate) problem: &'p Problem<'p>,
    pub(crate) number: &'p Number,
    pub(crate) right: Quantity,
    pub(crate) unit: Option<&'static Unit>,
}

/// A learner: what it answers, in the unit asked for, and which slips name its misconception.
pub(crate) struct Learner {
    pub(crate) name: &'static str,
    pub(crate) slips: &'static [&'static str],
    pub(crate) answers: fn(&Work) -> Vec<f64>,
}

/// The learners. One pressure taken for another is named by both pressures, which says as much as the name of the base
/// or of the event.
pub(crate) const LEARNERS: [Learner; 8] = [
    Learner { name: "gauge for absolute", slips: &["gauge_for_absolute"], answers: gauge_for_absolute },
    Learner { name: "diameter for radius", slips: &["diameter_for_radius"], answers: diameter_for_radius },
    Learner { name: "whole pressure for the rise", slips: &["whole_for_rise"], answers: whole_for_rise },
    Learner { name: "set for reseat", slips: &["set_for_reseat", "other_value"], answers: set_for_reseat },
    Learner { name: "percentage of the wrong base", slips: &["percent_base", "other_value"], answers: wrong_base },
    Learner { name: "unit not converted", slips: &["unit_not_converted"], answers: not_converted },
    Learner { name: "decade", slips: &["decade"], answers: decade },
    Learner { name: "inverted ratio", slips: &["inverted", "exchanged"], answers: inverted },
];

/// How a learner works one step: given the step and the values that go into it, its own result, or `None` to work it
/// as it should be.
type Habit<'h> = dyn Fn(&Step, &[Quantity]) -> Option<Quantity> + 'h;

/// A step of a calculation.
enum Step<'s> {
    Named(&'s str),
    Sum(Operation),
    Relation(&'static Relation, usize),
}

impl Work<'_> {
    /// The answer by a habit, in the unit asked for; nothing where the habit never came up or nothing comes out.
    fn by(&self, habit: &Habit) -> Vec<f64> {
        let used = core::cell::Cell::new(false);
        let noted = |step: &Step, values: &[Quantity]| {
            let own = habit(step, values);
            used.set(used.get() || own.is_some());
            own
        };
        match self.worked(&self.number.answer, &noted) {
            Some(Value::Quantity(value)) if used.get() => vec![self.in_unit(value.si)],
            _ => Vec::new(),
        }
    }

    fn in_unit(&self, si: f64) -> f64 {
        self.unit.map_or(si, |unit| unit.value(Quantity::new(si, self.right.kind)))
    }

    fn worked(&self, node: &Node, habit: &Habit) -> Option<Value> {
        let quantity = |node: &Node| match self.worked(node, habit)? {
            Value::Quantity(value) => Some(value),
            Value::Choice(_) => None,
        };
        let value = match node {
            Node::Number(value) => Quantity::new(value.to_f64(), Kind::Number),
            Node::Quantity { value, unit, kind } => unit.quantity(value.to_f64(), *kind),
            Node::Choice(name) => return Some(Value::Choice(name.clone())),
            Node::Name(name) => match self.problem.facts.scope.get(name)? {
                Value::Quantity(value) => habit(&Step::Named(name), &[*value]).unwrap_or(*value),
                choice @ Value::Choice(_) => return Some(choice.clone()),
            },
            Node::Negated(inner) => {
                let inner = quantity(inner)?;
                Quantity::new(-inner.si, inner.kind)
            }
            Node::Binary(operation, left, right) => {
                let (left, right) = (quantity(left)?, quantity(right)?);
                habit(&Step::Sum(*operation), &[left, right]).or_else(|| sum(*operation, left, right))?
            }
            Node::Pi => Quantity::new(core::f64::consts::PI, Kind::Number),
            Node::Root(inner) => quantity(inner)?.root()?,
            Node::Power(base, exponent) => quantity(base)?.power(quantity(exponent)?.si)?,
            Node::Call(call) => {
                let (relation, output) = (call.relation, &call.output);
                let values: Vec<_> =
                    call.arguments.iter().map(|node| node.as_ref().and_then(|node| self.worked(node, habit))).collect();
                let pure: Vec<Quantity> = values
                    .iter()
                    .filter_map(|value| if let Some(Value::Quantity(value)) = value { Some(*value) } else { None })
                    .collect();
                return match habit(&Step::Relation(relation, *output), &pure) {
                    Some(own) => Some(Value::Quantity(own)),
                    None => related(relation, &values, *output, self.problem.facts.setting.system),
                };
            }
        };
        value.si.is_finite().then_some(Value::Quantity(value))
    }
}

fn sum(operation: Operation, left: Quantity, right: Quantity) -> Option<Quantity> {
    let si = match operation {
        Operation::Plus => left.si + right.si,
        Operation::Minus => left.si - right.si,
        Operation::Times => left.si * right.si,
        Operation::Over => left.si / right.si,
    };
    Some(Quantity::new(si, operation.kind(left.kind, right.kind)?))
}

fn related(relation: &'static Relation, values: &[Option<Value>], output: usize, form: System) -> Option<Value> {
    let mut given = Vec::new();
    for (input, value) in relation.inputs.iter().zip(values) {
        match (value, &input.form) {
            (Some(Value::Quantity(value)), Form::Quantity(kind, _)) => {
                given.push((input.name, Argument::Quantity(Quantity::new(value.si, *kind))));
            }
            (Some(Value::Choice(name)), Form::Choice(known)) => {
                given.push((input.name, Argument::Choice(known.iter().find(|known| **known == *name)?)));
            }
            _ => {}
        }
    }
    match relation.evaluate_in(&given, Manner::unrounded(form)).ok()?.get(output)? {
        Argument::Quantity(value) => Some(Value::Quantity(value)),
        Argument::Choice(name) => Some(Value::Choice(name.to_owned())),
    }
}

fn gives(relation: &Relation, output: usize) -> Option<Kind> {
    match relation.outputs.get(output)?.gives {
        Gives::Quantity(kind) => Some(kind),
        Gives::Choice(_) => None,
    }
}

fn both_gauge(values: &[Quantity]) -> bool {
    values.len() == 2 && values.iter().all(|value| value.kind == Kind::Gauge)
}

/// Never adds the atmosphere.
fn gauge_for_absolute(work: &Work) -> Vec<f64> {
    work.by(&|step, values| match step {
        Step::Relation(relation, _) if relation.id == "absolute_pressure" => {
            Some(Quantity::new(values.first()?.si, Kind::Absolute))
        }
        _ => None,
    })
}

/// Squares the diameter where the radius belongs, or the radius where the diameter does.
fn diameter_for_radius(work: &Work) -> Vec<f64> {
    let area = |factor: f64| {
        work.by(&move |step, values| match step {
            Step::Relation(relation, 0) if relation.id == "bore_area" => {
                let bore = values.first()?.si * factor;
                Some(Quantity::new(core::f64::consts::PI / 4.0 * bore * bore, Kind::Area))
            }
            _ => None,
        })
    };
    [area(2.0), area(0.5)].concat()
}

/// Takes the upper pressure for the distance between two.
fn whole_for_rise(work: &Work) -> Vec<f64> {
    work.by(&|step, values| {
        let differs = match step {
            Step::Sum(Operation::Minus) => both_gauge(values),
            Step::Relation(relation, output) => {
                gives(relation, *output) == Some(Kind::Difference) && both_gauge(values)
            }
            _ => false,
        };
        differs.then(|| Quantity::new(values[0].si, Kind::Difference))
    })
}

/// Takes the set pressure for the pressure at which the valve reseats, where both are given; or leaves the fall out.
fn set_for_reseat(work: &Work) -> Vec<f64> {
    let Some(Value::Quantity(set)) = work.problem.facts.scope.get("set") else { return Vec::new() };
    work.by(&|step, _| matches!(step, Step::Named("reseat")).then_some(*set))
}

/// Divides by the other of two pressures, or takes a percentage of another given one.
fn wrong_base(work: &Work) -> Vec<f64> {
    let divided = work.by(&|step, values| match step {
        Step::Relation(relation, output) if gives(relation, *output) == Some(Kind::Ratio) && both_gauge(values) => {
            let (high, low) = (values[0].si.max(values[1].si), values[0].si.min(values[1].si));
            let set_is_high = relation.inputs[0].name == "set";
            Some(Quantity::new((high - low) / if set_is_high { low } else { high }, Kind::Ratio))
        }
        _ => None,
    });
    let others = work.problem.facts.givens.iter().filter_map(|given| match work.problem.facts.scope.get(&given.name) {
        Some(Value::Quantity(value)) if value.kind == Kind::Gauge => Some(*value),
        _ => None,
    });
    let taken = others.flat_map(|other| {
        work.by(&move |step, values| match (step, values) {
            (Step::Sum(Operation::Times), [left, right])
                if [left.kind, right.kind].contains(&Kind::Ratio) && [left.kind, right.kind].contains(&Kind::Gauge) =>
            {
                let (ratio, base) = if left.kind == Kind::Ratio { (left, right) } else { (right, left) };
                (base.si.to_bits() != other.si.to_bits()).then(|| Quantity::new(other.si * ratio.si, Kind::Difference))
            }
            _ => None,
        })
    });
    divided.into_iter().chain(taken).collect()
}

/// Works in the other system, and writes the unit that is asked for beside the number.
fn not_converted(work: &Work) -> Vec<f64> {
    let other = if work.problem.facts.setting.system == System::Us { System::Si } else { System::Us };
    let other = work.number.unit.of(other).0.filter(|other| Some(*other) != work.unit);
    other.map(|other| other.value(work.right)).into_iter().collect()
}

/// Loses or gains a place of the decimal mark.
fn decade(work: &Work) -> Vec<f64> {
    let value = work.in_unit(work.right.si);
    vec![value * 10.0, value / 10.0]
}

/// Puts a fraction upside down.
fn inverted(work: &Work) -> Vec<f64> {
    work.by(&|step, values| match (step, values) {
        (Step::Sum(Operation::Over), [left, right]) if left.kind.dimension() == right.kind.dimension() => {
            Some(Quantity::new(right.si / left.si, Operation::Over.kind(left.kind, right.kind)?))
        }
        (Step::Relation(relation, output), _)
            if gives(relation, *output) == Some(Kind::Ratio) && both_gauge(values) =>
        {
            let set_is_high = relation.inputs[0].name == "set";
            let share = if set_is_high {
                (values[0].si - values[1].si) / values[0].si
            } else {
                (values[0].si - values[1].si) / values[1].si
            };
            Some(Quantity::new(1.0 / share, Kind::Ratio))
        }
        _ => None,
    })
}
