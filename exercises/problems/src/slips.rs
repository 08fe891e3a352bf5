//! Common slips, found without being listed by the author: what an answer would be if one usual thing went wrong.

mod misreadings;

use relief::relations::pressures::STANDARD_ATMOSPHERE;
use relief::units::{self, Unit};
use relief::{Exact, Kind, Quantity, Relation};

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
    /// A gauge pressure where an absolute one belongs.
    GaugeForAbsolute,
    /// An absolute pressure where a gauge one belongs.
    AbsoluteForGauge,
    /// The number of another unit.
    UnitNotConverted,
    /// A diameter and a radius were taken for each other.
    DiameterForRadius,
    /// The whole pressure where only its rise or fall belongs.
    WholeForRise,
    /// The pressure that it started from where the lower one belongs that it fell to.
    SetForReseat,
    /// A share of the wrong whole.
    PercentBase,
    /// One given pressure where another belongs.
    OtherPressure,
    /// A fraction upside down.
    Inverted,
    /// Ten, a hundred or a thousand times too much or too little.
    Decade,
}

impl Slip {
    /// All of them. Where two give the same number, the earlier one is told.
    pub const ALL: [Self; 11] = [
        Self::Sign,
        Self::GaugeForAbsolute,
        Self::AbsoluteForGauge,
        Self::UnitNotConverted,
        Self::DiameterForRadius,
        Self::WholeForRise,
        Self::SetForReseat,
        Self::PercentBase,
        Self::OtherPressure,
        Self::Inverted,
        Self::Decade,
    ];

    /// The code under which words for this slip are kept.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Sign => "sign",
            Self::GaugeForAbsolute => "gauge_for_absolute",
            Self::AbsoluteForGauge => "absolute_for_gauge",
            Self::UnitNotConverted => "unit_not_converted",
            Self::DiameterForRadius => "diameter_for_radius",
            Self::WholeForRise => "whole_for_rise",
            Self::SetForReseat => "set_for_reseat",
            Self::PercentBase => "percent_base",
            Self::OtherPressure => "other_pressure",
            Self::Inverted => "inverted",
            Self::Decade => "decade",
        }
    }
}

