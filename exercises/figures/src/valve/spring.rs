//! The spring: its wire cut on both sides of the axis, and the far half of each turn between.

use super::hatch::Hatch;
use super::outline::{Outline, Side};
use crate::path::Path;
use crate::svg::{Point, Svg};

/// Radius of the wire (drawing units).
const WIRE: f64 = 6.2;
/// Radius of the coil, axis to the middle of the wire.
const COIL: f64 = 34.0;
/// The faces of the washers that the ground ends rest on.
const ENDS: (f64, f64) = (308.0, 488.0);
/// Half turns from the first cut of the wire to the last.
const HALF_TURNS: usize = 14;
/// How high the first cuts are above the face: the end is ground flat, and the first turn closes on it.
const CLOSED: [f64; 3] = [2.8, WIRE, 2.8 + 2.0 * WIRE];

/// Height of the wire's middle after so many half turns; both ends of the spring are alike.
fn height(half_turn: usize) -> f64 {
    let last = CLOSED.len() - 1;
    let (from_below, from_above) = (half_turn, HALF_TURNS - half_turn);
    if from_below <= last {
        return ENDS.0 + CLOSED[from_below];
    }
    if from_above <= last {
        return ENDS.1 - CLOSED[from_above];
    }
    let (low, high) = (ENDS.0 + CLOSED[last], ENDS.1 - CLOSED[last]);
    let share = (from_below - last) as f64 / (HALF_TURNS - 2 * last) as f64;
    low + (high - low) * share
}

fn cut(half_turn: usize) -> Point {
    let side = if half_turn.is_multiple_of(2) { Side::Left } else { Side::Right };
    side.place(COIL, height(half_turn))
}

/// The far halves of the turns, to be drawn before the spindle. The first is hidden behind the lower washer.
pub(super) fn far_halves(svg: &mut Svg) {
    let (mut ground, mut outline) = (Path::default(), Path::default());
    for half_turn in (2..HALF_TURNS).step_by(2) {
        let (from, to) = (cut(half_turn), cut(half_turn + 1));
        let square = Point::new(0.0, 0.0).towards(Point::new(from.y - to.y, to.x - from.x), WIRE);
        let (x, y) = (square.x, square.y);
        let band = [from.moved(x, y), to.moved(x, y), to.moved(-x, -y), from.moved(-x, -y)];
        ground.polygon(&band);
        outline.line(band[0], band[1]);
        outline.line(band[2], band[3]);
    }
    svg.path("fig-ground", &ground.finish());
    svg.path("fig-outline", &outline.finish());
}

/// The cuts through the wire, to be drawn before the washers, which hide what was ground off.
pub(super) fn cuts(svg: &mut Svg) {
    let (mut faces, mut hatch) = (Path::default(), Path::default());
    for centre in (0..=HALF_TURNS).map(cut) {
        faces.circle(centre, WIRE);
        Hatch::NarrowFalling.lines(&Outline::circle(centre, WIRE).polygon(), &mut hatch);
    }
    svg.path("fig-cut", &faces.finish());
    svg.path("fig-hatch", &hatch.finish());
}
