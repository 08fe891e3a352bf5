//! The plot against the law, against other plausible numbers, and against itself: nothing written may overlap.

use relief::relations::{pressures, spring};
use relief::{Area, Gauge, Kind, Length, Typed, units};

use super::*;
use crate::measure::Measure;
use crate::registry::find;
use crate::scale::Scale;
use crate::svg::Point;

const NAMES: [&str; 4] = ["reseat", "opening", "full_open", "full_lift"];

/// Words of the length that they have in English, with the longest of the terms longer still.
fn label(key: &str) -> String {
    match key {
        "labels.opening_accumulation" => "opening accumulation {value}",
        "labels.blowdown" => "blowdown {value}",
        "labels.overpressure" => "overpressure {value}",
        "labels.accumulation_over_mawp" => "accumulation over MAWP at {value}",
        "labels.set" => "set {value}",
        "labels.mawp" => "MAWP {value}",
        "labels.opens" => "opens {value}",
        "labels.full_lift" => "full lift {value}",
        "labels.reseats" => "reseats {value}",
        "labels.lift" => "lift, {unit}",
        "labels.pressure" => "inlet pressure, {unit}",
        other => other,
    }
    .to_owned()
}

fn given(numbers: [f64; 4], marks: [Option<f64>; 2], pressure: &str, lift: &str) -> Parameters {
    let (pressure, lift) = (units::find(pressure).unwrap(), units::find(lift).unwrap());
    let mut given = Parameters::new();
    for (name, value) in NAMES.into_iter().zip(numbers) {
        let (unit, kind) = if name == "full_lift" { (lift, Kind::Length) } else { (pressure, Kind::Gauge) };
        given.insert(name.to_owned(), Measure::new(value, unit, kind));
    }
    for (name, value) in ["set", "mawp"].into_iter().zip(marks) {
        if let Some(value) = value {
            given.insert(name.to_owned(), Measure::new(value, pressure, Kind::Gauge));
        }
    }
    given
}

/// Narrow and wide rises and blowdowns, at several pressures and units, without marks and with marks in every order.
fn plausible() -> Vec<Parameters> {
    let units = [(7.5, "barg", 6.0, "mm"), (100.0, "psig", 0.25, "in"), (1480.0, "psig", 0.375, "in")];
    let units = units.into_iter().chain([(0.35, "barg", 3.2, "mm"), (689.5, "kPag", 12.5, "mm")]);
    let mut all = Vec::new();
    for (opening, pressure, full_lift, lift) in units {
        for rise in [0.02, 0.1, 0.25, 0.4] {
            for fall in [0.01, 0.05, 0.2] {
                let numbers = [opening * (1.0 - fall), opening, opening * (1.0 + rise), full_lift];
                for mawp in [None, Some(0.999), Some(1.0), Some(1.0 + rise * 0.4), Some(1.0 + rise), Some(1.5)] {
                    for set in [None, Some(1.0), Some(1.0 + rise * 0.3), Some(1.0 - fall * 0.3)] {
                        let marks = [set, mawp].map(|mark| mark.map(|share| share * opening));
                        all.push(given(numbers, marks, pressure, lift));
                    }
                }
            }
        }
    }
    all
}

#[test]
fn nothing_written_overlaps_or_leaves_the_sheet() {
    for given in plausible() {
        let picture = lay_out(&Trace::read(&given).unwrap(), &label);
        let bounds = picture.bounds();
        let height = picture.bottom() + MARGIN;
        for (index, one) in bounds.iter().enumerate() {
            let what = picture.texts.get(index).map_or("balloon", |text| &text.words);
            let inside = one.left >= 0.0 && one.top >= 0.0 && one.right <= WIDTH && one.bottom <= height;
            assert!(inside, "{what} leaves the sheet: {one:?} in {given:?}");
            for (other_index, other) in bounds.iter().enumerate().skip(index + 1) {
                let other_what = picture.texts.get(other_index).map_or("balloon", |text| &text.words);
                assert!(!one.overlaps(other), "{what} overlaps {other_what} in {given:?}");
            }
        }
    }
}

#[test]
fn no_balloon_stands_on_a_branch_or_a_mark() {
    for given in plausible() {
        let trace = Trace::read(&given).unwrap();
        let field = Field::new(&trace);
        let picture = lay_out(&trace, &label);
        let marks = [trace.set, trace.mawp].into_iter().flatten().map(|mark| field.pressure.place(mark.si()));
        let marks: Vec<_> = marks.collect();
        let rising = curve::rising(&trace, &field);
        for balloon in picture.balloons.iter().filter(|balloon| balloon.names.is_some()) {
            let clear = |distance: f64| distance > picture::BALLOON;
            assert!(marks.iter().all(|mark| clear((balloon.centre.x - mark).abs())), "{balloon:?} in {given:?}");
            let falling =
                [field.point(trace.full_open, trace.full_lift), field.point(trace.reseat, Length::from_si(0.0))];
            let legs = rising.windows(2).chain([&falling[..]]).map(|leg| distance(balloon.centre, leg[0], leg[1]));
            assert!(legs.into_iter().all(clear), "{balloon:?} in {given:?}");
        }
    }
}

