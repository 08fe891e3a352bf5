//! Axes, ticks, their titles, and the marks at the set pressure and the MAWP.

use relief::Typed;

use super::extents::{FIRST_LINE, LINE, MARGIN, RIGHT, TICK, TITLE, WIDTH};
use super::field::Field;
use super::lifts::lifts;
use super::picture::Picture;
use super::trace::Trace;
use super::words::{fill, with_value};
use crate::measure::Label;
use crate::scale::Scale;
use crate::svg::{Anchor, Point};
use crate::text::{SIZE, width};

/// From the middle of a line of text to its base line.
const MIDDLE: f64 = SIZE * 0.36;
/// Both axes. `lines` are the places that extension lines go down from, which the title keeps clear of.
pub(super) fn lay_out(trace: &Trace, field: &Field, label: &Label, lines: &[f64], picture: &mut Picture) {
    let (left, floor) = (field.pressure.from.1, field.floor());
    let top = field.lift.to.1;
    picture.line("fig-scale", Point::new(left, top - 14.0), Point::new(left, floor));
    picture.line("fig-scale", Point::new(left, floor), Point::new(RIGHT, floor));
    for (value, text) in lifts(trace, &field.lift) {
        let at = Point::new(left, field.lift.place(value));
        picture.line("fig-thin", at.moved(-TICK, 0.0), at);
        picture.text(at.moved(-TICK - 4.0, MIDDLE), Anchor::End, text);
    }
    pressures(trace, field, picture);
    let unit = |unit: &relief::units::Unit| [("unit", unit.symbol.to_owned())];
    let lift = fill(&label("labels.lift"), &unit(trace.lift_unit));
    picture.text(Point::new(MARGIN, FIRST_LINE), Anchor::Start, lift);
    let pressure = fill(&label("labels.pressure"), &unit(trace.pressure_unit));
    let middle = clear_place(width(&pressure), lines);
    picture.text(Point::new(middle, floor + TITLE), Anchor::Middle, pressure);
}

fn pressures(trace: &Trace, field: &Field, picture: &mut Picture) {
    let unit = trace.pressure_unit;
    let number = |si: f64| unit.value(relief::Gauge::from_si(si).quantity());
    let (from, to) = (field.pressure.from, field.pressure.to);
    let shown = Scale { from: (number(from.0), from.1), to: (number(to.0), to.1) };
    for (value, text) in shown.ticks(|text| width(text) + 1.2 * SIZE) {
        let at = Point::new(shown.place(value), field.floor());
        picture.line("fig-thin", at, at.moved(0.0, TICK));
        if at.x + width(&text) / 2.0 <= WIDTH - 1.0 {
            picture.text(at.moved(0.0, TICK + SIZE + 2.0), Anchor::Middle, text);
        }
    }
}

/// The middle of the widest gap between the lines, if a text of this width fits; else at the right edge.
fn clear_place(wide: f64, lines: &[f64]) -> f64 {
    let mut edges = vec![MARGIN];
    for line in lines.iter().copied().chain([WIDTH - MARGIN]) {
        edges.insert(edges.partition_point(|edge| *edge <= line), line);
    }
    let gaps = edges.windows(2).map(|pair| (pair[1] - pair[0], f64::midpoint(pair[0], pair[1])));
    let (gap, middle) = gaps.max_by(|one, other| one.0.total_cmp(&other.0)).unwrap_or_default();
    if gap >= wide + 8.0 { middle } else { WIDTH - MARGIN - wide / 2.0 }
}

/// The marks at set pressure and MAWP, each with its name on a line of its own; returns where they are.
pub(super) fn marks(trace: &Trace, field: &Field, label: &Label, picture: &mut Picture) -> Vec<f64> {
    let marks = [("labels.mawp", trace.mawp), ("labels.set", trace.set)];
    let mut places = Vec::new();
    let mut line = FIRST_LINE;
    for (key, pressure) in marks {
        let Some(pressure) = pressure else { continue };
        line += LINE;
        let x = field.pressure.place(pressure.si());
        let name = with_value(label, key, trace.gauge(pressure));
        let half = width(&name) / 2.0;
        let middle = x.min(WIDTH - MARGIN - half).max(MARGIN + half);
        picture.line("fig-mark", Point::new(x, line + 5.0), Point::new(x, field.floor()));
        picture.text(Point::new(middle, line), Anchor::Middle, name);
        places.push(x);
    }
    places
}
