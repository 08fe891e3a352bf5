//! Writing SVG: numbers, text and elements, in one place so that every figure is escaped and rounded alike.

/// A point of the drawing (user units, x to the right, y down).
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Point {
    /// To the right.
    pub(crate) x: f64,
    /// Down.
    pub(crate) y: f64,
}

impl Point {
    /// A point from its coordinates.
    pub(crate) const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The point moved by so much.
    pub(crate) fn moved(self, x: f64, y: f64) -> Self {
        Self::new(self.x + x, self.y + y)
    }

    /// The point `distance` from here on the straight line to `other`; this point itself where the two are one.
    pub(crate) fn towards(self, other: Self, distance: f64) -> Self {
        let (x, y) = (other.x - self.x, other.y - self.y);
        let length = libm::hypot(x, y);
        if length > 0.0 { self.moved(x / length * distance, y / length * distance) } else { self }
    }
}

/// A number with at most two decimals and no trailing zeros.
pub(crate) fn number(value: f64) -> String {
    let mut text = String::new();
    write_number(&mut text, value);
    text
}

fn write_number(out: &mut String, value: f64) {
    let Some(hundredths) = hundredths(value) else {
        out.push_str(&rounded(value));
        return;
    };
    if value < 0.0 && hundredths > 0 {
        out.push('-');
    }
    write_whole(out, hundredths / 100);
    let (tenths, rest) = (hundredths % 100, hundredths % 10);
    if tenths > 0 {
        out.push('.');
        write_whole(out, tenths / 10);
    }
    if rest > 0 {
        write_whole(out, rest);
    }
}

/// A whole number, written where it goes.
pub(crate) fn write_whole(out: &mut String, number: u32) {
    if number >= 10 {
        write_whole(out, number / 10);
    }
    out.extend(char::from_digit(number % 10, 10));
}

fn rounded(value: f64) -> String {
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// How many hundredths a number has, but for its sign. `None` where it lies so near to the middle between two that the
/// last bits of the product might decide, or is very large: all other numbers are written without a look at their digits.
fn hundredths(value: f64) -> Option<u32> {
    const MOST: f64 = 1e9;
    const NEAR: f64 = 1e-6;
    let scaled = value.abs() * 100.0;
    let whole = libm::floor(scaled);
    if !(0.0..MOST).contains(&scaled) || (scaled - whole - 0.5).abs() < NEAR {
        return None;
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from zero to a billion")]
    Some(libm::round(scaled) as u32)
}

/// Path data of a line through points, left open.
pub(crate) fn open_path(points: &[Point]) -> String {
    let mut data = String::new();
    for (index, point) in points.iter().enumerate() {
        data.push(if index == 0 { 'M' } else { 'L' });
        write_number(&mut data, point.x);
        data.push(' ');
        write_number(&mut data, point.y);
    }
    data
}

/// Path data of a polygon.
pub(crate) fn closed_path(points: &[Point]) -> String {
    format!("{}Z", open_path(points))
}

/// Where a text is relative to its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Anchor {
    /// It begins there.
    Start,
    /// Its middle is there.
    Middle,
    /// It ends there.
    End,
}

impl Anchor {
    const fn class(self) -> &'static str {
        match self {
            Self::Start => "fig-start",
            Self::Middle => "fig-middle",
            Self::End => "fig-end",
        }
    }
}

/// An SVG document being written.
#[derive(Debug, Default)]
pub(crate) struct Svg {
    text: String,
}

impl Svg {
    /// Opens an element.
    pub(crate) fn open(&mut self, tag: &str, attributes: &[(&str, &str)]) {
        self.start(tag, attributes);
        self.text.push_str(">\n");
    }

    /// Closes an element.
    pub(crate) fn close(&mut self, tag: &str) {
        self.text.push_str("</");
        self.text.push_str(tag);
        self.text.push_str(">\n");
    }

    /// An element without content.
    pub(crate) fn leaf(&mut self, tag: &str, attributes: &[(&str, &str)]) {
        self.start(tag, attributes);
        self.text.push_str("/>\n");
    }

    /// An element that holds text alone.
    pub(crate) fn words(&mut self, tag: &str, attributes: &[(&str, &str)], content: &str) {
        self.start(tag, attributes);
        self.text.push('>');
        self.escape(content);
        self.close(tag);
    }

    /// A path.
    pub(crate) fn path(&mut self, class: &str, data: &str) {
        self.leaf("path", &[("class", class), ("d", data)]);
    }

    /// A straight line.
    pub(crate) fn line(&mut self, class: &str, from: Point, to: Point) {
        self.path(class, &open_path(&[from, to]));
    }

