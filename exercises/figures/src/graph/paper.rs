//! The ruled sheet: round divisions, finer ones between, and the numbers along two edges.

use super::trace::{Axis, Graph};
use crate::scale::{Scale, Step};
use crate::svg::{Anchor, Point, Svg, number};
use crate::text::{SIZE, width};

/// Width of the sheet.
pub(super) const WIDTH: f64 = 420.0;
/// Height of the sheet.
pub(super) const HEIGHT: f64 = 330.0;
/// Upper edge of the ruling, below the title of the upright axis.
const TOP: f64 = 26.0;
/// Lower edge of the ruling, above the numbers and the title along it.
const BOTTOM: f64 = HEIGHT - 44.0;
/// Right edge of the ruling.
const RIGHT: f64 = WIDTH - 14.0;

/// Both scales and their divisions.
#[derive(Debug)]
pub(super) struct Paper {
    across: Scale,
    up: Scale,
    steps: [Step; 2],
}

impl Paper {
    pub(super) fn new(graph: &Graph) -> Self {
        let up = Scale { from: (graph.up.low, BOTTOM), to: (graph.up.high, TOP) };
        let up_step = up.step(&|_| 3.0 * SIZE);
        let numbers = up_step.along(graph.up.low, graph.up.high);
        let room = numbers.iter().map(|(_, text)| width(text)).fold(0.0, f64::max);
        let across = Scale { from: (graph.across.low, room + 12.0), to: (graph.across.high, RIGHT) };
        let step = across.step(&|text| width(text) + 1.6 * SIZE);
        // The sheet ends at lines of its ruling.
        let (across, up) = (whole(across, step, &graph.across), whole(up, up_step, &graph.up));
        Self { across, up, steps: [step, up_step] }
    }

    pub(super) fn place(&self, x: f64, y: f64) -> Point {
        Point::new(self.across.place(x), self.up.place(y))
    }

    /// A value along the sheet, as near as it can be read: to a tenth of the finer division.
    pub(super) fn across(&self, value: f64) -> String {
        read(value, self.steps[0])
    }

    /// A value up the sheet, as near as it can be read.
    pub(super) fn up(&self, value: f64) -> String {
        read(value, self.steps[1])
    }

    /// The ruling with its numbers and titles.
    pub(super) fn rule(&self, svg: &mut Svg, titles: [&str; 2]) {
        let [across, up] = [(self.across, self.steps[0]), (self.up, self.steps[1])];
        for (class, finer) in [("fig-rule-fine", true), ("fig-rule", false)] {
            let mut data = String::new();
            for (scale, step, upright) in [(across.0, across.1, true), (up.0, up.1, false)] {
                let step = if finer { step.finer() } else { step };
                for (value, _) in step.along(scale.from.0, scale.to.0) {
                    self.line(scale.place(value), upright, &mut data);
                }
            }
            svg.path(class, &data);
        }
        svg.open("g", &[("font-size", &number(SIZE))]);
        for (value, text) in across.1.along(across.0.from.0, across.0.to.0) {
            let at = Point::new(across.0.place(value), BOTTOM + SIZE + 4.0);
            svg.label("fig-text", at, Anchor::Middle, &text);
        }
        for (value, text) in up.1.along(up.0.from.0, up.0.to.0) {
            let at = Point::new(self.across.from.1 - 5.0, up.0.place(value) + SIZE * 0.36);
            svg.label("fig-text", at, Anchor::End, &text);
        }
        svg.label("fig-text", Point::new(RIGHT, HEIGHT - 6.0), Anchor::End, titles[0]);
        svg.label("fig-text", Point::new(4.0, SIZE + 1.0), Anchor::Start, titles[1]);
        svg.close("g");
    }

    /// A line right across the ruling, as path data.
    fn line(&self, place: f64, upright: bool, data: &mut String) {
        let place = number(place);
        let (left, right, top, bottom) = (number(self.across.from.1), number(RIGHT), number(TOP), number(BOTTOM));
        let words =
            if upright { ["M", &place, " ", &top, "V", &bottom] } else { ["M", &left, " ", &place, "H", &right] };
        words.iter().for_each(|word| data.push_str(word));
    }
}

/// The scale between the lines of the ruling that lie just outside the values.
fn whole(scale: Scale, step: Step, axis: &Axis) -> Scale {
    let size = step.finer().size();
    let (low, high) = (libm::floor(axis.low / size + 1e-9) * size, libm::ceil(axis.high / size - 1e-9) * size);
    Scale { from: (low, scale.from.1), to: (high, scale.to.1) }
}

fn read(value: f64, step: Step) -> String {
    let tenth = step.finer().tenth();
    tenth.text(libm::round(value / tenth.size()) * tenth.size())
}
