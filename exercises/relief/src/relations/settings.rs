//! Set pressures and the limits around them: how high, how exact, how far down to reseat, and what the test stand needs.

use super::rows::{
    PRESSURE, Takes, at_least, at_most, choice, gauge, mechanics, number, one, opens, output, quantity, relation, same,
    stated,
};
use crate::compare::{in_order, something_left};
use crate::limits;
use crate::quantity::{Area, Difference, Force, Gauge, Number, Ratio, Typed};
use crate::relation::{Outputs, Range, Relation, RelationError, Role, Source, Status};
use crate::system::System;

/// Highest set pressure (pascal, gauge) of a valve by its rank: the first 100 %, others 105 %, those for fire only 110 % of
/// the MAWP.
#[must_use]
pub fn maximum_set(mawp: Gauge, rank: &str) -> Gauge {
    let above = limits::find(limits::MAXIMUM_SETS, rank, mawp, System::Us).high.share;
    Gauge::from_si(mawp.si() * (1.0 + above))
}

/// How far below and above the set pressure a valve may open (pascal, differences; the first is zero or negative).
#[must_use]
pub fn set_tolerance(set: Gauge, code: &str, form: System) -> (Difference, Difference) {
    let row = limits::find(limits::SET_TOLERANCES, code, set, form);
    let low = 0.0 - row.low.at(set, form);
    (Difference::from_si(low), Difference::from_si(row.high.at(set, form)))
}

/// Least and greatest blowdown (pascal, differences).
#[must_use]
pub fn blowdown_limit(set: Gauge, code: &str, form: System) -> (Difference, Difference) {
    let row = limits::find(limits::BLOWDOWN_LIMITS, code, set, form);
    let width = |width: limits::Width| Difference::from_si(width.at(set, form));
    (width(row.low), width(row.high))
}

/// Cold differential test pressure (pascal, gauge): set pressure, less the constant superimposed back pressure that a
/// conventional valve feels, times a factor for temperature.
#[must_use]
pub fn cold_test_pressure(set: Gauge, superimposed: Gauge, kind: &str, factor: Number) -> Gauge {
    let felt = if kind == "conventional" { superimposed.si() } else { 0.0 };
    Gauge::from_si((set.si() - felt) * factor.si())
}

/// Inlet pressure at which a valve opens against superimposed back pressure (pascal, gauge), friction left out.
///
/// # Errors
/// [`RelationError::Order`] where the disc area is below the nozzle area; [`RelationError::NothingLeft`] where the back
/// pressure alone would hold the valve open.
pub fn opening_under_back_pressure(
    spring_force: Force,
    nozzle_area: Area,
    disc_area: Area,
    superimposed: Gauge,
    vented_to_outlet: bool,
) -> Result<Gauge, RelationError> {
    in_order(("nozzle_area", nozzle_area), ("disc_area", disc_area))?;
    let spring = spring_force.si() / nozzle_area.si();
    let annulus = superimposed.si() * (disc_area.si() - nozzle_area.si()) / nozzle_area.si();
    let opening = if vented_to_outlet { spring + superimposed.si() } else { spring - annulus };
    something_left(Gauge::from_si(opening), "superimposed")
}

/// Margin between operating and set pressure, as a share of the set pressure (a ratio).
///
/// # Errors
/// [`RelationError::Order`] where the operating pressure is above the set pressure.
pub fn operating_margin(set: Gauge, operating: Gauge) -> Result<Ratio, RelationError> {
    in_order(("operating", operating), ("set", set))?;
    Ok((set - operating) / set)
}

/// Pressure loss in the inlet line as a share of the set pressure (a ratio).
#[must_use]
pub fn inlet_loss_ratio(loss: Difference, set: Gauge) -> Ratio {
    loss / set
}

/// The band of pressures around a set pressure (pascal, gauge).
pub(super) fn band(set: Gauge, code: &str, form: System) -> (Gauge, Gauge) {
    let (low, high) = set_tolerance(set, code, form);
    (set + low, set + high)
}

/// The codes that state a tolerance of the set pressure.
pub(super) const TOLERANCE_CODES: &[&str] = &["vessel", "vessel_fire_only", "boiler", "iso"];
const RANKS: &[&str] = &["first", "additional", "fire_supplemental"];
const BLOWDOWN_CODES: &[&str] = &["boiler", "vessel_certification", "iso_gas", "iso_liquid"];
const VALVES: &[&str] = &["conventional", "balanced", "pilot"];
const BONNETS: &[&str] = &["vented_to_outlet", "vented_to_air"];

