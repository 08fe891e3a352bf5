//! Values of a problem as its reader knows them, and their numbers as they are printed.

use relief::units::{self, Unit};
use relief::{Quantity, Rounding};

use super::places::earlier;
use crate::display;
use crate::facts::Facts;
use crate::formula::{Node, Value};

/// A value that a learner has before them: a given one, or the answer of an earlier part.
pub(super) struct Known {
    pub(super) name: String,
    pub(super) value: Quantity,
    pub(super) text: String,
}

/// All of them, in the order of the recipe; answers only up to a part.
pub(super) fn known(facts: &Facts, part: &str) -> Vec<Known> {
    let given = facts.givens.iter().map(|given| given.name.clone());
    let earlier = facts.numbers_before(part).map(|at| at.id.to_owned());
    let quantity = |name: String| match facts.scope.get(&name) {
        Some(Value::Quantity(value)) => Some(Known { value: *value, text: facts.text(&name), name }),
        _ => None,
    };
    given.chain(earlier).filter_map(quantity).collect()
}

/// The unit in which the number of a piece is printed.
pub(super) fn unit_of(facts: &Facts, node: &Node, value: Quantity) -> Option<&'static Unit> {
    let system = facts.setting.system;
    match node {
        Node::Quantity { unit, .. } => Some(unit),
        Node::Name(name) => match (facts.givens.iter().find(|given| given.name == *name), earlier(facts, name)) {
            (Some(given), _) => given.unit.and_then(|symbol| units::UNITS.iter().find(|unit| unit.symbol == symbol)),
            (None, Some(number)) => number.unit.of(system).0,
            (None, None) => None,
        },
        Node::Call(call) => display::unit_for(call.relation, value.kind, system),
        _ => display::usual_unit(value.kind, system),
    }
}

/// A piece as the learner reads it.
pub(super) fn text_of(facts: &Facts, node: &Node, value: Quantity) -> String {
    match node {
        Node::Name(name) => facts.text(name),
        _ => display::computed(value, unit_of(facts, node, value), Rounding::Nearest, facts.setting.mark),
    }
}

/// What a value becomes where something is done with its printed number.
pub(super) fn with_number(value: Quantity, unit: Option<&Unit>, change: impl Fn(f64) -> f64) -> Quantity {
    match unit {
        Some(unit) => unit.quantity(change(unit.value(value)), value.kind),
        None => Quantity::new(change(value.si), value.kind),
    }
}
