//! The slips one after the other, the likelier ones first.

use relief::relations::pressures::STANDARD_ATMOSPHERE;
use relief::units::{self, Unit};
use relief::{Input, Kind, Quantity, Role};

use super::finding::{Finding, Values};
use super::places::{At, Places, Taken};
use super::reference::reference_slip;
use super::slip::Slip;
use super::values::{Known, known, text_of, unit_of, with_number};
use crate::display::unit_text;
use crate::facts::{Facts, NumberAt};
use crate::formula::{Call, Node, Operation};

/// The most places of a formula at which one slip is tried alone.
const MOST_PLACES: usize = 12;

/// What is looked through.
pub(super) struct Work<'p> {
    pub(super) facts: &'p Facts<'p>,
    pub(super) at: NumberAt<'p>,
    pub(super) right: Quantity,
}

/// Tries all slips in the order of [`Slip::ALL`].
pub(super) fn all(finding: &mut Finding, work: &Work) {
    let known = known(work.facts, work.at.id);
    let way = work.places().on_the_way();
    work.zeros(finding);
    work.at_the_end(finding);
    work.misread_pressures(finding);
    work.before_the_end(finding, &way, &known);
    work.other_values(finding, &known);
    work.exchanged(finding, &known);
    work.numbers(finding, &way);
    work.sign(finding, &way);
}

fn nothing() -> Values {
    Vec::new()
}

