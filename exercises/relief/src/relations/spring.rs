//! Spring and disc: what opens the valve, how far it lifts at a pressure, and what the adjusting screw does.
//!
//! The force balance is that of a bare disc: the pressure acts on the area of the seat bore at every lift. A real valve
//! gains area or flow force as it lifts (huddling chamber, skirt), so its full-open pressure is lower than this; the
//! words beside each relation say so.

use super::rows::{LENGTH, PRESSURE, Takes, gauge, length, mechanics, one, opens, output, quantity, relation, same};
use crate::compare::in_order;
use crate::quantity::{Area, Difference, Force, Gauge, Length, Number, SpringRate, Stress, Turns, Typed};
use crate::relation::{Range, Relation, RelationError, Role, Source, Status};

/// Area of a round bore (square metre) from its diameter.
#[must_use]
pub fn bore_area(bore: Length) -> Area {
    Area::from_si(core::f64::consts::PI * bore.si() * bore.si() / 4.0)
}

/// Force on the disc at opening (newton): opening pressure, gauge, times seat area. It equals the spring's preload,
/// friction left out.
#[must_use]
pub fn opening_force(opening: Gauge, area: Area) -> Force {
    opening * area
}

/// Rate of a round-wire helical compression spring (newton per metre) from wire and mean coil diameter, active coils
/// and shear modulus.
///
/// # Errors
/// [`RelationError::Order`] where the wire is thicker than the mean coil diameter.
pub fn spring_rate(
    wire: Length,
    mean_coil: Length,
    active: Number,
    shear: Stress,
) -> Result<SpringRate, RelationError> {
    in_order(("wire", wire), ("mean_coil", mean_coil))?;
    let (d, coil) = (wire.si(), mean_coil.si());
    Ok(SpringRate::from_si(shear.si() * (d * d * d * d) / (8.0 * (coil * coil * coil) * active.si())))
}

/// Deflection that the spring is preloaded by (metre) to open at a gauge pressure.
#[must_use]
pub fn preload_deflection(opening: Gauge, area: Area, rate: SpringRate) -> Length {
    opening_force(opening, area) / rate
}

/// Pressure that holds a bare disc at a lift (pascal, gauge).
#[must_use]
pub fn pressure_at_lift(opening: Gauge, area: Area, rate: SpringRate, lift: Length) -> Gauge {
    opening + rate * lift / area
}

/// Lift of a bare disc at a pressure (metre): none up to the opening pressure, never more than the full lift.
#[must_use]
pub fn lift_at_pressure(opening: Gauge, area: Area, rate: SpringRate, full_lift: Length, pressure: Gauge) -> Length {
    let lift = ((pressure - opening) * area / rate).si();
    Length::from_si(lift.max(0.0).min(full_lift.si()))
}

/// Pressure at which a bare disc reaches its full lift (pascal, gauge).
#[must_use]
pub fn full_open_pressure(opening: Gauge, area: Area, rate: SpringRate, full_lift: Length) -> Gauge {
    pressure_at_lift(opening, area, rate, full_lift)
}

/// Spring rate (newton per metre) that gives a wanted rise from opening to full lift.
#[must_use]
pub fn rate_for_rise(area: Area, rise: Difference, full_lift: Length) -> SpringRate {
    rise * area / full_lift
}

/// Change of opening pressure (pascal, a difference) for turns of the adjusting screw; in is positive.
#[must_use]
pub fn screw_change(rate: SpringRate, pitch: Length, turns: Turns, area: Area) -> Difference {
    rate * (pitch * turns) / area
}

/// Turns of the adjusting screw for a change of opening pressure; positive is in.
#[must_use]
pub fn turns_for_change(change: Difference, rate: SpringRate, pitch: Length, area: Area) -> Turns {
    Turns::from_si((change * area / rate).si() / pitch.si())
}

pub(super) const AREA: Takes<Area> = quantity("A", Range::positive(1e2));
pub(super) const RATE: Takes<SpringRate> = quantity("k", Range::positive(1e10));
pub(super) const OPENING: Takes<Gauge> = opens(r"p_\mathrm{open}");
pub(super) const FULL_LIFT: Takes<Length> = length(r"L_\mathrm{full}");
/// The bore of a seat or a nozzle, given by its diameter.
pub(super) const BORE: Takes<Length> = length("D").is(Role::Bore);
const PITCH: Takes<Length> = length("P");
const CHANGE: Range = Range::between(-PRESSURE, PRESSURE);
const BALANCE: Source = Source {
    document: "hydraulic component design text, ch. 6, eqs 6-1 and 6-2, friction left out",
    status: Status::Read,
};
const GEOMETRY: Source = Source { document: "", status: Status::Derived };

