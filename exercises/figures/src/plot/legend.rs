//! The legend: what the numbers and the two kinds of line mean.

use super::extents::{MARGIN, WIDTH};
use super::picture::{BALLOON, Balloon, Picture};
use super::trace::Trace;
use super::words::with_value;
use crate::measure::Label;
use crate::svg::{Anchor, Point};
use crate::text::{SIZE, width};

const ROW: f64 = 22.0;
const LINE: f64 = 30.0;
const GAP: f64 = 5.0;
const BETWEEN: f64 = 14.0;

/// What comes before the words of an entry.
#[derive(Clone, Copy, Debug)]
enum Sign {
    Balloon(u8),
    Line(&'static str),
}

impl Sign {
    const fn width(self) -> f64 {
        match self {
            Self::Balloon(_) => 2.0 * BALLOON,
            Self::Line(_) => LINE,
        }
    }

    fn write(self, picture: &mut Picture, at: Point) {
        match self {
            Self::Balloon(number) => {
                picture.balloons.push(Balloon { number, centre: at.moved(BALLOON, 0.0), names: None });
            }
            Self::Line(class) => picture.line(class, at, at.moved(LINE, 0.0)),
        }
    }
}

/// Sets the points and then the lines, each in as many rows as they need, below `top`.
pub(super) fn lay_out(trace: &Trace, label: &Label, top: f64, picture: &mut Picture) {
    let points = [
        (Sign::Balloon(1), with_value(label, "labels.opens", trace.gauge(trace.opening))),
        (Sign::Balloon(2), with_value(label, "labels.full_lift", trace.gauge(trace.full_open))),
        (Sign::Balloon(3), with_value(label, "labels.reseats", trace.gauge(trace.reseat))),
    ];
    let lines =
        [(Sign::Line("fig-rising"), label("labels.rising")), (Sign::Line("fig-falling"), label("labels.falling"))];
    let below = entries(&points, top + 30.0, picture);
    entries(&lines, below + ROW, picture);
}

/// Sets entries one after the other, from a row on; returns the last row.
fn entries(entries: &[(Sign, String)], row: f64, picture: &mut Picture) -> f64 {
    let mut at = Point::new(MARGIN, row);
    for (sign, words) in entries {
        let wide = sign.width() + GAP + width(words);
        if at.x > MARGIN && at.x + wide > WIDTH - MARGIN {
            at = Point::new(MARGIN, at.y + ROW);
        }
        sign.write(picture, at);
        picture.text(at.moved(sign.width() + GAP, SIZE * 0.36), Anchor::Start, words.clone());
        at = at.moved(wide + BETWEEN, 0.0);
    }
    at.y
}
