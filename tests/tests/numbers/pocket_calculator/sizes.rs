//! Sizes and flows: the recipes that end in an area, a capacity or a flow, worked by the printed laws.

use super::calculator::{Calculation, Calculator as Person};
use super::laws;
use super::springs::bore_area;
use super::units::{
    AREA, DENSITY, EXPANSION, HEAT, LENGTH, LIQUID_FLOW, MASS_FLOW, NUMBER, PERCENT, PRESSURE, RATIO, SPECIFIC_HEAT,
    TEMPERATURE, VISCOSITY,
};

/// Coefficient of discharge for liquids, as the questions state it.
const LIQUID: f64 = 0.65;
/// The same of a liquid valve without certified capacity.
const UNCERTIFIED: f64 = 0.62;
/// The same for gas and steam.
const GAS: f64 = 0.975;

pub(crate) const ALL: [(&str, Calculation); 14] = [
    ("size_for_pump", size_for_pump),
    ("duties_in_order", duties_in_order),
    ("thick_oil", thick_oil),
    ("uncertified_area", uncertified_area),
    ("capacity_of_orifice", capacity_of_orifice),
    ("shut_in_flow", shut_in_flow),
    ("flow_through_opening", flow_through_opening),
    ("letter_on_the_sheet", letter_on_the_sheet),
    ("air_receiver_area", air_receiver_area),
    ("critical_or_not", critical_or_not),
    ("low_pressure_gas", low_pressure_gas),
    ("steam_receiver_area", steam_receiver_area),
    ("atmosphere_forgotten", atmosphere_forgotten),
    ("napier_at_high_pressure", napier_at_high_pressure),
];

fn size_for_pump(person: &Person) {
    let (flow, gravity) = (person.given("flow", &LIQUID_FLOW), person.given("gravity", &NUMBER));
    let relieving = person.relieving(person.given("set", &PRESSURE), person.share("over"));
    let highest = person.answer("highest", &PRESSURE, relieving);
    let drop = laws::in_law(person.form, highest);
    let area = laws::liquid_area(person.form, flow, gravity, drop, person.factor(LIQUID));
    let area = person.answer("area", &AREA, area);
    person.answer("orifice", &AREA, laws::standard_orifice(person.form, area));
}

fn duties_in_order(person: &Person) {
    let drop = laws::in_law(person.form, person.given("set", &PRESSURE));
    let flow = person.given("large", &LIQUID_FLOW);
    person.answer("largest", &AREA, laws::liquid_area(person.form, flow, 0.88, drop, person.factor(LIQUID)));
}

/// The edition of the question is the tenth.
fn thick_oil(person: &Person) {
    let (flow, gravity) = (person.given("flow", &LIQUID_FLOW), person.given("gravity", &NUMBER));
    let drop = laws::in_law(person.form, person.given("highest", &PRESSURE));
    let first = laws::liquid_area(person.form, flow, gravity, drop, person.factor(LIQUID));
    let first = person.line(first);
    let orifice = laws::standard_orifice(person.form, first);
    let reynolds = laws::reynolds(person.form, flow, gravity, person.given("viscosity", &VISCOSITY), orifice);
    let reynolds = person.answer("reynolds", &NUMBER, reynolds);
    let factor = person.answer("factor", &NUMBER, laws::viscosity_factor(reynolds));
    person.answer("area", &AREA, first / factor);
}

/// The second question is about the rounded area.
fn uncertified_area(person: &Person) {
    let (flow, gravity) = (person.given("flow", &LIQUID_FLOW), person.given("gravity", &NUMBER));
    let (set, back) = (person.given("set", &PRESSURE), person.given("back", &PRESSURE));
    let drop = laws::in_law(person.form, person.line(person.line(1.25 * set) - back));
    let factors = person.factor(UNCERTIFIED) * person.given("kp", &NUMBER);
    let old = laws::liquid_area(person.form, flow, gravity, drop, factors);
    let old = person.rounded_answer("old", &AREA, old);
    let relieving = person.line(person.relieving(set, 0.10));
    let drop = laws::in_law(person.form, person.line(relieving - back));
    let certified = person.line(laws::liquid_area(person.form, flow, gravity, drop, LIQUID));
    person.answer("more", &PERCENT, old / certified * 100.0);
}

fn capacity_of_orifice(person: &Person) {
    let (area, gravity) = (person.given("area", &AREA), person.given("gravity", &NUMBER));
    let drop = laws::in_law(person.form, person.given("highest", &PRESSURE));
    let flow = laws::liquid_capacity(person.form, area, gravity, drop, person.factor(LIQUID));
    person.answer("carries", &LIQUID_FLOW, flow);
}

