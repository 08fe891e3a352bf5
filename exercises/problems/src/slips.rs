//! Common slips, looked for without being listed by the author: what an answer would be if one usual thing went wrong.
//!
//! A slip is one substitution in the formula of a part or of an earlier part that it rests on: another given value, a
//! factor left out, a diameter for a radius. They are tried in the order of their likelihood (the search says which), and
//! the first that gives what was typed is told. Many different slips give many different numbers, so that a number made up
//! at random soon hits one of them: once their windows cover 2 % of the span about the answer, the rest are asked
//! about and never stated.

mod places;
mod search;
mod values;

use relief::Kind;
use relief::Quantity;
use relief::relations::pressures::STANDARD_ATMOSPHERE;

use crate::draw::Problem;
use crate::mark::{Window, slack, tolerance};
use crate::recipe::{Ask, NumberAsk};

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
    /// What comes out on the way was given as the answer.
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
    /// The sign is the other way round.
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

/// What a message needs to know, by name.
pub(crate) type Values = Vec<(&'static str, String)>;

/// How much of the span from a quarter to four times the answer the windows of stated slips may cover, by logarithms: so
/// many numbers made up at random are given a reason that is not theirs.
const STATED: f64 = 0.02;

/// The slip that explains a wrong answer.
pub(crate) struct Found {
    pub(crate) slip: Slip,
    pub(crate) values: Values,
    /// Whether it is only asked about: chance could have given this number as well.
    pub(crate) asked: bool,
}

/// The first slip that gives what was typed.
pub(crate) fn find(
    problem: &Problem,
    ask: &Ask,
    number: &NumberAsk,
    right: Quantity,
    window: &Window,
) -> Option<Found> {
    let mut finding = Finding { right, window, seen: Vec::new(), covered: 0.0, found: None, near: None };
    // Named mistakes are stated before, and take their share of the span.
    for mistake in &number.mistakes {
        if let Ok(value) = mistake.answer.quantity(&problem.scope) {
            finding.cover(value.si, 0.0);
        }
    }
    search::all(&mut finding, &search::Work { problem, ask, number, right });
    finding.found.or(finding.near)
}

/// What was tried so far.
pub(crate) struct Finding<'w> {
    right: Quantity,
    window: &'w Window,
    /// What gave a number already: equal results count once.
    seen: Vec<f64>,
    covered: f64,
    /// What gives just the number that was typed.
    found: Option<Found>,
    /// What comes as near to it as a right answer may be off.
    near: Option<Found>,
}

impl Finding<'_> {
    /// Whether there is nothing more to look for.
    fn is_done(&self) -> bool {
        self.found.is_some()
    }

    /// Tries what a slip gives (SI), where it gives anything.
    fn candidate(&mut self, slip: Slip, si: Option<f64>, values: impl FnOnce() -> Values) {
        self.within(slip, si, 0.0, values);
    }

    /// The same for a slip at the very end of what was right until then: so great a share of its number as an answer may be
    /// off and still be right.
    fn within(&mut self, slip: Slip, si: Option<f64>, share: f64, values: impl FnOnce() -> Values) {
        let Some(si) = si.filter(|si| si.is_finite() && !self.is_done()) else { return };
        // What a slip gives is no explanation where it is the right answer too.
        let known = |other: f64| (si - other).abs() <= slack(other);
        if known(self.right.si) || self.seen.iter().any(|other| known(*other)) {
            return;
        }
        self.cover(si, share);
        let is_typed = self.window.holds(si);
        if is_typed || self.near.is_none() && (si - self.window.si).abs() <= share * si.abs() {
            let found = Some(Found { slip, values: values(), asked: self.covered > STATED });
            // Another slip may give just what was typed.
            if is_typed { self.found = found } else { self.near = found }
        }
    }

    fn cover(&mut self, si: f64, share: f64) {
        self.seen.push(si);
        self.covered += self.window.share(si, self.right.si, share);
    }
}

/// The slip of a pressure that is right but measured from the wrong zero.
pub(crate) fn reference(right: Quantity, si: f64, tolerance: f64) -> Option<Slip> {
    reference_slip(right).filter(|(_, value)| (si - value).abs() <= tolerance).map(|(slip, _)| slip)
}

fn reference_slip(right: Quantity) -> Option<(Slip, f64)> {
    match right.kind {
        Kind::Absolute => Some((Slip::GaugeForAbsolute, right.si - STANDARD_ATMOSPHERE)),
        Kind::Gauge => Some((Slip::AbsoluteForGauge, right.si + STANDARD_ATMOSPHERE)),
        _ => None,
    }
}

/// How far from the right answer rounding as instructed, or the tolerance, may move it.
pub(crate) fn reach(problem: &Problem, number: &NumberAsk, value: Quantity) -> f64 {
    let system = problem.setting.system;
    let asked = number.unit.of(system).0;
    let step = number.grid(system).map_or(0.0, |grid| {
        let step = grid.reach(asked.map_or(value.si, |unit| unit.value(value)));
        asked.map_or(step, |unit| step * unit.factor())
    });
    tolerance(problem, number, value).max(step) + slack(value.si)
}
