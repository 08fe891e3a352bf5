//! Flow of liquids through a relief valve: the area that a duty needs, and what makes it larger.
//!
//! The sizing relations keep the constants of both printed forms: 38 and 2800 in customary units, 11.78 and 18800 in SI
//! units. The two agree to about 0.03 %, since each is rounded on its own.

use super::rows::{
    PRESSURE, Takes, at_least, at_most, correction, each, gauge, number, one, opens, printed_in, quantity, relation,
    size,
};
use super::spring::AREA;
use crate::compare::below;
use crate::factors::{
    BTU, GALLON_PER_MINUTE, KILOPASCAL, LITRE_PER_MINUTE, POUND, POUND_PER_SQUARE_INCH, RANKINE, SQUARE_INCH,
    SQUARE_MILLIMETRE,
};
use crate::law_units::{HEATING_US, PLAIN, SIZING_SI, SIZING_US};
use crate::quantity::{Area, Expansion, Gauge, HeatFlow, Number, SpecificHeat, Typed, VolumeFlow};
use crate::relation::{Range, Relation, RelationError, Source, Status};
use crate::system::{Manner, System};

/// Density of water that the specific gravity of API Std 521's expansion formula is counted in (kilogram per cubic metre).
const WATER: f64 = 1000.0;

/// The constant of a printed form of the liquid formula, and what its units are in SI.
struct Constants {
    /// Flow (cubic metre per second).
    flow: f64,
    /// Pressure (pascal).
    pressure: f64,
    /// Area (square metre).
    area: f64,
    /// The constant above the line.
    constant: f64,
}

/// gpm, psi, in².
const CUSTOMARY: Constants =
    Constants { flow: GALLON_PER_MINUTE, pressure: POUND_PER_SQUARE_INCH, area: SQUARE_INCH, constant: 1.0 / 38.0 };

/// L/min, kPa, mm².
const METRIC: Constants =
    Constants { flow: LITRE_PER_MINUTE, pressure: KILOPASCAL, area: SQUARE_MILLIMETRE, constant: 11.78 };

/// The correction factors of a sizing formula, multiplied.
fn factors(factors: &[Number]) -> f64 {
    factors.iter().fold(1.0, |product, factor| product * factor.si())
}

/// Area that a certified liquid valve needs (square metre) for a flow, at relieving and back pressure.
///
/// # Errors
/// [`RelationError::Order`] where the back pressure is not below the relieving pressure.
pub fn liquid_area(
    flow: VolumeFlow,
    gravity: Number,
    relieving: Gauge,
    back: Gauge,
    corrections: &[Number],
    manner: Manner,
) -> Result<Area, RelationError> {
    below(("back", back), ("relieving", relieving))?;
    area_for(flow, gravity, (relieving - back).si(), corrections, manner)
}

/// Area that a liquid valve without certified capacity needs (square metre): sized at 25 % overpressure, with Kp for less.
///
/// # Errors
/// As [`liquid_area`].
pub fn liquid_area_uncertified(
    flow: VolumeFlow,
    gravity: Number,
    set: Gauge,
    back: Gauge,
    corrections: &[Number],
    manner: Manner,
) -> Result<Area, RelationError> {
    below(("back", back), ("set", set))?;
    let pressure = manner.choose(&CUSTOMARY, &METRIC).pressure;
    let relieving = manner.line(1.25 * set.si() / pressure) * pressure;
    area_for(flow, gravity, relieving - back.si(), corrections, manner)
}

fn area_for(
    flow: VolumeFlow,
    gravity: Number,
    drop: f64,
    corrections: &[Number],
    manner: Manner,
) -> Result<Area, RelationError> {
    let form = manner.choose(&CUSTOMARY, &METRIC);
    let root = (gravity.si() / manner.line(drop / form.pressure)).sqrt();
    Ok(Area::from_si(form.constant * (flow.si() / form.flow) / factors(corrections) * root * form.area))
}

/// Flow that an area passes (cubic metre per second), by the sizing formula turned round.
///
/// # Errors
/// As [`liquid_area`].
pub fn liquid_capacity(
    area: Area,
    gravity: Number,
    relieving: Gauge,
    back: Gauge,
    corrections: &[Number],
    manner: Manner,
) -> Result<VolumeFlow, RelationError> {
    below(("back", back), ("relieving", relieving))?;
    let form = manner.choose(&CUSTOMARY, &METRIC);
    let root = ((relieving - back).si() / form.pressure / gravity.si()).sqrt();
    Ok(VolumeFlow::from_si(area.si() / form.area * factors(corrections) * root / form.constant * form.flow))
}

/// Flow by which a blocked-in liquid expands (cubic metre per second) when it takes up heat.
#[must_use]
pub fn thermal_expansion_flow(
    expansion: Expansion,
    heat: HeatFlow,
    gravity: Number,
    specific_heat: SpecificHeat,
    manner: Manner,
) -> VolumeFlow {
    let flow = match manner.form {
        System::Si => expansion.si() * heat.si() / (WATER * gravity.si() * specific_heat.si()),
        System::Us => {
            let (expansion, heat) = (expansion.si() * RANKINE, heat.si() / (BTU / 3600.0));
            let specific_heat = specific_heat.si() / (BTU / POUND / RANKINE);
            expansion * heat / (500.0 * gravity.si() * specific_heat) * GALLON_PER_MINUTE
        }
    };
    VolumeFlow::from_si(flow)
}

pub(super) const FLOW: Takes<VolumeFlow> = quantity("Q", Range::positive(1e3));
pub(super) const GRAVITY: Takes<Number> = number("G", Range::between(0.1, 20.0));
const RELIEVING: Takes<Gauge> = gauge("p_1");
const BACK: Takes<Gauge> =
    quantity::<Gauge>("p_2", Range::from_zero(PRESSURE)).usually(0.0, "outlet open to the atmosphere");
