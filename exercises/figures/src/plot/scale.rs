//! Scales: from numbers to places on the sheet, and the ticks along them.

/// A straight scale.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scale {
    /// The number at the beginning, and where that is on the sheet.
    pub(super) from: (f64, f64),
    /// The number at the end, and where that is on the sheet.
    pub(super) to: (f64, f64),
}

impl Scale {
    /// The place of a number.
    pub(super) fn place(&self, value: f64) -> f64 {
        let share = (value - self.from.0) / (self.to.0 - self.from.0);
        self.from.1 + share * (self.to.1 - self.from.1)
    }

    /// Round numbers along the scale, from zero up, with their text: as many as stand at least `room` apart, where
    /// `room` says what the longest of the texts needs.
    pub(super) fn ticks(&self, room: impl Fn(&str) -> f64) -> Vec<(f64, String)> {
        let span = self.to.0 - self.from.0;
        let length = (self.to.1 - self.from.1).abs();
        let mut step = Step::below(span / 20.0);
        loop {
            let ticks = step.along(self.from.0.max(0.0), self.to.0);
            let longest = ticks.iter().map(|(_, text)| room(text)).fold(0.0, f64::max);
            if ticks.len() < 2 || step.size() / span * length >= longest {
                return ticks;
            }
            step = step.next();
        }
    }
}

/// A step between ticks: 1, 2 or 5 times a power of ten.
#[derive(Clone, Copy, Debug)]
struct Step {
    digit: u8,
    power: i32,
}

impl Step {
    /// The power of ten at or below a size.
    fn below(size: f64) -> Self {
        let power = libm::floor(libm::log10(size.max(f64::MIN_POSITIVE)));
        #[expect(clippy::cast_possible_truncation, reason = "the power of ten of a double is within 400 of zero")]
        let power = power as i32;
        Self { digit: 1, power }
    }

    fn next(self) -> Self {
        match self.digit {
            1 => Self { digit: 2, ..self },
            2 => Self { digit: 5, ..self },
            _ => Self { digit: 1, power: self.power + 1 },
        }
    }

    fn size(self) -> f64 {
        f64::from(self.digit) * libm::pow(10.0, f64::from(self.power))
    }

    fn along(self, low: f64, high: f64) -> Vec<(f64, String)> {
        const MOST: u32 = 400;
        let size = self.size();
        let first = libm::ceil(low / size - 1e-9);
        let places = usize::try_from(-self.power).unwrap_or(0);
        (0..MOST)
            .map(|index| (first + f64::from(index)) * size)
            .take_while(|value| *value <= high + size * 1e-9)
            .map(|value| (value, format!("{value:.places$}")))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(from: f64, to: f64, room: f64) -> Vec<String> {
        let scale = Scale { from: (from, 0.0), to: (to, 300.0) };
        scale.ticks(|_| room).into_iter().map(|(_, text)| text).collect()
    }

    #[test]
    fn ticks_are_round_numbers() {
        assert_eq!(texts(88.0, 114.0, 50.0), ["90", "95", "100", "105", "110"]);
        assert_eq!(texts(7.0, 7.6, 60.0), ["7.0", "7.2", "7.4", "7.6"]);
        assert_eq!(texts(0.0, 0.25, 100.0), ["0.0", "0.1", "0.2"]);
    }

    #[test]
    fn ticks_do_not_go_below_zero() {
        assert_eq!(texts(-3.0, 12.0, 80.0), ["0", "5", "10"]);
    }
}
