use super::*;
use crate::stored::Stored;
use faults::Code;
use relief::Kind;

fn names() -> Names {
    let quantity = |name: &str, kind| (name.to_owned(), NameKind::Quantity(kind));
    vec![
        quantity("seat", Kind::Length),
        quantity("opening", Kind::Gauge),
        quantity("inlet", Kind::Absolute),
        quantity("rise", Kind::Ratio),
        quantity("record.first.off", Kind::Difference),
        ("case".to_owned(), NameKind::Choice(vec!["single".to_owned(), "fire".to_owned()])),
        ("tag".to_owned(), NameKind::Choice(vec!["PSV-11".to_owned(), "lube oil".to_owned()])),
    ]
    .into()
}

fn scope() -> Scope {
    let mut scope = Scope::new(System::Si);
    scope.set("seat", Value::Quantity(Quantity::new(0.0508, Kind::Length)));
    scope.set("opening", Value::Quantity(Quantity::new(1e6, Kind::Gauge)));
    scope.set("inlet", Value::Quantity(Quantity::new(1.1e6, Kind::Absolute)));
    scope.set("rise", Value::Quantity(Quantity::new(0.1, Kind::Ratio)));
    scope.set("record.first.off", Value::Quantity(Quantity::new(2e4, Kind::Difference)));
    scope.set("case", Value::Choice("fire".to_owned()));
    scope.set("tag", Value::Choice("PSV-11".to_owned()));
    scope
}

fn value(text: &str) -> (f64, Kind) {
    let formula = Formula::read(text, &names(), None).unwrap_or_else(|faults| panic!("{text}: {faults:?}"));
    let value = formula.evaluate(&scope()).unwrap_or_else(|error| panic!("{text}: {error:?}"));
    assert_eq!(value.kind, formula.kind(), "{text}");
    (value.si, value.kind)
}

fn fault(text: &str) -> (Code, String) {
    let faults = Formula::read(text, &names(), None).expect_err(text);
    (faults[0].code, text[faults[0].place.clone()].to_owned())
}

fn close(text: &str, expected: f64, kind: Kind) {
    let (found, found_kind) = value(text);
    assert!((found - expected).abs() <= expected.abs() * 1e-12, "{text}: {found}");
    assert_eq!(found_kind, kind, "{text}");
}

#[test]
fn a_cell_is_named_with_dots_and_an_output_with_one_behind_its_call() {
    close("record.first.off / opening", 0.02, Kind::Ratio);
    close("record . first . off * 2", 4e4, Kind::Difference);
    close("set_tolerance(set: opening, code: vessel).high - opening", 3e4, Kind::Difference);
    assert_eq!(fault("record.first.of / opening"), (Code::FormulaUnknownName, "record.first.of".to_owned()));
    assert_eq!(fault("record.first"), (Code::FormulaUnknownName, "record.first".to_owned()));
    assert_eq!(fault("record. / opening").0, Code::FormulaSyntax);
    let faults = Formula::read("record.first.of", &names(), None).expect_err("unknown");
    assert_eq!(faults[0].raw("nearest"), Some("record.first.off"));
}

#[test]
fn values_follow_precedence_and_kinds() {
    close("1 + 2 * 3", 7.0, Kind::Number);
    close("(1 + 2) * 3", 9.0, Kind::Number);
    close("12 / 3 / 2", 2.0, Kind::Number);
    close("-2 - -3", 1.0, Kind::Number);
    close("opening * rise", 1e5, Kind::Difference);
    close("opening + 1 bar", 1.1e6, Kind::Gauge);
    close("1 bar + opening", 1.1e6, Kind::Gauge);
    close("seat / 2", 0.0254, Kind::Length);
    close("1 1/4 in", 0.03175, Kind::Length);
    close("1/2 in * 2", 0.0254, Kind::Length);
    close("5 in / 2", 0.0635, Kind::Length);
    close("10 %", 0.1, Kind::Ratio);
    close("2 turns * 3 mm", 0.006, Kind::Length);
    close("-40 degC", 233.15, Kind::Temperature);
    close("-40 degF", 233.15, Kind::Temperature);
    close("-(1 bar + 2 bar)", -3e5, Kind::Difference);
    close("bore_area(bore: 2 in) * opening", 2_026.829_916_389_99, Kind::Force);
    close("absolute_pressure(gauge: opening)", 1_101_325.0, Kind::Absolute);
    close("allowed_accumulation_over_mawp(mawp: opening, case: case)", 2.1e5, Kind::Difference);
    close("overpressure(relieving: 11 bar, set: opening)", 1e5, Kind::Difference);
    close("set_tolerance(set: 50 psig, code: vessel, stated_in: us).high", 52.0 * 6_894.757_293_168_361, Kind::Gauge);
    close("viscosity_factor(reynolds: 4525, edition: 7)", 0.963_939_003_243_768_2, Kind::Number);
    close("kinematic_viscosity(universal_seconds: 2000, at: 100F)", 431.778_929_188_255_6e-6, Kind::KinematicViscosity);
}

