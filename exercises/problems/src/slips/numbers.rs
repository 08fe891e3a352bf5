//! Something done with a number: another unit, a decimal point moved, a factor left out, a value upside down, a sign.

use relief::units::{self, Unit};
use relief::{Argument, Input, Kind, Quantity, Rounding};

use super::finding::Finding;
use super::slip::Slip;
use super::values::{text_of, unit_of, with_number};
use super::work::{Work, nothing, substitute};
use crate::display::{FIGURES, unit_text};
use crate::formula::{Call, Node, Operation};

/// What becomes of a printed number.
type Change = fn(f64) -> f64;

const CHANGES: [(Slip, Change); 5] = [
    (Slip::LeftOut, |_| 1.0),
    (Slip::Inverted, |number| 1.0 / number),
    (Slip::Doubled, |number| number * 2.0),
    (Slip::Halved, |number| number / 2.0),
    (Slip::Squared, |number| number * number),
];

const DECADES: [f64; 6] = [1e-3, 1e-2, 1e-1, 1e1, 1e2, 1e3];

impl Work<'_> {
    /// What becomes of the right answer when it goes wrong at the very end: its unit, its decimal point. Where the answer
    /// is rounded, that may come before or after; and anything that would be right may go wrong so.
    pub(super) fn at_the_end(&self, finding: &mut Finding) {
        let system = self.facts.setting.system;
        let off = self.at.number.tolerance(self.right, system) / self.right.si.abs();
        for right in [self.right, self.at.number.rounded(self.right, system)] {
            if let Some(asked) = self.asked() {
                in_other_units(finding, right, asked, off);
            }
            for decade in DECADES {
                finding.within(Slip::Decade, Some(right.si * decade), off, nothing);
            }
        }
    }

    /// Something done with the printed number of a value: left out, turned upside down, doubled, halved, squared.
    pub(super) fn numbers(&self, finding: &mut Finding, steps: &[(Node, Quantity)]) {
        let pieces = once_each(steps);
        for (slip, change) in CHANGES {
            if slip == Slip::LeftOut {
                self.usual_left_out(finding);
            }
            for (node, value) in &pieces {
                if finding.is_done() {
                    return;
                }
                self.changed(finding, (slip, change), node, *value);
            }
        }
    }

    fn changed(&self, finding: &mut Finding, (slip, change): (Slip, Change), node: &Node, value: Quantity) {
        // A share upside down is one whole over it, and not one percent.
        let turned = slip == Slip::Inverted && value.kind == Kind::Ratio;
        let values = || vec![("belongs", text_of(self.facts, node, value))];
        // The answer as a whole is not one of its pieces.
        if *node == self.at.number.answer {
            let asked = with_number(self.right, self.asked().filter(|_| !turned), change);
            finding.candidate(slip, Some(asked.si).filter(|_| slip != Slip::LeftOut), values);
            return;
        }
        let unit = unit_of(self.facts, node, value).filter(|_| !turned);
        let taken = with_number(value, unit, change);
        self.everywhere(finding, slip, &values, &|piece| (*piece == *node).then_some(taken));
    }

    /// A usual factor, such as a coefficient of discharge, left at one.
    fn usual_left_out(&self, finding: &mut Finding) {
        let one = |_: &Call, _: &Input, value: Quantity| is_factor(value).then(|| Quantity::new(1.0, value.kind));
        let values = || vec![("belongs", self.usual_text())];
        substitute(finding, Slip::LeftOut, &values, &|at| self.places().with_usual(at, &one));
    }

    /// The last usual factor that is not one, as it is printed.
    fn usual_text(&self) -> String {
        let steps = self.places().steps();
        let calls = steps.iter().filter_map(|(node, _)| if let Node::Call(call) = node { Some(call) } else { None });
        let factor = calls.flat_map(|call| usual_factors(call)).last();
        let text = |factor: Quantity| relief::shown(factor.si, FIGURES, Rounding::Nearest);
        factor.map(|factor| self.facts.setting.mark.print(&text(factor))).unwrap_or_default()
    }

    /// The opposite sign, where anything is subtracted.
    pub(super) fn sign(&self, finding: &mut Finding, steps: &[(Node, Quantity)]) {
        if steps.iter().any(|(node, value)| value.si < 0.0 || self.subtracts(node)) {
            finding.candidate(Slip::Sign, Some(-self.right.si), nothing);
        }
    }

    /// Whether a piece takes one value from another, or may: a relation of two gauge pressures.
    fn subtracts(&self, node: &Node) -> bool {
        let is_gauge = |(_, node): &(_, &Node)| self.value(node).is_some_and(|value| value.kind == Kind::Gauge);
        match node {
            Node::Negated(_) | Node::Binary(Operation::Minus, ..) => true,
            Node::Call(call) => call.given().filter(is_gauge).count() > 1,
            _ => false,
        }
    }
}

/// The right number in other units than the one that is asked for.
fn in_other_units(finding: &mut Finding, right: Quantity, asked: &Unit, off: f64) {
    let others = units::for_kind(right.kind).filter(|unit| !is_power_of_ten(unit.factor() / asked.factor()));
    for unit in others {
        let si = asked.quantity(unit.value(right), right.kind).si;
        finding.within(Slip::UnitNotConverted, Some(si), off, || vec![("other_unit", unit_text(unit, 2.0))]);
    }
}

/// Every piece once, where it comes up first.
fn once_each(steps: &[(Node, Quantity)]) -> Vec<&(Node, Quantity)> {
    let mut pieces: Vec<&(Node, Quantity)> = Vec::new();
    for piece in steps {
        if !pieces.iter().any(|(node, _)| *node == piece.0) {
            pieces.push(piece);
        }
    }
    pieces
}

/// The usual values of a call that are factors, in the order of its inputs.
fn usual_factors(call: &Call) -> impl Iterator<Item = Quantity> {
    let left = call.relation.inputs.iter().zip(&call.arguments).filter(|(_, argument)| argument.is_none());
    left.filter_map(|(input, _)| match input.default.as_ref()?.value {
        Argument::Quantity(value) => Some(value).filter(|value| is_factor(*value)),
        Argument::Choice(_) => None,
    })
}

/// Whether a value is a pure number that is not one.
fn is_factor(value: Quantity) -> bool {
    value.kind.is_pure() && (value.si - 1.0).abs() > 1e-9
}

fn is_power_of_ten(ratio: f64) -> bool {
    let power = libm::log10(ratio);
    (power - power.round()).abs() < 1e-9
}
