//! What a liquid is like, and what its viscosity does to the size of a valve.

use super::liquid::{FLOW, GRAVITY};
use super::rows::{at_most, choice, each, number, one, output, printed_in, quantity, relation, same};
use super::spring::AREA;
use crate::factors::{CENTIPOISE, GALLON_PER_MINUTE, LITRE_PER_MINUTE, SQUARE_INCH, SQUARE_MILLIMETRE};
use crate::law_units::{SIZING_SI, SIZING_US};
use crate::quantity::{Area, KinematicViscosity, Number, Typed, Viscosity, VolumeFlow};
use crate::relation::{Bound, Range, Relation, RelationError, Source, Status};
use crate::system::Manner;
use crate::texts::text;

/// Reynolds number of a relief valve (dimensionless) for the area of the selected orifice.
#[must_use]
pub fn liquid_reynolds(flow: VolumeFlow, gravity: Number, viscosity: Viscosity, area: Area, manner: Manner) -> Number {
    let (constant, flow_unit, area_unit) =
        manner.choose((2_800.0, GALLON_PER_MINUTE, SQUARE_INCH), (18_800.0, LITRE_PER_MINUTE, SQUARE_MILLIMETRE));
    let root = (area.si() / area_unit).sqrt();
    Number::from_si(constant * (flow.si() / flow_unit) * gravity.si() / (viscosity.si() / CENTIPOISE * root))
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

/// The tenth edition's viscosity factor holds above this Reynolds number.
const TENTH_EDITION_ABOVE: f64 = 80.0;

const EDITIONS: &[&str] = &["7", "10"];
const SAYBOLT_AT: &[&str] = &["100F", "210F"];

/// The relations of this family.
pub const RELATIONS: &[Relation] = &[
    relation! {
        id: "liquid_reynolds",
        inputs: {
            flow: FLOW,
            gravity: GRAVITY,
            viscosity: quantity::<Viscosity>(r"\mu", Range::positive(1e5)),
            area: AREA,
        },
        outputs: &[output::<Number>("reynolds", "Re")],
        forms: each(
            printed_in(
                r"#reynolds = \frac{2800 \, #flow \, #gravity}{#viscosity \, \sqrt{#area}}",
                SIZING_US,
                Source { document: "API Std 520 Part I, customary form", status: Status::Read },
            ),
            printed_in(
                r"#reynolds = \frac{18800 \, #flow \, #gravity}{#viscosity \, \sqrt{#area}}",
                SIZING_SI,
                Source {
                    document: "API Std 520 Part I, SI form (18800 as cited; exact 18806.32)",
                    status: Status::Cited,
                },
            ),
        ),
        run(manner): one(liquid_reynolds(flow, gravity, viscosity, area, manner)),
    },
    relation! {
        id: "viscosity_factor",
        inputs: {
            reynolds: quantity::<Number>("Re", Range { open: true, ..Range::between(30.0, 1e12) }),
            edition: choice(r"\text{edition}", EDITIONS),
        },
        outputs: &[at_most::<Number>("factor", r"K_\mathrm{v}")],
        forms: same(
            r"#factor = \begin{cases} \left(0.9935 + \frac{2.878}{#reynolds^{0.5}} + \frac{342.75}{#reynolds^{1.5}}\right)^{-1} & \text{editions 7 to 9} \\ \left(1 + \frac{170}{#reynolds}\right)^{-0.5} & \text{edition 10} \end{cases}",
            Source { document: "API Std 520 Part I, 7th to 9th and 10th editions", status: Status::Cited },
        ),
        run: {
            let tenth = edition == "10";
            if tenth && reynolds.si() <= TENTH_EDITION_ABOVE {
                let range = Range { low: Bound::Above(TENTH_EDITION_ABOVE), high: 1e12, open: true };
                let value = reynolds.quantity();
                return Err(RelationError::OutOfRange { input: "reynolds", symbol: text("Re"), value, range });
            }
            one(viscosity_factor(reynolds, tenth))
        },
    },
    relation! {
        id: "gravity_from_api",
        inputs: { degrees: number(r"^\circ\mathrm{API}", Range::between(-20.0, 100.0)) },
        outputs: &[output::<Number>("gravity", "G")],
        forms: same(
            r"#gravity = \frac{141.5}{131.5 + #degrees}",
            Source { document: "definition of API gravity at 60 °F", status: Status::Read },
        ),
        run: one(gravity_from_api(degrees)),
    },
    relation! {
        id: "kinematic_viscosity",
        inputs: { universal_seconds: number("U", Range::between(350.0, 1e7)), at: choice(r"\text{at}", SAYBOLT_AT) },
        outputs: &[output::<KinematicViscosity>("viscosity", r"\nu")],
        forms: same(
            r"#viscosity = \frac{#universal_seconds}{B}\ \mathrm{mm^2/s},\quad B = \begin{cases} 4.632 & \text{at 100 °F} \\ 4.664 & \text{at 210 °F} \end{cases}",
            Source { document: "ASTM D2161, linear range above 75 mm²/s", status: Status::Read },
        ),
        run: one(kinematic_viscosity(universal_seconds, at == "210F")),
    },
];