#[test]
fn faults_say_what_and_where() {
    let at = |code, text: &str| (code, text.to_owned());
    assert_eq!(fault("opening + seat"), at(Code::FormulaKind, "opening + seat"));
    assert_eq!(fault("3 psi + 2 in"), at(Code::FormulaKind, "3 psi + 2 in"));
    assert_eq!(fault("opening - inlet"), at(Code::FormulaKind, "opening - inlet"));
    assert_eq!(fault("opening + opening"), at(Code::FormulaKind, "opening + opening"));
    assert_eq!(fault("bore_area(bore: opening)"), at(Code::FormulaArgumentKind, "opening"));
    assert_eq!(fault("overpressure(relieving: inlet, set: opening)"), at(Code::FormulaArgumentKind, "inlet"));
    assert_eq!(fault("overpressure(relieving: opening)"), at(Code::FormulaMissingInput, "overpressure"));
    assert_eq!(fault("seet / 2"), at(Code::FormulaUnknownName, "seet"));
    assert_eq!(fault("bore_aera(bore: seat)"), at(Code::FormulaUnknownRelation, "bore_aera"));
    assert_eq!(fault("bore_area(boer: seat)"), at(Code::FormulaUnknownInput, "boer"));
    assert_eq!(fault("bore_area(seat)"), at(Code::FormulaArgumentName, "seat"));
    assert_eq!(fault("bore_area(bore: seat, bore: seat)"), at(Code::FormulaRepeatedInput, "bore"));
    assert_eq!(fault("case"), at(Code::FormulaChoice, "case"));
    assert_eq!(
        fault("standard_orifice(area: 2 in2).letter"),
        at(Code::FormulaChoice, "standard_orifice(area: 2 in2).letter")
    );
    assert_eq!(fault("standard_orifice(area: 2 in2).lettre"), at(Code::FormulaUnknownOutput, "lettre"));
    assert_eq!(fault("viscosity_factor(reynolds: 4525, edition: 8)"), at(Code::FormulaUnknownChoice, "8"));
    assert_eq!(
        fault("allowed_accumulation_over_mawp(mawp: opening, case: bonfire)"),
        at(Code::FormulaUnknownChoice, "bonfire")
    );
    assert_eq!(fault("tag * 2"), at(Code::FormulaChoice, "tag"));
    assert_eq!(fault("'PSV-11' * 2"), at(Code::FormulaText, "'PSV-11'"));
    assert_eq!(fault("bore_area(bore: 'PSV-11')"), at(Code::FormulaText, "'PSV-11'"));
    assert_eq!(fault("'PSV-11"), at(Code::FormulaQuote, "'"));
    assert_eq!(fault("1 +"), at(Code::FormulaSyntax, ""));
    assert_eq!(fault("seat ? 2"), at(Code::FormulaCharacter, "?"));
    assert_eq!(fault("1 2"), at(Code::FormulaSyntax, "2"));
    let deep = format!("{}1{}", "(".repeat(1500), ")".repeat(1500));
    assert_eq!(fault(&deep).0, Code::FormulaDepth);
    assert_eq!(fault(&format!("{}1", "-".repeat(1500))).0, Code::FormulaDepth);
    assert_eq!(fault(&format!("1{}", "+1".repeat(1500))).0, Code::FormulaDepth);
    assert_eq!(fault(&format!("1{}", "+1".repeat(5000))).0, Code::FormulaLong);
}

/// The page reads what was compiled: eight levels of JSON above a formula, and no more than 127 in all.
#[test]
fn the_deepest_formula_is_read_back() {
    let longest = format!("1{}", " + 1".repeat(super::parse::MOST_DEPTH));
    let deepest = format!("{}0 psi{}", "overpressure(set: 0 psig, relieving: 0 psig + ".repeat(17), ")".repeat(17));
    for text in [longest, deepest] {
        let node = Formula::read(&text, &names(), None).expect("read").into_node();
        let json = serde_json::to_string(&node).expect("written");
        let under = format!("{}{json}{}", "[".repeat(9), "]".repeat(9));
        assert!(serde_json::from_str::<serde_json::Value>(&under).is_ok(), "{text}");
    }
}

