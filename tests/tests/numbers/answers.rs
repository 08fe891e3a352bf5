//! Typed answers, as people type them: numbers and units, in both decimal marks.

use problems::DecimalMark;
use problems::answer::{Reading, read};
use problems::display::{self, unit_text};
use problems::recipe::Measure;
use proptest::prelude::*;
use relief::units::{self, UNITS};
use relief::{Exact, Kind, Quantity, Rounding, Style};

fn number(text: &str, mark: DecimalMark) -> (f64, &'static str) {
    match read(text, mark) {
        Reading::Number(value, unit) => (value, unit.map_or("", |unit| unit.symbol)),
        other => panic!("{text:?}: {other:?}"),
    }
}

/// Numbers that read the same in both marks.
const NUMBERS: &[(&str, f64)] = &[
    ("0", 0.0),
    ("7", 7.0),
    ("007", 7.0),
    ("+7", 7.0),
    ("-7", -7.0),
    ("−7", -7.0),
    ("–7", -7.0),
    ("- 7", -7.0),
    ("7.5", 7.5),
    ("7,5", 7.5),
    (".5", 0.5),
    (",5", 0.5),
    ("0.25", 0.25),
    ("0,25", 0.25),
    ("0.125", 0.125),
    ("0,125", 0.125),
    ("12.3456", 12.3456),
    ("1/2", 0.5),
    ("3/8", 0.375),
    ("1 3/8", 1.375),
    ("1-3/8", 1.375),
    ("1  3/8", 1.375),
    ("1⅜", 1.375),
    ("1 ⅜", 1.375),
    ("½", 0.5),
    ("2¾", 2.75),
    ("-1 1/2", -1.5),
    ("11/16", 0.6875),
    ("1 200", 1200.0),
    ("12 345 678", 12_345_678.0),
    ("1'200", 1200.0),
    ("1,234,567", 1_234_567.0),
    ("1.234.567", 1_234_567.0),
    ("1,200.5", 1200.5),
    ("1.200,5", 1200.5),
    ("12,345.67", 12_345.67),
    ("12.345,67", 12_345.67),
    ("1 200.5", 1200.5),
    ("1 200,5", 1200.5),
    ("1\u{202f}200", 1200.0),
    ("1\u{a0}200", 1200.0),
    ("1.2e3", 1200.0),
    ("1,2e3", 1200.0),
    ("1.2E3", 1200.0),
    ("1.2e+3", 1200.0),
    ("1.2e-3", 0.0012),
    ("12e2", 1200.0),
    ("1.2x10^3", 1200.0),
    ("1.2 x 10^3", 1200.0),
    ("1.2×10³", 1200.0),
    ("1.2 × 10³", 1200.0),
    ("1.2·10^3", 1200.0),
    ("1.2*10^3", 1200.0),
    ("1.2*10**3", 1200.0),
    ("1.2×10⁻³", 0.0012),
    ("1.2 x 10^-3", 0.0012),
    ("= 7", 7.0),
    ("≈ 7", 7.0),
    ("~7", 7.0),
    ("  7  ", 7.0),
    ("7.", 7.0),
    ("7.5.", 7.5),
    ("3/8.", 0.375),
    ("1.2e3.", 1200.0),
    ("1 200.", 1200.0),
    ("+ 7", 7.0),
    ("+1/2", 0.5),
    ("3 / 8", 0.375),
    ("12 ⅔", 12.0 + 2.0 / 3.0),
    ("1’200", 1200.0),
    ("1\u{2003}200", 1200.0),
    ("1.2 X 10^3", 1200.0),
    ("1.2 × 10 ³", 1200.0),
    ("1.2 x 10 ^ 3", 1200.0),
    ("－7", -7.0),
];

#[test]
fn numbers_are_read_as_people_type_them() {
    for (text, value) in NUMBERS {
        for mark in [DecimalMark::Point, DecimalMark::Comma] {
            let (found, unit) = number(text, mark);
            assert!(
                (found - value).abs() <= 1e-12 * value.abs() && unit.is_empty(),
                "{text:?} {mark:?}: {found} {unit}"
            );
        }
    }
}

