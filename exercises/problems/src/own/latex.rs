//! A checked formula as a law in LaTeX, with `#name` in the place of each value.

use relief::units::Unit;

use crate::display::unit_text;
use crate::formula::{Call, Node, Operation};

/// How tightly a piece holds together.
#[derive(Clone, Copy, PartialEq, PartialOrd)]
enum Hold {
    Sum,
    Product,
    Power,
    Value,
}

/// The formula in LaTeX.
pub(super) fn latex(node: &Node) -> String {
    piece(node).0
}

fn piece(node: &Node) -> (String, Hold) {
    match node {
        Node::Number(value) => (value.to_f64().to_string(), Hold::Value),
        Node::Pi => (r"\pi".to_owned(), Hold::Value),
        Node::Quantity { value, unit, .. } => (quantity(value.to_f64(), unit), Hold::Product),
        Node::Choice(name) => (text(name), Hold::Value),
        Node::Name(name) => (format!("#{name}"), Hold::Value),
        Node::Negated(inner) => (format!("-{}", held(inner, Hold::Power)), Hold::Sum),
        Node::Binary(Operation::Over, left, right) => {
            (format!(r"\frac{{{}}}{{{}}}", latex(left), latex(right)), Hold::Power)
        }
        Node::Binary(Operation::Times, left, right) => (product(left, right), Hold::Product),
        Node::Binary(Operation::Plus, left, right) => (format!("{} + {}", latex(left), latex(right)), Hold::Sum),
        Node::Binary(Operation::Minus, left, right) => {
            (format!("{} - {}", latex(left), held(right, Hold::Product)), Hold::Sum)
        }
        Node::Power(base, exponent) => (format!("{}^{{{}}}", held(base, Hold::Value), latex(exponent)), Hold::Power),
        Node::Root(inner) => (format!(r"\sqrt{{{}}}", latex(inner)), Hold::Value),
        Node::Call(call) => (called(call), Hold::Value),
    }
}

/// A piece in brackets where it holds together less than its place asks for.
fn held(node: &Node, least: Hold) -> String {
    match piece(node) {
        (latex, hold) if hold < least => format!(r"\left({latex}\right)"),
        (latex, _) => latex,
    }
}

/// Symbols side by side are multiplied; a number behind something else needs a sign before it.
fn product(left: &Node, right: &Node) -> String {
    let sign = if matches!(right, Node::Number(_) | Node::Quantity { .. }) { r"\times " } else { r"\, " };
    format!("{} {sign}{}", held(left, Hold::Product), held(right, Hold::Product))
}

fn quantity(value: f64, unit: &Unit) -> String {
    match unit.symbol {
        "%" => format!(r"{value}\%"),
        _ => format!(r"\text{{{value} {}}}", unit_text(unit, value)),
    }
}

fn called(call: &Call) -> String {
    let arguments = call.given().map(|(_, argument)| latex(argument)).collect::<Vec<_>>().join(r",\ ");
    format!(r"{}\left({arguments}\right)", text(call.relation.id))
}

fn text(name: &str) -> String {
    format!(r"\text{{{}}}", name.replace('_', " "))
}
