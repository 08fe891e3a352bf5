//! The parts of the valve in section, as outlines: distance from the axis, height above the inlet face.
//!
//! One drawing unit is about 0.8 mm of a valve with a two-inch inlet flange. Faces that touch in the valve share their
//! numbers here: the disc is on the seat at 158, the spring between its washers at 308 and 488, the lower washer on
//! the cone of the spindle, the upper one under the cone of the adjusting screw. The disc holder can rise by 11, a
//! quarter of the bore, before it meets the guide, and the spindle has more than that left under the cap.

use super::hatch::Hatch;
use super::outline::{Corner, round, sharp};

/// Where an outline is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Span {
    /// On both sides: a ring cut through.
    Ring,
    /// Across the axis in one outline.
    Across,
    /// On the left alone.
    Left,
    /// On the right alone.
    Right,
}

/// One outline of a part.
#[derive(Clone, Copy, Debug)]
pub(super) struct Piece {
    /// The part it belongs to, as in the parts list; or one of the parts that carry no number.
    pub(super) part: &'static str,
    /// Where it is drawn.
    pub(super) span: Span,
    /// Its hatching; none for what is not cut: spindle, studs and nuts are drawn whole, as practice has it.
    pub(super) hatch: Option<Hatch>,
    /// Its corners.
    pub(super) corners: &'static [Corner],
}

const fn piece(part: &'static str, span: Span, hatch: Hatch, corners: &'static [Corner]) -> Piece {
    Piece { part, span, hatch: Some(hatch), corners }
}

const fn whole(part: &'static str, span: Span, corners: &'static [Corner]) -> Piece {
    Piece { part, span, hatch: None, corners }
}

/// The spindle: not cut, and in front of the far side of the spring.
pub(super) const SPINDLE: Piece = whole(
    "spindle",
    Span::Across,
    &[
        sharp(0.0, 175.0),
        sharp(5.0, 175.0),
        round(10.0, 178.0, 4.0),
        sharp(10.0, 284.0),
        sharp(18.0, 288.0),
        sharp(18.0, 296.0),
        sharp(9.0, 305.0),
        sharp(9.0, 619.0),
        sharp(7.0, 621.0),
        sharp(0.0, 621.0),
    ],
);

/// What is cut, from the inlet upwards.
pub(super) const SECTIONS: &[Piece] = &[
    piece("body", Span::Left, Hatch::WideRising, BODY_LEFT),
    piece("body", Span::Right, Hatch::WideRising, BODY_BELOW_OUTLET),
    piece("body", Span::Right, Hatch::WideRising, BODY_ABOVE_OUTLET),
    piece("nozzle", Span::Ring, Hatch::MiddleFalling, NOZZLE),
    piece("disc_holder", Span::Across, Hatch::MiddleFalling, DISC_HOLDER),
    piece("disc", Span::Across, Hatch::NarrowRising, DISC),
    piece("guide", Span::Ring, Hatch::NarrowRising, GUIDE),
    piece("bonnet", Span::Ring, Hatch::WideFalling, BONNET),
    piece("lower_washer", Span::Ring, Hatch::MiddleRising, LOWER_WASHER),
    piece("upper_washer", Span::Ring, Hatch::MiddleFalling, UPPER_WASHER),
    piece("adjusting_screw", Span::Ring, Hatch::NarrowRising, ADJUSTING_SCREW),
    piece("lock_nut", Span::Ring, Hatch::NarrowFalling, LOCK_NUT),
    piece("cap", Span::Across, Hatch::MiddleRising, CAP),
];

const BODY_LEFT: &[Corner] = &[
    sharp(52.0, 2.0),
    round(84.0, 2.0, 1.5),
    round(84.0, 24.0, 1.5),
    round(58.0, 24.0, 7.0),
    round(58.0, 56.0, 12.0),
    round(87.0, 88.0, 18.0),
    round(87.0, 222.0, 4.0),
    round(96.0, 230.0, 3.0),
    round(96.0, 258.0, 1.5),
    sharp(68.0, 258.0),
    sharp(68.0, 246.0),
    sharp(60.0, 246.0),
    sharp(60.0, 236.0),
    round(71.0, 227.0, 4.0),
    round(71.0, 98.0, 14.0),
    sharp(40.0, 98.0),
    sharp(40.0, 10.0),
    sharp(52.0, 10.0),
];

const BODY_BELOW_OUTLET: &[Corner] = &[
    sharp(52.0, 2.0),
    round(84.0, 2.0, 1.5),
    round(84.0, 24.0, 1.5),
    round(58.0, 24.0, 7.0),
    round(58.0, 56.0, 12.0),
    round(82.0, 84.0, 14.0),
    round(132.0, 84.0, 7.0),
    round(132.0, 52.0, 1.5),
    round(152.0, 52.0, 1.5),
    sharp(152.0, 78.0),
    sharp(154.0, 78.0),
    sharp(154.0, 98.0),
    sharp(40.0, 98.0),
    sharp(40.0, 10.0),
    sharp(52.0, 10.0),
];

