//! The slips that are looked for.

/// A common slip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slip {
    /// A gauge pressure where an absolute one belongs.
    GaugeForAbsolute,
    /// An absolute pressure where a gauge one belongs.
    AbsoluteForGauge,
    /// A temperature on its everyday scale where the absolute one belongs.
    TemperatureZero,
    /// The number of another unit.
    UnitNotConverted,
    /// Ten, a hundred or a thousand times too much or too little.
    Decade,
    /// A diameter and a radius were taken for each other.
    DiameterForRadius,
    /// The whole pressure where only its rise or fall belongs.
    WholeForRise,
    /// The pressure that it started from where the lower one belongs that it fell to.
    SetForReseat,
    /// A share of the wrong whole.
    PercentBase,
    /// An intermediate value was given as the answer.
    StoppedEarly,
    /// A given value was given as the answer.
    GivenRepeated,
    /// One known value where another belongs.
    OtherValue,
    /// Two known values taken for each other.
    Exchanged,
    /// A factor was left out, or one of its unit was taken.
    LeftOut,
    /// A value upside down.
    Inverted,
    /// A value twice as large.
    Doubled,
    /// A value half as large.
    Halved,
    /// A value squared.
    Squared,
    /// The sign is reversed.
    Sign,
}

impl Slip {
    /// All of them, in the order of their likelihood.
    pub const ALL: [Self; 19] = [
        Self::GaugeForAbsolute,
        Self::AbsoluteForGauge,
        Self::TemperatureZero,
        Self::UnitNotConverted,
        Self::Decade,
        Self::DiameterForRadius,
        Self::WholeForRise,
        Self::SetForReseat,
        Self::PercentBase,
        Self::StoppedEarly,
        Self::GivenRepeated,
        Self::OtherValue,
        Self::Exchanged,
        Self::LeftOut,
        Self::Inverted,
        Self::Doubled,
        Self::Halved,
        Self::Squared,
        Self::Sign,
    ];

    /// The code under which words for this slip are kept.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::StoppedEarly => "stopped_early",
            Self::GivenRepeated => "given_repeated",
            Self::GaugeForAbsolute => "gauge_for_absolute",
            Self::AbsoluteForGauge => "absolute_for_gauge",
            Self::TemperatureZero => "temperature_zero",
            Self::UnitNotConverted => "unit_not_converted",
            Self::Decade => "decade",
            Self::DiameterForRadius => "diameter_for_radius",
            Self::WholeForRise => "whole_for_rise",
            Self::SetForReseat => "set_for_reseat",
            Self::PercentBase => "percent_base",
            Self::OtherValue => "other_value",
            Self::Exchanged => "exchanged",
            Self::LeftOut => "left_out",
            Self::Inverted => "inverted",
            Self::Doubled => "doubled",
            Self::Halved => "halved",
            Self::Squared => "squared",
            Self::Sign => "sign",
        }
    }
}
