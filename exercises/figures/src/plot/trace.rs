//! The numbers of the plot: read once from the parameters, in order, and with the law that joins them.

use relief::relations::{pressures, spring};
use relief::units::{self, Unit};
use relief::{Area, Difference, Gauge, Kind, Length, Rounding, Typed, shown};

use crate::error::FigureError;
use crate::measure::{Measure, Parameters};

/// The highest pressure and the greatest lift that are drawn (pascal, metre): far above any relief valve.
const LIMIT: f64 = 1e9;

/// One run of a valve: up to full lift and back to its seat.
#[derive(Clone, Copy, Debug)]
pub(super) struct Trace {
    /// Pressure at which the valve opens (pascal, gauge).
    pub(super) opening: Gauge,
    /// Pressure at which it is at full lift (pascal, gauge).
    pub(super) full_open: Gauge,
    /// Pressure at which it is back on its seat (pascal, gauge).
    pub(super) reseat: Gauge,
    /// Full lift (metre).
    pub(super) full_lift: Length,
    /// Set pressure, where it is to be marked (pascal, gauge).
    pub(super) set: Option<Gauge>,
    /// MAWP of the vessel, where it is to be marked (pascal, gauge).
    pub(super) mawp: Option<Gauge>,
    /// The unit that pressures are shown in.
    pub(super) pressure_unit: &'static Unit,
    /// The unit that lifts are shown in.
    pub(super) lift_unit: &'static Unit,
}

impl Trace {
    /// Reads what was given.
    ///
    /// # Errors
    /// [`FigureError`], where a number is missing, cannot be drawn, or is on the wrong side of another.
    pub(super) fn read(given: &Parameters) -> Result<Self, FigureError> {
        let trace = Self {
            opening: needed(given, "opening")?,
            full_open: needed(given, "full_open")?,
            reseat: needed(given, "reseat")?,
            full_lift: needed(given, "full_lift")?,
            set: optional(given, "set")?,
            mawp: optional(given, "mawp")?,
            pressure_unit: measure(given, "opening")?.unit,
            lift_unit: measure(given, "full_lift")?.unit,
        };
        trace.in_order()?;
        Ok(trace)
    }

    fn in_order(&self) -> Result<(), FigureError> {
        below(("reseat", self.reseat), ("opening", self.opening))?;
        below(("opening", self.opening), ("full_open", self.full_open))?;
        if let Some(set) = self.set {
            below(("reseat", self.reseat), ("set", set))?;
            below(("set", set), ("full_open", self.full_open))?;
        }
        if let Some(mawp) = self.mawp {
            below(("reseat", self.reseat), ("mawp", mawp))?;
        }
        Ok(())
    }

    /// The set pressure, or the opening pressure where none is given: what blowdown is counted from.
    pub(super) fn set_or_opening(&self) -> Gauge {
        self.set.unwrap_or(self.opening)
    }

    /// Lift at a rising pressure (metre), by the law of [`spring::lift_at_pressure`]. The spring rate is the one that
    /// gives this opening accumulation; the seat area cancels out, so any will do.
    pub(super) fn lift_at(&self, pressure: Gauge) -> Length {
        let area = Area::from_si(1.0);
        let rate = spring::rate_for_rise(area, self.full_open - self.opening, self.full_lift);
        spring::lift_at_pressure(self.opening, area, rate, self.full_lift, pressure)
    }

    /// Opening accumulation (pascal).
    pub(super) fn opening_accumulation(&self) -> Difference {
        self.full_open - self.opening
    }

    /// Blowdown (pascal).
    pub(super) fn blowdown(&self) -> Difference {
        self.set_or_opening() - self.reseat
    }

    /// Overpressure at full lift (pascal), where the set pressure is given.
    pub(super) fn overpressure(&self) -> Option<Difference> {
        self.set.map(|set| self.full_open - set)
    }

    /// Accumulation over MAWP at full lift (pascal), where the MAWP is given and passed.
    pub(super) fn accumulation_over_mawp(&self) -> Option<Difference> {
        let over = pressures::accumulation_over_mawp(self.full_open, self.mawp?);
        (over.si() > 0.0).then_some(over)
    }

    /// A gauge pressure as it is printed.
    pub(super) fn gauge(&self, pressure: Gauge) -> String {
        shown_in(self.pressure_unit, pressure, 6)
    }

    /// A difference as it is printed: in the same unit, but without the mark of a gauge pressure.
    pub(super) fn difference(&self, difference: Difference) -> String {
        let unit = units::for_kind(Kind::Difference)
            .find(|unit| unit.is_bare_pressure() && unit.factor().to_bits() == self.pressure_unit.factor().to_bits())
            .unwrap_or(self.pressure_unit);
        shown_in(unit, difference, 4)
    }

    /// A lift as it is printed.
    pub(super) fn lift(&self, lift: Length) -> String {
        shown_in(self.lift_unit, lift, 4)
    }
}

fn shown_in(unit: &Unit, value: impl Typed, figures: u8) -> String {
    format!("{} {}", shown(unit.value(value.quantity()), figures, Rounding::Nearest), unit.symbol)
}

fn measure<'a>(given: &'a Parameters, parameter: &'static str) -> Result<&'a Measure, FigureError> {
    given.get(parameter).ok_or(FigureError::MissingParameter { parameter })
}

fn needed<Q: Typed>(given: &Parameters, parameter: &'static str) -> Result<Q, FigureError> {
    let si = measure(given, parameter)?.quantity.si;
    let lowest_is_zero = parameter == "reseat" && si >= 0.0;
    let drawable = (lowest_is_zero || si > 0.0) && si <= LIMIT;
    if drawable { Ok(Q::from_si(si)) } else { Err(FigureError::OutOfRange { parameter }) }
}

fn optional<Q: Typed>(given: &Parameters, parameter: &'static str) -> Result<Option<Q>, FigureError> {
    if given.contains_key(parameter) { needed(given, parameter).map(Some) } else { Ok(None) }
}

fn below(low: (&'static str, Gauge), high: (&'static str, Gauge)) -> Result<(), FigureError> {
    if low.1 < high.1 { Ok(()) } else { Err(FigureError::OutOfOrder { low: low.0, high: high.0 }) }
}
