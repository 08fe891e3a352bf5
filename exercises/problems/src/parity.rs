//! The same cases natively and in wasm, compared to the last bit.

use core::hint::black_box;

use crate::decimal_mark::DecimalMark;
use crate::draw::{Setting, draw};
use crate::mark::mark;
use crate::recipe::{Recipe, System};
use crate::seed::{FIRST_ATTEMPT, Seed};
use relief::{Argument, Form, Manner, Outputs, Quantity, Relation, RelationError};

/// The bits of a relation's outputs in hexadecimal, each after a space; or the code of the fault. First is the system
/// whose form is worked, then the arguments in the order of the inputs, separated by spaces: a quantity by the bits of its
/// SI value in hexadecimal, a choice by its name.
#[must_use]
pub fn bits(relation: &str, arguments: &str) -> String {
    let Some((relation, arguments, manner)) = read(relation, arguments) else { return "unreadable".to_owned() };
    written(relation.evaluate_ordered(&arguments, manner))
}

/// The same, worked so many times over: for measuring, so that reading and writing texts is of no account.
#[must_use]
pub fn repeat(relation: &str, arguments: &str, times: u32) -> String {
    let Some((relation, arguments, manner)) = read(relation, arguments) else { return "unreadable".to_owned() };
    for _ in 1..times {
        black_box(black_box(relation).evaluate_ordered(black_box(&arguments), manner).is_ok());
    }
    written(relation.evaluate_ordered(&arguments, manner))
}

/// Draws so many problems of a recipe, one seed after the other from 1, marks the right answer of a part in each, and
/// gives how many were right: for measuring.
#[must_use]
pub fn draw_and_mark(recipe: &Recipe, part: &str, times: u32) -> u32 {
    let setting = Setting { system: System::Us, mark: DecimalMark::Point };
    let right = |seed: u32| {
        let seed = Seed { text: seed.to_string(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
        let problem = draw(recipe, &seed, setting).ok()?;
        let marked = mark(&problem, part, &problem.text(part))?;
        (marked.credit == 100).then_some(())
    };
    let all = (1..=times).filter(|seed| black_box(right(black_box(*seed))).is_some());
    u32::try_from(all.count()).unwrap_or(u32::MAX)
}

fn read(relation: &str, arguments: &str) -> Option<(&'static Relation, Vec<Argument>, Manner)> {
    let relation = relief::find(relation)?;
    let (form, arguments) = arguments.split_once(' ')?;
    let read = |(input, text): (&relief::Input, &str)| match &input.form {
        Form::Choice(known) => known.iter().find(|name| **name == text).map(|name| Argument::Choice(name)),
        Form::Quantity(kind, _) => {
            let bits = u64::from_str_radix(text, 16).ok()?;
            Some(Argument::Quantity(Quantity::new(f64::from_bits(bits), *kind)))
        }
    };
    let arguments: Option<Vec<Argument>> = relation.inputs.iter().zip(arguments.split(' ')).map(read).collect();
    Some((relation, arguments?, Manner::unrounded(System::find(form)?)))
}

fn written(outputs: Result<Outputs, RelationError>) -> String {
    match outputs {
        Ok(outputs) => {
            let text = |value| match value {
                Argument::Quantity(value) => format!("{:016x}", value.si.to_bits()),
                Argument::Choice(name) => name.to_owned(),
            };
            (0..2).filter_map(|place| outputs.get(place)).map(text).collect::<Vec<_>>().join(" ")
        }
        Err(error) => error.id().to_owned(),
    }
}
