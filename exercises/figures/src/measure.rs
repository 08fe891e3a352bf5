//! What a figure takes: its parameters, the quantities given for them, and the words.

use std::collections::BTreeMap;

use relief::units::Unit;
use relief::{Kind, Quantity};

use crate::error::FigureError;

/// A quantity as it was given: with the unit in which a figure shows it again.
#[derive(Clone, Copy, Debug)]
pub struct Measure {
    /// The quantity.
    pub quantity: Quantity,
    /// The unit it was given in.
    pub unit: &'static Unit,
}

impl Measure {
    /// A number in a unit, as a quantity of `kind`.
    #[must_use]
    pub fn new(value: f64, unit: &'static Unit, kind: Kind) -> Self {
        Self { quantity: unit.quantity(value, kind), unit }
    }
}

/// What a figure is given, by name.
pub type Parameters = BTreeMap<String, Measure>;

/// Where a figure takes its words from: the word for a key, such as `title` or `labels.blowdown`.
pub type Label<'a> = dyn Fn(&str) -> String + 'a;

/// One parameter of a figure.
#[derive(Debug, PartialEq, Eq)]
pub struct Parameter {
    /// The name: a full word.
    pub name: &'static str,
    /// The kind of quantity it takes.
    pub kind: Kind,
    /// Whether the figure cannot be drawn without it.
    pub required: bool,
}

impl Parameter {
    /// Whether a parameter may be given so, or left out.
    pub(crate) fn check(&self, given: Option<&Measure>) -> Result<(), FigureError> {
        let Some(measure) = given else {
            return if self.required { Err(FigureError::MissingParameter { parameter: self.name }) } else { Ok(()) };
        };
        let found = measure.quantity.kind;
        if found == self.kind && measure.unit.measures(found) {
            return Ok(());
        }
        let found = if found == self.kind { measure.unit.usual_kind() } else { found };
        Err(FigureError::WrongKind { parameter: self.name, expected: self.kind, found })
    }
}
