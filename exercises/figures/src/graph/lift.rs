//! Lift against inlet pressure, bare: to read opening, full lift and reseating off.

use relief::Kind;

use super::trace::{Axis, Graph, Piece};
use super::values::{below, value, value_in};
use crate::error::FigureError;
use crate::measure::{Parameter, Parameters};

/// The figure's id.
pub(crate) const ID: &str = "lift_curve";

/// What the figure takes.
pub(crate) const PARAMETERS: &[Parameter] = &[
    Parameter { name: "opening", kind: Kind::Gauge, required: true },
    Parameter { name: "full_open", kind: Kind::Gauge, required: true },
    Parameter { name: "reseat", kind: Kind::Gauge, required: true },
    Parameter { name: "full_lift", kind: Kind::Length, required: true },
];

/// The keys of the words that the figure asks for; the axes may hold `{unit}`.
pub(crate) const LABELS: &[&str] = &["title", "description", "labels.pressure", "labels.lift"];

/// The falling branch is drawn straight: no law of this course gives its shape.
pub(crate) fn graph(given: &Parameters) -> Result<Graph, FigureError> {
    let (opening, unit) = value(given, "opening")?;
    let (full_open, reseat) = (value_in(given, "full_open", unit)?, value_in(given, "reseat", unit)?);
    let (full_lift, lift_unit) = value(given, "full_lift")?;
    below(("reseat", reseat), ("opening", opening))?;
    below(("opening", opening), ("full_open", full_open))?;
    if full_lift <= 0.0 {
        return Err(FigureError::OutOfRange { parameter: "full_lift" });
    }
    let span = full_open - reseat;
    let (low, high) = ((reseat - 0.2 * span).max(0.0), full_open + 0.15 * span);
    let rising = vec![(low, 0.0), (opening, 0.0), (full_open, full_lift), (high, full_lift)];
    Ok(Graph {
        id: ID,
        across: Axis { label: "labels.pressure", unit: unit.symbol.to_owned(), low, high },
        up: Axis { label: "labels.lift", unit: lift_unit.symbol.to_owned(), low: 0.0, high: full_lift * 1.1 },
        pieces: vec![
            Piece { class: "fig-rising", points: rising, arrow: 1 },
            Piece { class: "fig-falling", points: vec![(full_open, full_lift), (reseat, 0.0)], arrow: 0 },
        ],
    })
}
