//! What is not an outline of a numbered part: edges seen behind the section, holes, threads, studs, the seal, and
//! centre lines.

use super::outline::{AXIS, INLET_FACE, Outline, Side, round, sharp};
use crate::path::Path;
use crate::svg::{Point, Svg};

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
    let mut edges = Path::default();
    for (half, up) in EDGES {
        edges.line(Side::Left.place(*half, *up), Side::Right.place(*half, *up));
    }
    outlet_meets_bowl(&mut edges);
    let face = |up: f64| Side::Right.place(OUTLET_FACE, OUTLET + up);
    edges.line(face(-OUTLET_BORE), face(OUTLET_BORE));
    svg.path("fig-edge", &edges.finish());
}

/// The line in which the outlet's bore meets the bowl of the body: two cylinders at right angles.
fn outlet_meets_bowl(edges: &mut Path) {
    const BOWL: f64 = 71.0;
    const STEPS: u32 = 24;
    for step in 0..=STEPS {
        let up = OUTLET_BORE * (f64::from(step) * 2.0 / f64::from(STEPS) - 1.0);
        let deep = OUTLET_BORE * OUTLET_BORE - up * up;
        let point = Side::Right.place((BOWL * BOWL - deep).sqrt(), OUTLET + up);
        if step == 0 { edges.move_to(point) } else { edges.line_to(point) }
    }
}

/// Adds a rectangle to a path.
fn rectangle(path: &mut Path, side: Side, out: (f64, f64), up: (f64, f64)) {
    let places = [(out.0, up.0), (out.1, up.0), (out.1, up.1), (out.0, up.1)];
    path.polygon(&places.map(|(out, up)| side.place(out, up)));
}

/// One shape, in one path, on both sides of the axis.
fn both(svg: &mut Svg, class: &str, shape: impl Fn(&mut Path, Side)) {
    let mut path = Path::default();
    Side::BOTH.into_iter().for_each(|side| shape(&mut path, side));
    svg.path(class, &path.finish());
}

/// Bolt holes, turned into the plane of the section, and the holes by which the bonnet drains into the body.
pub(super) fn holes(svg: &mut Svg) {
    let mut path = Path::default();
    for side in Side::BOTH {
        rectangle(&mut path, side, (INLET_BOLTS - HOLE, INLET_BOLTS + HOLE), (2.0, 24.0));
        rectangle(&mut path, side, (37.0, 44.0), (246.0, 258.0));
    }
    for middle in [OUTLET - OUTLET_BOLTS, OUTLET + OUTLET_BOLTS] {
        rectangle(&mut path, Side::Right, (132.0, 152.0), (middle - HOLE, middle + HOLE));
    }
    svg.path("fig-whole fig-past", &path.finish());
}

/// Roots of the threads as thin lines: distance from the axis, and from which height to which.
const THREADS: &[(f64, f64, f64)] =
    &[(37.6, 50.0, 98.0), (15.0, 520.0, 562.0), (15.0, 562.0, 577.0), (15.0, 577.0, 590.0), (36.0, 534.0, 560.0)];

/// Threads.
pub(super) fn threads(svg: &mut Svg) {
    both(svg, "fig-thin fig-past", |path, side| {
        for (out, from, to) in THREADS {
            path.line(side.place(*out, *from), side.place(*out, *to));
        }
    });
}

const STUD: [(f64, f64); 6] = [(-5.2, 228.0), (5.2, 228.0), (5.2, 295.0), (4.0, 297.0), (-4.0, 297.0), (-5.2, 295.0)];
const NUT: [(f64, f64); 6] =
    [(-10.0, 278.0), (10.0, 278.0), (10.0, 287.0), (8.0, 289.0), (-8.0, 289.0), (-10.0, 287.0)];

/// Studs and nuts that hold the bonnet: drawn whole.
pub(super) fn studs(svg: &mut Svg) {
    svg.open("g", &[("class", "fig-studs")]);
    both(svg, "fig-whole", |path, side| rectangle(path, side, (STUDS - 6.5, STUDS + 6.5), (258.0, 278.0)));
    for shape in [STUD, NUT] {
        both(svg, "fig-whole", |path, side| path.polygon(&shape.map(|(out, up)| side.place(STUDS + out, up))));
    }
    both(svg, "fig-thin", |path, side| {
        for (out, low, high) in [(-4.2, 229.0, 250.0), (4.2, 229.0, 250.0), (-5.0, 278.0, 288.0), (5.0, 278.0, 288.0)] {
            path.line(side.place(STUDS + out, low), side.place(STUDS + out, high));
        }
    });
    svg.close("g");
}

