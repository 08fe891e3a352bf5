//! A diameter for a radius, a whole pressure for its rise, a share of the wrong whole.

use relief::units;
use relief::{Exact, Kind, Quantity, Role, Rounding};

use super::finding::Finding;
use super::slip::Slip;
use super::work::{Work, nothing};
use crate::formula::{Call, Node, Operation};

/// Figures of a bore that is taken for another: all that matter.
const FIGURES: u8 = 12;

impl Work<'_> {
    pub(super) fn misread(&self, finding: &mut Finding) {
        self.bores(finding);
        self.everywhere(finding, Slip::WholeForRise, &nothing, &|node| self.whole_for_rise(node));
        self.everywhere(finding, Slip::SetForReseat, &nothing, &|node| self.before_the_fall(node));
        self.other_bases(finding);
    }

    /// A diameter for a radius or the reverse: wherever a bore goes in, and only where its area is worked.
    fn bores(&self, finding: &mut Finding) {
        for times in [2.0, 0.5] {
            for areas in [false, true] {
                self.everywhere(finding, Slip::DiameterForRadius, &nothing, &|node| {
                    let Node::Call(call) = node else { return None };
                    if areas && !is_area_of_bore(call) { None } else { self.with_bore(call, times) }
                });
            }
        }
    }

    /// A relation worked with its bore so many times as large. Areas go with the square of a bore, openings and lengths
    /// with the bore itself; the relation knows.
    fn with_bore(&self, call: &Call, times: f64) -> Option<Quantity> {
        let place = call.relation.in_role(Role::Bore)?;
        let bore = self.value(call.arguments.get(place)?.as_ref()?)?;
        let unit = units::UNITS.iter().find(|unit| unit.symbol == "mm")?;
        let number = unit.value(Quantity::new(bore.si * times, bore.kind));
        let (value, _) = Exact::parse(&relief::shown(number, FIGURES, Rounding::Nearest)).ok()?;
        let mut changed = call.clone();
        changed.arguments[place] = Some(Node::Quantity { value, unit, kind: Kind::Length });
        self.value(&Node::Call(Box::new(changed)))
    }

    /// A whole pressure where only its rise or fall belongs.
    fn whole_for_rise(&self, node: &Node) -> Option<Quantity> {
        let whole = match node {
            Node::Binary(Operation::Minus, upper, lower) => self.upper(upper, lower)?,
            Node::Binary(Operation::Times, one, other) => self.whole_of_share(one, other)?,
            Node::Call(call) => return self.whole_in_relation(call),
            _ => return None,
        };
        Some(Quantity::new(whole.si, Kind::Difference))
    }

    /// The pressure that another is taken from.
    fn upper(&self, upper: &Node, lower: &Node) -> Option<Quantity> {
        let (upper, lower) = self.values(upper, lower)?;
        (is_gauge(upper) && is_gauge(lower)).then_some(upper)
    }

    /// The pressure that a share is taken of.
    fn whole_of_share(&self, one: &Node, other: &Node) -> Option<Quantity> {
        let (one, other) = self.values(one, other)?;
        let pressure = if is_gauge(one) { one } else { other };
        (one.kind.times(other.kind) == Some(Kind::Difference) && is_gauge(pressure)).then_some(pressure)
    }

    /// The higher of two pressures, where a relation gives their difference; one as a share of the other, where it gives
    /// the difference as a share.
    fn whole_in_relation(&self, call: &Call) -> Option<Quantity> {
        let [first, second, rest @ ..] = call.arguments.as_slice() else { return None };
        let (first, second) = self.values(first.as_ref()?, second.as_ref()?)?;
        match call.gives() {
            _ if !is_gauge(first) || !is_gauge(second) => None,
            Some(Kind::Difference) => Some(Quantity::new(first.si.max(second.si), Kind::Difference)),
            Some(Kind::Ratio) if rest.is_empty() => {
                let whole_first = call.relation.in_role(Role::Whole)? == 0;
                let (part, whole) = if whole_first { (second, first) } else { (first, second) };
                Some(Quantity::new(part.si / whole.si, Kind::Ratio))
            }
            _ => None,
        }
    }

    /// The pressure from which a fall is taken, where the lower one belongs.
    fn before_the_fall(&self, node: &Node) -> Option<Quantity> {
        let Node::Binary(Operation::Minus, upper, fall) = node else { return None };
        let (upper, fall) = self.values(upper, fall)?;
        (is_gauge(upper) && fall.kind == Kind::Difference).then_some(upper)
    }

    /// A share of the value at its other end: of the pressure after a rise or a fall, where it is one of the pressure before.
    fn other_bases(&self, finding: &mut Finding) {
        for sign in [1.0, -1.0] {
            self.everywhere(finding, Slip::PercentBase, &nothing, &|node| {
                let share = self.value(node).filter(|value| value.kind == Kind::Ratio && self.is_share(node))?;
                Some(Quantity::new(of_other_end(share.si, sign), Kind::Ratio))
            });
        }
        for sign in [1.0, -1.0].into_iter().filter(|_| self.right.kind == Kind::Ratio) {
            finding.candidate(Slip::PercentBase, Some(of_other_end(self.right.si, sign)), nothing);
        }
    }

    fn is_share(&self, node: &Node) -> bool {
        match node {
            Node::Call(call) => call.gives() == Some(Kind::Ratio),
            Node::Binary(Operation::Over, part, whole) => {
                self.values(part, whole).is_some_and(|(part, whole)| part.kind == Kind::Difference && is_gauge(whole))
            }
            _ => false,
        }
    }
}

fn is_gauge(value: Quantity) -> bool {
    value.kind == Kind::Gauge
}

/// Whether a relation gives an area that follows from a bore alone.
fn is_area_of_bore(call: &Call) -> bool {
    call.gives() == Some(Kind::Area) && matches!(call.relation.inputs, [input] if input.role == Role::Bore)
}

/// A share of a value as a share of what the value becomes when it grows or falls by it.
fn of_other_end(share: f64, sign: f64) -> f64 {
    share / (1.0 + sign * share)
}