impl Work<'_> {
    fn places(&self) -> Places<'_> {
        Places { facts: self.facts, number: self.at.number }
    }

    fn asked(&self) -> Option<&'static Unit> {
        self.at.number.unit_in(self.facts.setting.system)
    }

    /// A substitution at all its places at once, and at each of them alone.
    fn everywhere(&self, finding: &mut Finding, slip: Slip, values: &dyn Fn() -> Values, taken: &Taken) {
        let (all, places) = self.places().with(At::All, taken);
        finding.candidate(slip, all, values);
        for place in 0..if places > 1 { places.min(MOST_PLACES) } else { 0 } {
            if finding.is_done() {
                return;
            }
            finding.candidate(slip, self.places().with(At::One(place), taken).0, values);
        }
    }

    /// What comes out on the way, or what was given, in the place of the answer.
    fn before_the_end(&self, finding: &mut Finding, way: &[(Node, Quantity)], known: &[Known]) {
        let measures = |value: Quantity| value.kind.dimension() == self.right.kind.dimension();
        for (node, value) in way.iter().rev().filter(|(_, value)| measures(*value)) {
            if matches!(node, Node::Call(_) | Node::Binary(..)) {
                let values = || vec![("taken", text_of(self.facts, node, *value))];
                finding.candidate(Slip::StoppedEarly, Some(value.si), values);
            }
        }
        // What is only read off and not worked is taken for another value, which says more.
        let is_worked = !matches!(self.at.number.answer, Node::Name(_));
        for known in known.iter().filter(|known| is_worked && measures(known.value)) {
            finding.candidate(Slip::GivenRepeated, Some(known.value.si), || vec![("taken", known.text.clone())]);
        }
    }

    /// The wrong zero of a pressure or of a temperature, at the end or on the way.
    fn zeros(&self, finding: &mut Finding) {
        if let Some((slip, si)) = reference_slip(self.right) {
            finding.candidate(slip, Some(si), nothing);
        }
        self.everywhere(finding, Slip::GaugeForAbsolute, &nothing, &|node| {
            if let Node::Name(_) = node {
                let value = self.value(node).filter(|value| value.kind == Kind::Absolute)?;
                return Some(Quantity::new(value.si - STANDARD_ATMOSPHERE, Kind::Absolute));
            }
            let Node::Call(call) = node else { return None };
            let takes_gauge = |(input, _): &(&Input, &Node)| input.kind() == Some(Kind::Gauge);
            let (_, gauge) = call.given().find(takes_gauge).filter(|_| call.gives() == Some(Kind::Absolute))?;
            Some(Quantity::new(self.value(gauge)?.si, Kind::Absolute))
        });
        self.everywhere(finding, Slip::AbsoluteForGauge, &nothing, &|node| {
            let Node::Name(_) = node else { return None };
            let value = self.value(node).filter(|value| value.kind == Kind::Gauge)?;
            Some(Quantity::new(value.si + STANDARD_ATMOSPHERE, Kind::Gauge))
        });
        self.everywhere(finding, Slip::TemperatureZero, &nothing, &|node| {
            let (Node::Name(_) | Node::Quantity { .. }) = node else { return None };
            let value = self.value(node).filter(|value| value.kind == Kind::Temperature)?;
            let unit = unit_of(self.facts, node, value)?;
            // The number of an everyday scale counts degrees from its own zero.
            let si = unit.value(value) * unit.factor();
            Some(Quantity::new(si, value.kind))
        });
    }

    /// What becomes of the right answer when it goes wrong at the very end: its unit, its decimal point.
    fn at_the_end(&self, finding: &mut Finding) {
        let right = self.right;
        let rounded = self.at.number.rounded(right, self.facts.setting.system);
        // Anything that would be right may go wrong so. Where the answer is rounded, that may come before or after.
        let off = self.at.number.tolerance(right, self.facts.setting.system) / right.si.abs();
        for right in [right, rounded] {
            if let Some(asked) = self.asked() {
                let others =
                    units::for_kind(right.kind).filter(|unit| !is_power_of_ten(unit.factor() / asked.factor()));
                for unit in others {
                    let si = asked.quantity(unit.value(right), right.kind).si;
                    finding
                        .within(Slip::UnitNotConverted, Some(si), off, || vec![("other_unit", unit_text(unit, 2.0))]);
                }
            }
            for decade in [1e-3, 1e-2, 1e-1, 1e1, 1e2, 1e3] {
                finding.within(Slip::Decade, Some(right.si * decade), off, nothing);
            }
        }
    }

    /// A diameter for a radius, a whole pressure for its rise, a share of the wrong whole.
    fn misread_pressures(&self, finding: &mut Finding) {
        for times in [2.0, 0.5] {
            for areas in [false, true] {
                self.everywhere(finding, Slip::DiameterForRadius, &nothing, &|node| {
                    let Node::Call(call) = node else { return None };
                    if areas && !is_area_of_bore(call) { None } else { self.with_bore(call, times) }
                });
            }
        }
        self.everywhere(finding, Slip::WholeForRise, &nothing, &|node| self.whole_as_rise(node));
        self.everywhere(finding, Slip::SetForReseat, &nothing, &|node| {
            let Node::Binary(Operation::Minus, left, right) = node else { return None };
            let (left, right) = (self.value(left)?, self.value(right)?);
            (left.kind == Kind::Gauge && right.kind == Kind::Difference).then_some(left)
        });
        for sign in [1.0, -1.0] {
            self.everywhere(finding, Slip::PercentBase, &nothing, &|node| {
                let share = match node {
                    Node::Call(call) => call.gives() == Some(Kind::Ratio),
                    Node::Binary(Operation::Over, left, right) => {
                        self.value(left)?.kind == Kind::Difference && self.value(right)?.kind == Kind::Gauge
                    }
                    _ => false,
                };
                let value = self.value(node).filter(|value| share && value.kind == Kind::Ratio)?;
                Some(Quantity::new(value.si / (1.0 + sign * value.si), Kind::Ratio))
            });
        }
        if self.right.kind == Kind::Ratio {
            for sign in [1.0, -1.0] {
                let si = self.right.si / (1.0 + sign * self.right.si);
                finding.candidate(Slip::PercentBase, Some(si), nothing);
            }
        }
    }

    fn value(&self, node: &Node) -> Option<Quantity> {
        node.quantity(&self.facts.scope).ok()
    }

    /// A relation worked with its bore so many times as large.
    fn with_bore(&self, call: &Call, times: f64) -> Option<Quantity> {
        let place = call.relation.in_role(Role::Bore)?;
        let bore = self.value(call.arguments.get(place)?.as_ref()?)?;
        // Areas go with the square of a bore, openings and lengths with the bore itself; the relation knows.
        let mut changed = call.clone();
        let millimetre = units::UNITS.iter().find(|unit| unit.symbol == "mm")?;
        let exact = relief::Exact::parse(&relief::shown(
            millimetre.value(Quantity::new(bore.si * times, bore.kind)),
            12,
            relief::Rounding::Nearest,
        ));
        let (exact, _) = exact.ok()?;
        changed.arguments[place] = Some(Node::Quantity { value: exact, unit: millimetre, kind: Kind::Length });
        self.value(&Node::Call(Box::new(changed)))
    }

    /// The upper of two pressures, or the pressure that a share is taken of, where their difference belongs; one as a share
    /// of the other, where only the difference is.
    fn whole_as_rise(&self, node: &Node) -> Option<Quantity> {
        let gauge = |value: Quantity| value.kind == Kind::Gauge;
        let whole = match node {
            Node::Binary(Operation::Minus, left, right) => {
                let (left, right) = (self.value(left)?, self.value(right)?);
                (gauge(left) && gauge(right)).then_some(left)?
            }
            Node::Binary(Operation::Times, left, right) => {
                let (left, right) = (self.value(left)?, self.value(right)?);
                let pressure = if gauge(left) { left } else { right };
                let rise = left.kind.times(right.kind) == Some(Kind::Difference);
                (rise && gauge(pressure)).then_some(pressure)?
            }
            Node::Call(call) => {
                let [first, second, ..] = call.arguments.as_slice() else { return None };
                let (first, second) = (self.value(first.as_ref()?)?, self.value(second.as_ref()?)?);
                let upper = if first.si >= second.si { first } else { second };
                match call.gives() {
                    _ if !gauge(first) || !gauge(second) => return None,
                    Some(Kind::Difference) => upper,
                    Some(Kind::Ratio) if call.arguments.len() == 2 => {
                        let whole_first = call.relation.in_role(Role::Whole)? == 0;
                        let (part, base) = if whole_first { (second, first) } else { (first, second) };
                        return Some(Quantity::new(part.si / base.si, Kind::Ratio));
                    }
                    _ => return None,
                }
            }
            _ => return None,
        };
        Some(Quantity::new(whole.si, Kind::Difference))
    }

    /// One known value where another of its kind belongs: wherever that is named, only where a percentage is taken of it, and
    /// at each of its places alone.
    fn other_values(&self, finding: &mut Finding, known: &[Known]) {
        for taken in known.iter().filter(|taken| taken.value.kind == Kind::Gauge) {
            let si = self.places().with(At::All, &|node| self.percentage_of(node, taken.value)).0;
            finding.candidate(Slip::PercentBase, si, nothing);
        }
        for belongs in known {
            for taken in known.iter().filter(|taken| is_other(taken, belongs)) {
                if finding.is_done() {
                    return;
                }
                let values = || vec![("taken", taken.text.clone()), ("belongs", belongs.text.clone())];
                let is_it = |node: &Node| matches!(node, Node::Name(name) if *name == belongs.name);
                self.everywhere(finding, Slip::OtherValue, &values, &|node| is_it(node).then_some(taken.value));
            }
        }
    }

    /// Two known values of one kind, each in the place of the other.
    fn exchanged(&self, finding: &mut Finding, known: &[Known]) {
        for (place, one) in known.iter().enumerate() {
            for other in known[place + 1..].iter().filter(|other| is_other(other, one)) {
                let values = || vec![("taken", other.text.clone()), ("belongs", one.text.clone())];
                let swap = |node: &Node| match node {
                    Node::Name(name) if *name == one.name => Some(other.value),
                    Node::Name(name) if *name == other.name => Some(one.value),
                    _ => None,
                };
                finding.candidate(Slip::Exchanged, self.places().with(At::All, &swap).0, values);
            }
        }
    }

    /// A percentage of a gauge pressure, taken of another one.
    fn percentage_of(&self, node: &Node, other: Quantity) -> Option<Quantity> {
        let Node::Binary(Operation::Times, left, right) = node else { return None };
        let (left, right) = (self.value(left)?, self.value(right)?);
        let (ratio, base) = if left.kind == Kind::Ratio { (left, right) } else { (right, left) };
        let fits = ratio.kind == Kind::Ratio && base.kind == Kind::Gauge && base.si.to_bits() != other.si.to_bits();
        fits.then(|| Quantity::new(other.si * ratio.si, Kind::Difference))
    }

    /// Something done with the printed number of a value: left out, turned upside down, doubled, halved, squared.
    fn numbers(&self, finding: &mut Finding, way: &[(Node, Quantity)]) {
        type Change = fn(f64) -> f64;
        const CHANGES: [(Slip, Change); 5] = [
            (Slip::LeftOut, |_| 1.0),
            (Slip::Inverted, |number| 1.0 / number),
            (Slip::Doubled, |number| number * 2.0),
            (Slip::Halved, |number| number / 2.0),
            (Slip::Squared, |number| number * number),
        ];
        let mut pieces: Vec<&(Node, Quantity)> = Vec::new();
        for piece in way {
            if !pieces.iter().any(|(node, _)| *node == piece.0) {
                pieces.push(piece);
            }
        }
        for (slip, change) in CHANGES {
            if slip == Slip::LeftOut {
                self.usual_left_out(finding);
            }
            for (node, value) in &pieces {
                if finding.is_done() {
                    return;
                }
                // A share upside down is one whole over it, and not one percent.
                let turned = slip == Slip::Inverted && value.kind == Kind::Ratio;
                let unit = unit_of(self.facts, node, *value).filter(|_| !turned);
                let values = || vec![("belongs", text_of(self.facts, node, *value))];
                let taken = with_number(*value, unit, change);
                // The answer as a whole is no piece of itself.
                if *node == self.at.number.answer {
                    let asked = with_number(self.right, self.asked().filter(|_| !turned), change);
                    let whole = Some(asked.si).filter(|_| slip != Slip::LeftOut);
                    finding.candidate(slip, whole, values);
                    continue;
                }
                self.everywhere(finding, slip, &values, &|piece| (*piece == *node).then_some(taken));
            }
        }
    }

    /// A usual factor, such as a coefficient of discharge, left at one.
    fn usual_left_out(&self, finding: &mut Finding) {
        let pure = |value: Quantity| value.kind.is_pure() && (value.si - 1.0).abs() > 1e-9;
        let one = |_: &Call, _: &Input, value: Quantity| pure(value).then(|| Quantity::new(1.0, value.kind));
        let (all, places) = self.places().with_usual(At::All, &one);
        let values = || vec![("belongs", self.usual_text())];
        finding.candidate(Slip::LeftOut, all, values);
        for place in 0..if places > 1 { places.min(MOST_PLACES) } else { 0 } {
            finding.candidate(Slip::LeftOut, self.places().with_usual(At::One(place), &one).0, values);
        }
    }

    /// The usual factor that is not one, as it is printed.
    fn usual_text(&self) -> String {
        let mut text = String::new();
        for (node, _) in self.places().on_the_way() {
            let Node::Call(call) = &node else { continue };
            for (input, argument) in call.relation.inputs.iter().zip(&call.arguments) {
                let usual = input.default.as_ref().filter(|_| argument.is_none()).map(|default| default.value);
                if let Some(relief::Argument::Quantity(value)) = usual
                    && value.kind.is_pure()
                    && (value.si - 1.0).abs() > 1e-9
                {
                    let number = relief::shown(value.si, crate::display::FIGURES, relief::Rounding::Nearest);
                    text = self.facts.setting.mark.print(&number);
                }
            }
        }
        text
    }

    /// The other way round, where anything is subtracted.
    fn sign(&self, finding: &mut Finding, way: &[(Node, Quantity)]) {
        let subtracts = |(node, value): &(Node, Quantity)| {
            let gauges = |call: &Call| {
                let is_gauge = |(_, node): &(_, &Node)| self.value(node).is_some_and(|value| value.kind == Kind::Gauge);
                call.given().filter(is_gauge).count() > 1
            };
            let inside = match node {
                Node::Negated(_) | Node::Binary(Operation::Minus, ..) => true,
                Node::Call(call) => gauges(call),
                _ => false,
            };
            inside || value.si < 0.0
        };
        if way.iter().any(subtracts) {
            finding.candidate(Slip::Sign, Some(-self.right.si), nothing);
        }
    }
}

/// Whether one known value may be taken for another: of its kind, and not equal to it.
fn is_other(taken: &Known, belongs: &Known) -> bool {
    let (one, other) = (taken.value, belongs.value);
    one.kind == other.kind && one.si.to_bits() != other.si.to_bits()
}

/// Whether a relation gives an area that follows from a bore alone.
fn is_area_of_bore(call: &Call) -> bool {
    call.gives() == Some(Kind::Area) && matches!(call.relation.inputs, [input] if input.role == Role::Bore)
}

fn is_power_of_ten(ratio: f64) -> bool {
    let power = libm::log10(ratio);
    (power - power.round()).abs() < 1e-9
}
