//! What is taken for a number with a unit, and what is not.

use problems::DecimalMark;
use problems::display;
use proptest::prelude::*;
use relief::units::UNITS;
use relief::{Quantity, Rounding};

use super::*;
use crate::marks::OTHER;

/// Numbers with a unit.
const QUANTITIES: &[&str] = &[
    "10 psi",
    "10psi",
    "10-psi",
    "10\u{2011}psi",
    "10\u{a0}psi",
    "10\u{202f}psi",
    "110 to 120 psig",
    "3–5 psi",
    "3 - 5 psi",
    "1..2 bar",
    "±3 %",
    "3%",
    "3 percent",
    "3 per cent",
    "3/8 in.",
    "1 3/8 in",
    "1-3/8 in",
    "1½ in",
    "½ turn",
    "0.5 mm",
    ".5 mm",
    "1,200 kPa",
    "1.200,5 kPa",
    "16 774 mm²",
    "2 turns",
    "3/4 turn",
    "265 lbf/in",
    "10 cm³/h",
    "1.9 kJ/(kg K)",
    "0.0008 1/K",
    "40 bubbles per minute",
    "40/min",
    "7 Btu/(lb °F)",
    "15 pounds per square inch",
    "4.75 sq. in.",
    "3 cu ft/h",
    "20 °C",
    "20°C",
    "68 deg F",
    "180 F",
    "300 K",
    "3 m",
    "5 N",
    "1\"",
    "3/8\"",
    "6\u{2033}",
    "5 mm2",
    "5 in^2",
    "1.2e3 Pa",
    "10³ Pa",
    "−5 °C",
    "-5 °C",
    "2 in",
    "1.5 in",
    "10 US gallons per minute",
    "11.5 million psi",
    "3 PSI",
];

/// What looks like one and is none.
const OTHERS: &[&str] = &[
    "step 2 in the list",
    "Step 3 turn the screw",
    "steps 2 to 4 in the list",
    "Table 3 m",
    "Fig. 2 C",
    "API Std 526",
    "API Std 526 in part",
    "(2015 in the US)",
    "since 2015 in Texas",
    "12 May 2015",
    "2015-05-12",
    "12/05/2015 in",
    "1 in 10 valves",
    "all 3 in a row",
    "3 in-line valves",
    "RV-12 in",
    "P-7 m",
    "A4 m",
    "ISO 4126-1 K",
    "ISO 4126-1 in Europe",
    "API 527 in brief",
    "COMAR 09.12.01.29 C",
    "46 CFR 54.15-10(a)",
    "UG-134(d)(1)",
    "§5 m",
    "NPS 2",
    "4 to 1",
    "2 inlets",
    "3 msi",
    "10 psx",
    "2 turned",
    "said \"set it at 150\"",
    "the 1990's",
    "in the '90's'",
    "3 K-factors",
    "12 c and 3 f",
    "",
    "psi",
    "in 3.",
    "3.",
    "5 (psi)",
    "number 3, in psi",
    "16 threads per inch",
    "3:4",
    "2 x 4",
    "1e5",
    "²",
    "¼",
    "Title 8 section 6858(c)",
    "10 seconds",
    "5 minutes",
    "45°",
];

fn found(text: &str) -> Vec<String> {
    let finder = Finder::new(&EnglishWords);
    finder.find(text).into_iter().map(|range| text[range].to_owned()).collect()
}

#[test]
fn numbers_with_a_unit_are_found() {
    for text in QUANTITIES {
        let wanted = text.trim_start_matches('.').trim_end_matches('.');
        for around in ["X", "It is X.", "It is X, and more", "(X)", "a X bore", "of X\u{2014}then", "It is X"] {
            let sentence = around.replace('X', text);
            let near: Vec<_> = found(&sentence);
            let told = near.len() == 1 && wanted.starts_with(near[0].trim_end_matches('.'));
            assert!(told, "{sentence}: {near:?}");
        }
    }
}

#[test]
fn what_is_no_quantity_is_left() {
    let taken: Vec<_> = OTHERS.iter().map(|text| (text, found(text))).filter(|(_, found)| !found.is_empty()).collect();
    assert!(taken.is_empty(), "{taken:?}");
}

#[test]
fn several_are_told_apart() {
    assert_eq!(
        found("10 psi at 20 °C, 3 valves of 2 in and step 4 in the list: 5 %"),
        ["10 psi", "20 °C", "2 in", "5 %"]
    );
    assert_eq!(found(&format!("from 10 to {KNOWN} or {KNOWN} to 12 psi")), ["10 to ".to_owned(), "12 psi".to_owned()]);
    assert_eq!(found(&format!("{KNOWN} psi, 3 {KNOWN}, 4{OTHER} psi")), Vec::<String>::new());
}

proptest! {
    #[test]
    fn no_text_brings_the_finder_down(text in "[0-9a-z½.,/ \\-–\"'°%²\u{a0}é(){}…]{0,60}", any in any::<String>()) {
        for text in [text, any] {
            let mut last = 0;
            for range in Finder::new(&EnglishWords).find(&text) {
                prop_assert!(range.start >= last && !text[range.clone()].is_empty());
                last = range.end;
            }
        }
    }

    #[test]
    fn what_the_core_prints_is_found(value in -1e6..1e6f64, unit in 0..UNITS.len(), comma in any::<bool>()) {
        let unit = &UNITS[unit];
        // How long something takes needs no source.
        prop_assume!(unit.usual_kind() != relief::Kind::Time);
        // "2011 in" is a year before a place.
        prop_assume!(unit.symbol != "in" || !(1799.0..2200.5).contains(&value));
        let mark = if comma { DecimalMark::Comma } else { DecimalMark::Point };
        let quantity: Quantity = unit.quantity(value, unit.usual_kind());
        let shown = display::computed(quantity, Some(unit), Rounding::Nearest, mark);
        let near = found(&format!("It is {shown} here."));
        prop_assert!(near.len() == 1 && shown.starts_with(&near[0]), "{}: {:?}", shown, near);
    }
}
