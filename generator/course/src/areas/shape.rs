//! The shapes of areas, as their author wrote them.

use faults::Code;
use figures::Shape;

use crate::fault::{Fault, Place};
use crate::raw::{RawArea, RawBox};

/// A little beyond an edge is within it: numbers read off a drawing are rounded.
const SLACK: f64 = 1e-6;

/// How many corners a polygon has.
const CORNERS: std::ops::RangeInclusive<usize> = 3..=100;

/// The shape of an area: one of three, with a size, and within the picture.
pub(super) fn read(area: &RawArea, place: &dyn Fn() -> Place, faults: &mut Vec<Fault>) -> Option<Shape> {
    let RawArea { rectangle, ellipse, polygon, .. } = area;
    let shape = match (rectangle, ellipse, polygon) {
        (Some(around), None, None) => Shape::Rectangle(numbers(around)),
        (None, Some(around), None) => Shape::Ellipse(numbers(around)),
        (None, None, Some(corners)) => Shape::Polygon(corners.clone()),
        _ => return refuse(Code::PictureShapeOne, area, place, faults),
    };
    let [left, top, wide, high] = around(&shape);
    let is_flat =
        !(wide > 0.0 && high > 0.0) || matches!(&shape, Shape::Polygon(corners) if !CORNERS.contains(&corners.len()));
    let inside = |from: f64, size: f64| from >= -SLACK && from + size <= 100.0 + SLACK;
    if is_flat {
        return refuse(Code::PictureShapeFlat, area, place, faults);
    }
    if inside(left, wide) && inside(top, high) {
        return Some(shape);
    }
    refuse(Code::PictureAreaOutside, area, place, faults)
}

fn refuse<T>(code: Code, area: &RawArea, place: &dyn Fn() -> Place, faults: &mut Vec<Fault>) -> Option<T> {
    faults.push(Fault::at(code, place()).with("area", &area.name));
    None
}

fn numbers(around: &RawBox) -> [f64; 4] {
    [around.left, around.top, around.width, around.height]
}

/// The rectangle around a shape: left, top, width and height in per cent.
pub(super) fn around(shape: &Shape) -> [f64; 4] {
    match shape {
        Shape::Rectangle(around) | Shape::Ellipse(around) => *around,
        Shape::Polygon(corners) => {
            let least = |axis: usize| corners.iter().map(|corner| corner[axis]).fold(f64::INFINITY, f64::min);
            let most = |axis: usize| corners.iter().map(|corner| corner[axis]).fold(f64::NEG_INFINITY, f64::max);
            [least(0), least(1), most(0) - least(0), most(1) - least(1)]
        }
    }
}

/// Whether a point is within a shape. A polygon that crosses itself has holes, as it is drawn.
pub(super) fn holds(shape: &Shape, [x, y]: [f64; 2]) -> bool {
    match shape {
        Shape::Rectangle([left, top, wide, high]) => x > *left && x < left + wide && y > *top && y < top + high,
        Shape::Ellipse([left, top, wide, high]) => {
            let (across, down) = ((x - left) / wide * 2.0 - 1.0, (y - top) / high * 2.0 - 1.0);
            across * across + down * down < 1.0
        }
        Shape::Polygon(corners) => {
            let next = corners.iter().cycle().skip(1);
            let crossed = corners.iter().zip(next).filter(|(from, to)| {
                (from[1] > y) != (to[1] > y) && x < (to[0] - from[0]) * (y - from[1]) / (to[1] - from[1]) + from[0]
            });
            crossed.count() % 2 == 1
        }
    }
}