/// A unit however it is written, by its symbol.
const UNIT_TEXTS: &[(&str, &[&str])] = &[
    (
        "psi",
        &[
            "psi",
            "PSI",
            "Psi",
            "psi.",
            "p.s.i.",
            "lb/in2",
            "lb/in²",
            "lbf/in^2",
            "pounds per square inch",
            "pound per sq in",
            "pounds/square inch",
            "lb per sq in",
            "lbs/sq in",
            "lb/sq. in.",
            "#/in2",
        ],
    ),
    (
        "psig",
        &[
            "psig",
            "PSIG",
            "psi g",
            "psi(g)",
            "psi (g)",
            "psi gauge",
            "pounds per square inch gauge",
            "lb/in2 gauge",
            "psi gage",
            "psi (gauge)",
            "P.S.I.G.",
        ],
    ),
    ("psia", &["psia", "psi a", "psi(a)", "psi abs", "psi absolute", "pounds per square inch absolute", "psi (abs)"]),
    ("psid", &["psid", "psi d", "psi(d)", "psi (d)", "psi difference", "psi differential"]),
    ("bar", &["bar", "Bar", "BAR", "bars"]),
    ("barg", &["barg", "bar g", "bar(g)", "bar (g)", "bar gauge"]),
    ("bara", &["bara", "bar a", "bar(a)", "bar abs", "bar absolute"]),
    ("kPa", &["kPa", "kpa", "KPA", "kilopascal", "kilopascals"]),
    ("kPag", &["kPag", "kPa g", "kPa(g)", "kPa gauge", "kilopascals gauge", "kPa (gauge)"]),
    ("kPaa", &["kPaa", "kPa a", "kPa(a)", "kPa abs", "kPa absolute", "kilopascals absolute"]),
    ("mbar", &["mbar", "millibar", "millibars"]),
    ("MPag", &["MPag", "MPa g", "MPa(g)", "MPa gauge"]),
    ("kgf/cm2", &["kgf/cm2", "kgf/cm²", "kg/cm2", "kg/cm^2", "kgf per square centimetre"]),
    ("MPa", &["MPa", "megapascal", "N/mm2", "N/mm²"]),
    ("in", &["in", "in.", "inch", "inches", "\"", "″", "”", "''", "′′"]),
    ("ft", &["ft", "foot", "feet", "'"]),
    ("mm", &["mm", "millimetre", "millimetres", "millimeter", "millimeters"]),
    ("in2", &["in2", "in²", "in^2", "sq in", "sq. in.", "sq inches", "square inch", "square inches", "sq.in.", "IN2"]),
    ("mm2", &["mm2", "mm²", "mm^2", "sq mm", "square millimetres", "square millimeters"]),
    ("cm2", &["cm2", "cm²", "square centimeters"]),
    ("lbf", &["lbf", "lb", "lbs", "pounds", "pounds-force", "#"]),
    ("N", &["N", "newton", "newtons"]),
    ("kN", &["kN", "kilonewtons"]),
    (
        "lbf/in",
        &[
            "lbf/in",
            "lb/in",
            "lb / in",
            "lbs per inch",
            "pounds per inch",
            "pounds-force per inch",
            "lbs/in",
            "lbf per inch",
            "pounds/inch",
            "lb/inch",
        ],
    ),
    (
        "N/mm",
        &[
            "N/mm",
            "N / mm",
            "newtons per millimetre",
            "newton per millimeter",
            "newtons/mm",
            "N per mm",
            "newtons / millimetre",
        ],
    ),
    ("kN/m", &["kN/m", "kilonewtons per metre", "kN per m"]),
    ("N/m", &["N/m", "newtons per meter", "N per metre"]),
    (
        "gpm",
        &[
            "gpm",
            "GPM",
            "US gpm",
            "gal/min",
            "gallons per minute",
            "US gallons per minute",
            "gallons/min",
            "gal per min",
            "US gal/min",
        ],
    ),
    ("L/min", &["L/min", "l/min", "lpm", "litres per minute", "liters per minute", "litres/min", "L per minute"]),
    ("m3/h", &["m3/h", "m³/h", "m^3/h", "m3/hr", "cubic metres per hour", "cubic meters per hour"]),
    ("ft3/h", &["ft3/h", "ft³/h", "cu ft/h", "cubic feet per hour", "cu ft/hr", "cu. ft. per hour", "cubic feet/hour"]),
    ("lb/h", &["lb/h", "lb/hr", "lbs/h", "pph", "pounds per hour", "lb per hr", "lb/hour", "pounds/hour"]),
    ("kg/h", &["kg/h", "kg/hr", "kilograms per hour", "kg per hour", "kg / h", "kg/hour"]),
    ("lb/ft3", &["lb/ft3", "lb/ft³", "lb/cu ft", "pounds per cubic foot"]),
    ("kg/m3", &["kg/m3", "kg/m³", "kilograms per cubic metre", "kilograms per cubic meter"]),
    ("degF", &["°F", "° F", "degF", "deg F", "degrees F", "degrees Fahrenheit", "Fahrenheit", "F", "deg. F."]),
    ("degC", &["°C", "degC", "deg C", "degrees Celsius", "Celsius", "centigrade", "C", "° C", "degrees C"]),
    ("K", &["K", "kelvin"]),
    ("%", &["%", "percent", "per cent", "pct"]),
    ("turn", &["turn", "turns", "Turns", "rev", "revs", "revolutions"]),
    ("1/min", &["1/min", "bubbles/min", "bubbles per minute", "per minute", "/min", "bubbles/minute"]),
    ("cP", &["cP", "cp", "centipoise"]),
    ("cSt", &["cSt", "cst", "centistokes"]),
];

