//! Springs, screws and what is read off a plot: the recipes that end in a limit of travel, a rounded count of turns, or
//! an accumulation or blowdown that goes on from earlier answers.

use std::f64::consts::PI;

use problems::System;

use super::calculator::{Calculation, Calculator as Person};
use super::units::{FORCE, LENGTH, MODULUS, NUMBER, PRESSURE, SPRING_RATE, STRESS, TURN};

pub(crate) const ALL: [(&str, Calculation); 11] = [
    ("most_preload", most_preload),
    ("permanent_set_limit", permanent_set_limit),
    ("preload_in_turns", preload_in_turns),
    ("turns_to_quarter", turns_to_quarter),
    ("stress_at_full_lift", stress_at_full_lift),
    ("full_open_on_sheet", full_open_on_sheet),
    ("full_open_then_rise", full_open_then_rise),
    ("hot_spring", hot_spring),
    ("bench_trace_read", bench_trace_read),
    ("closing_on_plot", closing_on_plot),
    ("blowdown_on_plot", blowdown_on_plot),
];

/// Area of a bore, by geometry.
pub(crate) fn bore_area(bore: f64) -> f64 {
    PI / 4.0 * bore * bore
}

/// A pressure as force on an area: psi is lbf/in², and bar is 0.1 N/mm².
fn on_area(form: System, pressure: f64) -> f64 {
    match form {
        System::Us => pressure,
        System::Si => pressure * 0.1,
    }
}

/// Force on an area as a pressure: the reverse.
fn as_pressure(form: System, force_on_area: f64) -> f64 {
    match form {
        System::Us => force_on_area,
        System::Si => force_on_area * 10.0,
    }
}

/// Area of the seat bore, as a line of the working.
fn seat_area(person: &Person) -> f64 {
    person.line(bore_area(person.given("seat", &LENGTH)))
}

/// Force of a pressure on the seat bore.
fn force(person: &Person, pressure: f64) -> f64 {
    on_area(person.form, pressure) * seat_area(person)
}

/// Pressure on the seat bore that balances a force.
fn pressure(person: &Person, force: f64) -> f64 {
    as_pressure(person.form, force / seat_area(person))
}

/// 80 % of the travel from free to solid: ASME VIII-1 UG-136(a)(2), read. Ground ends: as many wires as coils.
fn most_preload(person: &Person) {
    let solid = person.line(person.given("wire", &LENGTH) * person.given("total", &NUMBER));
    let travel = person.line(person.given("free", &LENGTH) - solid);
    let usable = person.line(0.80 * travel);
    let preload = person.answer("preload", &LENGTH, usable - person.given("lift", &LENGTH));
    let spring = person.line(preload * person.given("rate", &SPRING_RATE));
    person.answer("opening", &PRESSURE, pressure(person, spring));
}

/// The second question is about the rounded length.
fn permanent_set_limit(person: &Person) {
    let most = person.given("free", &LENGTH) * person.share("allowed");
    let most = person.rounded_answer("most", &LENGTH, most);
    let lost = person.line(person.given("rate", &SPRING_RATE) * most);
    person.answer("fall", &PRESSURE, pressure(person, lost));
}

fn preload_in_turns(person: &Person) {
    let force = person.answer("force", &FORCE, force(person, person.given("opening", &PRESSURE)));
    let preload = person.answer("preload", &LENGTH, force / person.given("rate", &SPRING_RATE));
    person.answer("turns", &TURN, preload / person.given("pitch", &LENGTH));
}

fn turns_to_quarter(person: &Person) {
    let change = person.line(person.given("found", &PRESSURE) - person.given("tag", &PRESSURE));
    let travel = person.line(person.line(force(person, change)) / person.given("rate", &SPRING_RATE));
    person.answer("turns", &TURN, travel / person.given("pitch", &LENGTH));
}

/// Wahl factor (4c - 1)/(4c - 4) + 0.615/c and stress 8 F D/(pi d³) times it: textbook, read.
fn stress_at_full_lift(person: &Person) {
    let (wire, mean) = (person.given("wire", &LENGTH), person.given("mean", &LENGTH));
    let closed = person.line(force(person, person.given("opening", &PRESSURE)));
    let lifted = person.line(person.given("rate", &SPRING_RATE) * person.given("lift", &LENGTH));
    let force = person.answer("force", &FORCE, closed + lifted);
    let index = person.line(mean / wire);
    let factor = (4.0 * index - 1.0) / (4.0 * index - 4.0) + 0.615 / index;
    let factor = person.answer("factor", &NUMBER, factor);
    person.answer("stress", &STRESS, factor * 8.0 * force * mean / (PI * wire * wire * wire));
}

/// Rise from opening to full lift.
fn rise(person: &Person, rate: f64) -> f64 {
    let lifted = person.line(rate * person.given("lift", &LENGTH));
    person.line(pressure(person, lifted))
}

/// Spring rate G d⁴/(8 D³ n): textbook, read.
fn full_open_on_sheet(person: &Person) {
    let (wire, mean) = (person.given("wire", &LENGTH), person.given("mean", &LENGTH));
    let modulus = person.given("shear", &MODULUS) * if person.form == System::Si { 1000.0 } else { 1.0 };
    let coils = person.given("active", &NUMBER);
    let rate = modulus * wire * wire * wire * wire / (8.0 * mean * mean * mean * coils);
    let rate = person.answer("rate", &SPRING_RATE, rate);
    let opening = person.given("opening", &PRESSURE);
    let full_open = person.answer("full_open", &PRESSURE, opening + rise(person, rate));
    person.answer("rise", &PRESSURE, full_open - opening);
}

fn full_open_then_rise(person: &Person) {
    let opening = person.given("opening", &PRESSURE);
    let rise = rise(person, person.given("rate", &SPRING_RATE));
    let full_open = person.answer("full_open", &PRESSURE, opening + rise);
    person.answer("rise", &PRESSURE, full_open - opening);
}

/// The whole spring force falls with the modulus.
fn hot_spring(person: &Person) {
    let (opening, ratio) = (person.given("opening", &PRESSURE), person.share("ratio"));
    let hot = person.answer("hot", &PRESSURE, opening * ratio);
    let cold = person.line(opening + rise(person, person.given("rate", &SPRING_RATE)));
    let full_open = person.answer("full_open", &PRESSURE, cold * ratio);
    person.answer("rise", &PRESSURE, full_open - hot);
}

/// What is read off is what the plot is drawn from.
fn bench_trace_read(person: &Person) {
    person.answer("opens", &PRESSURE, person.given("opened", &PRESSURE));
    let closes = person.answer("closes", &PRESSURE, person.given("reseat", &PRESSURE));
    person.answer("fallen", &PRESSURE, person.given("set", &PRESSURE) - closes);
}

/// What is read off is what the plot is drawn from.
fn closing_on_plot(person: &Person) {
    let opens = person.answer("opens", &PRESSURE, person.given("opened", &PRESSURE));
    let closes = person.answer("closes", &PRESSURE, person.given("reseat", &PRESSURE));
    person.answer("fallen", &PRESSURE, opens - closes);
}

/// What is read off is what the plot is drawn from.
fn blowdown_on_plot(person: &Person) {
    person.answer("fully", &PRESSURE, person.given("full", &PRESSURE));
}
