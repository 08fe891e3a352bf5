//! The way through the valve: an orifice, the areas under a lifted disc, and the standard sizes.

use super::rows::{LENGTH, PRESSURE, length, number, one, output, quantity, same, size};
use crate::factors::SQUARE_INCH;
use crate::kind::Kind;
use crate::quantity::{Area, Density, Difference, Length, Number, Typed, VolumeFlow};
use crate::relation::{Gives, Input, Output, Outputs, Range, Relation, RelationError, SafeSide, Source, Status};
use crate::relations::spring::bore_area;
use crate::texts::text;

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

pub(super) const AREA: Input = quantity("area", "A", Kind::Area, Range::positive(1e2));
const GEOMETRY: Source = Source { document: "", status: Status::Derived };

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
        forms: same(
            r"#flow = #coefficient \, #area \, \sqrt{2 \, #drop / #density}",
            Source { document: "orifice equation, fluid-mechanics textbooks", status: Status::Derived },
        ),
        run: |a| one(orifice_flow(a.get(0), a.get(1), a.get(2), a.get(3))),
    },
    Relation {
        id: "curtain_area",
        inputs: &[length("bore", "D"), quantity("lift", "L", Kind::Length, Range::from_zero(LENGTH))],
        outputs: &[output("curtain", r"A_\mathrm{c}", Kind::Area)],
        forms: same(r"#curtain = \pi \, #bore \, #lift", GEOMETRY),
        run: |a| one(curtain_area(a.get(0), a.get(1))),
    },
    Relation {
        id: "discharge_area",
        inputs: &[length("bore", "D"), quantity("lift", "L", Kind::Length, Range::from_zero(LENGTH))],
        outputs: &[output("discharge", r"A_\mathrm{dis}", Kind::Area)],
        forms: same(
            r"#discharge = \min\left(\frac{\pi \, #bore^2}{4},\ \pi \, #bore \, #lift\right)",
            Source { document: "API Std 520 Part I and ASME PTC 25, definitions", status: Status::Memory },
        ),
        run: |a| one(discharge_area(a.get(0), a.get(1))),
    },
    Relation {
        id: "full_lift",
        inputs: &[length("bore", "D")],
        outputs: &[output("full_lift", r"L_\mathrm{full}", Kind::Length)],
        forms: same(r"#full_lift = \frac{#bore}{4}", GEOMETRY),
        run: |a| one(full_lift(a.get(0))),
    },
    Relation {
        id: "standard_orifice",
        inputs: &[AREA],
        outputs: &[
            // The area of a letter is a given one: rounded up, a valve would seem larger than it is.
            Output { safe_side: SafeSide::Down, ..size("effective_area", r"A_\mathrm{eff}") },
            Output {
                name: "letter",
                symbol: text(r"\text{letter}"),
                gives: Gives::Choice(LETTERS),
                safe_side: SafeSide::Up,
            },
        ],
        forms: same(
            r"#effective_area = \min\{A_\mathrm{D}, \ldots, A_\mathrm{T} \ge #area\}",
            Source { document: "API Std 526, effective orifice areas", status: Status::Read },
        ),
        run: |a| {
            let (area, letter) = standard_orifice(a.get(0))?;
            Ok(Outputs::Named(area.quantity(), letter))
        },
    },
];