#[test]
fn units_are_read_as_people_write_them() {
    for (symbol, texts) in UNIT_TEXTS {
        for text in *texts {
            for typed in [format!("12 {text}"), format!("12.5  {text} ")] {
                assert_eq!(number(&typed, DecimalMark::Point).1, *symbol, "{typed:?}");
            }
            // A mark or a letter may come right after the number.
            if !text.starts_with(['1', 'e', 'E', '\'']) {
                assert_eq!(number(&format!("12{text}"), DecimalMark::Comma).1, *symbol, "12{text}");
            }
        }
    }
    assert!(UNIT_TEXTS.iter().map(|(_, texts)| texts.len()).sum::<usize>() + NUMBERS.len() >= 150);
}

/// None of these is one number. What is taken for one by accident would be marked as an answer nobody gave.
#[rustfmt::skip]
const NOT_ONE_NUMBER: &[&str] = &[
    "1.5-2", "1.5 - 2", "10±1", "10 +- 1", "3..4", "5/8-11", "5/8 - 11", "1e5e5", "1e", "e3", "٣", "１２", "NaN", "nan",
    "inf", "-inf", "infinity", "0x10", "0b1", "1_000", "1.2.3", "1,2,3", "1,23,4", "12 34", "1 2", "1/0", "0/0",
    "1/2/3", "1//2", "--3", "+-3", "3-", "3+", "2+2", "2*3", "2^3", "(3)", "1e999", "-1e999", ".", ",", "-", "/", "'",
    "1 1/", "1.5 1/2", "-1/-2", "1/ -2", "1 200 30", "1'20", "1.2e1.5", "1.2×10", "×10^3", "½½", "1½½", "five",
    "5 5 psi", "1 - 3/8", "1 -3/8", "1- 3/8", "--3/8", "+-3/8", "1 200/3", "1 12/5", "0 200", "0,200,000", "1e-999",
    "2 x 105", "3 x 100 mm", "3x1000", "2×10 5", "1.2×10^3.5", "10^3²", "3.,", "..5", "5'3", "5 ft 3 in", "5' 3\"",
    "100/110/120", "10—20", "10 to 20", "<7", "≥7", "7?", "1.2e3e", "5/8-11 UNC", "1e3-2", "1,234-5", "12½½", ".½",
    "5٣", "0o7", "1e٣", "#7",
];

#[test]
fn what_is_not_one_number_is_not_taken_for_one() {
    for text in NOT_ONE_NUMBER {
        for mark in [DecimalMark::Point, DecimalMark::Comma] {
            let reading = read(text, mark);
            assert!(
                matches!(reading, Reading::Unreadable | Reading::UnknownUnit(_)),
                "{text:?} {mark:?} was taken as {reading:?}"
            );
        }
    }
}

/// Asked once: each reading that is offered is clear when it comes back.
#[test]
fn an_ambiguous_number_is_asked_about_once() {
    for (text, mark, other) in [
        ("1,234 psi", DecimalMark::Point, DecimalMark::Comma),
        ("1.234 kPa", DecimalMark::Comma, DecimalMark::Point),
        ("-12,345", DecimalMark::Point, DecimalMark::Comma),
        ("999.999 mm", DecimalMark::Comma, DecimalMark::Point),
        ("1,234e3 psi", DecimalMark::Point, DecimalMark::Comma),
        ("-1.234×10⁻² psi", DecimalMark::Comma, DecimalMark::Point),
        ("1,234.", DecimalMark::Point, DecimalMark::Comma),
    ] {
        let Reading::Ambiguous(readings) = read(text, mark) else { panic!("{text}: {:?}", read(text, mark)) };
        let values: Vec<_> = readings.iter().map(|reading| number(reading, mark).0).collect();
        assert!((values[0] / values[1] - 1000.0).abs() < 1e-9, "{text}: {values:?}");
        // The two are what the two marks make of it.
        assert_eq!(number(text, other).0.to_bits(), values[1].to_bits(), "{text}: {values:?}");
        assert!(matches!(read(text, other), Reading::Number(..)), "{text} is clear in the other mark");
    }
}