type Values = Vec<(&'static str, String)>;

/// What a slip would give, in SI units, with what a message needs to know.
struct Candidate {
    slip: Slip,
    si: f64,
    values: Values,
}

impl Candidate {
    fn plain(slip: Slip, si: f64) -> Self {
        Self { slip, si, values: Vec::new() }
    }
}

/// The slip that explains a wrong answer, with what a message needs to know: the one that comes nearest, and of several
/// that give the same number the first in [`Slip::ALL`].
pub(crate) fn find(problem: &Problem, number: &NumberAsk, right: Quantity, si: f64) -> Option<(Slip, Values)> {
    let mut best: Option<(f64, Candidate)> = None;
    for candidate in candidates(problem, number, right) {
        let quantity = Quantity::new(candidate.si, right.kind);
        let gap = (si - candidate.si).abs();
        // What a slip gives is no explanation where it is the right answer too.
        let differs = (candidate.si - right.si).abs() > slack(right.si);
        let allowed = match candidate.slip {
            // The digits of a number ten times smaller are the same only within a tenth of what is allowed.
            Slip::Decade => {
                let digits = (candidate.si / right.si).abs() * reach(problem, number, right);
                digits.min(reach(problem, number, quantity))
            }
            _ => reach(problem, number, quantity),
        };
        let near = candidate.si.is_finite() && differs && gap <= allowed;
        if near && best.as_ref().is_none_or(|(least, _)| gap < least - slack(candidate.si)) {
            best = Some((gap, candidate));
        }
    }
    best.map(|(_, candidate)| (candidate.slip, candidate.values))
}

/// How far from the value of a mistake or slip an answer may be and still be explained by it: the tolerance, or what
/// rounding as instructed may move it.
pub(crate) fn reach(problem: &Problem, number: &NumberAsk, value: Quantity) -> f64 {
    let system = problem.setting.system;
    let asked = number.unit.of(system).0;
    let step = number.grid(system).map_or(0.0, |grid| {
        let step = grid.reach(asked.map_or(value.si, |unit| unit.value(value)));
        asked.map_or(step, |unit| step * unit.factor())
    });
    tolerance(problem, number, value).max(step) + slack(value.si)
}

fn candidates(problem: &Problem, number: &NumberAsk, right: Quantity) -> Vec<Candidate> {
    let system = problem.setting.system;
    let asked = number.unit.of(system).0;
    let mut all = with_the_answer(right, asked);
    if number.round.is_some() {
        // Where the answer is rounded, the slip may come before or after.
        all.extend(with_the_answer(number.rounded(right, system), asked));
    }
    all.extend(bores(problem, number).into_iter().map(|si| Candidate::plain(Slip::DiameterForRadius, si)));
    misreadings::collect(problem, number, &mut all);
    // By rank. The engine stays smaller without the general sorts of the library: 8 kB each for a handful of values.
    let mut ranked = Vec::with_capacity(all.len());
    for slip in Slip::ALL {
        ranked.extend(all.extract_if(.., |candidate| candidate.slip == slip));
    }
    ranked
}

/// What comes out when the right answer goes wrong at the very end.
fn with_the_answer(right: Quantity, asked: Option<&'static Unit>) -> Vec<Candidate> {
    let mut all = Vec::new();
    if right.si.abs() > 0.0 {
        all.push(Candidate::plain(Slip::Sign, -right.si));
    }
    all.extend(reference_slips(right).map(|(slip, si)| Candidate::plain(slip, si)));
    all.extend(other_units(asked, right));
    all.extend(ratio_slips(right, asked));
    all.extend([1e-3, 1e-2, 1e-1, 1e1, 1e2, 1e3].map(|decade| Candidate::plain(Slip::Decade, right.si * decade)));
    all
}

/// The slip of a pressure that is right but measured from the wrong zero.
pub(crate) fn reference(right: Quantity, si: f64, tolerance: f64) -> Option<Slip> {
    reference_slips(right).filter(|(_, value)| (si - value).abs() <= tolerance).map(|(slip, _)| slip)
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
fn other_units(asked: Option<&'static Unit>, right: Quantity) -> impl Iterator<Item = Candidate> {
    let asked = asked.into_iter();
    asked.flat_map(move |asked| {
        units::for_kind(right.kind).filter(move |unit| !is_power_of_ten(unit.factor() / asked.factor())).map(
            move |unit| Candidate {
                slip: Slip::UnitNotConverted,
                si: asked.quantity(unit.value(right), right.kind).si,
                values: vec![("other_unit", unit_text(unit, 2.0))],
            },
        )
    })
}

fn is_power_of_ten(ratio: f64) -> bool {
    let power = libm::log10(ratio);
    (power - power.round()).abs() < 1e-9
}

/// The answers that come out when each bore is taken twice or half as large: in every relation, or in areas alone.
fn bores(problem: &Problem, number: &NumberAsk) -> Vec<f64> {
    let factors = [Exact::new(2, 1), Exact::new(1, 2)];
    let everywhere: fn(&Relation) -> bool = |_| true;
    let areas: fn(&Relation) -> bool = |relation| relation.id == "bore_area";
    let mut all = Vec::new();
    for factor in factors.into_iter().flatten() {
        for wanted in [everywhere, areas] {
            let node = with_bore(&number.answer, factor, wanted);
            let value = node.quantity(&problem.scope).ok().filter(|_| node != number.answer);
            all.extend(value.map(|value| value.si));
        }
    }
    all
}

fn with_bore(node: &Node, factor: Exact, wanted: fn(&Relation) -> bool) -> Node {
    let deeper = |inner: &Node| Box::new(with_bore(inner, factor, wanted));
    match node {
        Node::Negated(inner) => Node::Negated(deeper(inner)),
        Node::Binary(operation, left, right) => Node::Binary(*operation, deeper(left), deeper(right)),
        Node::Call(relation, arguments, output) => {
            let arguments = relation.inputs.iter().zip(arguments).map(|(input, argument)| {
                let argument = argument.as_ref().map(|argument| with_bore(argument, factor, wanted))?;
                let bore = input.name == "bore" && wanted(relation);
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
fn ratio_slips(right: Quantity, asked: Option<&'static Unit>) -> Vec<Candidate> {
    let mut all = Vec::new();
    if right.kind == Kind::Ratio {
        all.push(Candidate::plain(Slip::PercentBase, right.si / (1.0 + right.si)));
        all.push(Candidate::plain(Slip::PercentBase, right.si / (1.0 - right.si)));
        all.push(Candidate::plain(Slip::Inverted, 1.0 / right.si));
    }
    let value = asked.map_or(right.si, |unit| unit.value(right));
    let inverse = 1.0 / value;
    all.push(Candidate::plain(Slip::Inverted, asked.map_or(inverse, |unit| unit.quantity(inverse, right.kind).si)));
    all
}
