//! Kinds of quantity, and the algebra that says which may meet.

use crate::dimension::Dimension;

/// What a quantity is: its dimension, and for pressures what it is measured from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// A bare number: a count, or a factor in a formula.
    Number,
    /// A share of something: percent.
    Ratio,
    /// Turns of a screw.
    Turns,
    /// Length (metre).
    Length,
    /// Area (square metre).
    Area,
    /// Force (newton).
    Force,
    /// Spring rate: force per length of travel (newton per metre).
    SpringRate,
    /// Stress or elastic modulus (pascal).
    Stress,
    /// Pressure above the local atmosphere (pascal).
    Gauge,
    /// Pressure above a vacuum (pascal).
    Absolute,
    /// The difference of two pressures: a rise, a fall, a band (pascal).
    Difference,
    /// Temperature above absolute zero (kelvin).
    Temperature,
    /// The difference of two temperatures (kelvin).
    TemperatureDifference,
    /// Density (kilogram per cubic metre).
    Density,
    /// Flow by volume (cubic metre per second).
    VolumeFlow,
    /// Flow by mass (kilogram per second).
    MassFlow,
    /// Dynamic viscosity (pascal second).
    Viscosity,
    /// Kinematic viscosity (square metre per second).
    KinematicViscosity,
    /// Molar mass (kilogram per mole).
    MolarMass,
    /// Heat flow or power (watt).
    HeatFlow,
    /// Specific heat capacity (joule per kilogram and kelvin).
    SpecificHeat,
    /// Thermal expansion, linear or cubic (per kelvin).
    Expansion,
    /// A count in a time: bubbles in a minute (per second).
    CountRate,
    /// Volume (cubic metre).
    Volume,
    /// Mass (kilogram).
    Mass,
    /// Time (second).
    Time,
    /// Velocity (metre per second).
    Velocity,
    /// Acceleration (metre per square second).
    Acceleration,
    /// Energy: work or heat (joule).
    Energy,
    /// Torque: a force on an arm (newton metre).
    Torque,
    /// A heat capacity or a gas constant for an amount of substance (joule per mole and kelvin).
    MolarHeat,
    /// A dimension without a name, which only comes up within a formula.
    Derived(Dimension),
}

impl Kind {
    /// Every kind that has a name.
    pub const NAMED: [Self; 31] = [
        Self::Number,
        Self::Ratio,
        Self::Turns,
        Self::Length,
        Self::Area,
        Self::Force,
        Self::SpringRate,
        Self::Stress,
        Self::Gauge,
        Self::Absolute,
        Self::Difference,
        Self::Temperature,
        Self::TemperatureDifference,
        Self::Density,
        Self::VolumeFlow,
        Self::MassFlow,
        Self::Viscosity,
        Self::KinematicViscosity,
        Self::MolarMass,
        Self::HeatFlow,
        Self::SpecificHeat,
        Self::Expansion,
        Self::CountRate,
        Self::Volume,
        Self::Mass,
        Self::Time,
        Self::Velocity,
        Self::Acceleration,
        Self::Energy,
        Self::Torque,
        Self::MolarHeat,
    ];

