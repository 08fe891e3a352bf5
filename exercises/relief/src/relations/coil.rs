//! The spring as a spring: stress, travel, and what a lost share of load, lost length and heat do to the valve.
//!
//! A lost share of load, lost length and a lower modulus are three different things. Lost load lowers the opening pressure
//! in proportion; lost length lowers it by a fixed amount and leaves the rate; heat lowers rate and load together, and so
//! the opening and the full-open pressure in the same proportion.

use super::rows::{Takes, at_least, length, mechanics, number, one, output, quantity, relation, same};
use super::spring::{AREA, FULL_LIFT, OPENING, RATE, full_open_pressure};
use crate::compare::{below, in_order, something_left};
use crate::quantity::{Area, Force, Gauge, Length, Number, Ratio, SpringRate, Stress, Typed};
use crate::relation::{Range, Relation, RelationError, Source, Status};

/// Spring index (dimensionless): mean coil diameter over wire diameter.
///
/// # Errors
/// [`RelationError::Order`] where the wire is thicker than the mean coil diameter.
pub fn spring_index(wire: Length, mean_coil: Length) -> Result<Number, RelationError> {
    in_order(("wire", wire), ("mean_coil", mean_coil))?;
    Ok(Number::from_si(mean_coil.si() / wire.si()))
}

/// Wahl factor (dimensionless): curvature and direct shear, from the spring index.
#[must_use]
pub fn wahl_factor(index: Number) -> Number {
    let index = index.si();
    Number::from_si((4.0 * index - 1.0) / (4.0 * index - 4.0) + 0.615 / index)
}

/// Shear stress in the wire (pascal) under a force, with the Wahl factor.
///
/// # Errors
/// As [`spring_index`]; [`RelationError::Order`] too where the index is one, where the factor has no value.
pub fn spring_stress(force: Force, wire: Length, mean_coil: Length) -> Result<Stress, RelationError> {
    let index = spring_index(wire, mean_coil)?;
    if index.si() <= 1.0 {
        return Err(RelationError::Order { low: "wire", high: "mean_coil" });
    }
    let d = wire.si();
    let plain = 8.0 * force.si() * mean_coil.si() / (core::f64::consts::PI * (d * d * d));
    Ok(Stress::from_si(wahl_factor(index).si() * plain))
}

/// Solid length (metre) of a spring with closed and ground ends: wire diameter times all its coils.
#[must_use]
pub fn solid_length(wire: Length, total: Number) -> Length {
    Length::from_si(wire.si() * total.si())
}

/// Compression at full lift as a share of the compression to solid (a ratio).
///
/// # Errors
/// [`RelationError::Order`] where the solid length is not below the free length.
pub fn travel_margin(free: Length, solid: Length, preload: Length, full_lift: Length) -> Result<Ratio, RelationError> {
    below(("solid", solid), ("free", free))?;
    Ok(Ratio::from_si((preload.si() + full_lift.si()) / (free.si() - solid.si())))
}

/// Opening pressure (pascal, gauge) after the spring has lost a share of its load.
#[must_use]
pub fn opening_after_load_loss(opening: Gauge, loss: Ratio) -> Gauge {
    Gauge::from_si(opening.si() * (1.0 - loss.si()))
}

/// Opening pressure (pascal, gauge) after the spring has become shorter by a permanent set; its rate stays.
///
/// # Errors
/// [`RelationError::NothingLeft`] where nothing of the preload is left.
pub fn opening_after_shortening(
    opening: Gauge,
    rate: SpringRate,
    shortening: Length,
    area: Area,
) -> Result<Gauge, RelationError> {
    something_left(opening - rate * shortening / area, "shortening")
}

/// Opening pressure (pascal, gauge) of a hot spring: the modulus, and so the load at the same compression, is lower.
#[must_use]
pub fn opening_when_hot(opening: Gauge, modulus_ratio: Ratio) -> Gauge {
    Gauge::from_si(opening.si() * modulus_ratio.si())
}

/// Full-open pressure (pascal, gauge) of a hot spring: both the opening load and the rate are lower.
#[must_use]
pub fn full_open_when_hot(
    opening: Gauge,
    area: Area,
    rate: SpringRate,
    full_lift: Length,
    modulus_ratio: Ratio,
) -> Gauge {
    Gauge::from_si(full_open_pressure(opening, area, rate, full_lift).si() * modulus_ratio.si())
}

const WIRE: Takes<Length> = length("d");
const MEAN_COIL: Takes<Length> = length(r"D_\mathrm{m}");
const MODULUS: Takes<Ratio> = quantity(r"g", Range::between(0.3, 1.0));
const BALANCE: Source = Source { document: "", status: Status::Derived };