#[test]
fn an_expected_kind_is_kept_to() {
    assert!(Formula::read("opening * rise", &names(), Some(Kind::Difference)).is_ok());
    let faults = Formula::read("opening", &names(), Some(Kind::Difference)).expect_err("gauge");
    assert_eq!(faults[0].code, Code::FormulaResultKind);
    let gauge = Formula::read("3 psi", &names(), Some(Kind::Gauge)).expect("takes the kind of its place");
    assert_eq!(gauge.kind(), Kind::Gauge);
}

#[test]
fn conditions_compare_like_with_like() {
    let holds = |text: &str| Condition::read(text, &names()).map(|condition| condition.holds(&scope()));
    assert_eq!(holds("opening * rise >= 1 bar"), Ok(Ok(true)));
    assert_eq!(holds("opening > 10 bar"), Ok(Ok(false)));
    assert_eq!(holds("opening >= 9 bar and seat <= 2 in"), Ok(Ok(true)));
    assert_eq!(holds("case = fire"), Ok(Ok(true)));
    assert_eq!(holds("case != fire"), Ok(Ok(false)));
    assert_eq!(holds("standard_orifice(area: bore_area(bore: seat)).letter = M"), Ok(Ok(true)));
    assert_eq!(holds("case = 'fire'"), Ok(Ok(true)));
    assert_eq!(holds("tag = 'PSV-11' and tag != \"lube oil\""), Ok(Ok(true)));
    assert_eq!(holds("tag = 'lube oil'"), Ok(Ok(false)));
    assert_eq!(holds("tag = tag"), Ok(Ok(true)));
    assert!(Condition::read("tag = 'PSV-12'", &names()).is_err());
    assert!(Condition::read("tag > 'PSV-11'", &names()).is_err());
    assert!(Condition::read("opening > inlet", &names()).is_err());
    assert!(Condition::read("opening > 3 psia", &names()).is_err());
    assert!(Condition::read("case > fire", &names()).is_err());
    assert!(Condition::read("opening", &names()).is_err());
}

#[test]
fn division_by_zero_is_an_error_and_no_number() {
    let formula = Formula::read("seat / (opening - opening)", &names(), None).expect("kinds fit");
    assert_eq!(formula.evaluate(&scope()), Err(EvaluateError::NotFinite));
}

