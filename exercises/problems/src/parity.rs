//! The same cases natively and in wasm, compared to the last bit.

use relief::{Argument, Form, Quantity};

/// The bits of a relation's outputs in hexadecimal, each after a space; or the code of the fault. The arguments are
/// given in the order of the inputs, separated by spaces: a quantity by the bits of its SI value in hexadecimal, a
/// choice by its name.
#[must_use]
pub fn bits(relation: &str, arguments: &str) -> String {
    let Some(relation) = relief::find(relation) else { return "unknown_relation".to_owned() };
    let read = |(input, text): (&relief::Input, &str)| match &input.form {
        Form::Choice(known) => known.iter().find(|name| **name == text).map(|name| Argument::Choice(name)),
        Form::Quantity(kind, _) => {
            let bits = u64::from_str_radix(text, 16).ok()?;
            Some(Argument::Quantity(Quantity::new(f64::from_bits(bits), *kind)))
        }
    };
    let arguments: Option<Vec<Argument>> = relation.inputs.iter().zip(arguments.split(' ')).map(read).collect();
    let Some(arguments) = arguments else { return "unreadable".to_owned() };
    match relation.evaluate_ordered(&arguments) {
        Ok(outputs) => {
            let values = (0..2).filter_map(|index| outputs.get(index));
            values.map(|value| format!("{:016x}", value.si.to_bits())).collect::<Vec<_>>().join(" ")
        }
        Err(error) => error.id().to_owned(),
    }
}
