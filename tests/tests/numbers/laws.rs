//! Laws of the relations that hold whatever the numbers: inverse pairs return, what physics makes grow grows, units do
//! not matter, and no input at all makes a panic or a result that is not finite.

use problems::display::usual_unit;
use proptest::prelude::*;
use relief::{
    Argument, Bound, Form, Forms, Gives, Input, Kind, Manner, Output, Outputs, Quantity, Relation, RelationError,
    System, find, relations, units,
};

fn work(id: &str, inputs: &[(&str, f64, Kind)]) -> f64 {
    let given: Vec<_> =
        inputs.iter().map(|(name, si, kind)| (*name, Argument::Quantity(Quantity::new(*si, *kind)))).collect();
    find(id).expect(id).evaluate(&given).unwrap_or_else(|error| panic!("{id}: {error}")).first().si
}

fn close(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-9 * one.abs().max(other.abs()).max(1e-12)
}

/// Gauge pressures from 0.1 to 400 bar.
fn pressure() -> impl Strategy<Value = f64> {
    1e4..4e7
}

/// Bores from 6 to 300 mm.
fn bore() -> impl Strategy<Value = f64> {
    0.006..0.3
}

/// Spring rates from 5 to 5000 N/mm.
fn rate() -> impl Strategy<Value = f64> {
    5e3..5e6
}

/// Lifts from 0.5 to 60 mm.
fn lift() -> impl Strategy<Value = f64> {
    5e-4..0.06
}

/// At least as many as any relation has inputs.
const MOST_INPUTS: usize = 12;

/// A rise of 5000 bar: no valve has more, and the relations do not take more.
const BELIEVABLE_RISE: f64 = 5e8;

