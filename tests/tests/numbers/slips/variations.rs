//! What somebody may have done who got one thing in a formula wrong: each variation of the work on a part, with one
//! substitution in it.

use problems::draw::{GivenValue, Problem};
use problems::facts::NumberAt;
use problems::formula::{Node, Scope, Value};
use problems::number::Number;
use relief::units::{UNITS, Unit};
use relief::{Argument, Exact, Form as InputForm, Kind, Quantity};

/// Standard atmosphere (pascal), ISO 2533.
const ATMOSPHERE: f64 = 101_325.0;

/// A name for what is substituted; no recipe has one that begins so.
const TAKEN: &str = "#taken";

/// One variation: what was done, to what, and what comes out (SI).
#[derive(Clone, Debug)]
pub(crate) struct Variation {
    pub(crate) done: &'static str,
    /// What it was done to, where that has a name: as the learner reads it.
    pub(crate) to: Option<String>,
    pub(crate) si: f64,
}

/// A part whose work is varied.
pub(crate) struct Work<'p> {
    pub(crate) problem: &'p Problem<'p>,
    pub(crate) at: NumberAt<'p>,
}

/// A place in a formula: of which part, and the path down to it.
#[derive(Clone)]
struct Place {
    part: String,
    steps: Vec<usize>,
    node: Node,
    value: Quantity,
}

