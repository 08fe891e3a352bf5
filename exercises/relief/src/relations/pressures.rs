//! The pressures of a relief valve and the distances between them.
//!
//! Three rises are kept apart: the *opening accumulation* (full-open minus opening pressure), the *overpressure* (rise
//! over set pressure) and the *accumulation over MAWP* (rise over the maximum allowable working pressure).

use super::rows::{PRESSURE, Takes, at_most, choice, gauge, one, opens, output, quantity, relation, same, stated};
use crate::compare::{in_order, larger};
use crate::limits;
use crate::quantity::{Absolute, Difference, Gauge, Ratio, Typed};
use crate::relation::{Range, Relation, RelationError, Role, Source, Status};
use crate::system::System;

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

const ATMOSPHERE: Takes<Absolute> =
    quantity(r"p_\mathrm{atm}", Range::between(STANDARD_ATMOSPHERE / 2.0, 1.1 * STANDARD_ATMOSPHERE)).usually(
        STANDARD_ATMOSPHERE,
        "standard atmosphere, exact by definition (SI Brochure, 9th edition); API Std 520 rounds it to 14.7 psi",
    );

/// The relations of this family.
pub const RELATIONS: &[Relation] = &[
    relation! {
        id: "overpressure",
        inputs: { relieving: gauge(r"p_1"), set: opens(r"p_\mathrm{set}") },
        outputs: &[output::<Difference>("overpressure", r"\Delta p_\mathrm{over}")],
        forms: same(
            r"#overpressure = #relieving - #set",
            Source { document: "ISO 4126-1:2013, 3.7; API Std 2000, 6th edition", status: Status::Read },
        ),
        run: one(overpressure(relieving, set)?),
    },
    relation! {
        id: "overpressure_percent",
        inputs: { relieving: gauge(r"p_1"), set: opens(r"p_\mathrm{set}").is(Role::Whole) },
        outputs: &[output::<Ratio>("overpressure", r"r_\mathrm{over}")],
        forms: same(
            r"#overpressure = \frac{#relieving - #set}{#set}",
            Source { document: "ISO 4126-1:2013, 3.7; API Std 2000, 6th edition", status: Status::Read },
        ),
        run: one(overpressure_percent(relieving, set)?),
    },
    relation! {
        id: "opening_accumulation",
        inputs: { full_open: gauge(r"p_\mathrm{full}"), opening: opens(r"p_\mathrm{open}") },
        outputs: &[output::<Difference>("opening_accumulation", r"\Delta p_\mathrm{open}")],
        forms: same(
            r"#opening_accumulation = #full_open - #opening",
            Source { document: "", status: Status::CommonPractice },
        ),
        run: one(opening_accumulation(full_open, opening)?),
    },
    relation! {
        id: "accumulation_over_mawp",
        inputs: { relieving: gauge(r"p_1"), mawp: opens(r"p_\mathrm{MAWP}") },
        outputs: &[output::<Difference>("accumulation", r"\Delta p_\mathrm{MAWP}")],
        forms: same(
            r"#accumulation = \max(#relieving - #mawp,\ 0)",
            Source { document: "API Std 521, 6th edition; API RP 576 (2009), 3.3.1", status: Status::Read },
        ),
        run: one(accumulation_over_mawp(relieving, mawp)),
    },
    relation! {
        id: "allowed_accumulation_over_mawp",
        inputs: { mawp: opens(r"p_\mathrm{MAWP}"), case: choice(r"\text{case}", CASES) },
        outputs: &[
            at_most::<Difference>("allowed", r"\Delta p_\mathrm{allowed}"),
        ],
        forms: stated(r"#allowed = \max(s\,#mawp,\ \Delta p_\mathrm{least})", limits::ALLOWED_ACCUMULATIONS_SOURCE),
        run(manner): one(allowed_accumulation_over_mawp(mawp, case, manner.form)),
    },
    relation! {
        id: "blowdown",
        inputs: { set: opens(r"p_\mathrm{set}"), reseat: gauge(r"p_\mathrm{reseat}") },
        outputs: &[output::<Difference>("blowdown", r"\Delta p_\mathrm{blow}")],
        forms: same(r"#blowdown = #set - #reseat", Source { document: "ISO 4126-1:2013, 3.15", status: Status::Read }),
        run: one(blowdown(set, reseat)?),
    },
    relation! {
        id: "blowdown_percent",
        inputs: { set: opens(r"p_\mathrm{set}").is(Role::Whole), reseat: gauge(r"p_\mathrm{reseat}") },
        outputs: &[output::<Ratio>("blowdown", r"r_\mathrm{blow}")],
        forms: same(
            r"#blowdown = \frac{#set - #reseat}{#set}",
            Source { document: "ISO 4126-1:2013, 3.15", status: Status::Read },
        ),
        run: one(blowdown_percent(set, reseat)?),
    },
    relation! {
        id: "relieving_pressure",
        inputs: {
            set: opens(r"p_\mathrm{set}"),
            overpressure: quantity::<Difference>(r"\Delta p_\mathrm{over}", RISE),
        },
        outputs: &[output::<Gauge>("relieving", r"p_1")],
        forms: same(
            r"#relieving = #set + #overpressure",
            Source { document: "API RP 520, 3.5.1.1; ISO 4126-1:2013, 3.10", status: Status::Read },
        ),
        run: one(relieving_pressure(set, overpressure)),
    },
    relation! {
        id: "absolute_pressure",
        inputs: {
            gauge: quantity::<Gauge>(r"p_\mathrm{g}", Range::between(-STANDARD_ATMOSPHERE, PRESSURE)),
            atmosphere: ATMOSPHERE,
        },
        outputs: &[output::<Absolute>("absolute", r"p_\mathrm{abs}")],
        forms: same(r"#absolute = #gauge + #atmosphere", Source { document: "", status: Status::Derived }),
        run: one(absolute_pressure(gauge, atmosphere)),
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
