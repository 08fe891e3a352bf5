//! Slips inside a formula: one piece of it is taken for something else, and the rest is worked as it should be.

use core::cell::Cell;

use relief::relations::pressures::STANDARD_ATMOSPHERE;
use relief::{Gives, Kind, Quantity, Relation};

use super::{Candidate, Slip};
use crate::draw::Problem;
use crate::formula::{Node, Operation, Scope, Value};
use crate::recipe::NumberAsk;

/// What a piece of a formula is misread as; `None` where the misreading does not apply to it.
type Misreading = fn(&Node, &Scope) -> Option<Quantity>;

/// Each misreading with the slip that it is.
const MISREADINGS: [(Slip, Misreading); 9] = [
    (Slip::GaugeForAbsolute, gauge_as_absolute),
    (Slip::AbsoluteForGauge, absolute_as_gauge),
    (Slip::WholeForRise, whole_as_difference),
    (Slip::WholeForRise, whole_as_share),
    (Slip::SetForReseat, nothing_taken_off),
    (Slip::PercentBase, |node, scope| other_base(node, scope, 1.0)),
    (Slip::PercentBase, |node, scope| other_base(node, scope, -1.0)),
    (Slip::Inverted, inverted_ratio),
    (Slip::Inverted, inverted_quotient),
];

/// The most places of a formula at which one misreading is tried alone.
const MOST_PLACES: usize = 8;

/// Adds what each misreading would give: at all its places at once, and at each of them alone.
pub(super) fn collect(problem: &Problem, number: &NumberAsk, into: &mut Vec<Candidate>) {
    for (slip, misreading) in MISREADINGS {
        let everywhere = worked(number, &problem.scope, &misreading, None);
        let places = everywhere.1;
        into.extend(everywhere.0.map(|si| Candidate::plain(slip, si)));
        for place in 0..if places > 1 { places.min(MOST_PLACES) } else { 0 } {
            let alone = worked(number, &problem.scope, &misreading, Some(place));
            into.extend(alone.0.map(|si| Candidate::plain(slip, si)));
        }
    }
    other_pressures(problem, number, into);
}

/// The answer with a misreading at one of its places or all of them, and how many places it has.
fn worked(
    number: &NumberAsk,
    scope: &Scope,
    misreading: &dyn Fn(&Node, &Scope) -> Option<Quantity>,
    only: Option<usize>,
) -> (Option<f64>, usize) {
    let seen = Cell::new(0);
    let twist = |node: &Node, scope: &Scope| {
        let taken = misreading(node, scope)?;
        let place = seen.replace(seen.get() + 1);
        only.is_none_or(|only| only == place).then_some(taken)
    };
    let value = match number.answer.twisted(scope, &twist) {
        Ok(Value::Quantity(value)) if seen.get() > 0 => Some(value.si),
        _ => None,
    };
    (value, seen.get())
}

/// The kind of quantity that an output of a relation is.
fn gives(relation: &Relation, output: usize) -> Option<Kind> {
    match relation.outputs.get(output)?.gives {
        Gives::Quantity(kind) => Some(kind),
        Gives::Choice(_) => None,
    }
}

/// A gauge pressure taken for an absolute one, without the atmosphere.
fn gauge_as_absolute(node: &Node, scope: &Scope) -> Option<Quantity> {
    let Node::Call(relation, arguments, _) = node else { return None };
    let gauge = arguments.first()?.as_ref().filter(|_| relation.id == "absolute_pressure")?;
    Some(Quantity::new(gauge.quantity(scope).ok()?.si, Kind::Absolute))
}

/// An absolute pressure taken for the gauge pressure that was given.
fn absolute_as_gauge(node: &Node, scope: &Scope) -> Option<Quantity> {
    let Node::Name(_) = node else { return None };
    let gauge = node.quantity(scope).ok().filter(|value| value.kind == Kind::Gauge)?;
    Some(Quantity::new(gauge.si + STANDARD_ATMOSPHERE, Kind::Gauge))
}

/// The upper of two pressures, or the pressure that a share is taken of, where the difference belongs.
fn whole_as_difference(node: &Node, scope: &Scope) -> Option<Quantity> {
    let whole = match node {
        Node::Binary(Operation::Minus, left, right) => {
            let (left, right) = (left.quantity(scope).ok()?, right.quantity(scope).ok()?);
            (left.kind == Kind::Gauge && right.kind == Kind::Gauge).then_some(left)?
        }
        Node::Binary(Operation::Times, left, right) => {
            let (left, right) = (left.quantity(scope).ok()?, right.quantity(scope).ok()?);
            let pressure = if left.kind == Kind::Gauge { left } else { right };
            (left.kind.times(right.kind) == Some(Kind::Difference) && pressure.kind == Kind::Gauge)
                .then_some(pressure)?
        }
        Node::Call(relation, arguments, output) => {
            let gives = gives(relation, *output) == Some(Kind::Difference);
            let [first, second, ..] = arguments.as_slice() else { return None };
            let (first, second) = (first.as_ref()?.quantity(scope).ok()?, second.as_ref()?.quantity(scope).ok()?);
            (gives && first.kind == Kind::Gauge && second.kind == Kind::Gauge).then_some(first)?
        }
        _ => return None,
    };
    Some(Quantity::new(whole.si, Kind::Difference))
}

