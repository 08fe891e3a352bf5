//! Dimension lines below the pressure axis that carry the terms: each term is the distance that its line measures.

use relief::{Difference, Gauge, Typed};

use super::extents::{MARGIN, TITLE, WIDTH};
use super::field::Field;
use super::picture::Picture;
use super::trace::Trace;
use super::words::with_value;
use crate::arrow::LENGTH;
use crate::measure::Label;
use crate::svg::{Anchor, Point};
use crate::text::{SIZE, width};

/// Height of a dimension with its text.
const ROW: f64 = 25.0;
/// How far a dimension line runs on past an extension line.
const TAIL: f64 = LENGTH + 5.0;
/// Between a text and the line it belongs to.
const GAP: f64 = 4.0;

/// One dimension: from where to where, and what it is called.
#[derive(Debug)]
struct Dimension {
    from: f64,
    to: f64,
    name: String,
    place: Place,
}

/// Where the text of a dimension is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Place {
    /// Above the line, between the extension lines.
    Between,
    /// Beside the line, on its left.
    Left,
    /// Beside the line, on its right.
    Right,
    /// Below the line, where it is too long for everything else.
    Below,
}

/// Every dimension, from the axis down. The shorter are nearer, as practice has it, so that extension lines do not
/// cross dimension lines.
#[derive(Debug)]
pub(super) struct Dimensions(Vec<Dimension>);

/// What is measured.
pub(super) fn lay_out(trace: &Trace, field: &Field, label: &Label) -> Dimensions {
    let full = trace.full_open;
    let measured = [
        ("labels.accumulation_over_mawp", trace.mawp, full, trace.accumulation_over_mawp()),
        ("labels.overpressure", trace.set, full, trace.overpressure()),
        ("labels.opening_accumulation", Some(trace.opening), full, Some(trace.opening_accumulation())),
        ("labels.blowdown", Some(trace.reseat), trace.set_or_opening(), Some(trace.blowdown())),
    ];
    let named = |(key, from, to, value): (&str, Option<Gauge>, Gauge, Option<Difference>)| {
        let name = with_value(label, key, trace.difference(value?));
        Some((field.pressure.place(from?.si()), field.pressure.place(to.si()), name))
    };
    let named: Vec<_> = measured.into_iter().filter_map(named).collect();
    let lines: Vec<_> = named.iter().map(|(from, to, _)| [*from, *to]).collect();
    let dimension = |(index, (from, to, name)): (usize, (f64, f64, String))| {
        let place = Place::best(from, to, width(&name), lines[index + 1..].as_flattened());
        Dimension { from, to, name, place }
    };
    Dimensions(named.into_iter().enumerate().map(dimension).collect())
}

impl Place {
    /// In the order in which they are liked.
    const ALL: [Self; 4] = [Self::Between, Self::Left, Self::Right, Self::Below];

    /// The best place for a text of this width: one with room, and with no extension line of what is farther down
    /// going through the text. A text beside its line that is crossed would seem to name the dimension that it lies in.
    fn best(from: f64, to: f64, wide: f64, lines: &[f64]) -> Self {
        let crossed = |place: &Self| {
            let (left, right) = place.reach(from, to, wide);
            lines.iter().filter(|line| **line > left - GAP && **line < right + GAP).count()
        };
        let possible = Self::ALL.into_iter().filter(|place| {
            let (left, right) = place.reach(from, to, wide);
            let fits = left >= MARGIN && right <= WIDTH - MARGIN;
            *place == Self::Below || fits && (*place != Self::Between || wide + 2.0 * GAP <= to - from)
        });
        let beside = |place: &Self| matches!(place, Self::Left | Self::Right);
        possible.min_by_key(|place| (beside(place) && crossed(place) > 0, crossed(place))).unwrap_or(Self::Below)
    }

    /// From where to where a text of this width reaches.
    fn reach(self, from: f64, to: f64, wide: f64) -> (f64, f64) {
        let left = match self {
            Self::Between => f64::midpoint(from, to) - wide / 2.0,
            Self::Left => from - TAIL - GAP - wide,
            Self::Right => to + TAIL + GAP,
            Self::Below => (f64::midpoint(from, to) - wide / 2.0).min(WIDTH - MARGIN - wide).max(MARGIN),
        };
        (left, left + wide)
    }
}

impl Dimensions {
    /// Where extension lines go down.
    pub(super) fn lines(&self) -> Vec<f64> {
        self.0.iter().flat_map(|dimension| [dimension.from, dimension.to]).collect()
    }

    /// Adds every dimension to the picture; returns where whatever comes below may begin.
    pub(super) fn write(&self, picture: &mut Picture, field: &Field) -> f64 {
        let mut y = field.floor() + TITLE + 4.0;
        let mut reached: Vec<(f64, f64)> = Vec::new();
        for dimension in &self.0 {
            y += ROW;
            dimension.write(picture, y);
            for x in [dimension.from, dimension.to] {
                reached.retain(|(other, _)| (other - x).abs() > 0.01);
                reached.push((x, y));
            }
            if dimension.place == Place::Below {
                y += SIZE + 2.0;
            }
        }
        for (x, lowest) in reached {
            picture.line("fig-extension", Point::new(x, field.floor() + 3.0), Point::new(x, lowest + 4.0));
        }
        y
    }
}

impl Dimension {
    fn write(&self, picture: &mut Picture, y: f64) {
        let (from, to) = (Point::new(self.from, y), Point::new(self.to, y));
        let tight = to.x - from.x < 2.0 * LENGTH + 6.0;
        let outside = [from.moved(-TAIL, 0.0), to.moved(TAIL, 0.0)];
        let start = if tight || self.place == Place::Left { outside[0] } else { from };
        let end = if tight || self.place == Place::Right { outside[1] } else { to };
        picture.line("fig-dimension", start, end);
        let (before, after) = if tight { (outside[0], outside[1]) } else { (to, from) };
        picture.arrow(from, before);
        picture.arrow(to, after);
        let (left, right) = self.place.reach(self.from, self.to, width(&self.name));
        let below = match self.place {
            Place::Between => -GAP - 2.0,
            Place::Left | Place::Right => SIZE * 0.36,
            Place::Below => SIZE + 2.0,
        };
        let (x, anchor) = match self.place {
            Place::Between | Place::Below => (f64::midpoint(left, right), Anchor::Middle),
            Place::Left => (right, Anchor::End),
            Place::Right => (left, Anchor::Start),
        };
        picture.text(Point::new(x, y + below), anchor, self.name.clone());
    }
}
