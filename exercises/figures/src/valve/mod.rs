//! A spring-loaded relief valve in section, closed, with its numbered parts.

mod details;
mod hatch;
mod outline;
mod parts;
mod pieces;
mod spring;

pub use parts::{Part, VALVE_PARTS};

use crate::registry::Label;
use crate::svg::{Anchor, Frame, Svg, number, sheet};
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
    part(svg, "spring", spring::far_halves);
    details::bores(svg);
    draw_piece(svg, &SPINDLE);
    part(svg, "spring", spring::cuts);
    for piece in SECTIONS {
        draw_piece(svg, piece);
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

fn draw_piece(svg: &mut Svg, piece: &Piece) {
    let outlines = match piece.span {
        Span::Ring => Side::BOTH.map(|side| Outline::on_side(piece.corners, side)).into(),
        Span::Left => vec![Outline::on_side(piece.corners, Side::Left)],
        Span::Right => vec![Outline::on_side(piece.corners, Side::Right)],
        Span::Across => vec![Outline::across(piece.corners)],
    };
    part(svg, piece.part, |svg| {
        for outline in &outlines {
            face(svg, piece.hatch, outline);
        }
    });
}

/// Ground first, so that nothing behind shows between the lines of the hatching.
fn face(svg: &mut Svg, hatch: Option<Hatch>, outline: &Outline) {
    let data = outline.data();
    let Some(hatch) = hatch else { return svg.path("fig-whole", &data) };
    svg.path("fig-ground", &data);
    svg.path("fig-hatch", &hatch.lines(&outline.polygon()));
    svg.path("fig-cut", &data);
}

/// The key of a part's name: a pointer that rests on a balloon is told it.
fn name_key(part: &Part) -> String {
    format!("parts.{}.name", part.id)
}

fn balloons(svg: &mut Svg, label: &Label) {
    svg.open("g", &[("font-size", &number(SIZE))]);
    for (part, balloon) in VALVE_PARTS.iter().zip(BALLOONS) {
        svg.open("g", &[("class", "fig-balloon"), ("data-part", part.id)]);
        svg.words("title", &[], &label(&name_key(part)));
        leader(svg, balloon);
        svg.circle("fig-ring", balloon.centre(), BALLOON);
        let text = number(f64::from(part.number));
        svg.label("fig-number", balloon.centre().moved(0.0, SIZE * 0.36), Anchor::Middle, &text);
        svg.close("g");
    }
    svg.close("g");
}

fn leader(svg: &mut Svg, balloon: &Balloon) {
    let (from, to) = (balloon.centre(), balloon.points_to());
    let start = from.towards(to, BALLOON);
    match balloon.end {
        End::Dot => {
            svg.line("fig-leader", start, to);
            svg.circle("fig-dot", to, 2.0);
        }
        End::Arrow => {
            svg.line("fig-leader", start, to.towards(from, 4.0));
            svg.path("fig-arrow", &crate::arrow::slender(to, from));
        }
    }
}
