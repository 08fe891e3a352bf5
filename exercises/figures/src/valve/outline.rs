//! Outlines of turned parts: corners measured from the axis and from the inlet face, with rounded edges.

use crate::path::Path;
use crate::svg::Point;

/// Where the valve's axis is on the sheet.
pub(super) const AXIS: f64 = 178.0;
/// Where the inlet face is on the sheet.
pub(super) const INLET_FACE: f64 = 668.0;

/// A corner of an outline: its distance from the axis, its height above the inlet face, and the radius that breaks the
/// edge (drawing units).
#[derive(Clone, Copy, Debug)]
pub(super) struct Corner {
    pub(super) out: f64,
    pub(super) up: f64,
    pub(super) radius: f64,
}

/// A sharp corner.
pub(super) const fn sharp(out: f64, up: f64) -> Corner {
    Corner { out, up, radius: 0.0 }
}

/// A corner with a fillet or a rounded edge.
pub(super) const fn round(out: f64, up: f64, radius: f64) -> Corner {
    Corner { out, up, radius }
}

/// Which side of the axis an outline is drawn on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
}

impl Side {
    /// Both, as a ring cut through shows.
    pub(super) const BOTH: [Self; 2] = [Self::Left, Self::Right];

    /// A place on the sheet from its distance from the axis and its height above the inlet face.
    pub(super) fn place(self, out: f64, up: f64) -> Point {
        let sign = if self == Self::Left { -1.0 } else { 1.0 };
        Point::new(AXIS + sign * out, INLET_FACE - up)
    }
}

/// A closed outline in its place on the sheet: corners, each with the radius that breaks its edge.
#[derive(Debug)]
pub(super) struct Outline(Vec<(Point, f64)>);

impl Outline {
    /// On one side of the axis.
    pub(super) fn on_side(corners: &[Corner], side: Side) -> Self {
        Self(corners.iter().map(|corner| (side.place(corner.out, corner.up), corner.radius)).collect())
    }

    /// Across the axis: `corners` from axis to axis on the right, and the same mirrored on the left.
    pub(super) fn across(corners: &[Corner]) -> Self {
        let mut outline = Self::on_side(corners, Side::Right);
        let mirrored: Vec<_> = corners.iter().rev().filter(|corner| corner.out > 0.0).copied().collect();
        outline.0.extend(Self::on_side(&mirrored, Side::Left).0);
        outline
    }

    /// A circle.
    pub(super) fn circle(centre: Point, radius: f64) -> Self {
        const SIDES: u32 = 32;
        let corner = |side: u32| {
            let angle = core::f64::consts::TAU * f64::from(side) / f64::from(SIDES);
            (centre.moved(radius * libm::cos(angle), radius * libm::sin(angle)), 0.0)
        };
        Self((0..SIDES).map(corner).collect())
    }

    /// Where the rounding of a corner begins, the corner, and where its rounding ends.
    fn curves(&self) -> impl Iterator<Item = [Point; 3]> {
        let count = self.0.len();
        self.0.iter().enumerate().map(move |(index, (corner, radius))| {
            let (before, after) = (self.0[(index + count - 1) % count].0, self.0[(index + 1) % count].0);
            [corner.towards(before, *radius), *corner, corner.towards(after, *radius)]
        })
    }

    /// Adds it to a path.
    pub(super) fn trace(&self, path: &mut Path) {
        for (index, ([begin, corner, end], (_, radius))) in self.curves().zip(&self.0).enumerate() {
            if index == 0 {
                path.move_to(begin)
            } else {
                path.line_to(begin)
            }
            if *radius > 0.0 {
                path.curve_to(corner, end);
            }
        }
        path.close();
    }

    /// As a polygon, with the rounded corners in short steps.
    pub(super) fn polygon(&self) -> Vec<Point> {
        const STEPS: u32 = 6;
        let step = |[begin, corner, end]: [Point; 3], share: f64| {
            let rest = 1.0 - share;
            let (a, b, c) = (rest * rest, 2.0 * rest * share, share * share);
            Point::new(a * begin.x + b * corner.x + c * end.x, a * begin.y + b * corner.y + c * end.y)
        };
        self.curves()
            .flat_map(|curve| (0..=STEPS).map(move |index| step(curve, f64::from(index) / f64::from(STEPS))))
            .collect()
    }
}
