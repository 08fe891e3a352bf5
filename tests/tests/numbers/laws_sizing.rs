//! Laws of the relations for settings, springs, sizing and the bench: inverse pairs return, what physics makes grow
//! grows, sizes are never rounded down, and relations that share a subject agree with each other.

use proptest::prelude::*;
use relief::{Argument, Form, Kind, Manner, Outputs, Quantity, RelationError, System, find, units};

/// A value by name: a number in SI units, or a choice.
#[derive(Clone, Copy)]
enum Given {
    Number(f64),
    Choice(&'static str),
}
use Given::{Choice, Number};

/// Works a relation; `stated_in` names the printed form, which else is that of SI.
fn outcome(id: &str, given: &[(&str, Given)]) -> Result<Outputs, RelationError> {
    let relation = find(id).expect(id);
    let form = given.iter().find_map(|(name, value)| match value {
        Choice(form) if *name == "stated_in" => System::find(form),
        _ => None,
    });
    let argument = |(name, value): &(&str, Given)| {
        let (_, input) = relation.input(name).unwrap_or_else(|| panic!("{id}: {name}"));
        let argument = match (value, &input.form) {
            (Number(si), Form::Quantity(kind, _)) => Argument::Quantity(Quantity::new(*si, *kind)),
            (Choice(choice), _) => Argument::Choice(choice),
            (Number(_), Form::Choice(_)) => panic!("{id}: {name} is a choice"),
        };
        (input.name, argument)
    };
    let given: Vec<_> = given.iter().filter(|(name, _)| *name != "stated_in").map(argument).collect();
    relation.evaluate_in(&given, Manner::unrounded(form.unwrap_or(System::Si)))
}

fn outputs(id: &str, given: &[(&str, Given)]) -> Outputs {
    outcome(id, given).unwrap_or_else(|error| panic!("{id}: {error}"))
}

fn work(id: &str, given: &[(&str, f64)]) -> f64 {
    let given: Vec<_> = given.iter().map(|(name, si)| (*name, Number(*si))).collect();
    outputs(id, &given).first().si
}

fn two(found: &Outputs) -> (f64, f64) {
    match found {
        Outputs::Two(one, other) => (one.si, other.si),
        other => panic!("{other:?}"),
    }
}

fn named(found: &Outputs) -> &'static str {
    match found {
        Outputs::Named(_, name) => name,
        other => panic!("{other:?}"),
    }
}

fn close(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-9 * one.abs().max(other.abs()).max(1e-12)
}

/// Set pressures from 0.2 to 300 bar, every order of magnitude as likely, since limits switch at the low ones.
fn set() -> impl Strategy<Value = f64> {
    (4.3..7.48).prop_map(|digits| libm::pow(10.0, digits))
}

/// Correction factors.
fn factor() -> impl Strategy<Value = f64> {
    0.5..1.0
}

/// Ratios of specific heats.
fn heat_ratio() -> impl Strategy<Value = f64> {
    1.01..1.9
}

const STATED: [&str; 2] = ["us", "si"];
const TOLERANCES: [&str; 4] = ["vessel", "vessel_fire_only", "boiler", "iso"];
const BLOWDOWNS: [&str; 4] = ["boiler", "vessel_certification", "iso_gas", "iso_liquid"];