const BODY_ABOVE_OUTLET: &[Corner] = &[
    sharp(68.0, 258.0),
    round(96.0, 258.0, 1.5),
    round(96.0, 230.0, 3.0),
    round(87.0, 222.0, 4.0),
    round(87.0, 208.0, 7.0),
    round(132.0, 208.0, 7.0),
    round(132.0, 240.0, 1.5),
    round(152.0, 240.0, 1.5),
    sharp(152.0, 214.0),
    sharp(154.0, 214.0),
    sharp(154.0, 194.0),
    round(71.0, 194.0, 3.0),
    round(71.0, 227.0, 4.0),
    sharp(60.0, 236.0),
    sharp(60.0, 246.0),
    sharp(68.0, 246.0),
];

const NOZZLE: &[Corner] = &[
    sharp(31.0, 0.0),
    sharp(52.0, 0.0),
    sharp(52.0, 10.0),
    sharp(40.0, 10.0),
    sharp(40.0, 103.0),
    round(31.0, 114.0, 4.0),
    sharp(31.0, 154.0),
    sharp(29.0, 158.0),
    sharp(22.0, 158.0),
    sharp(22.0, 122.0),
    sharp(31.0, 66.0),
];

const DISC: &[Corner] = &[
    sharp(0.0, 161.5),
    sharp(19.0, 161.5),
    sharp(21.0, 158.0),
    sharp(34.0, 158.0),
    sharp(34.0, 170.0),
    sharp(0.0, 170.0),
];

const DISC_HOLDER: &[Corner] = &[
    sharp(0.0, 170.0),
    sharp(34.0, 170.0),
    sharp(34.0, 156.5),
    round(44.0, 156.5, 2.0),
    round(44.0, 176.0, 4.0),
    sharp(20.0, 182.0),
    sharp(20.0, 242.0),
    sharp(12.0, 242.0),
    round(12.0, 175.0, 3.0),
    sharp(0.0, 175.0),
];

const GUIDE: &[Corner] = &[
    sharp(20.0, 193.0),
    round(31.0, 193.0, 1.5),
    round(31.0, 246.0, 5.0),
    sharp(68.0, 246.0),
    sharp(68.0, 258.0),
    sharp(20.0, 258.0),
];

const LOWER_WASHER: &[Corner] = &[
    sharp(18.0, 296.0),
    round(42.0, 296.0, 1.5),
    sharp(42.0, 308.0),
    sharp(27.0, 308.0),
    round(27.0, 320.0, 2.0),
    sharp(11.5, 320.0),
    sharp(11.5, 302.5),
];

const UPPER_WASHER: &[Corner] = &[
    sharp(18.0, 500.0),
    round(42.0, 500.0, 1.5),
    sharp(42.0, 488.0),
    sharp(27.0, 488.0),
    round(27.0, 476.0, 2.0),
    sharp(11.5, 476.0),
    sharp(11.5, 493.5),
];

const ADJUSTING_SCREW: &[Corner] = &[
    sharp(9.0, 493.5),
    sharp(11.5, 493.5),
    sharp(17.0, 499.0),
    sharp(17.0, 590.0),
    sharp(13.5, 593.0),
    sharp(13.5, 608.0),
    sharp(12.0, 610.0),
    sharp(9.0, 610.0),
];

const LOCK_NUT: &[Corner] =
    &[sharp(17.0, 562.0), sharp(31.0, 562.0), sharp(31.0, 574.0), sharp(28.0, 577.0), sharp(17.0, 577.0)];

const BONNET: &[Corner] = &[
    sharp(50.0, 258.0),
    round(96.0, 258.0, 1.5),
    round(96.0, 278.0, 1.5),
    round(62.0, 278.0, 6.0),
    round(62.0, 512.0, 12.0),
    sharp(49.0, 532.0),
    sharp(38.0, 532.0),
    sharp(38.0, 560.0),
    sharp(36.0, 562.0),
    sharp(17.0, 562.0),
    sharp(17.0, 520.0),
    round(42.0, 520.0, 5.0),
    round(50.0, 506.0, 4.0),
];

const CAP: &[Corner] = &[
    sharp(0.0, 637.0),
    round(36.0, 637.0, 12.0),
    sharp(36.0, 566.0),
    sharp(38.0, 564.0),
    sharp(38.0, 532.0),
    sharp(49.0, 532.0),
    round(49.0, 562.0, 2.0),
    round(45.0, 566.0, 2.0),
    round(45.0, 648.0, 18.0),
    sharp(0.0, 648.0),
];
