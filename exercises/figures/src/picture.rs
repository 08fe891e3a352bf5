//! A picture of an author's own, with numbered areas over it that can be pointed at.

use crate::svg::{Frame, Point, Svg, number, sheet};

/// The width that every picture has in user units, so that marks and lines have the same size on all of them.
const WIDTH: f64 = 640.0;
/// The mark of an area, and how far from its middle it is still pointed at.
const MARK: f64 = 13.0;
const SIZE: f64 = 15.0;

/// A picture with what is said of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// The address of its file from the pages that show it.
    pub address: String,
    /// Its width and height in pixels.
    pub size: (f64, f64),
    /// The accessible name.
    pub title: String,
    /// The accessible description.
    pub description: String,
    /// Its areas, in the order of their numbers.
    pub areas: Vec<Area>,
}

/// An area of a picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Area {
    /// The name by which recipes mean it.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// Its outline.
    pub shape: Shape,
    /// Where its number stands, in per cent of the picture's width and height from its upper left corner.
    pub mark: [f64; 2],
}

/// An outline, in per cent of a picture's width and height from its upper left corner.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A rectangle, by its left and upper edge, its width and its height.
    Rectangle([f64; 4]),
    /// An ellipse, by the rectangle around it.
    Ellipse([f64; 4]),
    /// A polygon, by its corners.
    Polygon(Vec<[f64; 2]>),
}

impl Picture {
    /// The picture as an SVG element, with every id in it beginning with `prefix`.
    #[must_use]
    pub fn draw(&self, prefix: &str) -> String {
        let (width, height) = (WIDTH, WIDTH * self.size.1 / self.size.0);
        let (title, description) = (self.title.clone(), self.description.clone());
        let frame = Frame { figure: "picture", prefix, width, height, title, description };
        sheet(&frame, |svg| {
            let (width, height) = (number(width), number(height));
            svg.leaf("rect", &[("class", "fig-ground"), ("width", &width), ("height", &height)]);
            let stretched = ("preserveAspectRatio", "none");
            svg.leaf("image", &[("href", &self.address), ("width", &width), ("height", &height), stretched]);
            self.areas(svg, frame.height);
        })
    }

    fn areas(&self, svg: &mut Svg, height: f64) {
        svg.open("g", &[("class", "fig-number fig-middle"), ("font-size", &number(SIZE))]);
        for (index, area) in self.areas.iter().enumerate() {
            svg.open("g", &[("class", "fig-area"), ("data-part", &area.id)]);
            svg.words("title", &[], &area.name);
            outline(svg, "fig-casing", &area.shape, height);
            outline(svg, "fig-line", &area.shape, height);
            mark(svg, index + 1, place(area.mark, height));
            svg.close("g");
        }
        svg.close("g");
    }
}

fn outline(svg: &mut Svg, class: &str, shape: &Shape, height: f64) {
    let corner = |[x, y]: [f64; 2]| place([x, y], height);
    match shape {
        Shape::Rectangle([left, top, wide, high]) => {
            let (from, to) = (corner([*left, *top]), corner([left + wide, top + high]));
            let (wide, high) = (number(to.x - from.x), number(to.y - from.y));
            let (x, y) = (number(from.x), number(from.y));
            svg.leaf("rect", &[("class", class), ("x", &x), ("y", &y), ("width", &wide), ("height", &high)]);
        }
        Shape::Ellipse([left, top, wide, high]) => {
            let middle = corner([left + wide / 2.0, top + high / 2.0]);
            let radii = corner([wide / 2.0, high / 2.0]);
            let (x, y, rx, ry) = (number(middle.x), number(middle.y), number(radii.x), number(radii.y));
            svg.leaf("ellipse", &[("class", class), ("cx", &x), ("cy", &y), ("rx", &rx), ("ry", &ry)]);
        }
        Shape::Polygon(corners) => {
            let corners =
                corners.iter().map(|each| corner(*each)).map(|at| format!("{},{}", number(at.x), number(at.y)));
            svg.leaf("polygon", &[("class", class), ("points", &corners.collect::<Vec<_>>().join(" "))]);
        }
    }
}

/// The number of an area in its ring; a page makes it larger where the picture is small.
fn mark(svg: &mut Svg, index: usize, at: Point) {
    svg.open("g", &[("class", "fig-label")]);
    svg.circle("fig-ring", at, MARK);
    let base = at.moved(0.0, SIZE * 0.36);
    svg.words("text", &[("x", &number(base.x)), ("y", &number(base.y))], &index.to_string());
    svg.close("g");
}

fn place([x, y]: [f64; 2], height: f64) -> Point {
    Point::new(x * WIDTH / 100.0, y * height / 100.0)
}
