//! What the plot consists of once it is laid out: shapes, texts and balloons, still as data, so that a test can see
//! whether anything overlaps.

use crate::svg::{Anchor, Point, Svg, number};
use crate::text::{Bounds, SIZE, Text};

/// Radius of a numbered balloon.
pub(super) const BALLOON: f64 = 9.0;

/// A numbered balloon, with the point it names where it is not in the legend.
#[derive(Clone, Copy, Debug)]
pub(super) struct Balloon {
    /// Its number.
    pub(super) number: u8,
    /// Its middle.
    pub(super) centre: Point,
    /// The point that it names.
    pub(super) names: Option<Point>,
}

/// A plot, laid out.
#[derive(Debug, Default)]
pub(super) struct Picture {
    /// Class and path data, from back to front.
    pub(super) shapes: Vec<(&'static str, String)>,
    /// Texts, each with a margin of ground around it that interrupts what is behind.
    pub(super) texts: Vec<Text>,
    /// Balloons.
    pub(super) balloons: Vec<Balloon>,
}

impl Picture {
    /// Adds a shape.
    pub(super) fn shape(&mut self, class: &'static str, data: String) {
        self.shapes.push((class, data));
    }

    /// Adds a straight line.
    pub(super) fn line(&mut self, class: &'static str, from: Point, to: Point) {
        self.shape(class, crate::svg::open_path(&[from, to]));
    }

    /// Adds an arrowhead of a dimension line.
    pub(super) fn arrow(&mut self, tip: Point, from: Point) {
        self.shape("fig-arrow", crate::arrow::slender(tip, from));
    }

    /// Adds a text.
    pub(super) fn text(&mut self, at: Point, anchor: Anchor, words: impl Into<String>) {
        self.texts.push(Text::new(at, anchor, words));
    }

    /// The room that each text and balloon takes.
    pub(super) fn bounds(&self) -> Vec<Bounds> {
        let balloons = self.balloons.iter().map(|balloon| Bounds::around(balloon.centre, BALLOON));
        self.texts.iter().map(Text::bounds).chain(balloons).collect()
    }

    /// The lowest edge of anything written.
    pub(super) fn bottom(&self) -> f64 {
        self.bounds().iter().map(|bounds| bounds.bottom).fold(0.0, f64::max)
    }

    /// Writes everything.
    pub(super) fn write(&self, svg: &mut Svg) {
        for (class, data) in &self.shapes {
            svg.path(class, data);
        }
        svg.open("g", &[("font-size", &number(SIZE))]);
        for text in &self.texts {
            svg.label("fig-text", text.at, text.anchor, &text.words);
        }
        for balloon in &self.balloons {
            balloon.write(svg);
        }
        svg.close("g");
    }
}

impl Balloon {
    fn write(&self, svg: &mut Svg) {
        if let Some(point) = self.names {
            svg.line("fig-leader", self.centre.towards(point, BALLOON), point);
            svg.circle("fig-point", point, 2.8);
        }
        svg.circle("fig-ring", self.centre, BALLOON);
        svg.label("fig-number", self.centre.moved(0.0, SIZE * 0.36), Anchor::Middle, &self.number.to_string());
    }
}