proptest! {
    #[test]
    fn a_rise_gives_back_the_rate_that_makes_it(opening in pressure(), bore in bore(), rate in rate(), lift in lift()) {
        let area = work("bore_area", &[("bore", bore, Kind::Length)]);
        prop_assume!(rate * lift / area < BELIEVABLE_RISE);
        let full = work("full_open_pressure", &[
            ("opening", opening, Kind::Gauge), ("area", area, Kind::Area), ("rate", rate, Kind::SpringRate),
            ("full_lift", lift, Kind::Length),
        ]);
        let rise = work("opening_accumulation", &[("full_open", full, Kind::Gauge), ("opening", opening, Kind::Gauge)]);
        let back = work("rate_for_rise", &[
            ("area", area, Kind::Area), ("rise", rise, Kind::Difference), ("full_lift", lift, Kind::Length),
        ]);
        // The rise is a difference of two larger pressures, so its last bits are lost.
        prop_assert!((back - rate).abs() <= rate * 1e-9 * (full / rise));
    }

    #[test]
    fn turns_give_back_the_change(change in -4e6..4e6, bore in bore(), rate in rate(), pitch in 5e-4..5e-3) {
        let area = work("bore_area", &[("bore", bore, Kind::Length)]);
        let screw = [("rate", rate, Kind::SpringRate), ("pitch", pitch, Kind::Length), ("area", area, Kind::Area)];
        let turns = work("turns_for_change", &[&screw[..], &[("change", change, Kind::Difference)]].concat());
        prop_assume!(turns.abs() < 1e4);
        let back = work("screw_change", &[&screw[..], &[("turns", turns, Kind::Turns)]].concat());
        prop_assert!(close(back, change));
    }

    #[test]
    fn the_lift_at_the_pressure_of_a_lift_is_that_lift(
        opening in pressure(), bore in bore(), rate in rate(), full in lift(), share in 0.0..1.0,
    ) {
        let area = work("bore_area", &[("bore", bore, Kind::Length)]);
        let valve = [("opening", opening, Kind::Gauge), ("area", area, Kind::Area), ("rate", rate, Kind::SpringRate)];
        let lift = full * share;
        prop_assume!(rate * lift / area < BELIEVABLE_RISE);
        let pressure = work("pressure_at_lift", &[&valve[..], &[("lift", lift, Kind::Length)]].concat());
        let back = work("lift_at_pressure", &[
            &valve[..], &[("full_lift", full, Kind::Length), ("pressure", pressure, Kind::Gauge)],
        ].concat());
        // What the pressure lost in its last bits, as lift.
        prop_assert!((back - lift).abs() <= 1e-12 * pressure * area / rate + 1e-12);
    }

    #[test]
    fn preload_holds_the_opening_force(opening in pressure(), bore in bore(), rate in rate()) {
        let area = work("bore_area", &[("bore", bore, Kind::Length)]);
        let force = work("opening_force", &[("opening", opening, Kind::Gauge), ("area", area, Kind::Area)]);
        let deflection = work("preload_deflection", &[
            ("opening", opening, Kind::Gauge), ("area", area, Kind::Area), ("rate", rate, Kind::SpringRate),
        ]);
        prop_assert!(close(deflection * rate, force));
    }

    #[test]
    fn relieving_pressure_and_overpressure_are_inverse(set in pressure(), over in 0.0..4e6) {
        let relieving = work("relieving_pressure", &[("set", set, Kind::Gauge), ("overpressure", over, Kind::Difference)]);
        let back = work("overpressure", &[("relieving", relieving, Kind::Gauge), ("set", set, Kind::Gauge)]);
        prop_assert!((back - over).abs() <= relieving * 1e-12);
    }

    #[test]
    fn the_allowed_rise_grows_with_the_mawp_and_never_falls_below_its_minimum(one in pressure(), other in pressure()) {
        let (low, high) = if one < other { (one, other) } else { (other, one) };
        let relation = find("allowed_accumulation_over_mawp").expect("registry");
        for case in ["single", "several", "fire", "boiler"] {
            for stated in System::BOTH {
                let allowed = |mawp: f64| {
                    let mawp = Argument::Quantity(Quantity::new(mawp, Kind::Gauge));
                    let given = [("mawp", mawp), ("case", Argument::Choice(case))];
                    relation.evaluate_in(&given, Manner::unrounded(stated)).expect("lawful").first().si
                };
                prop_assert!(allowed(low) <= allowed(high));
                prop_assert!(allowed(low) >= 0.06 * low * (1.0 - 1e-12));
            }
        }
    }

    #[test]
    fn a_thicker_wire_is_stiffer_and_a_wider_coil_softer(
        wire in 2e-3..0.03, ratio in 3.0..14.0, active in 3.0..20.0, more in 1.01..1.5,
    ) {
        let rate = |wire: f64, coil: f64| work("spring_rate", &[
            ("wire", wire, Kind::Length), ("mean_coil", coil, Kind::Length), ("active", active, Kind::Number),
            ("shear", 7.93e10, Kind::Stress),
        ]);
        let coil = wire * ratio;
        prop_assert!(rate(wire, coil * more) < rate(wire, coil));
        prop_assert!(rate(wire * more, coil * more) > rate(wire, coil * more));
    }

    #[test]
    fn no_input_makes_a_panic_or_a_result_that_is_not_finite(bits in prop::collection::vec(any::<u64>(), MOST_INPUTS), pick in any::<usize>(), manner in manner()) {
        let relation = relations().nth(pick % relations().count()).expect("registry");
        let argument = |(input, bits): (&Input, &u64)| match &input.form {
            Form::Quantity(kind, _) => Argument::Quantity(Quantity::new(f64::from_bits(*bits), *kind)),
            Form::Choice(known) => Argument::Choice(known[usize::try_from(*bits % known.len() as u64).expect("small")]),
        };
        let arguments: Vec<_> = relation.inputs.iter().zip(&bits).map(argument).collect();
        if let Ok(outputs) = relation.evaluate_ordered(&arguments, manner) {
            prop_assert!(finite(&outputs));
        }
    }

    #[test]
    fn lawful_inputs_give_the_declared_kinds(shares in prop::collection::vec(0.0..1.0f64, MOST_INPUTS), pick in any::<usize>(), manner in manner()) {
        let relation = relations().nth(pick % relations().count()).expect("registry");
        let argument = |(input, share): (&Input, &f64)| match &input.form {
            Form::Quantity(kind, range) => {
                let (Bound::Including(low) | Bound::Above(low)) = range.low;
                Argument::Quantity(Quantity::new(low + (range.high - low) * share, *kind))
            }
            Form::Choice(known) => Argument::Choice(chosen(known, *share)),
        };
        let arguments: Vec<_> = relation.inputs.iter().zip(&shares).map(argument).collect();
        match relation.evaluate_ordered(&arguments, manner) {
            Ok(outputs) => prop_assert!(as_declared(relation, &outputs), "{}: {outputs:?}", relation.id),
            Err(error) => prop_assert!(is_of_values(&error), "{}: {error}", relation.id),
        }
    }

    #[test]
    fn units_do_not_matter(opening in 10.0..4000.0f64, bore in 0.25..8.0f64, rate in 50.0..20_000.0f64, lift in 0.02..2.0f64) {
        let us = |value: f64, symbol: &str, kind| units::find(symbol).expect(symbol).quantity(value, kind);
        let through = |quantity: Quantity, symbol: &str| {
            let unit = units::find(symbol).expect(symbol);
            unit.quantity(unit.value(quantity), quantity.kind)
        };
        let customary = [
            us(opening, "psig", Kind::Gauge), us(bore * bore, "in2", Kind::Area), us(rate, "lbf/in", Kind::SpringRate),
            us(lift, "in", Kind::Length),
        ];
        let metric = [
            through(customary[0], "barg"), through(customary[1], "mm2"), through(customary[2], "N/mm"),
            through(customary[3], "mm"),
        ];
        let full = |values: [Quantity; 4]| {
            let relation = find("full_open_pressure").expect("registry");
            relation.evaluate_ordered(&values.map(Argument::Quantity), Manner::unrounded(System::Us)).expect("lawful")
        };
        let (one, other) = (full(customary).first().si, full(metric).first().si);
        prop_assert!((one - other).abs() <= one * 1e-14, "{one} {other}");
    }

    /// What was given in customary units and in SI units gives the same by one and the same printed form, but for the last
    /// bits of the conversions.
    #[test]
    fn no_relation_minds_the_units(shares in prop::collection::vec(0.0..1.0f64, 12), pick in any::<usize>(), form in form()) {
        let relation = relations().nth(pick % relations().count()).expect("registry");
        let spread = shares.last().copied().unwrap_or(0.5);
        let given = |system| -> Vec<Argument> {
            relation.inputs.iter().zip(&shares).map(|(input, share)| in_system(input, *share, spread, system)).collect()
        };
        let (us, si) = (given(System::Us), given(System::Si));
        if let (Ok(one), Ok(other)) = (relation.evaluate_ordered(&us, Manner::unrounded(form)), relation.evaluate_ordered(&si, Manner::unrounded(form))) {
            for (one, other) in one.quantities().zip(other.quantities()) {
                // A difference of two near pressures keeps the last bits of the pressures, not its own.
                let scale = us.iter().filter_map(|given| same_dimension(given, one)).fold(one.si.abs(), f64::max);
                prop_assert!((one.si - other.si).abs() <= 1e-11 * scale, "{}: {one:?} {other:?}", relation.id);
            }
        }
    }

    /// Forms of one formula differ by no more than the rounding of their constants.
    #[test]
    fn the_printed_forms_of_a_formula_agree(shares in prop::collection::vec(0.0..1.0f64, 12), pick in any::<usize>()) {
        let relation = relations().nth(pick % relations().count()).expect("registry");
        prop_assume!(!matches!(relation.forms, Forms::BySystem { .. }));
        let spread = shares.last().copied().unwrap_or(0.5);
        let given: Vec<_> = (relation.inputs.iter().zip(&shares))
            .map(|(input, share)| in_system(input, *share, spread, System::Si))
            .collect();
        let [us, si] = System::BOTH.map(|form| relation.evaluate_ordered(&given, Manner::unrounded(form)));
        if let (Ok(us), Ok(si)) = (us, si) {
            for (us, si) in us.quantities().zip(si.quantities()) {
                // The steam factor begins at 1500 psia in one form and at 10 339 kPa in the other, and steps there.
                let most = if relation.id == "napier_factor" { 0.01 } else { 0.0015 };
                prop_assert!((us.si - si.si).abs() <= most * si.si.abs(), "{}: {us:?} {si:?}", relation.id);
            }
        }
    }

    #[test]
    fn a_number_comes_back_from_its_unit(value in -1e6..1e6f64, pick in any::<usize>()) {
        let unit = &units::UNITS[pick % units::UNITS.len()];
        let back = unit.value(unit.quantity(value, unit.usual_kind()));
        // A scale of temperature counts from a zero of its own, whose last bits are lost.
        let zero = unit.quantity(0.0, unit.usual_kind()).si / unit.factor();
        prop_assert!((back - value).abs() <= (value.abs() + zero) * 1e-15);
    }
}

