//! Values of a problem as its reader knows them, and their numbers as they are printed.

use relief::units::{self, Unit};
use relief::{Quantity, Rounding};

use super::places::earlier;
use crate::display;
use crate::draw::Problem;
use crate::formula::{Node, Value};
use crate::recipe::Form;

/// A value that a learner has before them: a given one, or the answer of an earlier part.
pub(super) struct Known {
    pub(super) name: String,
    pub(super) value: Quantity,
    pub(super) text: String,
}

/// All of them, in the order of the recipe; answers only up to a part.
pub(super) fn known(problem: &Problem, part: &str) -> Vec<Known> {
    let given = problem.givens.iter().map(|given| given.name.clone());
    let earlier = problem.recipe.asks.iter().take_while(|ask| ask.id != part);
    let earlier = earlier.filter(|ask| matches!(ask.form, Form::Number(_))).map(|ask| ask.id.clone());
    let quantity = |name: String| match problem.scope.get(&name) {
        Some(Value::Quantity(value)) => Some(Known { value: *value, text: problem.text(&name), name }),
        _ => None,
    };
    given.chain(earlier).filter_map(quantity).collect()
}

/// The unit in which the number of a piece is printed.
pub(super) fn unit_of(problem: &Problem, node: &Node, value: Quantity) -> Option<&'static Unit> {
    let system = problem.setting.system;
    match node {
        Node::Quantity { unit, .. } => Some(unit),
        Node::Name(name) => match (problem.givens.iter().find(|given| given.name == *name), earlier(problem, name)) {
            (Some(given), _) => given.unit.and_then(|symbol| units::UNITS.iter().find(|unit| unit.symbol == symbol)),
            (None, Some(number)) => number.unit.of(system).0,
            (None, None) => None,
        },
        Node::Call(call) => display::unit_for(call.relation, value.kind, system),
        _ => display::usual_unit(value.kind, system),
    }
}

/// A piece as the learner reads it.
pub(super) fn text_of(problem: &Problem, node: &Node, value: Quantity) -> String {
    match node {
        Node::Name(name) => problem.text(name),
        _ => display::computed(value, unit_of(problem, node, value), Rounding::Nearest, problem.setting.mark),
    }
}

/// What a value becomes where something is done with its printed number.
pub(super) fn with_number(value: Quantity, unit: Option<&Unit>, change: impl Fn(f64) -> f64) -> Quantity {
    match unit {
        Some(unit) => unit.quantity(change(unit.value(value)), value.kind),
        None => Quantity::new(change(value.si), value.kind),
    }
}