/// The relations of this family.
pub const RELATIONS: &[Relation] = &[
    relation! {
        id: "bore_area",
        inputs: { bore: BORE },
        outputs: &[output::<Area>("area", "A")],
        forms: same(r"#area = \frac{\pi\,#bore^2}{4}", GEOMETRY),
        run: one(bore_area(bore)),
    },
    relation! {
        id: "opening_force",
        inputs: { opening: OPENING, area: AREA },
        outputs: &[output::<Force>("force", "F")],
        forms: mechanics(r"#force = #opening \, #area", BALANCE),
        run: one(opening_force(opening, area)),
    },
    relation! {
        id: "spring_rate",
        inputs: {
            wire: length("d"),
            mean_coil: length("D_\\mathrm{m}"),
            active: quantity::<Number>("N", Range::between(0.5, 1e3)),
            shear: quantity::<Stress>("G", Range::positive(1e12)),
        },
        outputs: &[output::<SpringRate>("rate", "k")],
        forms: mechanics(
            r"#rate = \frac{#shear \, #wire^4}{8 \, #mean_coil^3 \, #active}",
            Source {
                document: "spring deflection formula as in machine-design textbooks (Shigley, ch. 10)",
                status: Status::Read,
            },
        ),
        run: one(spring_rate(wire, mean_coil, active, shear)?),
    },
    relation! {
        id: "preload_deflection",
        inputs: { opening: OPENING, area: AREA, rate: RATE },
        outputs: &[output::<Length>("deflection", "x_0")],
        forms: mechanics(r"#deflection = \frac{#opening \, #area}{#rate}", BALANCE),
        run: one(preload_deflection(opening, area, rate)),
    },
    relation! {
        id: "pressure_at_lift",
        inputs: {
            opening: OPENING,
            area: AREA,
            rate: RATE,
            lift: quantity::<Length>("L", Range::from_zero(LENGTH)),
        },
        outputs: &[output::<Gauge>("pressure", "p")],
        forms: mechanics(r"#pressure = #opening + \frac{#rate \, #lift}{#area}", BALANCE),
        run: one(pressure_at_lift(opening, area, rate, lift)),
    },
    relation! {
        id: "lift_at_pressure",
        inputs: { opening: OPENING, area: AREA, rate: RATE, full_lift: FULL_LIFT, pressure: gauge("p") },
        outputs: &[output::<Length>("lift", "L")],
        forms: mechanics(
            r"#lift = \min\left(\max\left(\frac{(#pressure - #opening) \, #area}{#rate},\ 0\right),\ #full_lift\right)",
            BALANCE,
        ),
        run: one(lift_at_pressure(opening, area, rate, full_lift, pressure)),
    },
    relation! {
        id: "full_open_pressure",
        inputs: { opening: OPENING, area: AREA, rate: RATE, full_lift: FULL_LIFT },
        outputs: &[output::<Gauge>("full_open", r"p_\mathrm{full}")],
        forms: mechanics(r"#full_open = #opening + \frac{#rate \, #full_lift}{#area}", BALANCE),
        run: one(full_open_pressure(opening, area, rate, full_lift)),
    },
    relation! {
        id: "rate_for_rise",
        inputs: {
            area: AREA,
            rise: quantity::<Difference>(r"\Delta p", Range::positive(PRESSURE)),
            full_lift: FULL_LIFT,
        },
        outputs: &[output::<SpringRate>("rate", "k")],
        forms: mechanics(r"#rate = \frac{#rise \, #area}{#full_lift}", BALANCE),
        run: one(rate_for_rise(area, rise, full_lift)),
    },
    relation! {
        id: "screw_change",
        inputs: { rate: RATE, pitch: PITCH, turns: quantity::<Turns>("n", Range::between(-1e4, 1e4)), area: AREA },
        outputs: &[output::<Difference>("change", r"\Delta p")],
        forms: mechanics(r"#change = \frac{#rate \, #pitch \, #turns}{#area}", BALANCE),
        run: one(screw_change(rate, pitch, turns, area)),
    },
    relation! {
        id: "turns_for_change",
        inputs: { change: quantity::<Difference>(r"\Delta p", CHANGE), rate: RATE, pitch: PITCH, area: AREA },
        outputs: &[output::<Turns>("turns", "n")],
        forms: mechanics(r"#turns = \frac{#change \, #area}{#rate \, #pitch}", BALANCE),
        run: one(turns_for_change(change, rate, pitch, area)),
    },
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_lift_stays_between_seat_and_stop() {
        let at = |pressure: f64| {
            lift_at_pressure(
                Gauge::from_si(1e6),
                Area::from_si(1e-3),
                SpringRate::from_si(1e5),
                Length::from_si(5e-3),
                Gauge::from_si(pressure),
            )
            .si()
        };
        assert!(at(0.0).abs() < 1e-15 && at(1e6).abs() < 1e-15);
        assert!((at(1.25e6) - 2.5e-3).abs() < 1e-15);
        assert!((at(9e6) - 5e-3).abs() < 1e-15);
    }
}
