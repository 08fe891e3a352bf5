//! Dimensions: the exponents of the base units that a quantity is made of.

/// How many parts one whole exponent has: a square root halves it.
const PARTS: i8 = 2;

/// Exponents of the base dimensions of a quantity (SI base units metre, kilogram, second, kelvin, mole), counted in halves: a
/// length has 2, the square root of a length has 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Dimension {
    /// Halves of the exponent of length.
    pub length: i8,
    /// Halves of the exponent of mass.
    pub mass: i8,
    /// Halves of the exponent of time.
    pub time: i8,
    /// Halves of the exponent of thermodynamic temperature.
    pub temperature: i8,
    /// Halves of the exponent of amount of substance.
    pub amount: i8,
}

impl Dimension {
    /// No dimension: a pure number.
    pub const NONE: Self = Self::new(0, 0, 0);
    /// Pressure, kg·m⁻¹·s⁻².
    pub const PRESSURE: Self = Self::new(-1, 1, -2);

    /// From whole exponents of length, mass and time.
    pub(crate) const fn new(length: i8, mass: i8, time: i8) -> Self {
        Self { length: length * PARTS, mass: mass * PARTS, time: time * PARTS, temperature: 0, amount: 0 }
    }

    /// The same with whole exponents of temperature and amount of substance.
    pub(crate) const fn with(self, temperature: i8, amount: i8) -> Self {
        Self { temperature: temperature * PARTS, amount: amount * PARTS, ..self }
    }

    /// The dimension of a product; `None` where an exponent would leave its range.
    #[must_use]
    pub fn times(self, other: Self) -> Option<Self> {
        self.combined(other, i8::checked_add)
    }

    /// The dimension of a quotient; `None` where an exponent would leave its range.
    #[must_use]
    pub fn over(self, other: Self) -> Option<Self> {
        self.combined(other, i8::checked_sub)
    }

    /// The dimension of a power whose exponent is so many halves; `None` where that would be finer than halves, or leave the
    /// range.
    #[must_use]
    pub fn power(self, halves: i8) -> Option<Self> {
        self.combined(self, |own, _| {
            let all = own.checked_mul(halves)?;
            (all % PARTS == 0).then_some(all / PARTS)
        })
    }

    fn combined(self, other: Self, by: impl Fn(i8, i8) -> Option<i8>) -> Option<Self> {
        Some(Self {
            length: by(self.length, other.length)?,
            mass: by(self.mass, other.mass)?,
            time: by(self.time, other.time)?,
            temperature: by(self.temperature, other.temperature)?,
            amount: by(self.amount, other.amount)?,
        })
    }

    /// The dimension in base units, as people read it: `kg·m²/s³`, `1/s`, `m^0.5`.
    #[must_use]
    pub fn in_base_units(self) -> String {
        let (upper, lower) = (self.units(1), self.units(-1));
        let upper_text = if upper.is_empty() { "1".to_owned() } else { upper.join("·") };
        match lower.as_slice() {
            [] => upper_text,
            [one] => format!("{upper_text}/{one}"),
            more => format!("{upper_text}/({})", more.join("·")),
        }
    }

    /// The base units whose exponents have a sign, each with its power.
    fn units(self, sign: i8) -> Vec<String> {
        let powers =
            [("kg", self.mass), ("m", self.length), ("s", self.time), ("K", self.temperature), ("mol", self.amount)];
        let own = powers.into_iter().filter(|(_, halves)| halves.signum() == sign);
        own.map(|(unit, halves)| format!("{unit}{}", raised(halves.unsigned_abs()))).collect()
    }
}

/// What is written behind a unit for its exponent.
fn raised(halves: u8) -> String {
    match halves {
        2 => String::new(),
        4 => "²".to_owned(),
        6 => "³".to_owned(),
        even if even % 2 == 0 => format!("^{}", even / 2),
        odd => format!("^{}.5", odd / 2),
    }
}

#[cfg(test)]
mod tests {
    use super::Dimension;

    #[test]
    fn base_units_are_readable() {
        let text = |length, mass, time| Dimension::new(length, mass, time).in_base_units();
        assert_eq!(text(2, 1, -3), "kg·m²/s³");
        assert_eq!(text(-1, 1, -2), "kg/(m·s²)");
        assert_eq!(text(0, 0, -1), "1/s");
        assert_eq!(text(4, 0, 0), "m^4");
        assert_eq!(Dimension::new(1, 0, 0).power(1).map(Dimension::in_base_units), Some("m^0.5".to_owned()));
        assert_eq!(Dimension::new(1, 0, 0).power(3).map(Dimension::in_base_units), Some("m^1.5".to_owned()));
    }

    #[test]
    fn a_root_of_a_root_may_be_finer_than_halves() {
        let root = Dimension::new(1, 0, 0).power(1).expect("a half");
        assert_eq!(root.power(1), None);
        assert_eq!(root.power(4), Some(Dimension::new(1, 0, 0)));
        assert_eq!(Dimension::new(60, 0, 0).power(4), None);
    }
}
