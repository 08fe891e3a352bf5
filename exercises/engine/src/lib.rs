//! What the browser calls of the problems and the calculation core: text in, text out, no logic.

use problems::DecimalMark;
use problems::draw::{Setting, draw};
use problems::mark::mark_all;
use problems::recipe::{ReadError, System};
use problems::seed::{FIRST_ATTEMPT, Seed};
use serde::Serialize;
use serde_json::Value;
use wasm_bindgen::prelude::wasm_bindgen;

/// A compiled recipe, read and ready to draw from.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Recipe(Result<problems::Recipe, ReadError>);

#[wasm_bindgen]
impl Recipe {
    /// Reads a compiled recipe from its JSON text. One that cannot be read answers every call with a fault.
    #[wasm_bindgen(constructor)]
    pub fn new(text: &str) -> Self {
        Self(problems::Recipe::read(text))
    }

    /// Draws a problem: JSON of its statement, givens and parts. Ids in its drawings begin with `ids`.
    pub fn draw(&self, seed: &str, attempt: u32, system: &str, decimal_mark: &str, ids: &str) -> String {
        self.with(seed, attempt, system, decimal_mark, |problem| to_json(&problem.view(false, ids)))
    }

    /// Marks what was typed for the parts (JSON: a text by name): JSON of the credit and of the verdict of every part.
    pub fn mark(&self, seed: &str, attempt: u32, system: &str, decimal_mark: &str, answers: &str) -> String {
        let Some(answers) = texts(answers) else { return fault("setting") };
        self.with(seed, attempt, system, decimal_mark, |problem| to_json(&mark_all(problem, &answers).view()))
    }

    /// Works a problem: JSON of the right answers and the working.
    pub fn solve(&self, seed: &str, attempt: u32, system: &str, decimal_mark: &str) -> String {
        self.with(seed, attempt, system, decimal_mark, |problem| to_json(&problem.solution()))
    }

    /// Draws so many problems, marks the right answer of a part in each, and gives how many were right: for measuring.
    pub fn repeat(&self, part: &str, times: u32) -> u32 {
        self.0.as_ref().map_or(0, |recipe| problems::parity::draw_and_mark(recipe, part, times))
    }
}

impl Recipe {
    fn with(
        &self,
        seed: &str,
        attempt: u32,
        system: &str,
        decimal_mark: &str,
        then: impl FnOnce(&problems::draw::Problem) -> String,
    ) -> String {
        let recipe = match &self.0 {
            Ok(recipe) => recipe,
            Err(ReadError::Newer { .. }) => return fault("newer"),
            Err(ReadError::Older { .. }) => return fault("older"),
            Err(ReadError::Unreadable(_)) => return fault("unreadable"),
        };
        let (Some(system), Some(mark)) = (System::find(system), DecimalMark::find(decimal_mark)) else {
            return fault("setting");
        };
        let seed = Seed { text: seed.to_owned(), question: recipe.id.clone(), attempt };
        match draw(recipe, &seed, Setting { system, mark }) {
            Ok(problem) => then(&problem),
            Err(error) => fault(error.id()),
        }
    }
}

/// Works a relation for typed inputs (JSON: a text by name), with the result in a unit or, where that is empty, in the
/// usual one: JSON of the result, or of the fault with the input to blame.
#[wasm_bindgen]
pub fn work(relation: &str, inputs: &str, unit: &str, system: &str, decimal_mark: &str) -> String {
    let (Some(inputs), Some(system), Some(mark)) =
        (texts(inputs), System::find(system), DecimalMark::find(decimal_mark))
    else {
        return fault("setting");
    };
    match problems::work::work(relation, &inputs, Some(unit), system, mark) {
        Ok(worked) => to_json(&worked),
        Err(fault) => to_json(&Refused { fault }),
    }
}

/// Makes the relations of a course known that a page carries for a calculator; whether they could be read.
#[wasm_bindgen]
pub fn learn(relations: &str) -> bool {
    problems::own::learn(relations)
}

/// The attempt that a learner starts with.
#[wasm_bindgen]
pub fn first_attempt() -> u32 {
    FIRST_ATTEMPT
}

/// The bits of a relation's outputs, in hexadecimal, for inputs given in SI units by their bits, in the order of the
/// registry; a choice is given by its name. For the proof that native and wasm agree to the last bit.
#[wasm_bindgen]
pub fn bits(relation: &str, arguments: &str) -> String {
    problems::parity::bits(relation, arguments)
}

/// The same, worked so many times over: for measuring.
#[wasm_bindgen]
pub fn repeat(relation: &str, arguments: &str, times: u32) -> String {
    problems::parity::repeat(relation, arguments, times)
}

/// A call that gave nothing, and why.
#[derive(Serialize)]
struct Refused<F> {
    fault: F,
}

/// The rule that was broken.
#[derive(Serialize)]
struct Code<'c> {
    code: &'c str,
}

/// Texts by name, from their JSON.
fn texts(json: &str) -> Option<Vec<(String, String)>> {
    let Ok(Value::Object(map)) = serde_json::from_str(json) else { return None };
    let text = |(name, value)| if let Value::String(text) = value { Some((name, text)) } else { None };
    map.into_iter().map(text).collect()
}

/// Nothing that is written here holds what JSON cannot say, so that the empty text is never given.
fn to_json(value: &impl Serialize) -> String {
    serde_json::to_string(value).unwrap_or_default()
}

fn fault(code: &str) -> String {
    to_json(&Refused { fault: Code { code } })
}
