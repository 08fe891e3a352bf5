//! Spring and disc: what opens the valve, how far it lifts at a pressure, and what the adjusting screw does.
//!
//! The force balance is that of a bare disc: the pressure acts on the area of the seat bore at every lift. A real valve
//! gains area or flow force as it lifts (huddling chamber, skirt), so its full-open pressure is lower than this; the
//! words beside each relation say so.

use super::rows::{LENGTH, PRESSURE, gauge, length, one, opens, output, quantity, same};
use crate::compare::in_order;
use crate::kind::Kind;
use crate::quantity::{Area, Difference, Force, Gauge, Length, Number, SpringRate, Stress, Turns, Typed};
use crate::relation::{Input, Range, Relation, RelationError, Source, Status};

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

pub(super) const AREA: Input = quantity("area", "A", Kind::Area, Range::positive(1e2));
pub(super) const RATE: Input = quantity("rate", "k", Kind::SpringRate, Range::positive(1e10));
pub(super) const OPENING: Input = opens("opening", r"p_\mathrm{open}");
pub(super) const FULL_LIFT: Input = length("full_lift", r"L_\mathrm{full}");
const PITCH: Input = length("pitch", "P");
const CHANGE: Range = Range::between(-PRESSURE, PRESSURE);
const BALANCE: Source = Source {
    document: "hydraulic component design text, ch. 6, eqs 6-1 and 6-2, friction left out",
    status: Status::Read,
};
const GEOMETRY: Source = Source { document: "", status: Status::Derived };

/// The relations of this family.
pub const RELATIONS: &[Relation] = &[
    Relation {
        id: "bore_area",
        inputs: &[length("bore", "D")],
        outputs: &[output("area", "A", Kind::Area)],
        forms: same(r"#area = \frac{\pi\,#bore^2}{4}", GEOMETRY),
        run: |a| one(bore_area(a.get(0))),
    },
    Relation {
        id: "opening_force",
        inputs: &[OPENING, AREA],
        outputs: &[output("force", "F", Kind::Force)],
        forms: same(r"#force = #opening \, #area", BALANCE),
        run: |a| one(opening_force(a.get(0), a.get(1))),
    },
    Relation {
        id: "spring_rate",
        inputs: &[
            length("wire", "d"),
            length("mean_coil", "D_\\mathrm{m}"),
            quantity("active", "N", Kind::Number, Range::between(0.5, 1e3)),
            quantity("shear", "G", Kind::Stress, Range::positive(1e12)),
        ],
        outputs: &[output("rate", "k", Kind::SpringRate)],
        forms: same(
            r"#rate = \frac{#shear \, #wire^4}{8 \, #mean_coil^3 \, #active}",
            Source {
                document: "spring deflection formula as in machine-design textbooks (Shigley, ch. 10)",
                status: Status::Read,
            },
        ),
        run: |a| one(spring_rate(a.get(0), a.get(1), a.get(2), a.get(3))?),
    },
    Relation {
        id: "preload_deflection",
        inputs: &[OPENING, AREA, RATE],
        outputs: &[output("deflection", "x_0", Kind::Length)],
        forms: same(r"#deflection = \frac{#opening \, #area}{#rate}", BALANCE),
        run: |a| one(preload_deflection(a.get(0), a.get(1), a.get(2))),
    },
    Relation {
        id: "pressure_at_lift",
        inputs: &[OPENING, AREA, RATE, quantity("lift", "L", Kind::Length, Range::from_zero(LENGTH))],
        outputs: &[output("pressure", "p", Kind::Gauge)],
        forms: same(r"#pressure = #opening + \frac{#rate \, #lift}{#area}", BALANCE),
        run: |a| one(pressure_at_lift(a.get(0), a.get(1), a.get(2), a.get(3))),
    },
    Relation {
        id: "lift_at_pressure",
        inputs: &[OPENING, AREA, RATE, FULL_LIFT, gauge("pressure", "p")],
        outputs: &[output("lift", "L", Kind::Length)],
        forms: same(
            r"#lift = \min\left(\max\left(\frac{(#pressure - #opening) \, #area}{#rate},\ 0\right),\ #full_lift\right)",
            BALANCE,
        ),
        run: |a| one(lift_at_pressure(a.get(0), a.get(1), a.get(2), a.get(3), a.get(4))),
    },
    Relation {
        id: "full_open_pressure",
        inputs: &[OPENING, AREA, RATE, FULL_LIFT],
        outputs: &[output("full_open", r"p_\mathrm{full}", Kind::Gauge)],
        forms: same(r"#full_open = #opening + \frac{#rate \, #full_lift}{#area}", BALANCE),
        run: |a| one(full_open_pressure(a.get(0), a.get(1), a.get(2), a.get(3))),
    },
    Relation {
        id: "rate_for_rise",
        inputs: &[AREA, quantity("rise", r"\Delta p", Kind::Difference, Range::positive(PRESSURE)), FULL_LIFT],
        outputs: &[output("rate", "k", Kind::SpringRate)],
        forms: same(r"#rate = \frac{#rise \, #area}{#full_lift}", BALANCE),
        run: |a| one(rate_for_rise(a.get(0), a.get(1), a.get(2))),
    },
    Relation {
        id: "screw_change",
        inputs: &[RATE, PITCH, quantity("turns", "n", Kind::Turns, Range::between(-1e4, 1e4)), AREA],
        outputs: &[output("change", r"\Delta p", Kind::Difference)],
        forms: same(r"#change = \frac{#rate \, #pitch \, #turns}{#area}", BALANCE),
        run: |a| one(screw_change(a.get(0), a.get(1), a.get(2), a.get(3))),
    },
    Relation {
        id: "turns_for_change",
        inputs: &[quantity("change", r"\Delta p", Kind::Difference, CHANGE), RATE, PITCH, AREA],
        outputs: &[output("turns", "n", Kind::Turns)],
        forms: same(r"#turns = \frac{#change \, #area}{#rate \, #pitch}", BALANCE),
        run: |a| one(turns_for_change(a.get(0), a.get(1), a.get(2), a.get(3))),
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
