//! A trace and its axes, in numbers.

/// A trace with its axes. Values are in the units of the axes.
#[derive(Debug)]
pub(crate) struct Graph {
    pub(super) id: &'static str,
    /// What runs along the sheet.
    pub(super) across: Axis,
    /// What runs up the sheet.
    pub(super) up: Axis,
    /// The pieces of the trace, in the order in which they are run through. Each point but the ends is a corner.
    pub(super) pieces: Vec<Piece>,
}

/// One axis.
#[derive(Debug)]
pub(super) struct Axis {
    pub(super) label: &'static str,
    pub(super) unit: String,
    pub(super) low: f64,
    pub(super) high: f64,
}

/// A piece of a trace.
#[derive(Debug)]
pub(super) struct Piece {
    pub(super) class: &'static str,
    pub(super) points: Vec<(f64, f64)>,
    /// After which of its points the arrowhead is.
    pub(super) arrow: usize,
}