#[test]
fn the_stored_form_reads_back_the_same() {
    let text =
        "-turns_for_change(change: opening * 10 %, rate: 620 lbf/in, pitch: 1/10 in, area: bore_area(bore: seat)) + 2";
    let node = Formula::read(text, &names(), None).expect("valid").into_node();
    let json = serde_json::to_string(&node).expect("plain data");
    let read = |json: &str| Node::read(serde_json::from_str(json).expect("JSON"));
    assert_eq!(read(&json), Ok(node));
    assert!(read(r#"{"call":{"relation":"no_such","arguments":[],"output":0,"form":null}}"#).is_err());
}

/// Found by fuzzing: a name was looked for at the decimal mark, and none of it was ever taken.
#[test]
fn letters_right_behind_a_decimal_number_are_refused() {
    for text in ["0.3t", ".3t", "lift 0.3t 0.3 in in", "1.5x + 2"] {
        assert!(Formula::read(text, &Names::new(), None).is_err(), "{text}");
    }
}

#[test]
fn powers_roots_and_pi_follow_precedence() {
    close("2^3", 8.0, Kind::Number);
    close("2**3", 8.0, Kind::Number);
    close("-2^2", -4.0, Kind::Number);
    close("2 * 3^2", 18.0, Kind::Number);
    close("2^3^2", 512.0, Kind::Number);
    close("2^-1", 0.5, Kind::Number);
    close("9^1/2", 4.5, Kind::Number);
    close("9^(1/2)", 3.0, Kind::Number);
    close("3/2^2", 0.75, Kind::Number);
    close("seat²", 0.0508 * 0.0508, Kind::Area);
    close("pi * seat^2 / 4", core::f64::consts::PI * 0.0254 * 0.0254, Kind::Area);
    close("π * 1", core::f64::consts::PI, Kind::Number);
    close("sqrt(16)", 4.0, Kind::Number);
    close("sqrt(seat^2)", 0.0508, Kind::Length);
    close("(seat / 1 m)^0.63", libm::pow(0.0508, 0.63), Kind::Number);
    close("seat^0.5 * seat^1.5", 0.0508 * 0.0508, Kind::Area);
    close("(3 ft)^2", 9.0 * 0.3048 * 0.3048, Kind::Area);
}

#[test]
fn products_without_a_name_are_allowed_within() {
    close("sqrt(2 * 9.80665 m/s2 * 3 m)", libm::sqrt(2.0 * 9.80665 * 3.0), Kind::Velocity);
    close("1000 kg/m3 * 9.80665 m/s2 * 3 m", 29419.95, Kind::Difference);
    close("2 m3/h * (inlet - 1 bar) / 0.7", 2.0 / 3600.0 * 1e6 / 0.7, Kind::HeatFlow);
    close("550 ft * 1 lbf / 1 s / 1 hp", 1.0, Kind::Ratio);
    close("(2 kg/s * 333.15 K + 1 kg/s * 293.15 K) / (2 kg/s + 1 kg/s)", 959.45 / 3.0, Kind::TemperatureDifference);
}

#[test]
fn the_result_of_a_product_takes_the_kind_that_is_asked_for() {
    let read = |text: &str, kind| Formula::read(text, &names(), Some(kind));
    assert_eq!(read("10 N * 2 m", Kind::Torque).map(|formula| formula.kind()), Ok(Kind::Torque));
    assert_eq!(read("10 N / 2 m2", Kind::Stress).map(|formula| formula.kind()), Ok(Kind::Stress));
    assert_eq!(
        read("1 kg/m3 * 8.3 J/(mol K) * 300 K / 29 kg/kmol", Kind::Absolute).map(|formula| formula.kind()),
        Ok(Kind::Absolute)
    );
    for (text, kind) in [
        ("10 N / 2 m2", Kind::Gauge),
        ("opening * 1.1", Kind::Absolute),
        ("opening * rise", Kind::Absolute),
        ("opening - opening", Kind::Absolute),
        ("inlet - 1 bar", Kind::Stress),
        ("10 N * 2 m2", Kind::Torque),
    ] {
        assert_eq!(read(text, kind).expect_err(text)[0].code, Code::FormulaResultKind, "{text}");
    }
    let told = read("10 N * 2 m2", Kind::Torque).expect_err("kind");
    assert_eq!((told[0].raw("found"), told[0].raw("base")), (Some("kg·m³/s²"), Some(" (kg·m²/s²)")));
}

#[test]
fn powers_and_products_without_a_meaning_are_refused_in_their_place() {
    assert_eq!(fault("sqrt(opening)"), (Code::FormulaGaugeProduct, "opening".to_owned()));
    assert_eq!(fault("1 + opening * seat^4 / seat^4").0, Code::FormulaGaugeProduct);
    assert_eq!(fault("1 / opening"), (Code::FormulaGaugeProduct, "1 / opening".to_owned()));
    assert_eq!(fault("seat^0.63"), (Code::FormulaPower, "seat^0.63".to_owned()));
    assert_eq!(fault("seat^rise"), (Code::FormulaPower, "seat^rise".to_owned()));
    assert_eq!(fault("2^seat"), (Code::FormulaExponent, "seat".to_owned()));
    assert_eq!(fault("3 in^2"), (Code::FormulaPowerOfUnit, "3 in".to_owned()));
    assert_eq!(fault("60 degF * 2"), (Code::FormulaScale, "60 degF".to_owned()));
    assert_eq!(fault("sqrt(20 degC)"), (Code::FormulaScale, "20 degC".to_owned()));
    assert_eq!(fault("sqrt seat").0, Code::FormulaSyntax);
    assert_eq!(fault("seat^").0, Code::FormulaSyntax);
    assert_eq!(fault(&format!("{}2", "2^".repeat(50))).0, Code::FormulaDepth);
    assert_eq!(fault(&"sqrt(".repeat(50)).0, Code::FormulaDepth);
}

#[test]
fn what_no_power_gives_is_not_finite() {
    let formula = Formula::read("(1 - 2)^0.5", &names(), None).expect("formula");
    assert_eq!(formula.evaluate(&scope()), Err(EvaluateError::NotFinite));
}
