//! Flow of liquids: through an orifice, through a lifted disc, and the size that a duty needs.
//!
//! The sizing relations keep the constants of the SI form as they are printed (11.78, 18800, 85220). The customary form
//! has 38, 2800 and 12700; the two agree to about 0.03 %, since each is rounded on its own.

use super::{LENGTH, PRESSURE, below, gauge, length, number, one, opens, output, quantity, ratio, size};
use crate::factors::{CENTIPOISE, KILOPASCAL, LITRE_PER_MINUTE, SQUARE_INCH, SQUARE_MILLIMETRE};
use crate::kind::Kind;
use crate::quantity::{
    Area, Density, Difference, Expansion, Gauge, HeatFlow, KinematicViscosity, Length, Number, SpecificHeat, Typed,
    Viscosity, VolumeFlow,
};
use crate::relation::{
    Argument, Bound, Default, Form, Gives, Input, Output, Outputs, Range, Relation, RelationError, SafeSide, Source,
    Status,
};
use crate::relations::spring::bore_area;

/// Density of water that the specific gravity of API Std 521's expansion formula is counted in (kilogram per cubic metre).
const WATER: f64 = 1000.0;

/// Flow through an orifice (cubic metre per second) from its area, coefficient of discharge, pressure drop and density.
#[must_use]
pub fn orifice_flow(area: Area, coefficient: Number, drop: Difference, density: Density) -> VolumeFlow {
    VolumeFlow::from_si(coefficient.si() * area.si() * (2.0 * drop.si() / density.si()).sqrt())
}

/// Curtain area (square metre): the cylinder between seat and disc at a lift.
#[must_use]
pub fn curtain_area(bore: Length, lift: Length) -> Area {
    Area::from_si(core::f64::consts::PI * bore.si() * lift.si())
}

/// Discharge area (square metre): the smaller of bore area and curtain area.
#[must_use]
pub fn discharge_area(bore: Length, lift: Length) -> Area {
    let (bore_area, curtain) = (bore_area(bore), curtain_area(bore, lift));
    if curtain.si() < bore_area.si() { curtain } else { bore_area }
}

/// Lift at which the curtain area equals the bore area (metre): a quarter of the bore.
#[must_use]
pub fn full_lift(bore: Length) -> Length {
    Length::from_si(bore.si() / 4.0)
}

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
) -> Result<Area, RelationError> {
    below(("back", back), ("relieving", relieving))?;
    area_for(flow, gravity, (relieving - back).si(), corrections)
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
) -> Result<Area, RelationError> {
    below(("back", back), ("set", set))?;
    area_for(flow, gravity, 1.25 * set.si() - back.si(), corrections)
}

fn area_for(flow: VolumeFlow, gravity: Number, drop: f64, corrections: &[Number]) -> Result<Area, RelationError> {
    let litres = flow.si() / LITRE_PER_MINUTE;
    let root = (gravity.si() / (drop / KILOPASCAL)).sqrt();
    Ok(Area::from_si(11.78 * litres / factors(corrections) * root * SQUARE_MILLIMETRE))
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
) -> Result<VolumeFlow, RelationError> {
    below(("back", back), ("relieving", relieving))?;
    let root = ((relieving - back).si() / KILOPASCAL / gravity.si()).sqrt();
    Ok(VolumeFlow::from_si(area.si() / SQUARE_MILLIMETRE * factors(corrections) * root / 11.78 * LITRE_PER_MINUTE))
}

/// Reynolds number of a relief valve (dimensionless) for the area of the selected orifice.
#[must_use]
pub fn liquid_reynolds(flow: VolumeFlow, gravity: Number, viscosity: Viscosity, area: Area) -> Number {
    let litres = flow.si() / LITRE_PER_MINUTE;
    let root = (area.si() / SQUARE_MILLIMETRE).sqrt();
    Number::from_si(18_800.0 * litres * gravity.si() / (viscosity.si() / CENTIPOISE * root))
}

/// Viscosity correction factor Kv (dimensionless, at most one) by the seventh to ninth or by the tenth edition of API
/// Std 520 Part I.
#[must_use]
pub fn viscosity_factor(reynolds: Number, tenth: bool) -> Number {
    let reynolds = reynolds.si();
    let factor = if tenth {
        1.0 / (170.0 / reynolds + 1.0).sqrt()
    } else {
        1.0 / (0.9935 + 2.878 / reynolds.sqrt() + 342.75 / (reynolds * reynolds.sqrt()))
    };
    Number::from_si(factor.min(1.0))
}

