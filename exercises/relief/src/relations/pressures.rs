//! The pressures of a relief valve and the distances between them.
//!
//! Three rises are kept apart: the *opening accumulation* (full-open minus opening pressure), the *overpressure* (rise
//! over set pressure) and the *accumulation over MAWP* (rise over the maximum allowable working pressure).

use super::rows::{PRESSURE, gauge, one, opens, output, quantity, same, stated};
use crate::compare::{in_order, larger};
use crate::kind::Kind;
use crate::limits;
use crate::quantity::{Absolute, Difference, Gauge, Quantity, Ratio, Typed};
use crate::relation::{
    Argument, Default, Form, Gives, Input, Output, Range, Relation, RelationError, SafeSide, Source, Status,
};
use crate::system::System;
use crate::texts::text;

/// The standard atmosphere (pascal, absolute).
pub const STANDARD_ATMOSPHERE: f64 = crate::factors::ATMOSPHERE;

/// Which rule limits the accumulation over MAWP.
const CASES: &[&str] = &["single", "several", "fire", "boiler"];

/// Overpressure (pascal, a difference): relieving pressure minus set pressure, both gauge.
///
/// # Errors
/// [`RelationError::Order`] where the relieving pressure is below the set pressure.
pub fn overpressure(relieving: Gauge, set: Gauge) -> Result<Difference, RelationError> {
    in_order(("set", set), ("relieving", relieving))?;
    Ok(relieving - set)
}

/// Overpressure as a share of the set pressure (a ratio).
///
/// # Errors
/// As [`overpressure`].
pub fn overpressure_percent(relieving: Gauge, set: Gauge) -> Result<Ratio, RelationError> {
    Ok(overpressure(relieving, set)? / set)
}

/// Opening accumulation (pascal, a difference): full-open pressure minus opening pressure, both gauge.
///
/// # Errors
/// [`RelationError::Order`] where the full-open pressure is below the opening pressure.
pub fn opening_accumulation(full_open: Gauge, opening: Gauge) -> Result<Difference, RelationError> {
    in_order(("opening", opening), ("full_open", full_open))?;
    Ok(full_open - opening)
}

/// Accumulation over MAWP (pascal, a difference): relieving pressure minus MAWP, both gauge; zero while the pressure
/// stays below the MAWP.
#[must_use]
pub fn accumulation_over_mawp(relieving: Gauge, mawp: Gauge) -> Difference {
    larger(relieving - mawp, Difference::from_si(0.0))
}

/// The most that the pressure may rise over the MAWP (pascal, a difference) in a case: a share of the MAWP or a stated
/// minimum, whichever is greater. The form says in which system the code's statement of the minimum is taken.
#[must_use]
pub fn allowed_accumulation_over_mawp(mawp: Gauge, case: &str, form: System) -> Difference {
    let row = limits::find(limits::ALLOWED_ACCUMULATIONS, case, mawp, form);
    Difference::from_si(row.high.at(mawp, form))
}

/// Blowdown (pascal, a difference): set pressure minus reseating pressure, both gauge.
///
/// # Errors
/// [`RelationError::Order`] where the reseating pressure is above the set pressure.
pub fn blowdown(set: Gauge, reseat: Gauge) -> Result<Difference, RelationError> {
    in_order(("reseat", reseat), ("set", set))?;
    Ok(set - reseat)
}

/// Blowdown as a share of the set pressure (a ratio).
///
/// # Errors
/// As [`blowdown`].
pub fn blowdown_percent(set: Gauge, reseat: Gauge) -> Result<Ratio, RelationError> {
    Ok(blowdown(set, reseat)? / set)
}

/// Relieving pressure (pascal, gauge): set pressure plus overpressure.
#[must_use]
pub fn relieving_pressure(set: Gauge, overpressure: Difference) -> Gauge {
    set + overpressure
}

/// Absolute pressure (pascal, absolute): gauge pressure plus the pressure of the atmosphere.
#[must_use]
pub fn absolute_pressure(gauge: Gauge, atmosphere: Absolute) -> Absolute {
    Absolute::from_si(gauge.si() + atmosphere.si())
}

const RISE: Range = Range::from_zero(PRESSURE);

const ATMOSPHERE: Default = Default {
    value: Argument::Quantity(Quantity::new(STANDARD_ATMOSPHERE, Kind::Absolute)),
    source: text(
        "standard atmosphere, exact by definition (SI Brochure, 9th edition); API Std 520 rounds it to 14.7 psi",
    ),
};