const fn textbook(document: &'static str) -> Source {
    Source { document, status: Status::Read }
}

/// The relations of this family.
pub const RELATIONS: &[Relation] = &[
    relation! {
        id: "spring_index",
        inputs: { wire: WIRE, mean_coil: MEAN_COIL },
        outputs: &[output::<Number>("index", "C")],
        forms: same(r"#index = \frac{#mean_coil}{#wire}", textbook("machine-design textbooks (Shigley, ch. 10)")),
        run: one(spring_index(wire, mean_coil)?),
    },
    relation! {
        id: "wahl_factor",
        inputs: { index: number("C", Range::between(1.5, 100.0)) },
        outputs: &[output::<Number>("factor", r"K_\mathrm{w}")],
        forms: same(
            r"#factor = \frac{4 \, #index - 1}{4 \, #index - 4} + \frac{0.615}{#index}",
            textbook("machine-design textbooks, Wahl's factor"),
        ),
        run: one(wahl_factor(index)),
    },
    relation! {
        id: "spring_stress",
        inputs: { force: quantity::<Force>("F", Range::positive(1e9)), wire: WIRE, mean_coil: MEAN_COIL },
        outputs: &[at_least::<Stress>("stress", r"\tau")],
        forms: mechanics(
            r"#stress = K_\mathrm{w} \, \frac{8 \, #force \, #mean_coil}{\pi \, #wire^3}",
            textbook("machine-design textbooks (Shigley, ch. 10)"),
        ),
        run: one(spring_stress(force, wire, mean_coil)?),
    },
    relation! {
        id: "solid_length",
        inputs: { wire: WIRE, total: number(r"N_\mathrm{t}", Range::between(1.0, 1e3)) },
        outputs: &[at_least::<Length>("solid", r"L_\mathrm{s}")],
        forms: same(
            r"#solid = #wire \, #total",
            textbook("machine-design textbook companion, example 10.9: closed and ground ends"),
        ),
        run: one(solid_length(wire, total)),
    },
    relation! {
        id: "travel_margin",
        inputs: {
            free: length(r"L_0"),
            solid: length(r"L_\mathrm{s}"),
            preload: quantity::<Length>("x_0", Range::from_zero(1e2)),
            full_lift: FULL_LIFT,
        },
        outputs: &[at_least::<Ratio>("share", "s")],
        forms: same(
            r"#share = \frac{#preload + #full_lift}{#free - #solid}",
            textbook("ASME BPVC VIII-1 UG-136(a)(2): not above 80 % of the nominal solid deflection"),
        ),
        run: one(travel_margin(free, solid, preload, full_lift)?),
    },
    relation! {
        id: "opening_after_load_loss",
        inputs: { opening: OPENING, loss: quantity::<Ratio>(r"\lambda", Range::between(0.0, 1.0)) },
        outputs: &[output::<Gauge>("after", r"p_\mathrm{after}")],
        forms: same(r"#after = #opening \, (1 - #loss)", BALANCE),
        run: one(opening_after_load_loss(opening, loss)),
    },
    relation! {
        id: "opening_after_shortening",
        inputs: {
            opening: OPENING,
            rate: RATE,
            shortening: quantity::<Length>("s", Range::from_zero(1.0)),
            area: AREA,
        },
        outputs: &[output::<Gauge>("after", r"p_\mathrm{after}")],
        forms: mechanics(r"#after = #opening - \frac{#rate \, #shortening}{#area}", BALANCE),
        run: one(opening_after_shortening(opening, rate, shortening, area)?),
    },
    relation! {
        id: "opening_when_hot",
        inputs: { opening: OPENING, modulus_ratio: MODULUS },
        outputs: &[output::<Gauge>("hot", r"p_\mathrm{hot}")],
        forms: same(r"#hot = #opening \, #modulus_ratio", BALANCE),
        run: one(opening_when_hot(opening, modulus_ratio)),
    },
    relation! {
        id: "full_open_when_hot",
        inputs: { opening: OPENING, area: AREA, rate: RATE, full_lift: FULL_LIFT, modulus_ratio: MODULUS },
        outputs: &[output::<Gauge>("hot", r"p_\mathrm{hot}")],
        forms: mechanics(r"#hot = #modulus_ratio \, \left(#opening + \frac{#rate \, #full_lift}{#area}\right)", BALANCE),
        run: one(full_open_when_hot(opening, area, rate, full_lift, modulus_ratio)),
    },
];