/// One pressure as a share of the other, where only their difference is.
fn whole_as_share(node: &Node, scope: &Scope) -> Option<Quantity> {
    let (first, second) = two_pressures_of_a_share(node, scope)?;
    Some(Quantity::new(first / second, Kind::Ratio))
}

/// The two gauge pressures of a relation that gives a share, in the order of its inputs: the base is the set pressure.
fn two_pressures_of_a_share(node: &Node, scope: &Scope) -> Option<(f64, f64)> {
    let Node::Call(relation, arguments, output) = node else { return None };
    let ratio = gives(relation, *output) == Some(Kind::Ratio);
    let [first, second] = arguments.as_slice() else { return None };
    let (first_value, second_value) = (first.as_ref()?.quantity(scope).ok()?, second.as_ref()?.quantity(scope).ok()?);
    if !ratio || first_value.kind != Kind::Gauge || second_value.kind != Kind::Gauge {
        return None;
    }
    let set_first = relation.inputs.first().is_some_and(|input| input.name == "set");
    Some(if set_first { (second_value.si, first_value.si) } else { (first_value.si, second_value.si) })
}

/// The pressure before the fall, where the one after it belongs.
fn nothing_taken_off(node: &Node, scope: &Scope) -> Option<Quantity> {
    let Node::Binary(Operation::Minus, left, right) = node else { return None };
    let (left, right) = (left.quantity(scope).ok()?, right.quantity(scope).ok()?);
    (left.kind == Kind::Gauge && right.kind == Kind::Difference).then_some(left)
}

/// A share of the sum or of what is left, instead of the whole.
fn other_base(node: &Node, scope: &Scope, sign: f64) -> Option<Quantity> {
    let share = match node {
        Node::Call(relation, _, output) => gives(relation, *output) == Some(Kind::Ratio),
        Node::Binary(Operation::Over, left, right) => {
            let (left, right) = (left.quantity(scope).ok()?, right.quantity(scope).ok()?);
            left.kind == Kind::Difference && right.kind == Kind::Gauge
        }
        _ => false,
    };
    let value = node.quantity(scope).ok().filter(|value| share && value.kind == Kind::Ratio)?;
    Some(Quantity::new(value.si / (1.0 + sign * value.si), Kind::Ratio))
}

/// A ratio that a relation gives, upside down.
fn inverted_ratio(node: &Node, scope: &Scope) -> Option<Quantity> {
    let Node::Call(relation, _, output) = node else { return None };
    gives(relation, *output).filter(|kind| kind.is_pure())?;
    let value = node.quantity(scope).ok()?;
    Some(Quantity::new(1.0 / value.si, value.kind))
}

/// A quotient of two values of one sort, upside down.
fn inverted_quotient(node: &Node, scope: &Scope) -> Option<Quantity> {
    let Node::Binary(Operation::Over, left, right) = node else { return None };
    let (left, right) = (left.quantity(scope).ok()?, right.quantity(scope).ok()?);
    let value = node.quantity(scope).ok().filter(|value| value.kind.is_pure())?;
    (left.kind.dimension() == right.kind.dimension()).then(|| Quantity::new(right.si / left.si, value.kind))
}

/// One given pressure where another belongs: everywhere, or only where a percentage is taken of it. Where the one that
/// belongs is the pressure at which the valve reseats, and the set pressure is taken for it, that has a name of its own.
fn other_pressures(problem: &Problem, number: &NumberAsk, into: &mut Vec<Candidate>) {
    let given = || {
        problem.givens.iter().filter_map(|given| match problem.scope.get(&given.name) {
            Some(Value::Quantity(value)) if value.kind == Kind::Gauge => Some((given, *value)),
            _ => None,
        })
    };
    for (taken, other) in given() {
        let base = |node: &Node, scope: &Scope| percentage_of(node, scope, other);
        let si = worked(number, &problem.scope, &base, None).0;
        into.extend(si.map(|si| Candidate::plain(Slip::PercentBase, si)));
        for (belongs, _) in given().filter(|(_, value)| other.si.to_bits() != value.si.to_bits()) {
            let misread = |node: &Node, _: &Scope| match node {
                Node::Name(name) if *name == belongs.name => Some(other),
                _ => None,
            };
            let reseat = belongs.name == "reseat" && taken.name == "set";
            let slip = if reseat { Slip::SetForReseat } else { Slip::OtherPressure };
            let values = vec![("taken", taken.text.clone()), ("belongs", belongs.text.clone())];
            let si = worked(number, &problem.scope, &misread, None).0;
            into.extend(si.map(|si| Candidate { slip, si, values }));
        }
    }
}

/// A percentage of a gauge pressure, taken of another one.
fn percentage_of(node: &Node, scope: &Scope, other: Quantity) -> Option<Quantity> {
    let Node::Binary(Operation::Times, left, right) = node else { return None };
    let (left, right) = (left.quantity(scope).ok()?, right.quantity(scope).ok()?);
    let (ratio, base) = if left.kind == Kind::Ratio { (left, right) } else { (right, left) };
    let fits = ratio.kind == Kind::Ratio && base.kind == Kind::Gauge && base.si.to_bits() != other.si.to_bits();
    fits.then(|| Quantity::new(other.si * ratio.si, Kind::Difference))
}
