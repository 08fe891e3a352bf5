//! The two branches, and the three numbered points on them.

use relief::{Gauge, Length, Typed};

use super::extents::RISE;
use super::field::Field;
use super::picture::{BALLOON, Balloon, Picture};
use super::trace::Trace;
use crate::svg::{Point, open_path};

/// Steps from opening to full lift at which the law is asked.
const STEPS: u32 = 24;

/// The pressures at which the rising branch is drawn (pascal, gauge).
fn pressures(trace: &Trace, field: &Field) -> Vec<Gauge> {
    let (low, high) = (field.pressure.from.0, field.pressure.to.0);
    let (from, span) = (trace.opening.si(), trace.opening_accumulation().si());
    let steps = (0..=STEPS).map(|step| from + span * f64::from(step) / f64::from(STEPS));
    core::iter::once(low).chain(steps).chain([high]).map(Gauge::from_si).collect()
}

/// The rising branch as the law gives it.
pub(super) fn rising(trace: &Trace, field: &Field) -> Vec<Point> {
    pressures(trace, field).into_iter().map(|pressure| field.point(pressure, trace.lift_at(pressure))).collect()
}

/// Both branches and their points. The falling branch is drawn straight: no law of this course gives its shape.
pub(super) fn lay_out(trace: &Trace, field: &Field, marks: &[f64], picture: &mut Picture) {
    let none = Length::from_si(0.0);
    let opens = field.point(trace.opening, none);
    let full = field.point(trace.full_open, trace.full_lift);
    let reseats = field.point(trace.reseat, none);
    picture.line("fig-thin", Point::new(field.pressure.from.1, full.y), full);
    picture.line("fig-falling", full, reseats);
    picture.shape("fig-rising", open_path(&rising(trace, field)));
    arrow(picture, opens, full, 0.62);
    arrow(picture, full, reseats, 0.58);
    let beside = clear(opens.x + beside_rise(opens, full), 1.0, marks);
    picture.balloons.extend([
        balloon(1, Point::new(beside, opens.y - BALLOON - 6.0), opens),
        balloon(2, Point::new(clear(full.x, -1.0, marks), full.y - BALLOON - 9.0), full),
        balloon(3, reseats.moved(-BALLOON - 10.0, -BALLOON - 8.0), reseats),
    ]);
}

fn balloon(number: u8, centre: Point, names: Point) -> Balloon {
    Balloon { number, centre, names: Some(names) }
}

/// An arrowhead on a branch, with its tip at a share of the distance.
fn arrow(picture: &mut Picture, from: Point, to: Point, share: f64) {
    let tip = from.moved((to.x - from.x) * share, (to.y - from.y) * share);
    picture.shape("fig-arrow", crate::arrow::stout(tip, from));
}

/// How far right of the opening point a balloon must be to stay clear below the rising branch.
fn beside_rise(opens: Point, full: Point) -> f64 {
    let slope = RISE / (full.x - opens.x).max(1e-6);
    BALLOON + 7.0 + (2.0 * BALLOON + 10.0) / slope
}

/// The first place from `x` on, to the side of `step`, that is clear of the marks. Each try goes a little farther than is
/// asked for, so that rounding cannot bring the same mark back.
fn clear(x: f64, step: f64, marks: &[f64]) -> f64 {
    let mut x = x;
    while let Some(mark) = marks.iter().find(|mark| (x - **mark).abs() < BALLOON + 3.0) {
        x = mark + step * (BALLOON + 3.5);
    }
    x
}