const KD: Takes<Number> = correction(r"K_\mathrm{d}", 0.65, "API Std 520 Part I: effective coefficient for liquids");
const KD_UNCERTIFIED: Takes<Number> =
    correction(r"K_\mathrm{d}", 0.62, "API Std 520 Part I, non-certified liquid valves; from memory");
const KW: Takes<Number> =
    correction(r"K_\mathrm{w}", 1.0, "API Std 520 Part I: conventional and pilot valves; conventional from memory");
const KC: Takes<Number> = correction(r"K_\mathrm{c}", 1.0, "API Std 520 Part I: no rupture disc");
const KV: Takes<Number> = correction(r"K_\mathrm{v}", 1.0, "viscosity of no account");
const KP: Takes<Number> = correction(r"K_\mathrm{p}", 1.0, "API Std 520 Part I: at 25 % overpressure; from memory");
const CUSTOMARY_SIZING: Source =
    Source { document: "API Std 520 Part I, liquid sizing, customary form", status: Status::Read };
const METRIC_SIZING: Source =
    Source { document: "API Std 520 Part I, liquid sizing, SI form, constant 11.78", status: Status::Cited };

const fn remembered(document: &'static str) -> Source {
    Source { document, status: Status::Memory }
}

/// The relations of this family.
pub const RELATIONS: &[Relation] = &[
    relation! {
        id: "liquid_area",
        inputs: { flow: FLOW, gravity: GRAVITY, relieving: RELIEVING, back: BACK, kd: KD, kw: KW, kc: KC, kv: KV },
        outputs: &[size("area", "A")],
        forms: each(
            printed_in(
                r"#area = \frac{#flow}{38 \, #kd \, #kw \, #kc \, #kv} \, \sqrt{#gravity / (#relieving - #back)}",
                SIZING_US,
                CUSTOMARY_SIZING,
            ),
            printed_in(
                r"#area = \frac{11.78 \, #flow}{#kd \, #kw \, #kc \, #kv} \, \sqrt{#gravity / (#relieving - #back)}",
                SIZING_SI,
                METRIC_SIZING,
            ),
        ),
        run(manner): {
            one(liquid_area(
                flow,
                gravity,
                relieving,
                back,
                &[kd, kw, kc, kv],
                manner,
            )?)
        },
    },
    relation! {
        id: "liquid_area_uncertified",
        inputs: {
            flow: FLOW,
            gravity: GRAVITY,
            set: opens(r"p_\mathrm{set}"),
            back: BACK,
            kd: KD_UNCERTIFIED,
            kw: KW,
            kc: KC,
            kv: KV,
            kp: KP,
        },
        outputs: &[size("area", "A")],
        forms: each(
            printed_in(
                r"#area = \frac{#flow}{38 \, #kd \, #kw \, #kc \, #kv \, #kp} \, \sqrt{#gravity / (1.25 \, #set - #back)}",
                SIZING_US,
                remembered("API Std 520 Part I, liquid valves without certified capacity, customary form"),
            ),
            printed_in(
                r"#area = \frac{11.78 \, #flow}{#kd \, #kw \, #kc \, #kv \, #kp} \, \sqrt{#gravity / (1.25 \, #set - #back)}",
                SIZING_SI,
                remembered("API Std 520 Part I, liquid valves without certified capacity, SI form"),
            ),
        ),
        run(manner): {
            let corrections = [kd, kw, kc, kv, kp];
            one(liquid_area_uncertified(flow, gravity, set, back, &corrections, manner)?)
        },
    },
    relation! {
        id: "liquid_capacity",
        inputs: { area: AREA, gravity: GRAVITY, relieving: RELIEVING, back: BACK, kd: KD, kw: KW, kc: KC, kv: KV },
        outputs: &[at_most::<VolumeFlow>("flow", "Q")],
        forms: each(
            printed_in(
                r"#flow = 38 \, #area \, #kd \, #kw \, #kc \, #kv \, \sqrt{(#relieving - #back) / #gravity}",
                SIZING_US,
                CUSTOMARY_SIZING,
            ),
            printed_in(
                r"#flow = \frac{#area \, #kd \, #kw \, #kc \, #kv}{11.78} \, \sqrt{(#relieving - #back) / #gravity}",
                SIZING_SI,
                METRIC_SIZING,
            ),
        ),
        run(manner): {
            one(liquid_capacity(
                area,
                gravity,
                relieving,
                back,
                &[kd, kw, kc, kv],
                manner,
            )?)
        },
    },
    relation! {
        id: "thermal_expansion_flow",
        inputs: {
            expansion: quantity::<Expansion>(r"\alpha", Range::positive(1.0)),
            heat: quantity::<HeatFlow>(r"\Phi", Range::positive(1e10)),
            gravity: GRAVITY,
            specific_heat: quantity::<SpecificHeat>("c", Range::between(10.0, 2e4)),
        },
        outputs: &[at_least::<VolumeFlow>("flow", "Q")],
        forms: each(
            printed_in(
                r"#flow = \frac{#expansion \, #heat}{500 \, #gravity \, #specific_heat}",
                HEATING_US,
                remembered("API Std 521, thermal expansion of blocked-in liquid, customary form"),
            ),
            printed_in(
                r"#flow = \frac{#expansion \, #heat}{1000 \, #gravity \, #specific_heat}",
                PLAIN,
                remembered("API Std 521, thermal expansion of blocked-in liquid, SI form"),
            ),
        ),
        run(manner): one(thermal_expansion_flow(expansion, heat, gravity, specific_heat, manner)),
    },
];
