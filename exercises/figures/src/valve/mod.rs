//! A spring-loaded relief valve in section, closed, with its numbered parts.

mod details;
mod hatch;
mod outline;
mod parts;
mod pieces;
mod spring;

pub use parts::{Part, VALVE_PARTS};

use crate::measure::Label;
use crate::path::Path;
use crate::svg::{Frame, Svg, number, sheet};
use crate::text::SIZE;
use hatch::Hatch;
use outline::{Outline, Side};
use parts::{BALLOONS, Balloon, End};
use pieces::{Piece, SECTIONS, SPINDLE, Span};

/// The figure's id.
pub(crate) const ID: &str = "relief_valve_section";

const WIDTH: f64 = 420.0;
const HEIGHT: f64 = 690.0;
const BALLOON: f64 = 12.0;
/// How far from its middle a balloon is still pointed at: wide enough for a finger on a phone.
const REACH: f64 = 18.0;

/// The keys of the words that the figure asks for.
pub(crate) const LABELS: &[&str] = &[
    "title",
    "description",
    "parts.body.name",
    "parts.nozzle.name",
    "parts.seat.name",
    "parts.disc.name",
    "parts.disc_holder.name",
    "parts.guide.name",
    "parts.spindle.name",
    "parts.seal_wire.name",
    "parts.cap.name",
    "parts.lock_nut.name",
    "parts.adjusting_screw.name",
    "parts.bonnet.name",
    "parts.upper_washer.name",
    "parts.spring.name",
    "parts.lower_washer.name",
];

/// The whole figure.
pub(crate) fn draw(label: &Label, prefix: &str) -> String {
    let frame = Frame {
        figure: ID,
        prefix,
        width: WIDTH,
        height: HEIGHT,
        title: label("title"),
        description: label("description"),
    };
    sheet(&frame, |svg| {
        valve(svg);
        details::centre_lines(svg);
        balloons(svg, label);
    })
}

/// From back to front, so that what is nearer hides what is farther.
fn valve(svg: &mut Svg) {
    details::edges_behind(svg);
    part(svg, "spring", |svg| {
        details::between_turns(svg);
        spring::far_halves(svg);
    });
    part(svg, "lower_washer", |svg| details::bore(svg, (303.0, 320.0)));
    part(svg, "upper_washer", |svg| details::bore(svg, (476.0, 493.0)));
    draw_part(svg, &[SPINDLE]);
    part(svg, "spring", spring::cuts);
    for pieces in SECTIONS.chunk_by(|one, next| one.part == next.part) {
        draw_part(svg, pieces);
    }
    details::retaining_ring(svg);
    details::holes(svg);
    details::threads(svg);
    details::studs(svg);
    part(svg, "seat", details::seat);
    part(svg, "seal_wire", details::seal);
}

/// A group that a page or a question can find by the part's id.
fn part(svg: &mut Svg, id: &str, draw: impl FnOnce(&mut Svg)) {
    svg.open("g", &[("class", "fig-part"), ("data-part", id)]);
    draw(svg);
    svg.close("g");
}

/// The pieces of one part.
fn draw_part(svg: &mut Svg, pieces: &[Piece]) {
    let Some(first) = pieces.first() else { return };
    part(svg, first.part, |svg| faces(svg, first.hatch, &pieces.iter().flat_map(outlines).collect::<Vec<_>>()));
}

fn outlines(piece: &Piece) -> Vec<Outline> {
    match piece.span {
        Span::Ring => Side::BOTH.map(|side| Outline::on_side(piece.corners, side)).into(),
        Span::Left => vec![Outline::on_side(piece.corners, Side::Left)],
        Span::Right => vec![Outline::on_side(piece.corners, Side::Right)],
        Span::Across => vec![Outline::across(piece.corners)],
    }
}

/// Faces on the ground of the page, so that nothing behind shows between the lines of the hatching, which end at the
/// outline.
fn faces(svg: &mut Svg, hatch: Option<Hatch>, outlines: &[Outline]) {
    let mut faces = Path::default();
    outlines.iter().for_each(|outline| outline.trace(&mut faces));
    svg.path(if hatch.is_some() { "fig-cut" } else { "fig-whole" }, &faces.finish());
    let Some(hatch) = hatch else { return };
    let mut lines = Path::default();
    outlines.iter().for_each(|outline| hatch.lines(&outline.polygon(), &mut lines));
    svg.path("fig-hatch", &lines.finish());
}

/// The key of a part's name: a pointer that rests on a balloon shows it.
fn name_key(part: &Part) -> String {
    format!("parts.{}.name", part.id)
}

fn balloons(svg: &mut Svg, label: &Label) {
    svg.open("g", &[("class", "fig-number fig-middle"), ("font-size", &number(SIZE))]);
    for (part, balloon) in VALVE_PARTS.iter().zip(BALLOONS) {
        svg.open("g", &[("class", "fig-balloon"), ("data-part", part.id)]);
        svg.words("title", &[], &label(&name_key(part)));
        svg.circle("fig-hit", balloon.centre(), REACH);
        leader(svg, balloon);
        svg.circle("fig-ring", balloon.centre(), BALLOON);
        let (text, at) = (number(f64::from(part.number)), balloon.centre().moved(0.0, SIZE * 0.36));
        svg.words("text", &[("x", &number(at.x)), ("y", &number(at.y))], &text);
        svg.close("g");
    }
    svg.close("g");
}

fn leader(svg: &mut Svg, balloon: &Balloon) {
    let (from, to) = (balloon.centre(), balloon.points_to());
    let start = from.towards(to, BALLOON);
    let mut line = Path::default();
    line.line(start, if balloon.end == End::Arrow { to.towards(from, 4.0) } else { to });
    svg.path("fig-leader", &line.finish());
    match balloon.end {
        End::Dot => svg.circle("fig-dot", to, 2.0),
        End::Arrow => svg.path("fig-arrow", &crate::arrow::slender(to, from)),
    }
}