/// The seat: the face of the nozzle on which the disc rests.
pub(super) fn seat(svg: &mut Svg) {
    both(svg, "fig-hit", |path, side| rectangle(path, side, (18.0, 34.0), (151.0, 160.5)));
    both(svg, "fig-seat", |path, side| path.line(side.place(22.0, 158.0), side.place(29.0, 158.0)));
}

/// Where the spring is pointed at between its turns.
pub(super) fn between_turns(svg: &mut Svg) {
    both(svg, "fig-hit", |path, side| rectangle(path, side, (0.0, 41.0), (300.0, 496.0)));
}

/// The far half of the bore of a spring washer, which hides the spring behind it.
pub(super) fn bore(svg: &mut Svg, up: (f64, f64)) {
    let mut path = Path::default();
    path.polygon(&[
        Side::Left.place(11.5, up.0),
        Side::Right.place(11.5, up.0),
        Side::Right.place(11.5, up.1),
        Side::Left.place(11.5, up.1),
    ]);
    svg.path("fig-whole", &path.finish());
}

/// The ring that keeps the spindle in the disc holder: too thin to hatch, so filled.
pub(super) fn retaining_ring(svg: &mut Svg) {
    both(svg, "fig-filled fig-past", |path, side| rectangle(path, side, (8.5, 14.0), (229.0, 232.0)));
}

/// Ears on cap and bonnet, the wire through both, and the seal that closes it.
pub(super) fn seal(svg: &mut Svg) {
    let mut hit = Path::default();
    rectangle(&mut hit, Side::Left, (63.0, 86.0), (486.0, 556.0));
    svg.path("fig-hit", &hit.finish());
    let at = |out: f64, up: f64| Side::Left.place(out, up);
    let (upper, lower, lead) = (at(55.0, 545.0), at(68.0, 494.0), at(74.0, 522.0));
    let (mut ears, mut wire) = (Path::default(), Path::default());
    ear(&mut ears, (49.0, 60.0), 545.0);
    ear(&mut ears, (62.0, 73.0), 494.0);
    [upper, lower].into_iter().for_each(|hole| ears.circle(hole, 2.4));
    for strand in [0.0, 3.4] {
        wire.move_to(upper);
        wire.bend_to([at(66.0 - strand, 549.0 - strand), at(74.0 - strand, 540.0 - strand)], lead);
        wire.move_to(lower);
        wire.bend_to([at(77.0 + strand, 494.0 + strand), at(75.0 + strand, 506.0 + strand)], lead);
    }
    svg.path("fig-whole", &ears.finish());
    svg.path("fig-wire", &wire.finish());
    svg.circle("fig-filled", lead, 4.6);
}

/// A drilled ear on the left, rounded at its free end.
fn ear(path: &mut Path, out: (f64, f64), middle: f64) {
    let corners = [
        sharp(out.0, middle - 6.0),
        round(out.1, middle - 6.0, 4.0),
        round(out.1, middle + 6.0, 4.0),
        sharp(out.0, middle + 6.0),
    ];
    Outline::on_side(&corners, Side::Left).trace(path);
}

/// Axes as long-short chains.
pub(super) fn centre_lines(svg: &mut Svg) {
    let mut axes = Path::default();
    axes.line(Point::new(AXIS, 6.0), Point::new(AXIS, INLET_FACE + 14.0));
    axes.line(Side::Right.place(50.0, OUTLET), Side::Right.place(166.0, OUTLET));
    for side in Side::BOTH {
        axes.line(side.place(INLET_BOLTS, 32.0), side.place(INLET_BOLTS, -6.0));
        axes.line(side.place(STUDS, 303.0), side.place(STUDS, 220.0));
    }
    for middle in [OUTLET - OUTLET_BOLTS, OUTLET + OUTLET_BOLTS] {
        axes.line(Side::Right.place(124.0, middle), Side::Right.place(160.0, middle));
    }
    svg.path("fig-axis fig-past", &axes.finish());
}
