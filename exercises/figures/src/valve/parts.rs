//! The parts list: numbers, and where each balloon is and points.

use super::outline::Side;
use crate::svg::Point;

/// One row of the parts list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    /// The number in the balloon.
    pub number: u8,
    /// The name under which words for the part are kept, and by which lessons mean it.
    pub id: &'static str,
}

const fn part(number: u8, id: &'static str) -> Part {
    Part { number, id }
}

/// The numbered parts of the relief valve, in the order of their balloons: clockwise from the inlet, so up the left side
/// from the body to the spindle and the seal, and down the right side from the cap to the lower washer.
pub const VALVE_PARTS: &[Part] = &[
    part(1, "body"),
    part(2, "nozzle"),
    part(3, "seat"),
    part(4, "disc"),
    part(5, "disc_holder"),
    part(6, "guide"),
    part(7, "spindle"),
    part(8, "seal_wire"),
    part(9, "cap"),
    part(10, "lock_nut"),
    part(11, "adjusting_screw"),
    part(12, "bonnet"),
    part(13, "upper_washer"),
    part(14, "spring"),
    part(15, "lower_washer"),
];

/// How a leader ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum End {
    /// With a dot, inside the outline of a part.
    Dot,
    /// With an arrow, on a face.
    Arrow,
}

/// A balloon and its leader.
#[derive(Clone, Copy, Debug)]
pub(super) struct Balloon {
    /// Which column it is in, and which side of the axis it points to.
    pub(super) side: Side,
    /// Its height above the inlet face.
    pub(super) up: f64,
    /// What it points to: distance from the axis and height above the inlet face.
    pub(super) target: (f64, f64),
    /// How its leader ends.
    pub(super) end: End,
}

impl Balloon {
    /// The middle of the balloon on the sheet.
    pub(super) fn centre(&self) -> Point {
        let column = if self.side == Side::Left { LEFT_COLUMN } else { RIGHT_COLUMN };
        Point::new(column, self.side.place(0.0, self.up).y)
    }

    /// The end of the leader on the sheet.
    pub(super) fn points_to(&self) -> Point {
        self.side.place(self.target.0, self.target.1)
    }
}

const LEFT_COLUMN: f64 = 18.0;
const RIGHT_COLUMN: f64 = 402.0;

const fn balloon(side: Side, up: f64, target: (f64, f64), end: End) -> Balloon {
    Balloon { side, up, target, end }
}

/// The balloons, in the order of [`VALVE_PARTS`].
pub(super) const BALLOONS: &[Balloon] = &[
    balloon(Side::Left, 28.0, (49.0, 42.0), End::Dot),
    balloon(Side::Left, 68.0, (34.5, 84.0), End::Dot),
    balloon(Side::Left, 108.0, (29.6, 157.0), End::Arrow),
    balloon(Side::Left, 148.0, (28.0, 164.5), End::Dot),
    balloon(Side::Left, 188.0, (38.0, 173.0), End::Dot),
    balloon(Side::Left, 228.0, (26.0, 222.0), End::Dot),
    balloon(Side::Left, 268.0, (4.0, 272.0), End::Dot),
    balloon(Side::Left, 556.0, (74.0, 524.0), End::Dot),
    balloon(Side::Right, 612.0, (40.5, 600.0), End::Dot),
    balloon(Side::Right, 572.0, (25.0, 569.0), End::Dot),
    balloon(Side::Right, 532.0, (13.0, 543.0), End::Dot),
    balloon(Side::Right, 492.0, (49.0, 516.0), End::Dot),
    balloon(Side::Right, 452.0, (35.0, 494.0), End::Dot),
    balloon(Side::Right, 392.0, (34.0, 398.0), End::Dot),
    balloon(Side::Right, 308.0, (35.0, 302.0), End::Dot),
];
