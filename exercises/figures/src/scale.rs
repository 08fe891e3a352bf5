//! Scales: from numbers to places on the sheet, and the ticks along them.

/// A straight scale.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Scale {
    /// The number at the beginning, and where that is on the sheet.
    pub(crate) from: (f64, f64),
    /// The number at the end, and where that is on the sheet.
    pub(crate) to: (f64, f64),
}

impl Scale {
    /// The place of a number.
    pub(crate) fn place(&self, value: f64) -> f64 {
        let share = (value - self.from.0) / (self.to.0 - self.from.0);
        self.from.1 + share * (self.to.1 - self.from.1)
    }

    /// Round numbers along the scale, from zero up, with their text: as many as fit at least `room` apart, where
    /// `room` says what the longest of the texts needs.
    pub(crate) fn ticks(&self, room: impl Fn(&str) -> f64) -> Vec<(f64, String)> {
        self.step(&room).along(self.from.0.max(0.0), self.to.0)
    }

    /// The step between such ticks.
    pub(crate) fn step(&self, room: &dyn Fn(&str) -> f64) -> Step {
        let span = self.to.0 - self.from.0;
        let length = (self.to.1 - self.from.1).abs();
        let low = self.from.0.max(0.0);
        let mut step = Step::below(span / 20.0);
        loop {
            let apart = step.size() / span * length;
            // Most steps that are too small are known by their first number.
            if step.numbers(low, self.to.0).nth(1).is_none()
                || step.numbers(low, self.to.0).all(|value| room(&step.text(value)) <= apart)
            {
                return step;
            }
            step = step.next();
        }
    }
}

/// A step between ticks: 1, 2 or 5 times a power of ten.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Step {
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

    /// The step of the finer lines between: a fifth of it, or a quarter where that is the rounder one.
    pub(crate) fn finer(self) -> Self {
        match self.digit {
            1 => Self { digit: 2, power: self.power - 1 },
            2 => Self { digit: 5, power: self.power - 1 },
            _ => Self { digit: 1, ..self },
        }
    }

    /// A tenth of it.
    pub(crate) fn tenth(self) -> Self {
        Self { power: self.power - 1, ..self }
    }

    /// A number with the decimal places of the step.
    pub(crate) fn text(self, value: f64) -> String {
        let places = usize::try_from(-self.power).unwrap_or(0);
        format!("{value:.places$}")
    }

    fn next(self) -> Self {
        match self.digit {
            1 => Self { digit: 2, ..self },
            2 => Self { digit: 5, ..self },
            _ => Self { digit: 1, power: self.power + 1 },
        }
    }

    /// The size of the step.
    pub(crate) fn size(self) -> f64 {
        f64::from(self.digit) * libm::pow(10.0, f64::from(self.power))
    }

    /// Its multiples between two numbers, with their text.
    pub(crate) fn along(self, low: f64, high: f64) -> Vec<(f64, String)> {
        self.numbers(low, high).map(|value| (value, self.text(value))).collect()
    }

    /// Its multiples between two numbers.
    fn numbers(self, low: f64, high: f64) -> impl Iterator<Item = f64> {
        const MOST: u32 = 400;
        let size = self.size();
        let first = libm::ceil(low / size - 1e-9);
        (0..MOST)
            .map(move |index| (first + f64::from(index)) * size)
            .take_while(move |value| *value <= high + size * 1e-9)
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
