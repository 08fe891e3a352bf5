use relief::{Kind, units};

use crate::{FigureError, Measure, Parameters, find};

fn given(pairs: &[(&str, f64, &str)]) -> Parameters {
    let measure = |value: f64, symbol: &str| {
        let unit = units::find(symbol).expect("unit");
        let kind = if unit.usual_kind() == Kind::Length { Kind::Length } else { Kind::Gauge };
        Measure::new(value, unit, kind)
    };
    pairs.iter().map(|(name, value, unit)| ((*name).to_owned(), measure(*value, unit))).collect()
}

fn word(key: &str) -> String {
    format!("{key} in {{unit}}")
}

const CURVES: [[f64; 4]; 4] =
    [[98.0, 112.0, 91.0, 0.25], [0.52, 0.58, 0.47, 1.5], [1180.0, 1300.0, 1110.0, 0.4], [7.3, 8.1, 6.7, 6.35]];

fn curve([opening, full_open, reseat, lift]: [f64; 4], pressure: &str, length: &str) -> Parameters {
    given(&[
        ("opening", opening, pressure),
        ("full_open", full_open, pressure),
        ("reseat", reseat, pressure),
        ("full_lift", lift, length),
    ])
}

/// Neither the drawing nor what is said of it may give away what is asked.
#[test]
fn nothing_on_the_paper_tells_the_values() {
    let curve = curve([98.3, 112.7, 91.1, 0.25], "psig", "in");
    let trace = given(&[("opening", 98.3, "psig"), ("highest", 104.7, "psig"), ("reseat", 91.1, "psig")]);
    for (id, given) in [("lift_curve", curve), ("bench_trace", trace)] {
        let svg = find(id).expect(id).draw(&given, &word, "f").expect(id);
        for value in ["98.3", "112.7", "104.7", "91.1"] {
            assert!(!svg.contains(&format!(">{value}<")), "{id} tells {value}");
        }
        assert!(svg.contains("fig-rule-fine") && svg.contains("in psig"), "{id}");
    }
}

/// The corner that is asked for is in the list, to a tenth of a fine division.
#[test]
fn what_can_be_read_off_the_trace_can_be_read_off_the_list() {
    for [opening, full_open, reseat, lift] in CURVES {
        let given = curve([opening, full_open, reseat, lift], "barg", "mm");
        let readings = find("lift_curve").expect("plot").readings(&given, &word).expect("drawable").expect("list");
        let numbers: Vec<[f64; 2]> =
            readings.rows.iter().map(|row| [0, 1].map(|column: usize| row[column].parse().expect("number"))).collect();
        for (pressure, height) in [(opening, 0.0), (full_open, lift), (reseat, 0.0)] {
            let near = |row: &&[f64; 2]| {
                (row[0] - pressure).abs() < 0.01 * (full_open - reseat) && (row[1] - height).abs() < 0.02 * lift
            };
            assert!(numbers.iter().any(|row| near(&row)), "{pressure} at {height}: {numbers:?}");
        }
        assert!(readings.rows.len() > 10);
    }
}

#[test]
fn the_ruling_is_fine_enough_to_read() {
    for values in CURVES {
        let svg = find("lift_curve").expect("plot").draw(&curve(values, "psig", "in"), &word, "f").expect("drawable");
        let fine = svg.split("fig-rule-fine").nth(1).and_then(|rest| rest.split("/>").next()).expect("ruling");
        let (upright, level) = (fine.matches('V').count(), fine.matches('H').count());
        assert!((15..=60).contains(&upright) && (12..=60).contains(&level), "{values:?}: {upright} and {level} lines");
    }
}

#[test]
fn traces_out_of_order_are_refused() {
    let figure = find("bench_trace").expect("plot");
    let wrong = given(&[("opening", 100.0, "psig"), ("highest", 99.0, "psig"), ("reseat", 90.0, "psig")]);
    assert!(matches!(figure.check(&wrong), Err(FigureError::OutOfOrder { low: "opening", high: "highest" })));
    let missing = given(&[("opening", 100.0, "psig"), ("reseat", 90.0, "psig")]);
    assert!(matches!(figure.check(&missing), Err(FigureError::MissingParameter { parameter: "highest" })));
}