/// The standard orifices: letter and effective area in square inches.
pub const ORIFICES: &[(&str, f64)] = &[
    ("D", 0.110),
    ("E", 0.196),
    ("F", 0.307),
    ("G", 0.503),
    ("H", 0.785),
    ("J", 1.287),
    ("K", 1.838),
    ("L", 2.853),
    ("M", 3.60),
    ("N", 4.34),
    ("P", 6.38),
    ("Q", 11.05),
    ("R", 16.00),
    ("T", 26.00),
];

const LETTERS: &[&str] = &["D", "E", "F", "G", "H", "J", "K", "L", "M", "N", "P", "Q", "R", "T"];

/// The smallest standard orifice that is not smaller than an area: its effective area (square metre) and letter. A part
/// in a billion is left to the last bits of a conversion, so that an area of exactly an orifice takes that one.
///
/// # Errors
/// [`RelationError::TooLarge`] above the largest one.
pub fn standard_orifice(area: Area) -> Result<(Area, &'static str), RelationError> {
    let fits = |(_, inches): &&(&str, f64)| inches * SQUARE_INCH * (1.0 + 1e-9) >= area.si();
    let (letter, inches) = ORIFICES.iter().find(fits).ok_or(RelationError::TooLarge { input: "area" })?;
    Ok((Area::from_si(inches * SQUARE_INCH), letter))
}

/// Flow by which a blocked-in liquid expands (cubic metre per second) when it takes up heat.
#[must_use]
pub fn thermal_expansion_flow(
    expansion: Expansion,
    heat: HeatFlow,
    gravity: Number,
    specific_heat: SpecificHeat,
) -> VolumeFlow {
    VolumeFlow::from_si(expansion.si() * heat.si() / (WATER * gravity.si() * specific_heat.si()))
}

/// Specific gravity (dimensionless) from degrees API.
#[must_use]
pub fn gravity_from_api(degrees: Number) -> Number {
    Number::from_si(141.5 / (131.5 + degrees.si()))
}

/// Kinematic viscosity (square metre per second) from Saybolt universal seconds, in the linear range of ASTM D2161.
#[must_use]
pub fn kinematic_viscosity(universal_seconds: Number, at_210: bool) -> KinematicViscosity {
    let seconds_per_centistoke = if at_210 { 4.664 } else { 4.632 };
    KinematicViscosity::from_si(universal_seconds.si() / seconds_per_centistoke * 1e-6)
}

const FLOW: Input = quantity("flow", "Q", Kind::VolumeFlow, Range::positive(1e3));
const GRAVITY: Input = number("gravity", "G", Range::between(0.1, 20.0));
const RELIEVING: Input = gauge("relieving", "p_1");
const BACK: Input = Input {
    name: "back",
    symbol: "p_2",
    form: Form::Quantity(Kind::Gauge, Range::from_zero(PRESSURE)),
    default: Some(Default {
        value: Argument::Quantity(crate::Quantity::new(0.0, Kind::Gauge)),
        source: "outlet open to the atmosphere",
    }),
};
const AREA: Input = quantity("area", "A", Kind::Area, Range::positive(1e2));
const KD: Input = ratio("kd", r"K_\mathrm{d}", 0.65, "API Std 520 Part I: effective coefficient for liquids");
const KD_UNCERTIFIED: Input =
    ratio("kd", r"K_\mathrm{d}", 0.62, "API Std 520 Part I, non-certified liquid valves; from memory");
const KW: Input =
    ratio("kw", r"K_\mathrm{w}", 1.0, "API Std 520 Part I: conventional and pilot valves; conventional from memory");
const KC: Input = ratio("kc", r"K_\mathrm{c}", 1.0, "API Std 520 Part I: no rupture disc");
const KV: Input = ratio("kv", r"K_\mathrm{v}", 1.0, "viscosity of no account");
const KP: Input = ratio("kp", r"K_\mathrm{p}", 1.0, "API Std 520 Part I: at 25 % overpressure; from memory");
const GEOMETRY: Source = Source { document: "", status: Status::Derived };
const SIZING: Source =
    Source { document: "API Std 520 Part I, liquid sizing, SI form (constant 11.78 as printed)", status: Status::Read };

/// The tenth edition's viscosity factor holds above this Reynolds number.
const TENTH_EDITION_ABOVE: f64 = 80.0;

const EDITIONS: &[&str] = &["7", "10"];
const SAYBOLT_AT: &[&str] = &["100F", "210F"];

