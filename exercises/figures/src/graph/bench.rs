//! Pressure against time on the test stand, bare: to read opening, highest and reseating pressure off.

use relief::Kind;

use super::trace::{Axis, Graph, Piece};
use super::values::{below, value, value_in};
use crate::error::FigureError;
use crate::measure::{Parameter, Parameters};

/// The figure's id.
pub(crate) const ID: &str = "bench_trace";

/// What the figure takes.
pub(crate) const PARAMETERS: &[Parameter] = &[
    Parameter { name: "opening", kind: Kind::Gauge, required: true },
    Parameter { name: "highest", kind: Kind::Gauge, required: true },
    Parameter { name: "reseat", kind: Kind::Gauge, required: true },
];

/// The keys of the words that the figure asks for; the axes may hold `{unit}`.
pub(crate) const LABELS: &[&str] = &["title", "description", "labels.time", "labels.pressure"];

/// When the valve opens, when the supply is shut, when the valve is back on its seat, and when the trace ends, in
/// seconds from its start. A plain pace of our own: only the corners tell,
/// and they keep clear of the lines of the ruling.
const TIMES: [f64; 4] = [7.6, 19.4, 24.7, 34.0];

/// A steady rise until the valve opens; a slower one while it discharges; a fall once the supply is shut, until the
/// valve is back on its seat and holds.
pub(crate) fn graph(given: &Parameters) -> Result<Graph, FigureError> {
    let (opening, unit) = value(given, "opening")?;
    let (highest, reseat) = (value_in(given, "highest", unit)?, value_in(given, "reseat", unit)?);
    below(("reseat", reseat), ("opening", opening))?;
    below(("opening", opening), ("highest", highest))?;
    // Steep enough before the opening that the corner there is plain to see.
    let rise = 1.8 * (highest - opening).max(opening - reseat);
    let start = (opening - rise).max(0.0).min(reseat);
    let points = vec![(0.0, start), (TIMES[0], opening), (TIMES[1], highest), (TIMES[2], reseat), (TIMES[3], reseat)];
    let room = 0.08 * (highest - start);
    Ok(Graph {
        id: ID,
        across: Axis { label: "labels.time", unit: "s".to_owned(), low: 0.0, high: TIMES[3] },
        up: Axis {
            label: "labels.pressure",
            unit: unit.symbol.to_owned(),
            low: (start - room).max(0.0),
            high: highest + room,
        },
        pieces: vec![Piece { class: "fig-rising", points, arrow: 0 }],
    })
}
