//! Limits of codes and rules: the recipes that end in a highest or a lowest pressure, a tolerance or a leakage. A limit
//! that a code states in psi and in kilopascal is taken as it is in the system of the problem.

use super::calculator::{Calculation, Calculator as Person};
use super::units::{LEAKAGE, NOMINAL_SIZE, PERCENT, PRESSURE};

pub(crate) const ALL: [(&str, Calculation); 18] = [
    ("allowed_over_mawp", allowed_over_mawp),
    ("allowed_over_low_mawp", allowed_over_low_mawp),
    ("highest_set", highest_set),
    ("tolerance_band", tolerance_band),
    ("first_lift_judged", first_lift_judged),
    ("lowest_reseat", lowest_reseat),
    ("new_set_check", new_set_check),
    ("inlet_loss_share", inlet_loss_share),
    ("room_below_set", room_below_set),
    ("gauge_span_for_test", gauge_span_for_test),
    ("bubbles_per_minute", bubbles_per_minute),
    ("leak_test_water", leak_test_water),
    ("relief_event_levels", relief_event_levels),
    ("overpressure_and_mawp", overpressure_and_mawp),
    ("three_rises", three_rises),
    ("blowdown_of_set", blowdown_of_set),
    ("blowdown_two_ways", blowdown_two_ways),
    ("as_found_record", as_found_record),
];

/// How far the pressure may rise over the MAWP: 10 %, at least 3 psi (20 kPa), with one valve; 16 %, at least 4 psi
/// (30 kPa), with several; 21 % in a fire. The questions say to round down. ASME VIII-1 UG-125(c), (c)(1), (c)(2): percentages and psi read, kPa from
/// memory.
fn allowed_rise(person: &Person) -> f64 {
    let mawp = person.given("mawp", &PRESSURE);
    match person.choice("case") {
        "single" => person.line_down(mawp * 0.10).max(person.stated(3.0, 0.20)),
        "several" => person.line_down(mawp * 0.16).max(person.stated(4.0, 0.30)),
        "fire" => mawp * 0.21,
        other => panic!("no limit for {other}"),
    }
}

fn allowed_over_mawp(person: &Person) {
    let allowed = person.answer("allowed", &PRESSURE, allowed_rise(person));
    let gauge = person.line_down(person.given("mawp", &PRESSURE) + allowed);
    person.answer("highest", &PRESSURE, person.absolute(gauge));
}

fn allowed_over_low_mawp(person: &Person) {
    let allowed = person.line_down(allowed_rise(person));
    person.answer("highest", &PRESSURE, person.given("mawp", &PRESSURE) + allowed);
}

/// 105 % and 110 % of the MAWP: ASME VIII-1 UG-134(a), read, and (b), from memory.
fn highest_set(person: &Person) {
    let mawp = person.given("mawp", &PRESSURE);
    person.answer("additional", &PRESSURE, mawp + person.line(mawp * 0.05));
    person.answer("fire_only", &PRESSURE, mawp + person.line(mawp * 0.10));
}

/// 2 psi (15 kPa) up to 70 psi (500 kPa), 3 % above: ASME VIII-1 (2015) UG-134(d)(1), read.
fn tolerance_band(person: &Person) {
    let set = person.given("set", &PRESSURE);
    let low_set = set <= person.stated(70.0, 5.0);
    let tolerance = if low_set { person.stated(2.0, 0.15) } else { person.line(set * 0.03) };
    person.answer("low", &PRESSURE, set - tolerance);
    person.answer("high", &PRESSURE, set + tolerance);
}

/// A conventional valve feels the constant back pressure, so that it is taken off.
fn first_lift_judged(person: &Person) {
    let cold = person.given("set", &PRESSURE) - person.given("back", &PRESSURE);
    let cold = person.answer("cold", &PRESSURE, cold);
    person.answer("deviation", &PRESSURE, person.given("found", &PRESSURE) - cold);
}

/// 15 % or 0.3 bar (4.351 psi) for gas, 20 % or 0.6 bar (8.702 psi) for liquid, as the question prints them: ISO
/// 4126-1:2013/Amd 1:2016 d), read.
fn lowest_reseat(person: &Person) {
    let set = person.given("set", &PRESSURE);
    let (share, least) = match person.choice("code") {
        "iso_gas" => (0.15, person.stated(4.351, 0.3)),
        "iso_liquid" => (0.20, person.stated(8.702, 0.6)),
        other => panic!("no limit for {other}"),
    };
    let most = person.answer("most", &PRESSURE, person.line_down(set * share).max(least));
    person.answer("reseats", &PRESSURE, set - most);
}

