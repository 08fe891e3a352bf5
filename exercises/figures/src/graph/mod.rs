//! Traces on graph paper, made for reading values off: nothing that could be asked is written on them.

pub(crate) mod bench;
pub(crate) mod lift;
mod paper;
mod trace;
mod values;

use crate::measure::Label;
use crate::svg::{Frame, Point, open_path, sheet};
use paper::Paper;
use trace::{Axis, Graph};

/// A trace as a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Readings {
    /// What the two columns are, with their units.
    pub heads: [String; 2],
    /// Pairs of values, in the order in which the trace is run through.
    pub rows: Vec<[String; 2]>,
}

/// The trace on its paper.
pub(crate) fn draw(graph: &Graph, label: &Label, prefix: &str) -> String {
    let paper = Paper::new(graph);
    let frame = Frame {
        figure: graph.id,
        prefix,
        width: paper::WIDTH,
        height: paper::HEIGHT,
        title: label("title"),
        description: label("description"),
    };
    sheet(&frame, |svg| {
        paper.rule(svg, [&head(&graph.across, label), &head(&graph.up, label)]);
        for piece in &graph.pieces {
            let points: Vec<Point> = piece.points.iter().map(|(x, y)| paper.place(*x, *y)).collect();
            svg.path(piece.class, &open_path(&points));
            if let Some([from, to]) = points.get(piece.arrow..piece.arrow + 2) {
                let tip = from.moved((to.x - from.x) * 0.6, (to.y - from.y) * 0.6);
                svg.path("fig-arrow", &crate::arrow::stout(tip, *from));
            }
        }
    })
}

fn head(axis: &Axis, label: &Label) -> String {
    label(axis.label).replace("{unit}", &axis.unit)
}

/// How many steps each stretch between two corners is read in.
const STEPS: u32 = 4;

/// The trace as a list: its corners, and points between them at even steps, so that a corner is found where the
/// values turn, as the eye finds it.
pub(crate) fn readings(graph: &Graph, label: &Label) -> Readings {
    let paper = Paper::new(graph);
    let mut rows: Vec<[String; 2]> = Vec::new();
    let mut add = |x: f64, y: f64| {
        let row = [paper.across(x), paper.up(y)];
        if rows.last() != Some(&row) {
            rows.push(row);
        }
    };
    for piece in &graph.pieces {
        for stretch in piece.points.windows(2) {
            let [(x, y), (to_x, to_y)] = [stretch[0], stretch[1]];
            for step in 0..=STEPS {
                let share = f64::from(step) / f64::from(STEPS);
                add(x + (to_x - x) * share, y + (to_y - y) * share);
            }
        }
    }
    Readings { heads: [head(&graph.across, label), head(&graph.up, label)], rows }
}

#[cfg(test)]
mod tests;