proptest! {
    #[test]
    fn the_area_for_a_flow_passes_that_flow(
        flow in 1e-5..1.0, gravity in 0.4..2.0, relieving in set(), share in 0.0..0.9,
        kd in factor(), kw in factor(), kc in factor(), kv in factor(),
    ) {
        let state = [
            ("gravity", gravity), ("relieving", relieving), ("back", relieving * share), ("kd", kd), ("kw", kw), ("kc", kc),
            ("kv", kv),
        ];
        let area = work("liquid_area", &[&state[..], &[("flow", flow)]].concat());
        let back = work("liquid_capacity", &[&state[..], &[("area", area)]].concat());
        prop_assert!(close(back, flow));
    }

    #[test]
    fn the_area_of_a_liquid_valve_grows_with_flow_and_back_pressure_and_falls_with_the_relieving_pressure(
        flow in 1e-5..1.0, gravity in 0.4..2.0, relieving in set(), share in 0.0..0.8, more in 1.001..1.1,
    ) {
        let area = |flow, relieving, back| {
            work("liquid_area", &[("flow", flow), ("gravity", gravity), ("relieving", relieving), ("back", back)])
        };
        let back = relieving * share;
        prop_assert!(area(flow * more, relieving, back) > area(flow, relieving, back));
        prop_assert!(area(flow, relieving * more, back) < area(flow, relieving, back));
        prop_assert!(area(flow, relieving, back * more) >= area(flow, relieving, back));
    }

    #[test]
    fn without_certified_capacity_a_valve_is_sized_at_a_quarter_over_set(
        flow in 1e-5..1.0, gravity in 0.4..2.0, set in set(), share in 0.0..0.5,
    ) {
        let duty = [("flow", flow), ("gravity", gravity), ("back", set * share), ("kd", 0.62)];
        let uncertified = work("liquid_area_uncertified", &[&duty[..], &[("set", set)]].concat());
        let certified = work("liquid_area", &[&duty[..], &[("relieving", 1.25 * set)]].concat());
        prop_assert!(close(uncertified, certified));
    }

    #[test]
    fn viscosity_only_ever_takes_away_and_less_so_as_the_reynolds_number_grows(
        reynolds in 30.0..1e7, more in 1.001..10.0,
    ) {
        for edition in ["7", "10"] {
            let factor = |reynolds| {
                outputs("viscosity_factor", &[("reynolds", Number(reynolds)), ("edition", Choice(edition))]).first().si
            };
            prop_assert!(factor(reynolds) > 0.0 && factor(reynolds) <= 1.0);
            prop_assert!(factor(reynolds * more) >= factor(reynolds));
        }
    }

    #[test]
    fn a_standard_orifice_is_never_smaller_and_is_the_smallest_that_is_not(area in 1e-7..0.016_774) {
        let (effective, letter) = match outputs("standard_orifice", &[("area", Number(area))]) {
            Outputs::Named(effective, letter) => (effective.si, letter),
            other => return Err(TestCaseError::fail(format!("{other:?}"))),
        };
        prop_assert!(effective >= area * (1.0 - 1e-9));
        // Its own area takes it; so does any area down to the one asked for.
        prop_assert_eq!(named(&outputs("standard_orifice", &[("area", Number(effective))])), letter);
        let between = area + (effective - area) / 2.0;
        prop_assert_eq!(named(&outputs("standard_orifice", &[("area", Number(between))])), letter);
    }

    #[test]
    fn above_the_largest_orifice_there_is_none(area in 0.016_774_2..100.0) {
        prop_assert_eq!(
            outcome("standard_orifice", &[("area", Number(area))]),
            Err(RelationError::TooLarge { input: "area" })
        );
    }

    #[test]
    fn the_discharge_area_is_the_smaller_of_bore_and_curtain(bore in 0.005..0.3, lift in 0.0..0.2) {
        let whole = work("bore_area", &[("bore", bore)]);
        let curtain = work("curtain_area", &[("bore", bore), ("lift", lift)]);
        let discharge = work("discharge_area", &[("bore", bore), ("lift", lift)]);
        prop_assert_eq!(discharge.to_bits(), whole.min(curtain).to_bits());
        let full = work("full_lift", &[("bore", bore)]);
        prop_assert!(close(work("curtain_area", &[("bore", bore), ("lift", full)]), whole));
    }

    #[test]
    fn a_gas_flow_is_critical_or_subcritical_and_never_both(
        k in heat_ratio(), relieving in 1.2e5..2e7, share in 0.05..0.99, molar_mass in 0.002..0.2, mass in 0.01..100.0,
    ) {
        let state = [
            ("mass", Number(mass)), ("temperature", Number(300.0)), ("molar_mass", Number(molar_mass)), ("k", Number(k)),
            ("relieving", Number(relieving)), ("back", Number(relieving * share)),
        ];
        let subcritical = [&state[..], &[("f2", Number(0.8))]].concat();
        match (outcome("gas_area", &state), outcome("subcritical_gas_area", &subcritical)) {
            (Ok(_), Err(error)) => prop_assert_eq!(error, RelationError::Critical { instead: "gas_area" }),
            (Err(error), Ok(_)) => {
                prop_assert_eq!(error, RelationError::Subcritical { instead: "subcritical_gas_area" });
            }
            other => prop_assert!(false, "{other:?}"),
        }
    }

    #[test]
    fn the_critical_and_the_subcritical_area_meet_at_the_critical_ratio(
        k in heat_ratio(), relieving in 1.2e5..2e7, molar_mass in 0.002..0.2, mass in 0.01..100.0,
    ) {
        let edge = relieving * work("critical_ratio", &[("k", k)]);
        let state = [
            ("mass", mass), ("temperature", 300.0), ("molar_mass", molar_mass), ("k", k), ("relieving", relieving),
        ];
        let critical = work("gas_area", &[&state[..], &[("back", edge * (1.0 - 1e-8))]].concat());
        let factor = work("subcritical_factor", &[("k", k), ("ratio", edge / relieving)]);
        let beyond = [("back", edge * (1.0 + 1e-8)), ("f2", factor)];
        let subcritical = work("subcritical_gas_area", &[&state[..], &beyond].concat());
        // The printed constants of the two forms are rounded on their own.
        prop_assert!((critical / subcritical - 1.0).abs() < 0.005, "{critical} {subcritical}");
    }

    #[test]
    fn more_back_pressure_takes_more_area_once_the_flow_is_subcritical(
        k in heat_ratio(), relieving in 1.2e5..2e7, one in 0.0..1.0f64, other in 0.0..1.0f64,
    ) {
        let critical = work("critical_ratio", &[("k", k)]);
        let back = |share: f64| relieving * (critical + 1e-6 + (0.99 - critical) * share);
        let area = |back| {
            let state = [
                ("mass", 1.0), ("temperature", 300.0), ("molar_mass", 0.03), ("k", k), ("relieving", relieving),
                ("back", back), ("f2", work("subcritical_factor", &[("k", k), ("ratio", back / relieving)])),
            ];
            work("subcritical_gas_area", &state)
        };
        prop_assert!(area(back(one.min(other))) <= area(back(one.max(other))) * (1.0 + 1e-9));
    }

    #[test]
    fn the_coefficient_is_lowest_at_one_and_the_critical_ratio_falls_with_k(k in 1.0..1.9, more in 0.001..0.1) {
        let at = |id, k| work(id, &[("k", k)]);
        prop_assert!(at("gas_coefficient", k) >= at("gas_coefficient", 1.0));
        prop_assert!(at("gas_coefficient", k + more) > at("gas_coefficient", k));
        prop_assert!(at("critical_ratio", k + more) < at("critical_ratio", k));
    }

    #[test]
    fn steam_and_gas_take_area_in_proportion_to_their_mass(mass in 0.01..100.0, more in 1.1..10.0, relieving in 2e5..2e7) {
        let steam = |mass| work("steam_area", &[("mass", mass), ("relieving", relieving), ("kn", 1.05)]);
        let state = [("temperature", 350.0), ("molar_mass", 0.03), ("k", 1.3), ("relieving", relieving), ("back", 0.0)];
        let gas = |mass| work("gas_area", &[&state[..], &[("mass", mass)]].concat());
        prop_assert!(close(steam(mass * more), steam(mass) * more));
        prop_assert!(close(gas(mass * more), gas(mass) * more));
    }

    /// Up to 10 339 kPa absolute KN is one; above it, an area without it would be a number from nowhere.
    #[test]
    fn steam_of_high_pressure_is_not_sized_without_its_factor(relieving in 1e6..2.2e7) {
        let given = [("mass", Number(10.0)), ("relieving", Number(relieving))];
        let left_at_one = outcome("steam_area", &given);
        let factor = work("napier_factor", &[("relieving", relieving)]);
        if relieving <= 10_339e3 {
            prop_assert!(close(left_at_one.expect("sized").first().si, work("steam_area", &[("mass", 10.0), ("relieving", relieving), ("kn", factor)])));
        } else {
            prop_assert_eq!(left_at_one, Err(RelationError::FactorNeeded { input: "kn", instead: "napier_factor" }));
            prop_assert!(outcome("steam_area", &[&given[..], &[("kn", Number(factor))]].concat()).is_ok());
        }
    }

    #[test]
    fn a_tolerance_band_holds_the_set_pressure_and_the_bench_agrees_with_it(set in set(), share in -0.3..1.3f64) {
        for code in TOLERANCES {
            for stated in STATED {
                let rule = [("code", Choice(code)), ("stated_in", Choice(stated))];
                let (low, high) = two(&outputs("set_tolerance", &[&rule[..], &[("set", Number(set))]].concat()));
                prop_assert!(low <= set && set < high);
                let found = (low + (high - low) * share).max(0.0);
                let bench = [("cold_test", Number(set)), ("found", Number(found))];
                let verdict = named(&outputs("within_tolerance", &[&rule[..], &bench[..]].concat()));
                let edge = (found - low).abs().min((found - high).abs()) < 1e-8 * set;
                let inside = found >= low && found <= high;
                prop_assert!(edge || verdict == if inside { "within" } else { "outside" }, "{code} {stated}");
            }
        }
    }

    #[test]
    fn the_systems_of_a_code_that_is_stated_twice_differ_only_by_its_rounding(set in set()) {
        let rule = |id, value: &'static str, stated| {
            two(&outputs(id, &[("set", Number(set)), ("code", Choice(value)), ("stated_in", Choice(stated))]))
        };
        for code in TOLERANCES {
            let ((_, us), (_, si)) = (rule("set_tolerance", code, "us"), rule("set_tolerance", code, "si"));
            // 2 psi is 13.8 kPa and stated as 15; 10 psi is 68.9 and stated as 70. Between two statements of one edge,
            // 3 % and the fixed width meet.
            prop_assert!((us - si).abs() <= 7_000.0, "{code}");
            prop_assert!(!matches!(code, "iso" | "vessel_fire_only") || us.to_bits() == si.to_bits());
            prop_assert!(code != "vessel" || set <= 5e5 || us.to_bits() == si.to_bits());
        }
        for code in ["iso_gas", "iso_liquid"] {
            prop_assert_eq!(rule("blowdown_limit", code, "us"), rule("blowdown_limit", code, "si"));
        }
    }

    #[test]
    fn the_least_blowdown_is_below_the_most_and_both_grow_with_the_set_pressure(set in set(), more in 1.001..2.0) {
        for code in BLOWDOWNS {
            for stated in STATED {
                let limits = |set| {
                    let given = [("set", Number(set)), ("code", Choice(code)), ("stated_in", Choice(stated))];
                    two(&outputs("blowdown_limit", &given))
                };
                let ((least, most), (least_above, most_above)) = (limits(set), limits(set * more));
                prop_assert!(least >= 0.0 && least < most);
                // A code rounds the ends of its steps in each system, so that a step may begin a little lower.
                let rounded = if code == "boiler" { 0.98 } else { 1.0 };
                prop_assert!(least_above >= least && most_above >= most * rounded);
            }
        }
    }

    #[test]
    fn the_highest_set_pressure_rises_with_the_rank(mawp in set()) {
        let highest = |rank| outputs("maximum_set", &[("mawp", Number(mawp)), ("rank", Choice(rank))]).first().si;
        prop_assert!(close(highest("first"), mawp));
        prop_assert!(highest("first") < highest("additional") && highest("additional") < highest("fire_supplemental"));
    }

    #[test]
    fn a_conventional_valve_set_cold_opens_at_its_set_pressure_against_the_back_pressure(
        set in set(), share in 0.0..0.9, nozzle in 1e-5..0.02, wider in 1.0..1.5,
    ) {
        let back = set * share;
        let given = [("set", Number(set)), ("superimposed", Number(back)), ("kind", Choice("conventional"))];
        let cold = outputs("cold_test_pressure", &given).first().si;
        let valve = [
            ("spring_force", Number(cold * nozzle)), ("nozzle_area", Number(nozzle)), ("disc_area", Number(nozzle * wider)),
            ("superimposed", Number(back)),
        ];
        let opening = |bonnet| {
            let given = [&valve[..], &[("bonnet", Choice(bonnet))]].concat();
            outcome("opening_under_back_pressure", &given).map(|found| found.first().si)
        };
        prop_assert!(opening("vented_to_outlet").is_ok_and(|found| close(found, set)));
        // Vented to the air, the outlet pressure helps to lift the disc, until nothing holds it down.
        match opening("vented_to_air") {
            Ok(found) => prop_assert!(found <= cold * (1.0 + 1e-12)),
            Err(error) => prop_assert_eq!(error, RelationError::NothingLeft { input: "superimposed" }),
        }
    }

    #[test]
    fn heat_a_lost_share_and_lost_length_are_three_things_that_agree_where_they_must(
        opening in 1e5..1e7, bore in 0.01..0.1, rate in 1e4..1e6, lift in 1e-4..0.02, ratio in 0.7..1.0,
    ) {
        let area = work("bore_area", &[("bore", bore)]);
        let valve = [("opening", opening), ("area", area), ("rate", rate), ("full_lift", lift)];
        let cold = work("full_open_pressure", &valve);
        let hot = work("full_open_when_hot", &[&valve[..], &[("modulus_ratio", ratio)]].concat());
        let opens = work("opening_when_hot", &[("opening", opening), ("modulus_ratio", ratio)]);
        prop_assert!(close(opens, work("opening_after_load_loss", &[("opening", opening), ("loss", 1.0 - ratio)])));
        // Heat softens the whole spring: the rise to full open falls in the same share.
        prop_assert!(((hot - opens) - (cold - opening) * ratio).abs() <= 1e-12 * cold);
        // A lost share of the load opens as low, but the rate and so the rise stay: full open comes later than hot.
        let after = work("full_open_pressure", &[("opening", opens), ("area", area), ("rate", rate), ("full_lift", lift)]);
        prop_assert!(after >= hot * (1.0 - 1e-12));
        // The length that costs the same load costs the same opening pressure.
        let shortening = (1.0 - ratio) * opening * area / rate;
        prop_assume!(shortening <= 1.0);
        let short = [("opening", opening), ("rate", rate), ("shortening", shortening), ("area", area)];
        prop_assert!((work("opening_after_shortening", &short) - opens).abs() <= 1e-12 * opening);
    }

    #[test]
    fn stress_grows_with_the_force_and_falls_with_a_thicker_wire(
        force in 10.0..1e5, wire in 1e-3..0.03, index in 4.0..12.0, more in 1.01..1.2,
    ) {
        let coil = wire * index;
        let stress = |force, wire| work("spring_stress", &[("force", force), ("wire", wire), ("mean_coil", coil)]);
        prop_assert!(close(stress(force * more, wire), stress(force, wire) * more));
        prop_assert!(stress(force, wire * more) < stress(force, wire));
        let found = work("spring_index", &[("wire", wire), ("mean_coil", coil)]);
        prop_assert!(close(found, index) && work("wahl_factor", &[("index", found)]) > 1.0);
    }

    #[test]
    fn tightness_is_tested_below_the_set_pressure_and_a_larger_seat_may_not_bubble_more(
        cold in 1.04e5..4.13e7f64, set in 1.04e5..4.13e7f64, area in 1e-5..0.017, more in 1.0..10.0f64,
    ) {
        let leak = |cold| work("leak_test_pressure", &[("cold_test", cold)]);
        prop_assert!(leak(cold) < cold && leak(cold) >= 0.0 && leak((cold * more).min(4.13e7)) >= leak(cold));
        let bubbles = |set: f64, area, seat| {
            outputs("bubble_limit", &[("set", Number(set)), ("area", Number(area)), ("seat", Choice(seat))]).first().si
        };
        prop_assert!(bubbles(set, area * more, "metal") <= bubbles(set, area, "metal"));
        prop_assert!(bubbles((set * more).min(4.13e7), area, "metal") >= bubbles(set, area, "metal"));
        prop_assert_eq!(bubbles(set, area, "soft").to_bits(), 0.0f64.to_bits());
    }

    #[test]
    fn a_finer_gauge_errs_less_and_no_gauge_by_more_than_three_hundredths_of_its_span(span in 1e5..1e8, share in 0.0..1.0) {
        let error = |grade| {
            let given = [("grade", Choice(grade)), ("span", Number(span)), ("reading", Number(span * share))];
            outputs("gauge_error", &given).first().si
        };
        prop_assert!(error("a") < error("b") && error("b") <= 0.03 * span * (1.0 + 1e-12));
        let (least, most) = two(&outputs("gauge_range", &[("test", Number(span))]));
        prop_assert!(least > span && least < most);
    }

    #[test]
    fn a_setting_within_all_rules_breaks_none_and_the_mawp_comes_first(
        marked in set(), change in 0.7..1.3, low in 0.5..1.0, high in 1.0..1.5, mawp in 0.9..1.4, on_ship in any::<bool>(),
    ) {
        let new = marked * change;
        let (low, high, mawp) = (marked * low, marked * high, marked * mawp);
        let given = [
            ("marked", Number(marked)), ("new", Number(new)), ("spring_low", Number(low)), ("spring_high", Number(high)),
            ("mawp", Number(mawp)), ("rule", Choice(if on_ship { "ship_gas" } else { "general" })),
        ];
        let near = [mawp, low, high, marked * 0.9, marked * 1.1].iter().any(|edge| (new / edge - 1.0).abs() < 1e-8);
        prop_assume!(!near);
        let expected = match () {
            () if new > mawp => "above_mawp",
            () if new < low || new > high => "outside_spring_range",
            () if on_ship && !(0.9..=1.1).contains(&change) => "outside_marked",
            () => "within_all",
        };
        prop_assert_eq!(named(&outputs("reset_limit", &given)), expected);
    }

    #[test]
    fn a_duty_in_customary_and_in_si_units_takes_the_same_area(
        flow in 1.0..20_000.0f64, relieving in 5.0..4000.0f64, share in 0.0..0.5f64, mass in 10.0..1e6f64, warm in 40.0..900.0f64,
    ) {
        let through = |value: f64, us: &str, si: &str, kind| {
            let (us, si) = (units::find(us).expect(us), units::find(si).expect(si));
            let customary = us.quantity(value, kind);
            [customary.si, si.quantity(si.value(customary), kind).si]
        };
        let flow = through(flow, "gpm", "L/min", Kind::VolumeFlow);
        let gauge = through(relieving, "psig", "kPag", Kind::Gauge);
        let back = through(relieving * share, "psig", "kPag", Kind::Gauge);
        let absolute = through(relieving + 40.0, "psia", "kPaa", Kind::Absolute);
        let mass = through(mass, "lb/h", "kg/h", Kind::MassFlow);
        let temperature = through(warm, "degF", "degC", Kind::Temperature);
        let molar_mass = through(29.0, "lb/lbmol", "kg/kmol", Kind::MolarMass);
        let liquid = |at: usize| {
            work("liquid_area", &[("flow", flow[at]), ("gravity", 0.9), ("relieving", gauge[at]), ("back", back[at])])
        };
        let gas = |at: usize| {
            let state = [
                ("mass", mass[at]), ("temperature", temperature[at]), ("molar_mass", molar_mass[at]), ("k", 1.4),
                ("relieving", absolute[at]), ("back", 0.0),
            ];
            work("gas_area", &state)
        };
        prop_assert!((liquid(0) - liquid(1)).abs() <= liquid(0) * 1e-13);
        prop_assert!((gas(0) - gas(1)).abs() <= gas(0) * 1e-13);
    }
}