    /// A circle.
    pub(crate) fn circle(&mut self, class: &str, centre: Point, radius: f64) {
        let (x, y, r) = (number(centre.x), number(centre.y), number(radius));
        self.leaf("circle", &[("class", class), ("cx", &x), ("cy", &y), ("r", &r)]);
    }

    /// A text on its base line.
    pub(crate) fn label(&mut self, class: &str, at: Point, anchor: Anchor, content: &str) {
        let class = format!("{class} {}", anchor.class());
        self.words("text", &[("class", &class), ("x", &number(at.x)), ("y", &number(at.y))], content);
    }

    /// What was written.
    pub(crate) fn finish(self) -> String {
        self.text
    }

    fn start(&mut self, tag: &str, attributes: &[(&str, &str)]) {
        self.text.push('<');
        self.text.push_str(tag);
        for (name, value) in attributes {
            self.text.push(' ');
            self.text.push_str(name);
            self.text.push_str("=\"");
            self.escape(value);
            self.text.push('"');
        }
    }

    fn escape(&mut self, content: &str) {
        let mut rest = content;
        while let Some((at, character, text)) = first_escaped(rest) {
            self.text.push_str(&rest[..at]);
            self.text.push_str(text);
            rest = &rest[at + character.len_utf8()..];
        }
        self.text.push_str(rest);
    }
}

/// The first character that must be escaped, where it is, and what is written for it. Characters that XML does not
/// allow at all are left out.
fn first_escaped(content: &str) -> Option<(usize, char, &'static str)> {
    let escaped = |character: char| match character {
        '&' => Some("&amp;"),
        '<' => Some("&lt;"),
        '>' => Some("&gt;"),
        '"' => Some("&quot;"),
        '\n' | '\t' => Some(" "),
        '\u{FFFE}' | '\u{FFFF}' => Some(""),
        _ => character.is_control().then_some(""),
    };
    content.char_indices().find_map(|(at, character)| Some((at, character, escaped(character)?)))
}

/// The outer element, with the name and description that a screen reader speaks, around what `draw` adds.
pub(crate) fn sheet(frame: &Frame, draw: impl FnOnce(&mut Svg)) -> String {
    let (title, description) = (format!("{}-t", frame.prefix), format!("{}-d", frame.prefix));
    let (width, height) = (number(frame.width), number(frame.height));
    let mut svg = Svg::default();
    svg.open(
        "svg",
        &[
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("class", &format!("fig fig-{}", frame.figure.replace('_', "-"))),
            ("viewBox", &format!("0 0 {width} {height}")),
            ("width", &width),
            ("height", &height),
            ("role", "img"),
            ("aria-labelledby", &format!("{title} {description}")),
        ],
    );
    svg.words("title", &[("id", &title)], &frame.title);
    svg.words("desc", &[("id", &description)], &frame.description);
    draw(&mut svg);
    svg.close("svg");
    svg.finish()
}

/// What the outer element says.
#[derive(Debug)]
pub(crate) struct Frame<'a> {
    /// The figure's id.
    pub(crate) figure: &'a str,
    /// What every id in the drawing begins with.
    pub(crate) prefix: &'a str,
    /// Width (user units).
    pub(crate) width: f64,
    /// Height (user units).
    pub(crate) height: f64,
    /// The accessible name.
    pub(crate) title: String,
    /// The accessible description.
    pub(crate) description: String,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short() {
        let cases = [(1.0, "1"), (1.5, "1.5"), (1.005, "1"), (0.333_333, "0.33"), (-0.001, "0"), (100.0, "100")];
        for (value, text) in cases {
            assert_eq!(number(value), text);
        }
    }

    #[test]
    fn numbers_are_rounded_as_the_library_rounds_them() {
        let halves = (-2000..2000).map(|count| f64::from(count) / 8.0);
        let thousandths = (-20_000..20_000).map(|count| f64::from(count) / 1000.0);
        let odd = (0..20_000).map(|count| libm::exp(f64::from(count) / 500.0 - 8.0));
        for value in halves.chain(thousandths).chain(odd) {
            assert_eq!(number(value), rounded(value), "{value}");
        }
    }

    #[test]
    fn text_cannot_break_out() {
        let mut svg = Svg::default();
        svg.words("text", &[("class", "a\"b")], "<b> & \u{1}'");
        assert_eq!(svg.finish(), "<text class=\"a&quot;b\">&lt;b&gt; &amp; '</text>\n");
    }

    #[test]
    fn a_point_moves_towards_another() {
        let here = Point::new(1.0, 1.0);
        assert_eq!(here.towards(Point::new(4.0, 5.0), 10.0), Point::new(7.0, 9.0));
        assert_eq!(here.towards(here, 10.0), here);
    }
}
