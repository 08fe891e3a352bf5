//! Path data in as few characters as will do: relative, in tenths of a user unit, finer than any line is thick.
//!
//! Each place is rounded before the step to it is taken, so that roundings do not add up along a path.

use crate::svg::{Point, write_whole};

/// A path being written, as one piece or many.
#[derive(Debug, Default)]
pub(crate) struct Path {
    data: String,
    at: [i32; 2],
    start: [i32; 2],
}

impl Path {
    /// Begins a piece.
    pub(crate) fn move_to(&mut self, point: Point) {
        self.command('m', &[point]);
        self.start = self.at;
    }

    /// A straight line from where the path is.
    pub(crate) fn line_to(&mut self, point: Point) {
        let [x, y] = tenths(point);
        match [x - self.at[0], y - self.at[1]] {
            [0, 0] => {}
            [across, 0] => self.along('h', across),
            [0, down] => self.along('v', down),
            _ => self.command('l', &[point]),
        }
        self.at = [x, y];
    }

    /// A curve that bends towards one point and ends at another.
    pub(crate) fn curve_to(&mut self, via: Point, to: Point) {
        self.command('q', &[via, to]);
    }

    /// A curve that bends towards two points and ends at a third.
    pub(crate) fn bend_to(&mut self, via: [Point; 2], to: Point) {
        self.command('c', &[via[0], via[1], to]);
    }

    /// Closes the piece.
    pub(crate) fn close(&mut self) {
        self.data.push('z');
        self.at = self.start;
    }

    /// A straight line of its own.
    pub(crate) fn line(&mut self, from: Point, to: Point) {
        self.move_to(from);
        self.line_to(to);
    }

    /// A polygon of its own.
    pub(crate) fn polygon(&mut self, points: &[Point]) {
        for (index, point) in points.iter().enumerate() {
            if index == 0 { self.move_to(*point) } else { self.line_to(*point) }
        }
        self.close();
    }

    /// A circle of its own: two half turns.
    pub(crate) fn circle(&mut self, centre: Point, radius: f64) {
        self.move_to(centre.moved(-radius, 0.0));
        let [left, _] = tenths(centre.moved(-radius, 0.0));
        let [right, _] = tenths(centre.moved(radius, 0.0));
        for across in [right - left, left - right] {
            self.data.push('a');
            let [radius, _] = tenths(Point::new(radius, 0.0));
            for value in [radius, radius, 0, 10, 0, across, 0] {
                self.number(value);
            }
        }
        self.close();
    }

    /// The path data.
    pub(crate) fn finish(self) -> String {
        self.data
    }

    fn along(&mut self, command: char, way: i32) {
        self.data.push(command);
        self.number(way);
    }

    fn command(&mut self, command: char, points: &[Point]) {
        self.data.push(command);
        let from = self.at;
        for point in points {
            self.at = tenths(*point);
            self.number(self.at[0] - from[0]);
            self.number(self.at[1] - from[1]);
        }
    }

    /// Writes so many tenths, with a space before where the number would run into the one before it.
    fn number(&mut self, tenths: i32) {
        if tenths >= 0 && self.data.ends_with(|last: char| last.is_ascii_digit()) {
            self.data.push(' ');
        }
        if tenths < 0 {
            self.data.push('-');
        }
        let (whole, rest) = (tenths.unsigned_abs() / 10, tenths.unsigned_abs() % 10);
        if whole > 0 || rest == 0 {
            write_whole(&mut self.data, whole);
        }
        if rest > 0 {
            self.data.push('.');
            write_whole(&mut self.data, rest);
        }
    }
}

#[expect(clippy::cast_possible_truncation, reason = "a sheet is some hundred units wide and high")]
fn tenths(point: Point) -> [i32; 2] {
    [point.x, point.y].map(|value| libm::round(value * 10.0) as i32)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ways_are_short() {
        let mut path = Path::default();
        path.polygon(&[(1.0, 2.0), (4.04, 2.0), (4.0, 1.5), (0.0, 0.0)].map(|(x, y)| Point::new(x, y)));
        path.line(Point::new(0.5, 2.0), Point::new(0.5, 9.0));
        assert_eq!(path.finish(), "m1 2h3v-.5l-4-1.5zm-.5 0v7");
    }

    #[test]
    fn roundings_do_not_add_up() {
        let mut path = Path::default();
        path.move_to(Point::new(0.0, 0.0));
        (1..=100).for_each(|step| path.line_to(Point::new(0.04 * f64::from(step), 0.0)));
        assert_eq!(path.at, [40, 0]);
    }
}
