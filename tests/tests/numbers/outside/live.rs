//! The fresh grid: one case a line, as `tests/outside/fluids-live.py` writes them.

use std::fs;
use std::path::PathBuf;

use relief::{Argument, Form, Input, Manner, Outputs, Quantity, RelationError, System, find};
use seatwork_tests::top;
use serde::Deserialize;

/// One case.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Line {
    /// The relation.
    pub(crate) relation: String,
    /// Its arguments in the order of the registry, separated by spaces.
    pub(crate) arguments: String,
    /// The first output, SI; none where the relation must refuse.
    pub(crate) expected: Option<f64>,
    /// The name that the second output gives.
    pub(crate) named: Option<String>,
    /// The code of the error, where the relation must refuse.
    pub(crate) refused: Option<String>,
}

impl Line {
    /// What the relation gives.
    pub(crate) fn work(&self) -> Result<Outputs, RelationError> {
        let relation = find(&self.relation).unwrap_or_else(|| panic!("{}", self.relation));
        let texts: Vec<_> = self.arguments.split(' ').collect();
        assert_eq!(texts.len(), relation.inputs.len(), "{self:?}");
        let arguments: Vec<_> = relation.inputs.iter().zip(texts).map(|(input, text)| argument(input, text)).collect();
        relation.evaluate_ordered(&arguments, Manner::unrounded(System::Si))
    }
}

fn argument(input: &Input, text: &str) -> Argument {
    match &input.form {
        Form::Quantity(kind, _) => {
            let bits = u64::from_str_radix(text, 16).expect("bits in hexadecimal");
            Argument::Quantity(Quantity::new(f64::from_bits(bits), *kind))
        }
        Form::Choice(known) => Argument::Choice(known.iter().find(|name| **name == text).expect("a known choice")),
    }
}

/// The name that the second output gives.
pub(crate) fn name(outputs: &Outputs) -> Option<&'static str> {
    match outputs.get(1) {
        Some(Argument::Choice(name)) => Some(name),
        _ => None,
    }
}

/// Where the grid is looked for.
pub(crate) fn file() -> PathBuf {
    std::env::var_os("SEATWORK_OUTSIDE").map_or_else(|| top().join("target/outside-cases.jsonl"), PathBuf::from)
}

/// The grid, where it is there.
pub(crate) fn lines() -> Option<Vec<Line>> {
    let text = fs::read_to_string(file()).ok()?;
    Some(
        text.lines().map(|line| serde_json::from_str(line).unwrap_or_else(|error| panic!("{error}: {line}"))).collect(),
    )
}
