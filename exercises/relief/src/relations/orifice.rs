//! Flow through the valve: an orifice, the areas under a lifted disc, and the standard sizes.

use super::rows::{LENGTH, PRESSURE, at_most, mechanics, number, one, one_of, output, quantity, relation, same};
use super::spring::{AREA, BORE, bore_area};
use crate::factors::SQUARE_INCH;
use crate::quantity::{Area, Density, Difference, Length, Number, Typed, VolumeFlow};
use crate::relation::{Output, Outputs, Range, Relation, RelationError, SafeSide, Source, Status};

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
/// in a billion is allowed for the last bits of a conversion, so that an area of exactly an orifice takes that one.
///
/// # Errors
/// [`RelationError::TooLarge`] above the largest one.
pub fn standard_orifice(area: Area) -> Result<(Area, &'static str), RelationError> {
    let fits = |(_, inches): &&(&str, f64)| inches * SQUARE_INCH * (1.0 + 1e-9) >= area.si();
    let (letter, inches) = ORIFICES.iter().find(fits).ok_or(RelationError::TooLarge { input: "area" })?;
    Ok((Area::from_si(inches * SQUARE_INCH), letter))
}

const GEOMETRY: Source = Source { document: "", status: Status::Derived };

/// The relations of this family.
pub const RELATIONS: &[Relation] = &[
    relation! {
        id: "orifice_flow",
        inputs: {
            area: AREA,
            coefficient: number(r"C_\mathrm{d}", Range::between(0.01, 1.5)),
            drop: quantity::<Difference>(r"\Delta p", Range::from_zero(PRESSURE)),
            density: quantity::<Density>(r"\rho", Range::positive(1e5)),
        },
        outputs: &[output::<VolumeFlow>("flow", "Q")],
        forms: mechanics(
            r"#flow = #coefficient \, #area \, \sqrt{2 \, #drop / #density}",
            Source { document: "orifice equation, fluid-mechanics textbooks", status: Status::Derived },
        ),
        run: one(orifice_flow(area, coefficient, drop, density)),
    },
    relation! {
        id: "curtain_area",
        inputs: { bore: BORE, lift: quantity::<Length>("L", Range::from_zero(LENGTH)) },
        outputs: &[output::<Area>("curtain", r"A_\mathrm{c}")],
        forms: same(r"#curtain = \pi \, #bore \, #lift", GEOMETRY),
        run: one(curtain_area(bore, lift)),
    },
    relation! {
        id: "discharge_area",
        inputs: { bore: BORE, lift: quantity::<Length>("L", Range::from_zero(LENGTH)) },
        outputs: &[output::<Area>("discharge", r"A_\mathrm{dis}")],
        forms: same(
            r"#discharge = \min\left(\frac{\pi \, #bore^2}{4},\ \pi \, #bore \, #lift\right)",
            Source { document: "API Std 520 Part I and ASME PTC 25, definitions", status: Status::Memory },
        ),
        run: one(discharge_area(bore, lift)),
    },
    relation! {
        id: "full_lift",
        inputs: { bore: BORE },
        outputs: &[output::<Length>("full_lift", r"L_\mathrm{full}")],
        forms: same(r"#full_lift = \frac{#bore}{4}", GEOMETRY),
        run: one(full_lift(bore)),
    },
    relation! {
        id: "standard_orifice",
        inputs: { area: AREA },
        outputs: &[
            // The area of a letter is a given one: rounded up, a valve would seem larger than it is.
            at_most::<Area>("effective_area", r"A_\mathrm{eff}"),
            Output { safe_side: SafeSide::Up, ..one_of("letter", r"\text{letter}", LETTERS) },
        ],
        forms: same(
            r"#effective_area = \min\{A_\mathrm{D}, \ldots, A_\mathrm{T} \ge #area\}",
            Source { document: "API Std 526, effective orifice areas", status: Status::Read },
        ),
        run: {
            let (area, letter) = standard_orifice(area)?;
            Ok(Outputs::Named(area.quantity(), letter))
        },
    },
];
