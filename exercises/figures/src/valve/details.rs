//! What is not an outline of a numbered part: edges seen behind the section, holes, threads, studs, the seal, and
//! centre lines.

use super::outline::{AXIS, INLET_FACE, Outline, Side, round, sharp};
use crate::svg::{Point, Svg, closed_path, open_path, pair};

/// Height of the outlet's axis above the inlet face.
const OUTLET: f64 = 146.0;
/// Radius of the outlet's bore.
const OUTLET_BORE: f64 = 48.0;
/// Distance of the outlet's face from the valve's axis.
const OUTLET_FACE: f64 = 154.0;
/// Bolts of the inlet flange, of the outlet flange (from its axis), and studs of the bonnet.
const INLET_BOLTS: f64 = 68.0;
const OUTLET_BOLTS: f64 = 81.0;
const STUDS: f64 = 79.0;
/// Half the width of a bolt hole.
const HOLE: f64 = 6.0;

/// Edges of rings seen edge-on behind the cutting plane: half their length and their height.
const EDGES: &[(f64, f64)] = &[
    (31.0, 0.0),
    (31.0, 66.0),
    (22.0, 122.0),
    (22.0, 158.0),
    (71.0, 227.0),
    (60.0, 236.0),
    (60.0, 246.0),
    (20.0, 258.0),
    (12.0, 242.0),
    (50.0, 258.0),
    (42.0, 520.0),
    (50.0, 506.0),
    (36.0, 566.0),
];

/// Edges that show behind the cut.
pub(super) fn edges_behind(svg: &mut Svg) {
    for (half, up) in EDGES {
        svg.line("fig-edge", Side::Left.place(*half, *up), Side::Right.place(*half, *up));
    }
    svg.path("fig-edge", &outlet_meets_bowl());
    let face = |up: f64| Side::Right.place(OUTLET_FACE, OUTLET + up);
    svg.line("fig-edge", face(-OUTLET_BORE), face(OUTLET_BORE));
}

/// The line in which the outlet's bore meets the bowl of the body: two cylinders at right angles.
fn outlet_meets_bowl() -> String {
    const BOWL: f64 = 71.0;
    const STEPS: u32 = 24;
    let mut points = Vec::new();
    for step in 0..=STEPS {
        let up = OUTLET_BORE * (f64::from(step) * 2.0 / f64::from(STEPS) - 1.0);
        let deep = OUTLET_BORE * OUTLET_BORE - up * up;
        points.push(Side::Right.place((BOWL * BOWL - deep).sqrt(), OUTLET + up));
    }
    open_path(&points)
}

fn rectangle(side: Side, out: (f64, f64), up: (f64, f64)) -> String {
    let places = [(out.0, up.0), (out.1, up.0), (out.1, up.1), (out.0, up.1)];
    closed_path(&places.map(|(out, up)| side.place(out, up)))
}

/// Bolt holes, turned into the plane of the section, and the holes by which the bonnet drains into the body.
pub(super) fn holes(svg: &mut Svg) {
    svg.open("g", &[("class", "fig-holes")]);
    for side in Side::BOTH {
        svg.path("fig-whole", &rectangle(side, (INLET_BOLTS - HOLE, INLET_BOLTS + HOLE), (2.0, 24.0)));
        svg.path("fig-whole", &rectangle(side, (37.0, 44.0), (246.0, 258.0)));
    }
    for middle in [OUTLET - OUTLET_BOLTS, OUTLET + OUTLET_BOLTS] {
        svg.path("fig-whole", &rectangle(Side::Right, (132.0, 152.0), (middle - HOLE, middle + HOLE)));
    }
    svg.close("g");
}

/// Roots of the threads as thin lines: distance from the axis, and from which height to which.
const THREADS: &[(f64, f64, f64)] =
    &[(37.6, 50.0, 98.0), (15.0, 520.0, 562.0), (15.0, 562.0, 577.0), (15.0, 577.0, 590.0), (36.0, 534.0, 560.0)];

/// Threads.
pub(super) fn threads(svg: &mut Svg) {
    svg.open("g", &[("class", "fig-threads")]);
    for (out, from, to) in THREADS {
        for side in Side::BOTH {
            svg.line("fig-thin", side.place(*out, *from), side.place(*out, *to));
        }
    }
    svg.close("g");
}

/// Studs and nuts that hold the bonnet: drawn whole.
pub(super) fn studs(svg: &mut Svg) {
    svg.open("g", &[("class", "fig-studs")]);
    for side in Side::BOTH {
        svg.path("fig-whole", &rectangle(side, (STUDS - 6.5, STUDS + 6.5), (258.0, 278.0)));
        svg.path("fig-whole", &stud(side));
        for out in [STUDS - 4.2, STUDS + 4.2] {
            svg.line("fig-thin", side.place(out, 229.0), side.place(out, 250.0));
        }
        nut(svg, side);
    }
    svg.close("g");
}

