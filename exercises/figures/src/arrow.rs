//! Arrowheads as closed paths: markers would need ids, and would not take the colour of their line everywhere.

use crate::svg::{Point, closed_path};

/// Length of the arrowhead of a dimension line or leader (user units).
pub(crate) const LENGTH: f64 = 9.0;

/// A slender arrowhead, for dimension lines and leaders, with its point at `tip` and its shaft coming from `from`.
pub(crate) fn slender(tip: Point, from: Point) -> String {
    head(tip, from, LENGTH, 2.0)
}

/// A stout arrowhead, for the direction along a thick line.
pub(crate) fn stout(tip: Point, from: Point) -> String {
    head(tip, from, 14.0, 4.8)
}

fn head(tip: Point, from: Point, length: f64, half_width: f64) -> String {
    let base = tip.towards(from, length);
    let along = Point::new(0.0, 0.0).towards(Point::new(from.x - tip.x, from.y - tip.y), half_width);
    closed_path(&[tip, base.moved(-along.y, along.x), base.moved(along.y, -along.x)])
}
