//! Lift against inlet pressure: up to full lift, and back to the seat, with the distances that the terms name.

mod axes;
mod curve;
mod dimensions;
mod extents;
mod field;
mod legend;
mod lifts;
mod picture;
#[cfg(test)]
mod tests;
mod trace;
mod words;

use relief::Kind;

use crate::error::FigureError;
use crate::measure::{Label, Parameter, Parameters};
use crate::svg::{Frame, sheet};
use extents::{MARGIN, WIDTH};
use field::Field;
use picture::Picture;
use trace::Trace;
use words::fill;

/// The figure's id.
pub(crate) const ID: &str = "lift_against_pressure";

const fn parameter(name: &'static str, kind: Kind, required: bool) -> Parameter {
    Parameter { name, kind, required }
}

/// What the figure takes.
pub(crate) const PARAMETERS: &[Parameter] = &[
    parameter("opening", Kind::Gauge, true),
    parameter("full_open", Kind::Gauge, true),
    parameter("reseat", Kind::Gauge, true),
    parameter("full_lift", Kind::Length, true),
    parameter("set", Kind::Gauge, false),
    parameter("mawp", Kind::Gauge, false),
];

/// The keys of the words that the figure asks for. `description*` may hold `{opening}`, `{full_open}`, `{reseat}`,
/// `{full_lift}`, `{opening_accumulation}`, `{blowdown}`, `{set}`, `{overpressure}`, `{mawp}` and
/// `{accumulation_over_mawp}`; the terms, points and marks may hold `{value}`; the axes may hold `{unit}`.
pub(crate) const LABELS: &[&str] = &[
    "title",
    "description",
    "description_set",
    "description_mawp",
    "description_over_mawp",
    "labels.lift",
    "labels.pressure",
    "labels.opening_accumulation",
    "labels.blowdown",
    "labels.overpressure",
    "labels.accumulation_over_mawp",
    "labels.set",
    "labels.mawp",
    "labels.opens",
    "labels.full_lift",
    "labels.reseats",
    "labels.rising",
    "labels.falling",
];

/// Whether the numbers can be drawn.
pub(crate) fn check(given: &Parameters) -> Result<(), FigureError> {
    Trace::read(given).map(|_| ())
}

/// The whole figure.
pub(crate) fn draw(given: &Parameters, label: &Label, prefix: &str) -> Result<String, FigureError> {
    let trace = Trace::read(given)?;
    let picture = lay_out(&trace, label);
    let frame = Frame {
        figure: ID,
        prefix,
        width: WIDTH,
        height: libm::ceil(picture.bottom() + MARGIN),
        title: label("title"),
        description: description(&trace, label),
    };
    Ok(sheet(&frame, |svg| picture.write(svg)))
}

fn lay_out(trace: &Trace, label: &Label) -> Picture {
    let field = Field::new(trace);
    let mut picture = Picture::default();
    let measured = dimensions::lay_out(trace, &field, label);
    let below = measured.write(&mut picture, &field);
    axes::lay_out(trace, &field, label, &measured.lines(), &mut picture);
    let marks = axes::marks(trace, &field, label, &mut picture);
    curve::lay_out(trace, &field, &marks, &mut picture);
    legend::lay_out(trace, label, below, &mut picture);
    picture
}

/// What a screen reader says: the numbers of the plot in sentences, those for the marks only where they are given.
fn description(trace: &Trace, label: &Label) -> String {
    let gauge = |pressure: Option<relief::Gauge>| pressure.map(|pressure| trace.gauge(pressure)).unwrap_or_default();
    let difference = |value: Option<relief::Difference>| value.map(|value| trace.difference(value)).unwrap_or_default();
    let sentences = [
        Some("description"),
        trace.set.map(|_| "description_set"),
        trace.mawp.map(|_| "description_mawp"),
        trace.accumulation_over_mawp().map(|_| "description_over_mawp"),
    ];
    let text: Vec<_> = sentences.into_iter().flatten().map(label).collect();
    fill(
        &text.join(" "),
        &[
            ("opening", trace.gauge(trace.opening)),
            ("full_open", trace.gauge(trace.full_open)),
            ("reseat", trace.gauge(trace.reseat)),
            ("full_lift", trace.lift(trace.full_lift)),
            ("opening_accumulation", trace.difference(trace.opening_accumulation())),
            ("blowdown", trace.difference(trace.blowdown())),
            ("set", gauge(trace.set)),
            ("overpressure", difference(trace.overpressure())),
            ("mawp", gauge(trace.mawp)),
            ("accumulation_over_mawp", difference(trace.accumulation_over_mawp())),
        ],
    )
}
