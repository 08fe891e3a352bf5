//! The registry: every figure once, with what it takes and how it is drawn.

use std::collections::BTreeMap;

use relief::units::Unit;
use relief::{Kind, Quantity};

use crate::error::FigureError;
use crate::valve::Part;
use crate::{plot, valve};

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

/// One figure.
#[derive(Debug)]
pub struct Figure {
    /// The name, the same in lessons and in words.
    pub id: &'static str,
    /// What it takes.
    pub parameters: &'static [Parameter],
    /// The keys of the words it may ask for.
    pub labels: &'static [&'static str],
    /// Its numbered parts, in the order of their balloons.
    pub parts: &'static [Part],
    check: fn(&Parameters) -> Result<(), FigureError>,
    draw: fn(&Parameters, &Label, &str) -> Result<String, FigureError>,
}

/// Every figure.
pub const FIGURES: &[Figure] = &[
    Figure {
        id: valve::ID,
        parameters: &[],
        labels: valve::LABELS,
        parts: valve::VALVE_PARTS,
        check: |_| Ok(()),
        draw: |_, label, prefix| Ok(valve::draw(label, prefix)),
    },
    Figure {
        id: plot::ID,
        parameters: plot::PARAMETERS,
        labels: plot::LABELS,
        parts: &[],
        check: |given| plot::check(given),
        draw: plot::draw,
    },
];

/// The figure with an id.
#[must_use]
pub fn find(id: &str) -> Option<&'static Figure> {
    FIGURES.iter().find(|figure| figure.id == id)
}

impl Figure {
    /// Whether the figure can be drawn from these parameters.
    ///
    /// # Errors
    /// [`FigureError`], by the first rule broken.
    pub fn check(&self, given: &Parameters) -> Result<(), FigureError> {
        if let Some(name) = given.keys().find(|name| self.parameter(name).is_none()) {
            let known = self.parameters.iter().map(|parameter| parameter.name).collect();
            return Err(FigureError::UnknownParameter { parameter: name.clone(), known });
        }
        for parameter in self.parameters {
            parameter.check(given.get(parameter.name))?;
        }
        (self.check)(given)
    }

    /// The figure as an SVG element. Every id in it begins with `prefix`, so that a page may hold many figures; every
    /// word comes from `label`, by one of the keys in [`Figure::labels`].
    ///
    /// # Errors
    /// As [`Figure::check`]; and [`FigureError::UnusablePrefix`].
    pub fn draw(&self, given: &Parameters, label: &Label, prefix: &str) -> Result<String, FigureError> {
        let usable = prefix.starts_with(|first: char| first.is_ascii_alphabetic())
            && prefix.chars().all(|next| next.is_ascii_alphanumeric() || next == '-' || next == '_');
        if !usable {
            return Err(FigureError::UnusablePrefix { prefix: prefix.to_owned() });
        }
        self.check(given)?;
        (self.draw)(given, label, prefix)
    }

    /// The parameter with a name.
    #[must_use]
    pub fn parameter(&self, name: &str) -> Option<&'static Parameter> {
        self.parameters.iter().find(|parameter| parameter.name == name)
    }
}

impl Parameter {
    fn check(&self, given: Option<&Measure>) -> Result<(), FigureError> {
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
