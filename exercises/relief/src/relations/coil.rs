//! The spring as a spring: stress, travel, and what a lost share of load, lost length and heat do to the valve.
//!
//! A lost share of load, lost length and a lower modulus are three different things. Lost load lowers the opening pressure
//! in proportion; lost length lowers it by a fixed amount and leaves the rate; heat lowers rate and load together, and so
//! the opening and the full-open pressure in the same proportion.

use super::rows::{length, number, one, opens, output, quantity, same};
use crate::compare::{below, in_order, something_left};
use crate::kind::Kind;
use crate::quantity::{Area, Force, Gauge, Length, Number, Ratio, SpringRate, Stress, Typed};
use crate::relation::{Input, Output, Range, Relation, RelationError, SafeSide, Source, Status};
use crate::relations::spring::{AREA, FULL_LIFT, OPENING, RATE, full_open_pressure};

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

const WIRE: Input = length("wire", "d");
const MEAN_COIL: Input = length("mean_coil", r"D_\mathrm{m}");
const MODULUS: Input = quantity("modulus_ratio", r"g", Kind::Ratio, Range::between(0.3, 1.0));
const BALANCE: Source = Source { document: "", status: Status::Derived };

const fn textbook(document: &'static str) -> Source {
    Source { document, status: Status::Read }
}

/// The relations of this family.
pub const RELATIONS: &[Relation] = &[
    Relation {
        id: "spring_index",
        inputs: &[WIRE, MEAN_COIL],
        outputs: &[output("index", "C", Kind::Number)],
        forms: same(r"#index = \frac{#mean_coil}{#wire}", textbook("machine-design textbooks (Shigley, ch. 10)")),
        run: |a| one(spring_index(a.get(0), a.get(1))?),
    },
    Relation {
        id: "wahl_factor",
        inputs: &[number("index", "C", Range::between(1.5, 100.0))],
        outputs: &[output("factor", r"K_\mathrm{w}", Kind::Number)],
        forms: same(
            r"#factor = \frac{4 \, #index - 1}{4 \, #index - 4} + \frac{0.615}{#index}",
            textbook("machine-design textbooks, Wahl's factor"),
        ),
        run: |a| one(wahl_factor(a.get(0))),
    },
    Relation {
        id: "spring_stress",
        inputs: &[quantity("force", "F", Kind::Force, Range::positive(1e9)), WIRE, MEAN_COIL],
        outputs: &[Output { safe_side: SafeSide::Up, ..output("stress", r"\tau", Kind::Stress) }],
        forms: same(
            r"#stress = K_\mathrm{w} \, \frac{8 \, #force \, #mean_coil}{\pi \, #wire^3}",
            textbook("machine-design textbooks (Shigley, ch. 10)"),
        ),
        run: |a| one(spring_stress(a.get(0), a.get(1), a.get(2))?),
    },
    Relation {
        id: "solid_length",
        inputs: &[WIRE, number("total", r"N_\mathrm{t}", Range::between(1.0, 1e3))],
        outputs: &[Output { safe_side: SafeSide::Up, ..output("solid", r"L_\mathrm{s}", Kind::Length) }],
        forms: same(
            r"#solid = #wire \, #total",
            textbook("machine-design textbook companion, example 10.9: closed and ground ends"),
        ),
        run: |a| one(solid_length(a.get(0), a.get(1))),
    },
    Relation {
        id: "travel_margin",
        inputs: &[
            length("free", r"L_0"),
            length("solid", r"L_\mathrm{s}"),
            quantity("preload", "x_0", Kind::Length, Range::from_zero(1e2)),
            FULL_LIFT,
        ],
        outputs: &[Output { safe_side: SafeSide::Up, ..output("share", "s", Kind::Ratio) }],
        forms: same(
            r"#share = \frac{#preload + #full_lift}{#free - #solid}",
            textbook("ASME BPVC VIII-1 UG-136(a)(2): not above 80 % of the nominal solid deflection"),
        ),
        run: |a| one(travel_margin(a.get(0), a.get(1), a.get(2), a.get(3))?),
    },
    Relation {
        id: "opening_after_load_loss",
        inputs: &[OPENING, quantity("loss", r"\lambda", Kind::Ratio, Range::between(0.0, 1.0))],
        outputs: &[output("after", r"p_\mathrm{after}", Kind::Gauge)],
        forms: same(r"#after = #opening \, (1 - #loss)", BALANCE),
        run: |a| one(opening_after_load_loss(a.get(0), a.get(1))),
    },
    Relation {
        id: "opening_after_shortening",
        inputs: &[OPENING, RATE, quantity("shortening", "s", Kind::Length, Range::from_zero(1.0)), AREA],
        outputs: &[output("after", r"p_\mathrm{after}", Kind::Gauge)],
        forms: same(r"#after = #opening - \frac{#rate \, #shortening}{#area}", BALANCE),
        run: |a| one(opening_after_shortening(a.get(0), a.get(1), a.get(2), a.get(3))?),
    },
    Relation {
        id: "opening_when_hot",
        inputs: &[opens("opening", r"p_\mathrm{open}"), MODULUS],
        outputs: &[output("hot", r"p_\mathrm{hot}", Kind::Gauge)],
        forms: same(r"#hot = #opening \, #modulus_ratio", BALANCE),
        run: |a| one(opening_when_hot(a.get(0), a.get(1))),
    },
    Relation {
        id: "full_open_when_hot",
        inputs: &[OPENING, AREA, RATE, FULL_LIFT, MODULUS],
        outputs: &[output("hot", r"p_\mathrm{hot}", Kind::Gauge)],
        forms: same(r"#hot = #modulus_ratio \, \left(#opening + \frac{#rate \, #full_lift}{#area}\right)", BALANCE),
        run: |a| one(full_open_when_hot(a.get(0), a.get(1), a.get(2), a.get(3), a.get(4))),
    },
];