/// The relations of this family.
pub const RELATIONS: &[Relation] = &[
    Relation {
        id: "overpressure",
        inputs: &[gauge("relieving", r"p_1"), opens("set", r"p_\mathrm{set}")],
        outputs: &[output("overpressure", r"\Delta p_\mathrm{over}", Kind::Difference)],
        forms: same(
            r"#overpressure = #relieving - #set",
            Source { document: "ISO 4126-1:2013, 3.7; API Std 2000, 6th edition", status: Status::Read },
        ),
        run: |a| one(overpressure(a.get(0), a.get(1))?),
    },
    Relation {
        id: "overpressure_percent",
        inputs: &[gauge("relieving", r"p_1"), opens("set", r"p_\mathrm{set}")],
        outputs: &[output("overpressure", r"r_\mathrm{over}", Kind::Ratio)],
        forms: same(
            r"#overpressure = \frac{#relieving - #set}{#set}",
            Source { document: "ISO 4126-1:2013, 3.7; API Std 2000, 6th edition", status: Status::Read },
        ),
        run: |a| one(overpressure_percent(a.get(0), a.get(1))?),
    },
    Relation {
        id: "opening_accumulation",
        inputs: &[gauge("full_open", r"p_\mathrm{full}"), opens("opening", r"p_\mathrm{open}")],
        outputs: &[output("opening_accumulation", r"\Delta p_\mathrm{open}", Kind::Difference)],
        forms: same(
            r"#opening_accumulation = #full_open - #opening",
            Source { document: "", status: Status::CommonPractice },
        ),
        run: |a| one(opening_accumulation(a.get(0), a.get(1))?),
    },
    Relation {
        id: "accumulation_over_mawp",
        inputs: &[gauge("relieving", r"p_1"), opens("mawp", r"p_\mathrm{MAWP}")],
        outputs: &[output("accumulation", r"\Delta p_\mathrm{MAWP}", Kind::Difference)],
        forms: same(
            r"#accumulation = \max(#relieving - #mawp,\ 0)",
            Source { document: "API Std 521, 6th edition; API RP 576 (2009), 3.3.1", status: Status::Read },
        ),
        run: |a| one(accumulation_over_mawp(a.get(0), a.get(1))),
    },
    Relation {
        id: "allowed_accumulation_over_mawp",
        inputs: &[
            opens("mawp", r"p_\mathrm{MAWP}"),
            Input { name: "case", symbol: text(r"\text{case}"), form: Form::Choice(CASES), default: None },
        ],
        outputs: &[Output {
            name: "allowed",
            symbol: text(r"\Delta p_\mathrm{allowed}"),
            gives: Gives::Quantity(Kind::Difference),
            safe_side: SafeSide::Down,
        }],
        forms: stated(r"#allowed = \max(s\,#mawp,\ \Delta p_\mathrm{least})", limits::ALLOWED_ACCUMULATIONS_SOURCE),
        run: |a| one(allowed_accumulation_over_mawp(a.get(0), a.choice(1), a.manner.form)),
    },
    Relation {
        id: "blowdown",
        inputs: &[opens("set", r"p_\mathrm{set}"), gauge("reseat", r"p_\mathrm{reseat}")],
        outputs: &[output("blowdown", r"\Delta p_\mathrm{blow}", Kind::Difference)],
        forms: same(r"#blowdown = #set - #reseat", Source { document: "ISO 4126-1:2013, 3.15", status: Status::Read }),
        run: |a| one(blowdown(a.get(0), a.get(1))?),
    },
    Relation {
        id: "blowdown_percent",
        inputs: &[opens("set", r"p_\mathrm{set}"), gauge("reseat", r"p_\mathrm{reseat}")],
        outputs: &[output("blowdown", r"r_\mathrm{blow}", Kind::Ratio)],
        forms: same(
            r"#blowdown = \frac{#set - #reseat}{#set}",
            Source { document: "ISO 4126-1:2013, 3.15", status: Status::Read },
        ),
        run: |a| one(blowdown_percent(a.get(0), a.get(1))?),
    },
    Relation {
        id: "relieving_pressure",
        inputs: &[
            opens("set", r"p_\mathrm{set}"),
            quantity("overpressure", r"\Delta p_\mathrm{over}", Kind::Difference, RISE),
        ],
        outputs: &[output("relieving", r"p_1", Kind::Gauge)],
        forms: same(
            r"#relieving = #set + #overpressure",
            Source { document: "API RP 520, 3.5.1.1; ISO 4126-1:2013, 3.10", status: Status::Read },
        ),
        run: |a| one(relieving_pressure(a.get(0), a.get(1))),
    },
    Relation {
        id: "absolute_pressure",
        inputs: &[
            quantity("gauge", r"p_\mathrm{g}", Kind::Gauge, Range::between(-STANDARD_ATMOSPHERE, PRESSURE)),
            Input {
                name: "atmosphere",
                symbol: text(r"p_\mathrm{atm}"),
                form: Form::Quantity(
                    Kind::Absolute,
                    Range::between(STANDARD_ATMOSPHERE / 2.0, 1.1 * STANDARD_ATMOSPHERE),
                ),
                default: Some(ATMOSPHERE),
            },
        ],
        outputs: &[output("absolute", r"p_\mathrm{abs}", Kind::Absolute)],
        forms: same(r"#absolute = #gauge + #atmosphere", Source { document: "", status: Status::Derived }),
        run: |a| one(absolute_pressure(a.get(0), a.get(1))),
    },
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rises_are_refused_upside_down() {
        let (low, high) = (Gauge::from_si(1.0), Gauge::from_si(2.0));
        assert_eq!(overpressure(low, high), Err(RelationError::Order { low: "set", high: "relieving" }));
        assert_eq!(blowdown(low, high), Err(RelationError::Order { low: "reseat", high: "set" }));
        assert!(opening_accumulation(low, high).is_err());
    }

    #[test]
    fn below_the_mawp_nothing_accumulates_over_it() {
        assert!(accumulation_over_mawp(Gauge::from_si(99.0), Gauge::from_si(100.0)).si().abs() < f64::EPSILON);
    }
}