/// One of the two printed forms.
fn form() -> impl Strategy<Value = System> {
    prop_oneof![Just(System::Us), Just(System::Si)]
}

/// Any manner in which a relation is worked.
fn manner() -> impl Strategy<Value = Manner> {
    (form(), prop_oneof![Just(None), Just(Some(4)), Just(Some(5))]).prop_map(|(form, figures)| Manner { form, figures })
}

/// A lawful value taken through the usual unit of a system.
fn in_system(input: &Input, share: f64, spread: f64, system: System) -> Argument {
    match &input.form {
        Form::Choice(known) => Argument::Choice(chosen(known, share)),
        Form::Quantity(kind, range) => {
            let (Bound::Including(low) | Bound::Above(low)) = range.low;
            let si = low + (range.high - low) * (0.5 + 0.5 * share) * libm::pow(10.0, -9.0 * spread);
            let through = |unit: &units::Unit| unit.quantity(unit.value(Quantity::new(si, *kind)), *kind);
            Argument::Quantity(usual_unit(*kind, system).map_or(Quantity::new(si, *kind), through))
        }
    }
}

/// The size of an argument that a result could be a difference of.
fn same_dimension(given: &Argument, result: Quantity) -> Option<f64> {
    match given {
        Argument::Quantity(value) if value.kind.dimension() == result.kind.dimension() => Some(value.si.abs()),
        _ => None,
    }
}

fn chosen(known: &[&'static str], share: f64) -> &'static str {
    let place = (0..known.len()).rfind(|place| share * known.len() as f64 >= *place as f64);
    known[place.unwrap_or(0)]
}

/// Whether every output is there and of its declared kind or among its declared choices.
fn as_declared(relation: &Relation, outputs: &Outputs) -> bool {
    let fits = |(place, output): (usize, &Output)| match (outputs.get(place), output.gives) {
        (Some(Argument::Quantity(value)), Gives::Quantity(kind)) => value.kind == kind,
        (Some(Argument::Choice(name)), Gives::Choice(known)) => known.contains(&name),
        _ => false,
    };
    relation.outputs.iter().enumerate().all(fits)
}

/// Whether a refusal is about the values, and not about which arguments there are and of which kind.
fn is_of_values(error: &RelationError) -> bool {
    !matches!(
        error,
        RelationError::Missing { .. }
            | RelationError::Unknown { .. }
            | RelationError::Repeated { .. }
            | RelationError::WrongKind { .. }
            | RelationError::WrongChoice { .. }
    )
}

fn finite(outputs: &Outputs) -> bool {
    outputs.quantities().all(|value| value.si.is_finite())
}