impl Work<'_> {
    /// All variations that give a number.
    pub(crate) fn variations(&self) -> Vec<Variation> {
        let places = self.places();
        let mut all = Vec::new();
        for place in &places {
            self.with_printed_number(place, &mut all);
            self.with_wrong_zero(place, &mut all);
            self.with_other_given(place, &mut all);
        }
        self.exchanged(&mut all);
        self.in_place_of_the_answer(&places, &mut all);
        all.retain(|variation| variation.si.is_finite() && variation.si != 0.0);
        all
    }

    fn number_of(&self, part: &str) -> Option<&Number> {
        self.problem.facts.number(part).map(|(at, _)| at.number)
    }

    /// The arguments and names of the formula of the part, and of the formulas that it rests on.
    fn places(&self) -> Vec<Place> {
        let mut parts = vec![self.at.id.to_owned()];
        let mut places = Vec::new();
        while let Some(part) = parts.pop() {
            let Some(number) = self.number_of(&part) else { continue };
            self.walk(&part, &number.answer, &mut Vec::new(), &mut places, &mut parts);
        }
        places
    }

    fn walk(&self, part: &str, node: &Node, way: &mut Vec<usize>, places: &mut Vec<Place>, parts: &mut Vec<String>) {
        if let Node::Name(name) = node
            && self.number_of(name).is_some()
            && !parts.contains(name)
        {
            parts.push(name.clone());
        }
        // The answer as a whole is not an argument.
        if let (false, Ok(value)) =
            (way.is_empty() && !matches!(node, Node::Name(_)), node.quantity(&self.problem.facts.scope))
        {
            places.push(Place { part: part.to_owned(), steps: way.clone(), node: node.clone(), value });
        }
        for (step, inner) in inner(node).into_iter().enumerate() {
            way.push(step);
            self.walk(part, inner, way, places, parts);
            way.pop();
        }
    }

    /// What comes out where something is taken at one place.
    fn taken(&self, place: &Place, value: Quantity) -> Option<f64> {
        let changed = |node: &Node| at(node, &place.steps, &Node::Name(TAKEN.to_owned()));
        self.worked(&place.part, &changed, &[(TAKEN, value)])
    }

    /// What comes out where the formula of one part is another one; parts that rest on it are worked again.
    fn worked(&self, part: &str, changed: &dyn Fn(&Node) -> Node, taken: &[(&str, Quantity)]) -> Option<f64> {
        let mut scope: Scope = self.problem.facts.scope.clone();
        for (name, value) in taken {
            scope.set(name, Value::Quantity(*value));
        }
        let mut differs = false;
        for at in &self.problem.facts.numbers {
            let number = at.number;
            let is_changed = at.id == part || part == "*";
            differs |= is_changed;
            if !differs {
                continue;
            }
            let formula = if is_changed { changed(&number.answer) } else { number.answer.clone() };
            let worked = formula.quantity(&scope).ok().map(|value| Quantity::new(value.si, number.kind));
            if at.id == self.at.id {
                return worked.map(|value| value.si);
            }
            if let Some(worked) = worked {
                scope.set(at.id, Value::Quantity(number.rounded(worked, self.problem.facts.setting.system)));
            }
        }
        None
    }

    /// The unit in which a value is printed, where it is given or written.
    fn printed_unit(&self, place: &Place) -> Option<&'static Unit> {
        match &place.node {
            Node::Quantity { unit, .. } => Some(unit),
            Node::Name(name) => match (self.given(name), self.number_of(name)) {
                (Some(given), _) => given.unit.and_then(|symbol| UNITS.iter().find(|unit| unit.symbol == symbol)),
                (None, Some(number)) => number.unit.of(self.problem.facts.setting.system).0,
                (None, None) => None,
            },
            _ => None,
        }
    }

    fn given(&self, name: &str) -> Option<&GivenValue> {
        self.problem.facts.givens.iter().find(|given| given.name == name)
    }

    /// What a place is called, where it has a name.
    fn called(&self, place: &Place) -> Option<String> {
        match &place.node {
            Node::Name(name) => self.given(name).map(|given| given.text.clone()),
            _ => None,
        }
    }

    /// The printed number left out, upside down, doubled, halved, squared. An intermediate value has no printed
    /// unit of its own here; what is pure has none at all.
    fn with_printed_number(&self, place: &Place, all: &mut Vec<Variation>) {
        type Change = fn(f64) -> f64;
        let changes: [(&str, Change); 5] = [
            ("left_out", |_| 1.0),
            ("inverted", |number| 1.0 / number),
            ("doubled", |number| number * 2.0),
            ("halved", |number| number / 2.0),
            ("squared", |number| number * number),
        ];
        let unit = self.printed_unit(place);
        if unit.is_none() && !place.value.kind.is_pure() {
            return self.twice_and_half(place, all);
        }
        for (done, change) in changes {
            // A share upside down is one over the share, not one over its percentage.
            let unit = unit.filter(|_| done != "inverted" || place.value.kind != Kind::Ratio);
            let value = match unit {
                Some(unit) => unit.quantity(change(unit.value(place.value)), place.value.kind),
                None => Quantity::new(change(place.value.si), place.value.kind),
            };
            all.extend(self.taken(place, value).map(|si| Variation { done, to: self.called(place), si }));
        }
    }

    fn twice_and_half(&self, place: &Place, all: &mut Vec<Variation>) {
        for (done, times) in [("doubled", 2.0), ("halved", 0.5)] {
            let value = Quantity::new(place.value.si * times, place.value.kind);
            all.extend(self.taken(place, value).map(|si| Variation { done, to: None, si }));
        }
    }

    /// A pressure counted from the other zero, a temperature counted from that of its everyday scale.
    fn with_wrong_zero(&self, place: &Place, all: &mut Vec<Variation>) {
        let (done, si) = match place.value.kind {
            Kind::Gauge => ("absolute_for_gauge", place.value.si + ATMOSPHERE),
            Kind::Absolute => ("gauge_for_absolute", place.value.si - ATMOSPHERE),
            Kind::Temperature => match self.printed_unit(place) {
                Some(unit) => ("temperature_zero", unit.value(place.value) * unit.factor()),
                None => return,
            },
            _ => return,
        };
        let value = Quantity::new(si, place.value.kind);
        all.extend(self.taken(place, value).map(|si| Variation { done, to: None, si }));
    }

    /// Another given value of the same kind.
    fn with_other_given(&self, place: &Place, all: &mut Vec<Variation>) {
        let Node::Name(belongs) = &place.node else { return };
        for given in self.problem.facts.givens.iter().filter(|given| given.name != *belongs) {
            if let Some(Value::Quantity(value)) = self.problem.facts.scope.get(&given.name)
                && value.kind == place.value.kind
                && (value.si - place.value.si).abs() > 1e-9 * value.si.abs()
            {
                let si = self.taken(place, *value);
                all.extend(si.map(|si| Variation { done: "other_value", to: Some(given.text.clone()), si }));
            }
        }
    }

    /// Two given values of one kind in each other's place.
    fn exchanged(&self, all: &mut Vec<Variation>) {
        let quantity = |name: &str| match self.problem.facts.scope.get(name) {
            Some(Value::Quantity(value)) => Some(*value),
            _ => None,
        };
        for (index, one) in self.problem.facts.givens.iter().enumerate() {
            for other in &self.problem.facts.givens[index + 1..] {
                let (Some(first), Some(second)) = (quantity(&one.name), quantity(&other.name)) else { continue };
                if first.kind != second.kind || (first.si - second.si).abs() <= 1e-9 * first.si.abs() {
                    continue;
                }
                let swap = |node: &Node| swapped(node, &one.name, &other.name);
                let uses = |name: &str| names(&self.at.number.answer, name);
                if uses(&one.name) && uses(&other.name) {
                    let si = self.worked("*", &swap, &[]);
                    all.extend(si.map(|si| Variation { done: "exchanged", to: None, si }));
                }
            }
        }
    }

    /// An intermediate value, or a given one, as the answer.
    fn in_place_of_the_answer(&self, places: &[Place], all: &mut Vec<Variation>) {
        let dimension = self.at.number.kind.dimension();
        for place in places.iter().filter(|place| place.value.kind.dimension() == dimension) {
            let done = match &place.node {
                Node::Name(name) if self.given(name).is_some() => continue,
                Node::Call(_) | Node::Binary(..) | Node::Name(_) => "stopped_early",
                _ => continue,
            };
            all.push(Variation { done, to: None, si: place.value.si });
        }
        if matches!(self.at.number.answer, Node::Name(_)) {
            return;
        }
        for given in &self.problem.facts.givens {
            if let Some(Value::Quantity(value)) = self.problem.facts.scope.get(&given.name)
                && value.kind.dimension() == dimension
            {
                all.push(Variation { done: "given_repeated", to: Some(given.text.clone()), si: value.si });
            }
        }
    }

    /// A usual factor, such as a coefficient of discharge, left out.
    pub(crate) fn usual_left_out(&self) -> Vec<Variation> {
        let mut all = Vec::new();
        let is_factor = |value: Quantity| value.kind.is_pure() && (value.si - 1.0).abs() > 1e-9;
        for place in self.places().iter().chain([&self.whole()]) {
            let Node::Call(call) = &place.node else { continue };
            for (index, input) in call.relation.inputs.iter().enumerate() {
                let usual = input.default.as_ref().map(|default| default.value);
                let Some(Argument::Quantity(value)) = usual else { continue };
                let is_usual = call.arguments.get(index).is_some_and(Option::is_none);
                if !is_usual || !is_factor(value) || !matches!(input.form, InputForm::Quantity(..)) {
                    continue;
                }
                let mut changed = call.clone();
                changed.arguments[index] = Some(Node::Number(Exact::parse("1").expect("one").0));
                let formula = |node: &Node| at(node, &place.steps, &Node::Call(changed.clone()));
                let si = self.worked(&place.part, &formula, &[]);
                all.extend(si.map(|si| Variation { done: "left_out", to: None, si }));
            }
        }
        all
    }

    fn whole(&self) -> Place {
        let value = Quantity::new(0.0, self.at.number.kind);
        Place { part: self.at.id.to_owned(), steps: Vec::new(), node: self.at.number.answer.clone(), value }
    }
}

