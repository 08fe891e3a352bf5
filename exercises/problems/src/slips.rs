//! Common slips, found without being listed by the author: what an answer would be if one usual thing went wrong.

use relief::relations::pressures::STANDARD_ATMOSPHERE;
use relief::units::{self, Unit};
use relief::{Exact, Kind, Quantity};

use crate::display::unit_text;
use crate::draw::Problem;
use crate::formula::{Node, Operation};
use crate::mark::{slack, tolerance};
use crate::recipe::NumberAsk;

/// A common slip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slip {
    /// The sign is the other way round.
    Sign,
    /// A gauge pressure where an absolute one was asked for.
    GaugeForAbsolute,
    /// An absolute pressure where a gauge one was asked for.
    AbsoluteForGauge,
    /// The number of another unit.
    UnitNotConverted,
    /// Ten, a hundred or a thousand times too much or too little.
    Decade,
    /// A diameter and a radius were taken for each other.
    DiameterForRadius,
    /// A share of the wrong whole.
    PercentBase,
    /// One divided by the answer.
    Inverted,
}

impl Slip {
    /// All of them.
    pub const ALL: [Self; 8] = [
        Self::Sign,
        Self::GaugeForAbsolute,
        Self::AbsoluteForGauge,
        Self::UnitNotConverted,
        Self::Decade,
        Self::DiameterForRadius,
        Self::PercentBase,
        Self::Inverted,
    ];

    /// The code under which words for this slip are kept.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Sign => "sign",
            Self::GaugeForAbsolute => "gauge_for_absolute",
            Self::AbsoluteForGauge => "absolute_for_gauge",
            Self::UnitNotConverted => "unit_not_converted",
            Self::Decade => "decade",
            Self::DiameterForRadius => "diameter_for_radius",
            Self::PercentBase => "percent_base",
            Self::Inverted => "inverted",
        }
    }
}

type Found = (Slip, Vec<(&'static str, String)>);

/// The slip that explains a wrong answer, with what a message needs to know.
pub(crate) fn find(problem: &Problem, number: &NumberAsk, right: Quantity, si: f64) -> Option<Found> {
    let asked = number.unit.of(problem.setting.system).0;
    let near = |value: f64| {
        let quantity = Quantity::new(value, right.kind);
        value.is_finite() && (si - value).abs() <= tolerance(problem, number, quantity) + slack(value)
    };
    if right.si.abs() > 0.0 && near(-right.si) {
        return Some((Slip::Sign, Vec::new()));
    }
    if let Some(slip) = reference_slips(right).into_iter().find(|(_, value)| near(*value)) {
        return Some((slip.0, Vec::new()));
    }
    if let Some(unit) = other_units(asked, right).find(|(_, value)| near(*value)) {
        return Some((Slip::UnitNotConverted, vec![("other_unit", unit_text(unit.0, 2.0))]));
    }
    if [1e-3, 1e-2, 1e-1, 1e1, 1e2, 1e3].into_iter().any(|decade| near(right.si * decade)) {
        return Some((Slip::Decade, Vec::new()));
    }
    if bores(problem, number).into_iter().any(near) {
        return Some((Slip::DiameterForRadius, Vec::new()));
    }
    ratio_slips(right, asked).into_iter().find(|(_, value)| near(*value)).map(|(slip, _)| (slip, Vec::new()))
}

/// The slip of a pressure that is right but measured from the wrong zero.
pub(crate) fn reference(right: Quantity, si: f64, tolerance: f64) -> Option<Slip> {
    reference_slips(right).into_iter().find(|(_, value)| (si - value).abs() <= tolerance).map(|(slip, _)| slip)
}

fn reference_slips(right: Quantity) -> Option<(Slip, f64)> {
    match right.kind {
        Kind::Absolute => Some((Slip::GaugeForAbsolute, right.si - STANDARD_ATMOSPHERE)),
        Kind::Gauge => Some((Slip::AbsoluteForGauge, right.si + STANDARD_ATMOSPHERE)),
        _ => None,
    }
}

/// What the answer becomes when its number in another unit is written with the unit asked for. Units a power of ten
/// apart are left to the decade, which says the same more simply.
fn other_units(asked: Option<&'static Unit>, right: Quantity) -> impl Iterator<Item = (&'static Unit, f64)> {
    let asked = asked.into_iter();
    asked.flat_map(move |asked| {
        units::for_kind(right.kind)
            .filter(move |unit| !is_power_of_ten(unit.factor() / asked.factor()))
            .map(move |unit| (unit, asked.quantity(unit.value(right), right.kind).si))
    })
}

fn is_power_of_ten(ratio: f64) -> bool {
    let power = libm::log10(ratio);
    (power - power.round()).abs() < 1e-9
}

/// The answers that come out when each bore is taken twice or half as large.
fn bores(problem: &Problem, number: &NumberAsk) -> Vec<f64> {
    let factors = [Exact::new(2, 1), Exact::new(1, 2)];
    let scaled = factors.into_iter().flatten().map(|factor| with_bore(&number.answer, factor));
    let other = scaled.filter(|node| *node != number.answer);
    other.filter_map(|node| node.quantity(&problem.scope).ok()).map(|value| value.si).collect()
}

fn with_bore(node: &Node, factor: Exact) -> Node {
    let deeper = |inner: &Node| Box::new(with_bore(inner, factor));
    match node {
        Node::Negated(inner) => Node::Negated(deeper(inner)),
        Node::Binary(operation, left, right) => Node::Binary(*operation, deeper(left), deeper(right)),
        Node::Call(relation, arguments, output) => {
            let arguments = relation.inputs.iter().zip(arguments).map(|(input, argument)| {
                let argument = argument.as_ref().map(|argument| with_bore(argument, factor))?;
                let bore = input.name == "bore";
                Some(if bore {
                    Node::Binary(Operation::Times, Box::new(argument), Box::new(Node::Number(factor)))
                } else {
                    argument
                })
            });
            Node::Call(relation, arguments.collect(), *output)
        }
        Node::Number(_) | Node::Quantity { .. } | Node::Choice(_) | Node::Name(_) => node.clone(),
    }
}

/// For a share: of what is left or of the sum instead of the whole; and for any answer, its inverse.
fn ratio_slips(right: Quantity, asked: Option<&'static Unit>) -> Vec<(Slip, f64)> {
    let mut all = Vec::new();
    if right.kind == Kind::Ratio {
        all.push((Slip::PercentBase, right.si / (1.0 + right.si)));
        all.push((Slip::PercentBase, right.si / (1.0 - right.si)));
        all.push((Slip::Inverted, 1.0 / right.si));
    }
    let value = asked.map_or(right.si, |unit| unit.value(right));
    let inverse = 1.0 / value;
    all.push((Slip::Inverted, asked.map_or(inverse, |unit| unit.quantity(inverse, right.kind).si)));
    all
}
