//! Section hatching: parts that touch are told apart by the angle and the spacing of their lines.
//!
//! The lines are cut to the outline here rather than left to a pattern fill: browsers print a pattern as a coarse bitmap.

use core::f64::consts::FRAC_1_SQRT_2;

use crate::path::Path;
use crate::svg::Point;

/// A style of hatching.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Hatch {
    /// The body: wide, rising to the right.
    WideRising,
    /// The bonnet: wide, falling to the right.
    WideFalling,
    /// Middle-sized parts, rising.
    MiddleRising,
    /// Middle-sized parts, falling.
    MiddleFalling,
    /// Small parts, rising.
    NarrowRising,
    /// Small parts, falling.
    NarrowFalling,
}

impl Hatch {
    /// Distance between two lines (drawing units).
    const fn spacing(self) -> f64 {
        match self {
            Self::WideRising | Self::WideFalling => 6.5,
            Self::MiddleRising | Self::MiddleFalling => 4.6,
            Self::NarrowRising | Self::NarrowFalling => 3.2,
        }
    }

    /// A point as distances across the lines and along them. The two directions are square to each other, so the same
    /// step leads back.
    fn turned(self, point: Point) -> Point {
        let (sum, difference) = ((point.x + point.y) * FRAC_1_SQRT_2, (point.x - point.y) * FRAC_1_SQRT_2);
        match self {
            Self::WideRising | Self::MiddleRising | Self::NarrowRising => Point::new(sum, difference),
            Self::WideFalling | Self::MiddleFalling | Self::NarrowFalling => Point::new(difference, sum),
        }
    }

    fn back(self, across: f64, along: f64) -> Point {
        match self {
            Self::WideRising | Self::MiddleRising | Self::NarrowRising => self.turned(Point::new(across, along)),
            Self::WideFalling | Self::MiddleFalling | Self::NarrowFalling => {
                Point::new((along + across) * FRAC_1_SQRT_2, (along - across) * FRAC_1_SQRT_2)
            }
        }
    }

    /// Adds the lines inside a polygon to a path. All lines of one style are in step, so that the cut faces of one part
    /// match across the axis. They run to and fro, so that the step from one to the next is short.
    pub(super) fn lines(self, polygon: &[Point], path: &mut Path) {
        let turned: Vec<_> = polygon.iter().map(|point| self.turned(*point)).collect();
        let least = turned.iter().map(|point| point.x).fold(f64::INFINITY, f64::min);
        let most = turned.iter().map(|point| point.x).fold(f64::NEG_INFINITY, f64::max);
        let mut index = libm::ceil(least / self.spacing());
        let mut there = true;
        while index * self.spacing() < most {
            let across = index * self.spacing();
            for [from, to] in crossings(&turned, across).as_chunks().0 {
                let (from, to) = if there { (*from, *to) } else { (*to, *from) };
                path.line(self.back(across, from), self.back(across, to));
            }
            index += 1.0;
            there = !there;
        }
    }
}

/// Where a line meets the edges of a polygon, in order: inside lies between the first and the second, the third and the
/// fourth, and so on. A corner on the line counts for one of its two edges.
fn crossings(polygon: &[Point], across: f64) -> Vec<f64> {
    let next = polygon.iter().cycle().skip(1);
    let edges = polygon.iter().zip(next).filter(|(from, to)| (from.x <= across) != (to.x <= across));
    let mut places: Vec<_> =
        edges.map(|(from, to)| from.y + (across - from.x) / (to.x - from.x) * (to.y - from.y)).collect();
    places.sort_by(f64::total_cmp);
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: [Point; 4] =
        [Point::new(0.0, 0.0), Point::new(20.0, 0.0), Point::new(20.0, 20.0), Point::new(0.0, 20.0)];

    #[test]
    fn lines_lean_as_their_style_says() {
        // In SVG, y grows downwards: a line that rises to the right has a falling y.
        let lines = |hatch: Hatch| {
            let mut path = Path::default();
            hatch.lines(&SQUARE, &mut path);
            path.finish()
        };
        let (rising, falling) = (lines(Hatch::WideRising), lines(Hatch::WideFalling));
        assert!(rising.contains("l-9.2 9.2") && rising.contains("l18.4-18.4"), "{rising}");
        let falls = ["l10.8 10.8", "l-10.8-10.8"];
        assert!(falls.iter().any(|way| falling.contains(way)), "{falling}");
    }

    #[test]
    fn a_notch_stays_clear() {
        let notched =
            [(0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (12.0, 20.0), (12.0, 4.0), (8.0, 4.0), (8.0, 20.0), (0.0, 20.0)];
        let notched = notched.map(|(x, y)| Point::new(x, y));
        let middle = Hatch::NarrowRising.turned(Point::new(10.0, 12.0));
        let places = crossings(&notched.map(|point| Hatch::NarrowRising.turned(point)), middle.x);
        assert_eq!(places.len(), 4);
        assert!(places[1] < middle.y && middle.y < places[2]);
    }
}