fn stud(side: Side) -> String {
    let corners = [(-5.2, 228.0), (5.2, 228.0), (5.2, 295.0), (4.0, 297.0), (-4.0, 297.0), (-5.2, 295.0)];
    closed_path(&corners.map(|(out, up)| side.place(STUDS + out, up)))
}

fn nut(svg: &mut Svg, side: Side) {
    let corners = [(-10.0, 278.0), (10.0, 278.0), (10.0, 287.0), (8.0, 289.0), (-8.0, 289.0), (-10.0, 287.0)];
    svg.path("fig-whole", &closed_path(&corners.map(|(out, up)| side.place(STUDS + out, up))));
    for out in [STUDS - 5.0, STUDS + 5.0] {
        svg.line("fig-thin", side.place(out, 278.0), side.place(out, 288.0));
    }
}

/// The seat: the face of the nozzle on which the disc stands.
pub(super) fn seat(svg: &mut Svg) {
    for side in Side::BOTH {
        svg.line("fig-seat", side.place(22.0, 158.0), side.place(29.0, 158.0));
    }
}

/// The far halves of the bores of the spring washers, which hide the spring behind them.
pub(super) fn bores(svg: &mut Svg) {
    for up in [(303.0, 320.0), (476.0, 493.0)] {
        svg.path(
            "fig-whole",
            &closed_path(&[
                Side::Left.place(11.5, up.0),
                Side::Right.place(11.5, up.0),
                Side::Right.place(11.5, up.1),
                Side::Left.place(11.5, up.1),
            ]),
        );
    }
}

/// The ring that keeps the spindle in the disc holder: too thin to hatch, so filled.
pub(super) fn retaining_ring(svg: &mut Svg) {
    for side in Side::BOTH {
        svg.path("fig-filled", &rectangle(side, (8.5, 14.0), (229.0, 232.0)));
    }
}

/// Ears on cap and bonnet, the wire through both, and the seal that closes it.
pub(super) fn seal(svg: &mut Svg) {
    svg.path("fig-whole", &ear((49.0, 60.0), 545.0));
    svg.path("fig-whole", &ear((62.0, 73.0), 494.0));
    let at = |out: f64, up: f64| Side::Left.place(out, up);
    let (upper, lower, lead) = (at(55.0, 545.0), at(68.0, 494.0), at(74.0, 522.0));
    svg.circle("fig-whole", upper, 2.4);
    svg.circle("fig-whole", lower, 2.4);
    for strand in [0.0, 3.4] {
        let (high, low) = (
            [at(66.0 - strand, 549.0 - strand), at(74.0 - strand, 540.0 - strand)],
            [at(77.0 + strand, 494.0 + strand), at(75.0 + strand, 506.0 + strand)],
        );
        svg.path("fig-wire", &curve(upper, high, lead));
        svg.path("fig-wire", &curve(lower, low, lead));
    }
    svg.circle("fig-filled", lead, 4.6);
}

fn curve(from: Point, via: [Point; 2], to: Point) -> String {
    format!("M{}C{} {} {}", pair(from), pair(via[0]), pair(via[1]), pair(to))
}

/// A drilled ear on the left, rounded at its free end.
fn ear(out: (f64, f64), middle: f64) -> String {
    let corners = [
        sharp(out.0, middle - 6.0),
        round(out.1, middle - 6.0, 4.0),
        round(out.1, middle + 6.0, 4.0),
        sharp(out.0, middle + 6.0),
    ];
    Outline::on_side(&corners, Side::Left).data()
}

/// Axes as long-short chains.
pub(super) fn centre_lines(svg: &mut Svg) {
    svg.open("g", &[("class", "fig-axes")]);
    axis(svg, Point::new(AXIS, 6.0), Point::new(AXIS, INLET_FACE + 14.0));
    axis(svg, Side::Right.place(50.0, OUTLET), Side::Right.place(166.0, OUTLET));
    for side in Side::BOTH {
        axis(svg, side.place(INLET_BOLTS, 32.0), side.place(INLET_BOLTS, -6.0));
        axis(svg, side.place(STUDS, 303.0), side.place(STUDS, 220.0));
    }
    for middle in [OUTLET - OUTLET_BOLTS, OUTLET + OUTLET_BOLTS] {
        axis(svg, Side::Right.place(124.0, middle), Side::Right.place(160.0, middle));
    }
    svg.close("g");
}

fn axis(svg: &mut Svg, from: Point, to: Point) {
    svg.line("fig-axis", from, to);
}