#[test]
fn every_unit_is_read_as_it_is_printed() {
    for unit in UNITS {
        for value in [1.0, 2.0] {
            let printed = unit_text(unit, value);
            assert_eq!(units::find(&printed).map(|unit| unit.symbol), Some(unit.symbol), "{printed}");
            assert_eq!(number(&format!("40 {printed}"), DecimalMark::Point), (40.0, unit.symbol), "{printed}");
        }
    }
}

fn mark() -> impl Strategy<Value = DecimalMark> {
    prop_oneof![Just(DecimalMark::Point), Just(DecimalMark::Comma)]
}

proptest! {
    /// What the product prints it also reads, in any unit and either mark; but for one of three places behind the mark
    /// that is not the course's, where the question is put.
    #[test]
    fn what_is_printed_reads_back(value in -1e6f64..1e6, place in 0..UNITS.len(), mark in mark()) {
        let unit = &UNITS[place];
        let kind = unit.usual_kind();
        let text = display::computed(unit.quantity(value, kind), Some(unit), Rounding::Nearest, mark);
        let printed: f64 = relief::shown(unit.value(unit.quantity(value, kind)), display::FIGURES, Rounding::Nearest).parse().expect("number");
        let (found, symbol) = number(&text, mark);
        prop_assert!((found - printed).abs() <= 1e-12 * printed.abs(), "{text}: {found}");
        prop_assert_eq!(symbol, unit.symbol);
    }

    /// Any fraction, written as a mixed number.
    #[test]
    fn mixed_numbers_read_back(upper in -20_000i64..20_000, lower in 1i64..1000, mark in mark()) {
        let value = Exact::new(upper.into(), lower.into()).expect("fraction");
        let measure = Measure { unit: units::find("in"), kind: Kind::Length, style: Style::Mixed };
        let text = display::number(value, measure.style, measure.unit, mark);
        let (found, symbol) = number(&text, mark);
        prop_assert_eq!(found.to_bits(), value.to_f64().to_bits(), "{}", text);
        prop_assert_eq!(symbol, "in");
    }

    /// Grouped thousands in every style.
    #[test]
    fn grouped_thousands_are_read(value in 1_000_000u64..1_000_000_000_000, mark in mark()) {
        let digits = value.to_string();
        let first = (digits.len() - 1) % 3 + 1;
        for sign in [" ", "'", "\u{202f}", ",", "."] {
            let mut text = digits[..first].to_owned();
            for start in (first..digits.len()).step_by(3) {
                text.push_str(sign);
                text.push_str(&digits[start..start + 3]);
            }
            let exact: f64 = digits.parse().expect("number");
            prop_assert_eq!(number(&text, mark).0.to_bits(), exact.to_bits(), "{}", text);
        }
    }

    /// Nothing that can be typed makes it stumble.
    #[test]
    fn any_text_has_a_reading(text in "\\PC{0,60}", mark in mark()) {
        if let Reading::Number(value, _) = read(&text, mark) {
            prop_assert!(value.is_finite(), "{}", text);
        }
    }
}

#[test]
fn a_quantity_in_every_unit_of_its_kind_is_the_same_quantity() {
    let quantity = Quantity::new(1234.5, Kind::Difference);
    for unit in units::for_kind(Kind::Difference) {
        let (value, symbol) = number(&format!("{} {}", unit.value(quantity), unit.symbol), DecimalMark::Point);
        let again = units::find(symbol).expect("unit").quantity(value, Kind::Difference);
        assert!((again.si - quantity.si).abs() <= 1e-12 * quantity.si, "{symbol}");
    }
}

#[test]
fn numbers_in_the_text_of_markup_take_the_mark_of_the_course_and_tags_do_not() {
    let markup = "<text x=\"1.5\">12.5 barg, step 3. Then 0.75.</text>";
    assert_eq!(DecimalMark::Point.print_in(markup.to_owned()), markup);
    assert_eq!(DecimalMark::Comma.print_in(markup.to_owned()), "<text x=\"1.5\">12,5 barg, step 3. Then 0,75.</text>");
}