/// Whether a formula has a name in it.
fn names(node: &Node, name: &str) -> bool {
    matches!(node, Node::Name(own) if own == name) || inner(node).into_iter().any(|inner| names(inner, name))
}

/// What a piece is made of.
fn inner(node: &Node) -> Vec<&Node> {
    match node {
        Node::Negated(inner) | Node::Root(inner) => vec![inner],
        Node::Binary(_, left, right) | Node::Power(left, right) => vec![left, right],
        Node::Call(call) => call.arguments.iter().flatten().collect(),
        _ => Vec::new(),
    }
}

/// A formula with another piece at the end of a path down.
fn at(node: &Node, steps: &[usize], piece: &Node) -> Node {
    let Some((first, rest)) = steps.split_first() else { return piece.clone() };
    let mut changed = node.clone();
    let inside = match &mut changed {
        Node::Negated(inner) | Node::Root(inner) => Some(&mut **inner),
        Node::Binary(_, left, right) | Node::Power(left, right) => {
            Some(if *first == 0 { &mut **left } else { &mut **right })
        }
        Node::Call(call) => call.arguments.iter_mut().flatten().nth(*first),
        _ => None,
    };
    if let Some(inside) = inside {
        *inside = at(inside, rest, piece);
    }
    changed
}

/// A formula with two names in each other's place.
fn swapped(node: &Node, one: &str, other: &str) -> Node {
    match node {
        Node::Name(name) if name == one => Node::Name(other.to_owned()),
        Node::Name(name) if name == other => Node::Name(one.to_owned()),
        Node::Negated(inner) => Node::Negated(Box::new(swapped(inner, one, other))),
        Node::Root(inner) => Node::Root(Box::new(swapped(inner, one, other))),
        Node::Power(base, exponent) => {
            Node::Power(Box::new(swapped(base, one, other)), Box::new(swapped(exponent, one, other)))
        }
        Node::Binary(operation, left, right) => {
            Node::Binary(*operation, Box::new(swapped(left, one, other)), Box::new(swapped(right, one, other)))
        }
        Node::Call(call) => {
            let mut call = call.clone();
            for argument in call.arguments.iter_mut().flatten() {
                *argument = swapped(argument, one, other);
            }
            Node::Call(call)
        }
        _ => node.clone(),
    }
}
