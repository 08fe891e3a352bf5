//! The registry: every figure once, with what it takes and how it is drawn.

use crate::error::FigureError;
use crate::graph::Readings;
use crate::measure::{Label, Parameter, Parameters};
use crate::valve::Part;
use crate::{graph, plot, valve};

/// Gives the trace of a figure as a list.
type Read = fn(&Parameters, &Label) -> Result<Readings, FigureError>;

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
    read: Option<Read>,
}

const SECTION: Figure = Figure {
    id: valve::ID,
    parameters: &[],
    labels: valve::LABELS,
    parts: valve::VALVE_PARTS,
    check: |_| Ok(()),
    draw: |_, label, prefix| Ok(valve::draw(label, prefix)),
    read: None,
};

const LIFT_AGAINST_PRESSURE: Figure = Figure {
    id: plot::ID,
    parameters: plot::PARAMETERS,
    labels: plot::LABELS,
    parts: &[],
    check: |given| plot::check(given),
    draw: plot::draw,
    read: None,
};

const LIFT_CURVE: Figure = Figure {
    id: graph::lift::ID,
    parameters: graph::lift::PARAMETERS,
    labels: graph::lift::LABELS,
    parts: &[],
    check: |given| graph::lift::graph(given).map(|_| ()),
    draw: |given, label, prefix| Ok(graph::draw(&graph::lift::graph(given)?, label, prefix)),
    read: Some(|given, label| Ok(graph::readings(&graph::lift::graph(given)?, label))),
};

const BENCH_TRACE: Figure = Figure {
    id: graph::bench::ID,
    parameters: graph::bench::PARAMETERS,
    labels: graph::bench::LABELS,
    parts: &[],
    check: |given| graph::bench::graph(given).map(|_| ()),
    draw: |given, label, prefix| Ok(graph::draw(&graph::bench::graph(given)?, label, prefix)),
    read: Some(|given, label| Ok(graph::readings(&graph::bench::graph(given)?, label))),
};

/// Every figure.
pub const FIGURES: &[Figure] = &[SECTION, LIFT_AGAINST_PRESSURE, LIFT_CURVE, BENCH_TRACE];

/// The figures that values are read off: all that has to be drawn again for each problem.
pub const PLOTS: &[Figure] = &[LIFT_CURVE, BENCH_TRACE];

/// The plot with an id, of those that values are read off.
#[must_use]
pub fn plot(id: &str) -> Option<&'static Figure> {
    PLOTS.iter().find(|figure| figure.id == id)
}

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

    /// Whether values are read off the figure: nothing that is asked is written on it.
    #[must_use]
    pub fn is_read_off(&self) -> bool {
        self.read.is_some()
    }

    /// The trace as a list, from which a value can be found as well as from the drawing; `None` for a figure that values
    /// are not read off.
    ///
    /// # Errors
    /// As [`Figure::check`].
    pub fn readings(&self, given: &Parameters, label: &Label) -> Result<Option<Readings>, FigureError> {
        self.check(given)?;
        self.read.map(|read| read(given, label)).transpose()
    }

    /// The parameter with a name.
    #[must_use]
    pub fn parameter(&self, name: &str) -> Option<&'static Parameter> {
        self.parameters.iter().find(|parameter| parameter.name == name)
    }
}