fn new_set_check(person: &Person) {
    let marked = person.given("marked", &PRESSURE);
    let change = person.line(person.given("new", &PRESSURE) - marked);
    person.answer("change", &PERCENT, change / marked * 100.0);
}

/// 3 % of the set pressure: practice notes that cite API RP 520 Part II, read.
fn inlet_loss_share(person: &Person) {
    let set = person.given("set", &PRESSURE);
    person.answer("share", &PERCENT, person.given("loss", &PRESSURE) / set * 100.0);
    person.answer("most", &PRESSURE, set * 0.03);
}

fn room_below_set(person: &Person) {
    let set = person.given("set", &PRESSURE);
    let margin = person.line(set - person.given("operating", &PRESSURE));
    person.answer("margin", &PERCENT, margin / set * 100.0);
    person.answer("highest", &PRESSURE, set - person.line(set * 0.10));
}

/// 1.5 to 4 times the test pressure: ASME practice page, read.
fn gauge_span_for_test(person: &Person) {
    let test = person.given("cold", &PRESSURE);
    person.answer("least", &PRESSURE, test * 1.5);
    person.answer("most", &PRESSURE, test * 4.0);
}

/// Leak test pressure: 5 psi (0.345 bar) below up to 50 psig (3.45 barg), from memory; 90 % above, API Std 527, read.
fn leak_test_pressure(person: &Person) -> f64 {
    let cold = person.given("cold", &PRESSURE);
    if cold <= person.stated(50.0, 3.45) { cold - person.stated(5.0, 0.345) } else { cold * 0.90 }
}

fn bubbles_per_minute(person: &Person) {
    person.answer("pressure", &PRESSURE, leak_test_pressure(person));
}

/// 10 cm³/h for each inch of nominal inlet size: a calibration laboratory's summary of API 527, read.
fn leak_test_water(person: &Person) {
    person.answer("pressure", &PRESSURE, leak_test_pressure(person));
    let allowed = person.line(10.0 * person.given("inlet", &NOMINAL_SIZE));
    person.answer("share", &PERCENT, person.given("leak", &LEAKAGE) / allowed * 100.0);
}

fn relief_event_levels(person: &Person) {
    let relieving = person.relieving(person.given("set", &PRESSURE), person.share("over"));
    let relieving = person.answer("relieving", &PRESSURE, relieving);
    person.answer("above", &PRESSURE, relieving - person.given("mawp", &PRESSURE));
}

fn overpressure_and_mawp(person: &Person) {
    let set = person.given("set", &PRESSURE);
    let over = person.line(person.given("relieving", &PRESSURE) - set);
    person.answer("share", &PERCENT, over / set * 100.0);
}

fn three_rises(person: &Person) {
    let names = ["opening", "full_open", "mawp", "highest"];
    let [opening, full_open, mawp, highest] = names.map(|name| person.given(name, &PRESSURE));
    person.answer("lift_rise", &PRESSURE, full_open - opening);
    person.answer("over_set", &PRESSURE, highest - opening);
    let over = person.answer("over_vessel", &PRESSURE, highest - mawp);
    person.answer("share", &PERCENT, over / mawp * 100.0);
}

fn blowdown_of_set(person: &Person) {
    let set = person.given("set", &PRESSURE);
    let fallen = person.line(set - person.given("reseat", &PRESSURE));
    person.answer("share", &PERCENT, fallen / set * 100.0);
}

/// Where the valve went on leaking, there is no reseating pressure to count the blowdown to.
fn as_found_record(person: &Person) {
    let set = person.given("set", &PRESSURE);
    for (row, closed) in [("first", "closed_1"), ("third", "closed_3")] {
        let away = person.answer(&format!("record.{row}.away"), &PRESSURE, person.given(row, &PRESSURE) - set);
        person.answer(&format!("record.{row}.share"), &PERCENT, away / set * 100.0);
        if row == "first" || person.choice("leak") == "0" {
            let fallen = person.line(set - person.given(closed, &PRESSURE));
            person.answer(&format!("record.{row}.blowdown"), &PERCENT, fallen / set * 100.0);
        }
    }
}

fn blowdown_two_ways(person: &Person) {
    let [set, popped, reseat] = ["set", "popped", "reseat"].map(|name| person.given(name, &PRESSURE));
    let fallen = person.answer("fallen", &PRESSURE, set - reseat);
    person.answer("share", &PERCENT, fallen / set * 100.0);
    person.answer("older", &PERCENT, person.line(popped - reseat) / set * 100.0);
}
