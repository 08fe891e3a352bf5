//! Quantities: a number in SI units with its kind, and a Rust type for each kind.

use core::ops::{Add, Div, Mul, Sub};

use crate::kind::Kind;

/// A number in SI units, with its kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantity {
    /// The number, in the SI unit of the kind (pascal, metre, square metre, newton, newton per metre, or one).
    pub si: f64,
    /// What the number is of.
    pub kind: Kind,
}

impl Quantity {
    /// A quantity of `kind` from its number in SI units.
    #[must_use]
    pub const fn new(si: f64, kind: Kind) -> Self {
        Self { si, kind }
    }

    /// The sum, or `None` where the kinds may not be added (see [`Kind::plus`]).
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        Some(Self::new(self.si + other.si, self.kind.plus(other.kind)?))
    }

    /// The difference, or `None` where the kinds may not be subtracted (see [`Kind::minus`]).
    #[must_use]
    pub fn minus(self, other: Self) -> Option<Self> {
        Some(Self::new(self.si - other.si, self.kind.minus(other.kind)?))
    }

    /// The product, or `None` where it would have no kind (see [`Kind::times`]).
    #[must_use]
    pub fn times(self, other: Self) -> Option<Self> {
        Some(Self::new(self.si * other.si, self.kind.times(other.kind)?))
    }

    /// The quotient, or `None` where it would have no kind (see [`Kind::over`]). Dividing by zero gives a number that
    /// is not finite; the caller must check.
    #[must_use]
    pub fn over(self, other: Self) -> Option<Self> {
        Some(Self::new(self.si / other.si, self.kind.over(other.kind)?))
    }

    /// The power, or `None` where it would have no kind (see [`Kind::power`]): of a quantity with a dimension, only whole and
    /// half exponents have one. The number may be one that is not finite; the caller must check.
    #[must_use]
    pub fn power(self, exponent: f64) -> Option<Self> {
        let halves = if self.kind.is_pure() { 0 } else { halves(exponent)? };
        Some(Self::new(libm::pow(self.si, exponent), self.kind.power(halves)?))
    }

    /// The square root, or `None` where it would have no kind.
    #[must_use]
    pub fn root(self) -> Option<Self> {
        Some(Self::new(libm::sqrt(self.si), self.kind.power(1)?))
    }
}

/// How many halves an exponent is, where it is so many and no dimension would leave its range.
fn halves(exponent: f64) -> Option<i8> {
    (-24..=24).find(|halves| (f64::from(*halves) - 2.0 * exponent).abs() <= 0.0)
}

/// A Rust type for one kind, so that the compiler refuses what [`Kind`] refuses at run time.
pub trait Typed: Copy {
    /// The kind that the type is for.
    const KIND: Kind;

    /// From a number in the SI unit of the kind.
    fn from_si(si: f64) -> Self;

    /// The number in the SI unit of the kind.
    fn si(self) -> f64;

    /// The same as a [`Quantity`].
    fn quantity(self) -> Quantity {
        Quantity::new(self.si(), Self::KIND)
    }
}

macro_rules! typed {
    ($($(#[$doc:meta])* $name:ident;)*) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl Typed for $name {
            const KIND: Kind = Kind::$name;

            fn from_si(si: f64) -> Self {
                Self(si)
            }

            fn si(self) -> f64 {
                self.0
            }
        }
    )*};
}

typed! {
    /// A bare number or count (dimensionless).
    Number;
    /// A share (dimensionless; 0.1 is ten percent).
    Ratio;
    /// Turns of a screw (dimensionless; one is a full turn).
    Turns;
    /// Length (metre).
    Length;
    /// Area (square metre).
    Area;
    /// Force (newton).
    Force;
    /// Spring rate (newton per metre).
    SpringRate;
    /// Stress or elastic modulus (pascal).
    Stress;
    /// Gauge pressure: above the local atmosphere (pascal).
    Gauge;
    /// Absolute pressure: above a vacuum (pascal).
    Absolute;
    /// Difference of two pressures (pascal).
    Difference;
    /// Temperature above absolute zero (kelvin).
    Temperature;
    /// Density (kilogram per cubic metre).
    Density;
    /// Flow by volume (cubic metre per second).
    VolumeFlow;
    /// Flow by mass (kilogram per second).
    MassFlow;
    /// Dynamic viscosity (pascal second).
    Viscosity;
    /// Kinematic viscosity (square metre per second).
    KinematicViscosity;
    /// Molar mass (kilogram per mole).
    MolarMass;
    /// Heat flow (watt).
    HeatFlow;
    /// Specific heat capacity (joule per kilogram and kelvin).
    SpecificHeat;
    /// Cubic thermal expansion (per kelvin).
    Expansion;
    /// A count in a time (per second).
    CountRate;
}

/// The operations that the laws use; what is not listed does not compile.
macro_rules! operations {
    ($($left:ident $trait:ident::$method:ident($sign:tt) $right:ident = $result:ident;)*) => {$(
        impl $trait<$right> for $left {
            type Output = $result;

            fn $method(self, other: $right) -> $result {
                $result(self.0 $sign other.0)
            }
        }
    )*};
}

operations! {
    Gauge Sub::sub(-) Gauge = Difference;
    Gauge Add::add(+) Difference = Gauge;
    Gauge Sub::sub(-) Difference = Gauge;
    Gauge Mul::mul(*) Ratio = Difference;
    Difference Div::div(/) Gauge = Ratio;
    Gauge Mul::mul(*) Area = Force;
    Difference Mul::mul(*) Area = Force;
    Force Div::div(/) Area = Difference;
    Force Div::div(/) Length = SpringRate;
    Force Div::div(/) SpringRate = Length;
    SpringRate Mul::mul(*) Length = Force;
    Length Mul::mul(*) Turns = Length;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn typed_operations_agree_with_the_algebra_of_kinds() {
        let rise = Gauge(11.0) - Gauge(10.0);
        assert_eq!(Some(rise.quantity()), Gauge(11.0).quantity().minus(Gauge(10.0).quantity()));
        let force = Gauge(3.0) * Area(2.0);
        assert_eq!(Some(force.quantity()), Gauge(3.0).quantity().times(Area(2.0).quantity()));
        let rate = force / Length(2.0);
        assert_eq!(Some(rate.quantity()), force.quantity().over(Length(2.0).quantity()));
    }
}