/// The relations of this family.
pub const RELATIONS: &[Relation] = &[
    Relation {
        id: "orifice_flow",
        inputs: &[
            AREA,
            number("coefficient", r"C_\mathrm{d}", Range::between(0.01, 1.5)),
            quantity("drop", r"\Delta p", Kind::Difference, Range::from_zero(PRESSURE)),
            quantity("density", r"\rho", Kind::Density, Range::positive(1e5)),
        ],
        outputs: &[output("flow", "Q", Kind::VolumeFlow)],
        law: r"#flow = #coefficient \, #area \, \sqrt{2 \, #drop / #density}",
        source: Source { document: "orifice equation, fluid-mechanics textbooks", status: Status::Derived },
        run: |a| one(orifice_flow(a.get(0), a.get(1), a.get(2), a.get(3))),
    },
    Relation {
        id: "curtain_area",
        inputs: &[length("bore", "D"), quantity("lift", "L", Kind::Length, Range::from_zero(LENGTH))],
        outputs: &[output("curtain", r"A_\mathrm{c}", Kind::Area)],
        law: r"#curtain = \pi \, #bore \, #lift",
        source: GEOMETRY,
        run: |a| one(curtain_area(a.get(0), a.get(1))),
    },
    Relation {
        id: "discharge_area",
        inputs: &[length("bore", "D"), quantity("lift", "L", Kind::Length, Range::from_zero(LENGTH))],
        outputs: &[output("discharge", r"A_\mathrm{dis}", Kind::Area)],
        law: r"#discharge = \min\left(\frac{\pi \, #bore^2}{4},\ \pi \, #bore \, #lift\right)",
        source: Source { document: "API Std 520 Part I and ASME PTC 25, definitions", status: Status::Memory },
        run: |a| one(discharge_area(a.get(0), a.get(1))),
    },
    Relation {
        id: "full_lift",
        inputs: &[length("bore", "D")],
        outputs: &[output("full_lift", r"L_\mathrm{full}", Kind::Length)],
        law: r"#full_lift = \frac{#bore}{4}",
        source: GEOMETRY,
        run: |a| one(full_lift(a.get(0))),
    },
    Relation {
        id: "liquid_area",
        inputs: &[FLOW, GRAVITY, RELIEVING, BACK, KD, KW, KC, KV],
        outputs: &[size("area", "A")],
        law: r"#area = \frac{11.78 \, #flow}{#kd \, #kw \, #kc \, #kv} \, \sqrt{#gravity / (#relieving - #back)}",
        source: SIZING,
        run: |a| one(liquid_area(a.get(0), a.get(1), a.get(2), a.get(3), &[a.get(4), a.get(5), a.get(6), a.get(7)])?),
    },
    Relation {
        id: "liquid_area_uncertified",
        inputs: &[FLOW, GRAVITY, opens("set", r"p_\mathrm{set}"), BACK, KD_UNCERTIFIED, KW, KC, KV, KP],
        outputs: &[size("area", "A")],
        law: r"#area = \frac{11.78 \, #flow}{#kd \, #kw \, #kc \, #kv \, #kp} \, \sqrt{#gravity / (1.25 \, #set - #back)}",
        source: Source {
            document: "API Std 520 Part I, liquid valves without certified capacity",
            status: Status::Memory,
        },
        run: |a| {
            let corrections = [a.get(4), a.get(5), a.get(6), a.get(7), a.get(8)];
            one(liquid_area_uncertified(a.get(0), a.get(1), a.get(2), a.get(3), &corrections)?)
        },
    },
    Relation {
        id: "liquid_capacity",
        inputs: &[AREA, GRAVITY, RELIEVING, BACK, KD, KW, KC, KV],
        outputs: &[Output { safe_side: SafeSide::Down, ..output("flow", "Q", Kind::VolumeFlow) }],
        law: r"#flow = \frac{#area \, #kd \, #kw \, #kc \, #kv}{11.78} \, \sqrt{(#relieving - #back) / #gravity}",
        source: SIZING,
        run: |a| {
            one(liquid_capacity(a.get(0), a.get(1), a.get(2), a.get(3), &[a.get(4), a.get(5), a.get(6), a.get(7)])?)
        },
    },
    Relation {
        id: "liquid_reynolds",
        inputs: &[FLOW, GRAVITY, quantity("viscosity", r"\mu", Kind::Viscosity, Range::positive(1e5)), AREA],
        outputs: &[output("reynolds", "Re", Kind::Number)],
        law: r"#reynolds = \frac{18800 \, #flow \, #gravity}{#viscosity \, \sqrt{#area}}",
        source: Source {
            document: "API Std 520 Part I, SI form (constant 18800 as printed; exact 18806.32)",
            status: Status::Read,
        },
        run: |a| one(liquid_reynolds(a.get(0), a.get(1), a.get(2), a.get(3))),
    },
    Relation {
        id: "viscosity_factor",
        inputs: &[
            Input {
                name: "reynolds",
                symbol: "Re",
                form: Form::Quantity(Kind::Number, Range { low: Bound::Including(30.0), high: 1e12 }),
                default: None,
            },
            Input { name: "edition", symbol: r"\text{edition}", form: Form::Choice(EDITIONS), default: None },
        ],
        outputs: &[Output { safe_side: SafeSide::Down, ..output("factor", r"K_\mathrm{v}", Kind::Number) }],
        law: r"#factor = \begin{cases} \left(0.9935 + \frac{2.878}{#reynolds^{0.5}} + \frac{342.75}{#reynolds^{1.5}}\right)^{-1} & \text{editions 7 to 9} \\ \left(1 + \frac{170}{#reynolds}\right)^{-0.5} & \text{edition 10} \end{cases}",
        source: Source { document: "API Std 520 Part I, 7th to 9th and 10th editions", status: Status::Read },
        run: |a| {
            let (reynolds, tenth): (Number, _) = (a.get(0), a.choice(1) == "10");
            if tenth && reynolds.si() <= TENTH_EDITION_ABOVE {
                let range = Range { low: Bound::Above(TENTH_EDITION_ABOVE), high: 1e12 };
                let value = reynolds.quantity();
                return Err(RelationError::OutOfRange { input: "reynolds", symbol: "Re", value, range });
            }
            one(viscosity_factor(reynolds, tenth))
        },
    },
    Relation {
        id: "standard_orifice",
        inputs: &[AREA],
        outputs: &[
            size("effective_area", r"A_\mathrm{eff}"),
            Output { name: "letter", symbol: r"\text{letter}", gives: Gives::Choice(LETTERS), safe_side: SafeSide::Up },
        ],
        law: r"#effective_area = \min\{A_\mathrm{D}, \ldots, A_\mathrm{T} \ge #area\}",
        source: Source { document: "API Std 526, effective orifice areas", status: Status::Read },
        run: |a| {
            let (area, letter) = standard_orifice(a.get(0))?;
            Ok(Outputs::Named(area.quantity(), letter))
        },
    },
    Relation {
        id: "thermal_expansion_flow",
        inputs: &[
            quantity("expansion", r"\alpha", Kind::Expansion, Range::positive(1.0)),
            quantity("heat", r"\Phi", Kind::HeatFlow, Range::positive(1e10)),
            GRAVITY,
            quantity("specific_heat", "c", Kind::SpecificHeat, Range::between(10.0, 2e4)),
        ],
        outputs: &[Output { safe_side: SafeSide::Up, ..output("flow", "Q", Kind::VolumeFlow) }],
        law: r"#flow = \frac{#expansion \, #heat}{1000 \, #gravity \, #specific_heat}",
        source: Source {
            document: "API Std 521, thermal expansion of blocked-in liquid, SI form",
            status: Status::Memory,
        },
        run: |a| one(thermal_expansion_flow(a.get(0), a.get(1), a.get(2), a.get(3))),
    },
    Relation {
        id: "gravity_from_api",
        inputs: &[number("degrees", r"^\circ\mathrm{API}", Range::between(-20.0, 100.0))],
        outputs: &[output("gravity", "G", Kind::Number)],
        law: r"#gravity = \frac{141.5}{131.5 + #degrees}",
        source: Source { document: "definition of API gravity at 60 °F", status: Status::Read },
        run: |a| one(gravity_from_api(a.get(0))),
    },
    Relation {
        id: "kinematic_viscosity",
        inputs: &[
            number("universal_seconds", "U", Range::between(350.0, 1e7)),
            Input { name: "at", symbol: r"\text{at}", form: Form::Choice(SAYBOLT_AT), default: None },
        ],
        outputs: &[output("viscosity", r"\nu", Kind::KinematicViscosity)],
        law: r"#viscosity = \frac{#universal_seconds}{B}\ \mathrm{mm^2/s},\quad B = \begin{cases} 4.632 & \text{at 100 °F} \\ 4.664 & \text{at 210 °F} \end{cases}",
        source: Source { document: "ASTM D2161, linear range above 75 mm²/s", status: Status::Read },
        run: |a| one(kinematic_viscosity(a.get(0), a.choice(1) == "210F")),
    },
];