/// Distance of a point from a straight piece of line.
fn distance(point: Point, from: Point, to: Point) -> f64 {
    let (along, across) = ((to.x - from.x, to.y - from.y), (point.x - from.x, point.y - from.y));
    let square = along.0 * along.0 + along.1 * along.1;
    let share = ((across.0 * along.0 + across.1 * along.1) / square.max(1e-12)).clamp(0.0, 1.0);
    libm::hypot(across.0 - share * along.0, across.1 - share * along.1)
}

#[test]
fn the_rising_branch_is_the_law() {
    let trace = Trace::read(&given([95.0, 100.0, 110.0, 0.25], [None; 2], "psig", "in")).unwrap();
    let field = Field::new(&trace);
    let back = |scale: &Scale, place: f64| {
        scale.from.0 + (place - scale.from.1) / (scale.to.1 - scale.from.1) * (scale.to.0 - scale.from.0)
    };
    // A valve with this bore and rate opens and lifts as the plot says, whatever its size.
    let area = spring::bore_area(Length::from_si(0.05));
    let rise = pressures::opening_accumulation(trace.full_open, trace.opening).unwrap();
    let rate = spring::rate_for_rise(area, rise, trace.full_lift);
    for point in curve::rising(&trace, &field) {
        let pressure = Gauge::from_si(back(&field.pressure, point.x));
        let lift = spring::lift_at_pressure(trace.opening, area, rate, trace.full_lift, pressure).si();
        assert!((lift - back(&field.lift, point.y)).abs() < 1e-9, "{point:?}");
    }
    let half = Gauge::from_si(f64::midpoint(trace.opening.si(), trace.full_open.si()));
    assert!((trace.lift_at(half).si() - 0.125 * 0.0254).abs() < 1e-12);
}

#[test]
fn the_seat_area_cancels_out() {
    let trace = Trace::read(&given([6.0, 7.5, 9.0, 6.0], [None; 2], "barg", "mm")).unwrap();
    let pressure = Gauge::from_si(8.1e5);
    for area in [1e-4, 3e-3, 0.2] {
        let area = Area::from_si(area);
        let rate = spring::rate_for_rise(area, trace.opening_accumulation(), trace.full_lift);
        let lift = spring::lift_at_pressure(trace.opening, area, rate, trace.full_lift, pressure);
        assert!((lift.si() - trace.lift_at(pressure).si()).abs() < 1e-15);
    }
}

#[test]
fn the_terms_carry_the_distances_that_the_relations_give() {
    let numbers = given([85.5, 90.0, 99.0, 0.5], [Some(90.0), Some(95.0)], "psig", "in");
    let picture = lay_out(&Trace::read(&numbers).unwrap(), &label);
    let written: Vec<_> = picture.texts.iter().map(|text| text.words.as_str()).collect();
    for words in
        ["opening accumulation 9 psi", "blowdown 4.5 psi", "overpressure 9 psi", "accumulation over MAWP at 4 psi"]
    {
        assert!(written.contains(&words), "{words} in {written:?}");
    }
}

#[test]
fn what_is_not_passed_is_not_measured() {
    let numbers = given([85.5, 90.0, 99.0, 0.5], [None, Some(100.0)], "psig", "in");
    let picture = lay_out(&Trace::read(&numbers).unwrap(), &label);
    assert!(picture.texts.iter().any(|text| text.words == "MAWP 100 psig"));
    assert!(picture.texts.iter().all(|text| !text.words.contains("accumulation over") && !text.words.contains("over")));
}

#[test]
fn pressures_out_of_order_are_refused() {
    let cases = [
        ([100.0, 100.0, 110.0, 0.25], [None, None], ("reseat", "opening")),
        ([95.0, 110.0, 100.0, 0.25], [None, None], ("opening", "full_open")),
        ([95.0, 100.0, 110.0, 0.25], [Some(95.0), None], ("reseat", "set")),
        ([95.0, 100.0, 110.0, 0.25], [Some(111.0), None], ("set", "full_open")),
        ([95.0, 100.0, 110.0, 0.25], [None, Some(90.0)], ("reseat", "mawp")),
    ];
    let figure = find(ID).unwrap();
    for (numbers, marks, (low, high)) in cases {
        let given = given(numbers, marks, "psig", "in");
        assert_eq!(figure.check(&given), Err(FigureError::OutOfOrder { low, high }), "{given:?}");
    }
}

#[test]
fn numbers_that_cannot_be_drawn_are_refused() {
    for (parameter, value) in
        [("full_lift", 0.0), ("reseat", -1.0), ("full_open", f64::INFINITY), ("opening", f64::NAN)]
    {
        let mut given = given([95.0, 100.0, 110.0, 0.25], [None; 2], "psig", "in");
        given.get_mut(parameter).unwrap().quantity.si = value;
        assert_eq!(find(ID).unwrap().check(&given), Err(FigureError::OutOfRange { parameter }));
    }
    let from_nothing = given([0.0, 100.0, 110.0, 0.25], [None; 2], "psig", "in");
    assert_eq!(find(ID).unwrap().check(&from_nothing), Ok(()));
}
