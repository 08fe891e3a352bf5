//! A formula in one line, with its values: brackets where they are needed, and powers raised.

use crate::formula::{Node, Operation};
use crate::template::escape;

/// What stands before and after a raised exponent, until it is known where the line is printed.
const RAISED: &str = "\u{1}";
const LOWERED: &str = "\u{2}";

/// How tightly a piece holds together: a sum least, a single value most.
#[derive(Clone, Copy, PartialEq, PartialOrd)]
enum Hold {
    Sum,
    Product,
    Signed,
    Value,
}

/// An operation in one line. `value` gives the text of a piece, and nothing for one that is written out; it is told whether the
/// piece is a factor.
pub(crate) fn written(node: &Node, value: &dyn Fn(&Node, bool) -> Option<String>) -> String {
    operation(node, value).0
}

/// The line as HTML.
pub(crate) fn html(line: &str) -> String {
    escape(line).replace(RAISED, "<sup>").replace(LOWERED, "</sup>")
}

/// The line as text.
pub(crate) fn in_one_line(line: &str) -> String {
    line.replace(RAISED, "^").replace(LOWERED, "")
}

type Values<'v> = &'v dyn Fn(&Node, bool) -> Option<String>;

fn operation(node: &Node, value: Values) -> (String, Hold) {
    match node {
        Node::Binary(operation, left, right) => binary(*operation, left, right, value),
        Node::Power(base, exponent) => {
            let base = simple(piece(base, value, Hold::Value, true));
            ([&base, RAISED, &piece(exponent, value, Hold::Sum, true), LOWERED].concat(), Hold::Signed)
        }
        Node::Root(inner) => (["\u{221a}", &simple(piece(inner, value, Hold::Value, true))].concat(), Hold::Value),
        Node::Negated(inner) => (["\u{2212}", &piece(inner, value, Hold::Signed, true)].concat(), Hold::Sum),
        _ => (value(node, false).unwrap_or_default(), Hold::Value),
    }
}

fn binary(operation: Operation, left: &Node, right: &Node, value: Values) -> (String, Hold) {
    let (sign, hold, right_hold) = match operation {
        Operation::Plus => (" + ", Hold::Sum, Hold::Sum),
        Operation::Minus => (" \u{2212} ", Hold::Sum, Hold::Product),
        Operation::Times => (" \u{d7} ", Hold::Product, Hold::Product),
        Operation::Over => (" / ", Hold::Product, Hold::Signed),
    };
    let is_factor = hold == Hold::Product;
    ([&piece(left, value, hold, is_factor), sign, &piece(right, value, right_hold, is_factor)].concat(), hold)
}

/// A piece of an operation, in brackets where it holds together less than its place asks for.
fn piece(node: &Node, value: Values, least: Hold, is_factor: bool) -> String {
    value(node, is_factor).unwrap_or_else(|| match operation(node, value) {
        (text, hold) if hold < least => in_brackets(&text),
        (text, _) => text,
    })
}

/// What is raised to a power or stands under a root: a number as it is, all else in brackets.
fn simple(text: String) -> String {
    let is_number = text.chars().all(|next| next.is_ascii_digit() || next == '.' || next == ',' || next == 'π');
    let is_bracket = text.starts_with('(') && text.ends_with(')') && !text[1..text.len() - 1].contains(['(', ')']);
    if is_number || is_bracket { text } else { in_brackets(&text) }
}

fn in_brackets(text: &str) -> String {
    ["(", text, ")"].concat()
}