const SET: Takes<Gauge> = opens(r"p_\mathrm{set}");
/// The relations of this family.
pub const RELATIONS: &[Relation] = &[
    relation! {
        id: "maximum_set",
        inputs: { mawp: opens(r"p_\mathrm{MAWP}"), rank: choice(r"\text{rank}", RANKS) },
        outputs: &[at_most::<Gauge>("set", r"p_\mathrm{set}")],
        forms: same(r"#set = s \, #mawp,\quad s = 1.00,\ 1.05,\ 1.10", limits::MAXIMUM_SETS_SOURCE),
        run: one(maximum_set(mawp, rank)),
    },
    relation! {
        id: "set_tolerance",
        inputs: { set: SET, code: choice(r"\text{code}", TOLERANCE_CODES) },
        outputs: &[at_least::<Gauge>("low", r"p_\mathrm{low}"), at_most::<Gauge>("high", r"p_\mathrm{high}")],
        forms: stated(
            r"#low = #set - t_\mathrm{low},\quad #high = #set + t_\mathrm{high}",
            limits::SET_TOLERANCES_SOURCE,
        ),
        run(manner): {
            let (low, high) = band(set, code, manner.form);
            Ok(Outputs::Two(low.quantity(), high.quantity()))
        },
    },
    relation! {
        id: "blowdown_limit",
        inputs: { set: SET, code: choice(r"\text{code}", BLOWDOWN_CODES) },
        outputs: &[
            at_least::<Difference>("least", r"\Delta p_\mathrm{least}"),
            at_most::<Difference>("most", r"\Delta p_\mathrm{most}"),
        ],
        forms: stated(
            r"#least = \max(s_1 \, #set,\ d_1),\quad #most = \max(s_2 \, #set,\ d_2)",
            limits::BLOWDOWN_LIMITS_SOURCE,
        ),
        run(manner): {
            let (low, high) = blowdown_limit(set, code, manner.form);
            Ok(Outputs::Two(low.quantity(), high.quantity()))
        },
    },
    relation! {
        id: "cold_test_pressure",
        inputs: {
            set: SET,
            superimposed: quantity::<Gauge>(r"p_\mathrm{b}", Range::from_zero(PRESSURE)),
            kind: choice(r"\text{kind}", VALVES),
            factor: number("f", Range::between(0.9, 1.2)).usually(1.0, "no correction for temperature"),
        },
        outputs: &[output::<Gauge>("cold_test", r"p_\mathrm{cold}")],
        forms: same(
            r"#cold_test = (#set - #superimposed) \, #factor\quad\text{conventional, else}\quad #set \, #factor",
            Source {
                document: "API RP 576 3.4.7 for the meaning; the deduction as in a marine engineering text; the order, subtract \
                       then multiply, is common practice",
                status: Status::Read,
            },
        ),
        run: {
            let cold = cold_test_pressure(set, superimposed, kind, factor);
            one(something_left(cold, "superimposed")?)
        },
    },
    relation! {
        id: "opening_under_back_pressure",
        inputs: {
            spring_force: quantity::<Force>(r"F_\mathrm{s}", Range::positive(1e9)),
            nozzle_area: quantity::<Area>(r"A_\mathrm{N}", Range::positive(1e2)),
            disc_area: quantity::<Area>(r"A_\mathrm{D}", Range::positive(1e2)),
            superimposed: quantity::<Gauge>(r"p_\mathrm{b}", Range::from_zero(PRESSURE)),
            bonnet: choice(r"\text{bonnet}", BONNETS),
        },
        outputs: &[output::<Gauge>("opening", r"p_\mathrm{open}")],
        forms: mechanics(
            r"#opening = \frac{#spring_force}{#nozzle_area} + #superimposed\ \text{(to outlet)},\quad \frac{#spring_force - #superimposed \, (#disc_area - #nozzle_area)}{#nozzle_area}\ \text{(to air)}",
            Source { document: "API Std 520 Part I, force balance figures", status: Status::Memory },
        ),
        run: {
            one(opening_under_back_pressure(spring_force, nozzle_area, disc_area, superimposed, bonnet == "vented_to_outlet")?)
        },
    },
    relation! {
        id: "operating_margin",
        inputs: { set: SET.is(Role::Whole), operating: gauge(r"p_\mathrm{op}") },
        outputs: &[at_most::<Ratio>("margin", "m")],
        forms: same(
            r"#margin = \frac{#set - #operating}{#set}",
            Source {
                document: "pressure-level figure of API Std 520 Part I, from memory: 90 % of the MAWP",
                status: Status::Partly,
            },
        ),
        run: one(operating_margin(set, operating)?),
    },
    relation! {
        id: "inlet_loss_ratio",
        inputs: {
            loss: quantity::<Difference>(r"\Delta p_\mathrm{in}", Range::from_zero(PRESSURE)),
            set: SET.is(Role::Whole),
        },
        outputs: &[at_least::<Ratio>("ratio", "r")],
        forms: same(
            r"#ratio = \frac{#loss}{#set}",
            Source { document: "the 3 % rule of practice notes citing API RP 520 Part II", status: Status::Read },
        ),
        run: one(inlet_loss_ratio(loss, set)),
    },
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::factors::POUND_PER_SQUARE_INCH;

    #[test]
    fn the_code_bands_meet_their_edges() {
        let width = |psi: f64, code: &str| {
            set_tolerance(Gauge::from_si(psi * POUND_PER_SQUARE_INCH), code, System::Us).1.si() / POUND_PER_SQUARE_INCH
        };
        assert!((width(70.0, "vessel") - 2.0).abs() < 1e-9 && (width(71.0, "vessel") - 2.13).abs() < 1e-9);
        assert!((width(1000.0, "boiler") - 10.0).abs() < 1e-9 && (width(1001.0, "boiler") - 10.01).abs() < 1e-9);
    }
}