    /// The code under which words for this kind are kept.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Number => "number",
            Self::Ratio => "ratio",
            Self::Turns => "turns",
            Self::Length => "length",
            Self::Area => "area",
            Self::Force => "force",
            Self::SpringRate => "spring_rate",
            Self::Stress => "stress",
            Self::Gauge => "gauge",
            Self::Absolute => "absolute",
            Self::Difference => "difference",
            Self::Temperature => "temperature",
            Self::TemperatureDifference => "temperature_difference",
            Self::Density => "density",
            Self::VolumeFlow => "volume_flow",
            Self::MassFlow => "mass_flow",
            Self::Viscosity => "viscosity",
            Self::KinematicViscosity => "kinematic_viscosity",
            Self::MolarMass => "molar_mass",
            Self::HeatFlow => "heat_flow",
            Self::SpecificHeat => "specific_heat",
            Self::Expansion => "expansion",
            Self::CountRate => "count_rate",
            Self::Volume => "volume",
            Self::Mass => "mass",
            Self::Time => "time",
            Self::Velocity => "velocity",
            Self::Acceleration => "acceleration",
            Self::Energy => "energy",
            Self::Torque => "torque",
            Self::MolarHeat => "molar_heat",
            Self::Derived(_) => "derived",
        }
    }

    /// What a message says of it: the code under which its words are kept, or its dimension in base units where it has no name.
    #[must_use]
    pub fn told(self) -> String {
        match self {
            Self::Derived(dimension) => dimension.in_base_units(),
            named => named.id().to_owned(),
        }
    }

    /// The dimension of this kind.
    #[must_use]
    #[inline(never)]
    pub fn dimension(self) -> Dimension {
        match self {
            Self::Number | Self::Ratio | Self::Turns => Dimension::NONE,
            Self::Length => Dimension::new(1, 0, 0),
            Self::Area => Dimension::new(2, 0, 0),
            Self::Force => Dimension::new(1, 1, -2),
            Self::SpringRate => Dimension::new(0, 1, -2),
            Self::Stress | Self::Gauge | Self::Absolute | Self::Difference => Dimension::PRESSURE,
            Self::Temperature | Self::TemperatureDifference => Dimension::NONE.with(1, 0),
            Self::Density => Dimension::new(-3, 1, 0),
            Self::VolumeFlow => Dimension::new(3, 0, -1),
            Self::MassFlow => Dimension::new(0, 1, -1),
            Self::Viscosity => Dimension::new(-1, 1, -1),
            Self::KinematicViscosity => Dimension::new(2, 0, -1),
            Self::MolarMass => Dimension::new(0, 1, 0).with(0, -1),
            Self::HeatFlow => Dimension::new(2, 1, -3),
            Self::SpecificHeat => Dimension::new(2, 0, -2).with(-1, 0),
            Self::Expansion => Dimension::NONE.with(-1, 0),
            Self::CountRate => Dimension::new(0, 0, -1),
            Self::Volume => Dimension::new(3, 0, 0),
            Self::Mass => Dimension::new(0, 1, 0),
            Self::Time => Dimension::new(0, 0, 1),
            Self::Velocity => Dimension::new(1, 0, -1),
            Self::Acceleration => Dimension::new(1, 0, -2),
            Self::Energy | Self::Torque => Dimension::new(2, 1, -2),
            Self::MolarHeat => Dimension::new(2, 1, -2).with(-1, -1),
            Self::Derived(dimension) => dimension,
        }
    }

    /// Whether this is a pure number of some sort.
    #[must_use]
    pub fn is_pure(self) -> bool {
        self.dimension() == Dimension::NONE
    }

    /// Whether this is one of the three kinds of pressure.
    #[must_use]
    pub fn is_pressure(self) -> bool {
        matches!(self, Self::Gauge | Self::Absolute | Self::Difference)
    }

    /// Whether a value of kind `found` will do where this kind is asked for. A bare number will do for any pure number and
    /// the reverse; otherwise the kinds must be the same.
    #[must_use]
    #[inline]
    pub fn accepts(self, found: Self) -> bool {
        self == found || self.accepts_other(found)
    }

    /// Apart from the usual case, in which the kinds are the same.
    #[cold]
    fn accepts_other(self, found: Self) -> bool {
        self.is_pure() && found.is_pure() && (self == Self::Number || found == Self::Number)
    }

    /// The kind of a sum, or `None` where the two may not be added.
    ///
    /// What is counted from a zero of its own - gauge and absolute pressure, temperature - takes a difference; two of
    /// them are never added.
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        match () {
            () if self.difference() == Some(other) => Some(self),
            () if other.difference() == Some(self) => Some(other),
            () if self.difference().is_some() && self == other => None,
            () => self.alike(other),
        }
    }

    /// The kind of a difference `self - other`, or `None` where the one may not be taken from the other.
    #[must_use]
    pub fn minus(self, other: Self) -> Option<Self> {
        match () {
            () if self == other && self.difference().is_some() => self.difference(),
            () if self.difference() == Some(other) => Some(self),
            () => self.alike(other),
        }
    }

    /// The kind of a product, or `None` where it would have no meaning.
    #[must_use]
    pub fn times(self, other: Self) -> Option<Self> {
        match (self.is_pure(), other.is_pure()) {
            (true, true) => Some(Self::pure_product(self, other)),
            (true, false) => Some(other.scaled()),
            (false, true) => Some(self.scaled()),
            (false, false) => self.joined(other, self.dimension().times(other.dimension())?),
        }
    }

    /// The kind of a quotient, or `None` where it would have no meaning: a gauge pressure is never set in relation to
    /// an absolute one.
    #[must_use]
    pub fn over(self, other: Self) -> Option<Self> {
        match (self, other) {
            (Self::Gauge, Self::Absolute) | (Self::Absolute, Self::Gauge) => None,
            _ if other.is_pure() && !self.is_pure() => Some(self.scaled()),
            _ if other.is_pure() => Some(if other == Self::Number { self } else { Self::Number }),
            _ if self.dimension() == other.dimension() => Some(Self::Ratio),
            _ => self.joined(other, self.dimension().over(other.dimension())?),
        }
    }

    /// The kind of a power whose exponent is so many halves (a square root has 1), or `None` where it would have no meaning.
    /// Powers of pure numbers are numbers, whatever the exponent.
    #[must_use]
    pub fn power(self, halves: i8) -> Option<Self> {
        match self {
            Self::Gauge => None,
            _ if self.is_pure() => Some(Self::Number),
            _ => Some(Self::of(self.dimension().power(halves)?)),
        }
    }

    /// Whether a place of this kind may take what a product gave, whose kind is `computed`: the dimension is the same, and the
    /// place says what it is of. No product makes a gauge pressure, and none that is one already becomes another pressure.
    #[must_use]
    pub fn fits(self, computed: Self) -> bool {
        let counted = [Self::Gauge, Self::Absolute, Self::Temperature];
        self.dimension() == computed.dimension() && self != Self::Gauge && !counted.contains(&computed)
    }

    /// The kind of a product or quotient of two that have a dimension. A gauge pressure counts from the atmosphere around it,
    /// so it has a place only where the result has a name: on an area it is a force.
    fn joined(self, other: Self, dimension: Dimension) -> Option<Self> {
        let kind = Self::of(dimension);
        let is_gauge = self == Self::Gauge || other == Self::Gauge;
        (!is_gauge || !matches!(kind, Self::Derived(_))).then_some(kind)
    }

    /// Whether values of the two kinds may be compared.
    #[must_use]
    pub fn comparable(self, other: Self) -> bool {
        self.accepts(other)
    }

    /// What two values of this kind differ by, where that is a kind of its own.
    fn difference(self) -> Option<Self> {
        match self {
            Self::Gauge | Self::Absolute => Some(Self::Difference),
            Self::Temperature => Some(Self::TemperatureDifference),
            _ => None,
        }
    }

    /// A share of a gauge pressure is a difference: ten percent of 100 psig is a rise of 10 psi, not a pressure of
    /// 10 psig. A share of an absolute pressure is an absolute pressure.
    fn scaled(self) -> Self {
        if self == Self::Gauge { Self::Difference } else { self }
    }

    fn alike(self, other: Self) -> Option<Self> {
        if self == other {
            Some(self)
        } else if self.accepts(other) {
            Some(if self == Self::Number { other } else { self })
        } else {
            None
        }
    }

    fn pure_product(one: Self, other: Self) -> Self {
        match (one, other) {
            (Self::Number, kind) | (kind, Self::Number) => kind,
            (Self::Ratio, kind) | (kind, Self::Ratio) => kind,
            _ => Self::Number,
        }
    }

    /// The named kind of a computed dimension. A computed pressure is a difference: nothing but a name makes a gauge or
    /// an absolute pressure.
    fn of(dimension: Dimension) -> Self {
        [
            Self::Number,
            Self::Length,
            Self::Area,
            Self::Force,
            Self::SpringRate,
            Self::Difference,
            Self::TemperatureDifference,
            Self::Density,
            Self::VolumeFlow,
            Self::MassFlow,
            Self::Viscosity,
            Self::KinematicViscosity,
            Self::HeatFlow,
            Self::SpecificHeat,
            Self::Volume,
            Self::Mass,
            Self::Time,
            Self::Velocity,
            Self::Acceleration,
            Self::Energy,
            Self::MolarHeat,
        ]
        .into_iter()
        .find(|kind| kind.dimension() == dimension)
        .unwrap_or(Self::Derived(dimension))
    }
}

#[cfg(test)]
mod tests;