fn shut_in_flow(person: &Person) {
    let (expansion, heat) = (person.given("expansion", &EXPANSION), person.given("heat", &HEAT));
    let (gravity, capacity) = (person.given("gravity", &NUMBER), person.given("capacity", &SPECIFIC_HEAT));
    let flow = laws::expansion_flow(person.form, expansion, heat, gravity, capacity);
    let flow = person.answer("flow", &LIQUID_FLOW, flow);
    let drop = laws::in_law(person.form, person.given("relieving", &PRESSURE));
    person.answer("area", &AREA, laws::liquid_area(person.form, flow, gravity, drop, person.factor(LIQUID)));
}

fn flow_through_opening(person: &Person) {
    let area = person.line(bore_area(person.given("bore", &LENGTH)));
    let (drop, density) = (person.given("drop", &PRESSURE), person.given("density", &DENSITY));
    let coefficient = person.factor(person.given("cd", &NUMBER));
    person.answer("flow", &LIQUID_FLOW, laws::orifice_flow(person.form, area, coefficient, drop, density));
}

fn letter_on_the_sheet(person: &Person) {
    let needed = person.given("needed", &AREA);
    let more = person.line(laws::standard_orifice(person.form, needed) - needed);
    person.answer("more", &PERCENT, more / needed * 100.0);
}

/// Air as the question states it: ratio of specific heats 1.4, molar mass 28.96, compressibility factor 1.
fn air_receiver_area(person: &Person) {
    let gauge = person.line(person.relieving(person.given("set", &PRESSURE), 0.10));
    let highest = person.answer("highest", &PRESSURE, person.absolute(gauge));
    let temperature = person.line(laws::absolute_temperature(person.form, person.given("warm", &TEMPERATURE)));
    let c = person.line(laws::gas_coefficient(person.form, 1.4));
    let relieving = laws::in_law(person.form, highest);
    let mass = person.given("mass", &MASS_FLOW);
    person.answer("area", &AREA, laws::critical_area(mass, c, person.factor(GAS), relieving, temperature / 28.96));
}

/// The number of C belongs to the units of the problem, in whichever form the rest is worked.
fn critical_or_not(person: &Person) {
    let k = person.given("k", &NUMBER);
    person.answer("limit", &RATIO, laws::critical_ratio(k));
    let [back, highest] = ["back", "highest"].map(|name| person.line(person.absolute(person.given(name, &PRESSURE))));
    person.answer("ratio", &RATIO, back / highest);
    person.answer("coefficient", &NUMBER, laws::gas_coefficient(person.system(), k));
}

/// The gas as the question states it: ratio of specific heats 1.3, molar mass 18, compressibility factor 1.
fn low_pressure_gas(person: &Person) {
    let (highest, back) = (person.given("highest", &PRESSURE), person.given("back", &PRESSURE));
    let ratio = person.answer("ratio", &RATIO, back / highest);
    let factor = person.answer("factor", &NUMBER, laws::subcritical_factor(1.3, ratio));
    let temperature = person.line(laws::absolute_temperature(person.form, person.given("warm", &TEMPERATURE)));
    let pressures = (laws::in_law(person.form, highest), laws::in_law(person.form, back));
    let factors = factor * person.factor(GAS);
    let mass = person.given("mass", &MASS_FLOW);
    person.answer("area", &AREA, laws::subcritical_area(person.form, mass, factors, temperature / 18.0, pressures));
}

fn steam_receiver_area(person: &Person) {
    let gauge = person.line(person.relieving(person.given("set", &PRESSURE), 0.10));
    let highest = person.answer("highest", &PRESSURE, person.absolute(gauge));
    let (mass, relieving) = (person.given("mass", &MASS_FLOW), laws::in_law(person.form, highest));
    person.answer("area", &AREA, laws::steam_area(person.form, mass, relieving, person.factor(GAS)));
}

fn atmosphere_forgotten(person: &Person) {
    let gauge = person.given("highest", &PRESSURE);
    let relieving = laws::in_law(person.form, person.line(person.absolute(gauge)));
    let mass = person.given("mass", &MASS_FLOW);
    person.answer("area", &AREA, laws::steam_area(person.form, mass, relieving, person.factor(GAS)));
    person.answer("extra", &PERCENT, person.atmosphere() / gauge * 100.0);
}

fn napier_at_high_pressure(person: &Person) {
    let relieving = laws::in_law(person.form, person.given("highest", &PRESSURE));
    let factor = person.answer("factor", &NUMBER, laws::napier_factor(person.form, relieving));
    let (mass, factors) = (person.given("mass", &MASS_FLOW), person.factor(GAS) * factor);
    person.answer("area", &AREA, laws::steam_area(person.form, mass, relieving, factors));
}
