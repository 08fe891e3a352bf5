//! The test bench: at what pressure to look for leaks, how much may leak, how far a gauge may be believed, and whether a
//! setting may be changed.

use super::rows::{
    Choice, PRESSURE, Takes, at_least, at_most, choice, gauge, mechanics, one, one_of, opens, output, quantity,
    relation, same, stated,
};
use super::settings::{TOLERANCE_CODES, band};
use crate::compare::{above, in_order, something_left};
use crate::factors::{CUBIC_CENTIMETRE_PER_HOUR, INCH, PER_MINUTE, POUND_PER_SQUARE_INCH, SQUARE_INCH};
use crate::limits;
use crate::quantity::{Area, CountRate, Difference, Gauge, Length, Ratio, Typed, VolumeFlow};
use crate::relation::{Output, Outputs, Range, Relation, RelationError, Role, Source, Status};
use crate::system::System;

/// Pressure at which seat tightness is tested (pascal, gauge): 90 % of the set pressure, or 5 psi below it up to 50 psig.
///
/// # Errors
/// [`RelationError::NothingLeft`] where 5 psi below would be below zero.
pub fn leak_test_pressure(cold_test: Gauge) -> Result<Gauge, RelationError> {
    let step = 5.0 * POUND_PER_SQUARE_INCH;
    if above(cold_test.si(), 10.0 * step) {
        return Ok(Gauge::from_si(cold_test.si() * 0.90));
    }
    something_left(Gauge::from_si(cold_test.si() - step), "cold_test")
}

/// Most water that may leak past a closed seat (cubic metre per second): 10 cm³/h for each inch of nominal inlet size, no
/// less than 10 cm³/h; none past a soft seat. A size in millimetres is taken for the nominal one: DN 80 is NPS 3.
#[must_use]
pub fn water_leak_limit(inlet: Length, soft: bool) -> VolumeFlow {
    let inches = if soft { 0.0 } else { nominal_inches(inlet).max(1.0) };
    VolumeFlow::from_si(10.0 * inches * CUBIC_CENTIMETRE_PER_HOUR)
}

/// A nominal size in inches. Sizes of flanged valves go by half inches, and those in millimetres (DN) are rounded to full
/// ones: up to a twentieth off.
fn nominal_inches(size: Length) -> f64 {
    let inches = size.si() / INCH;
    let nominal = libm::round(2.0 * inches) / 2.0;
    if (inches - nominal).abs() <= nominal / 20.0 { nominal } else { inches }
}

/// Most bubbles of air in a time past a closed seat (per second), by set pressure and effective area. From memory.
#[must_use]
pub fn bubble_limit(set: Gauge, area: Area, soft: bool) -> CountRate {
    let small = !above(area.si(), 0.307 * SQUARE_INCH);
    let pounds = set.si() / POUND_PER_SQUARE_INCH;
    let row = BUBBLES.iter().rev().find(|(from, ..)| !above(*from, pounds)).unwrap_or(&BUBBLES[0]);
    let bubbles = match (soft, small) {
        (true, _) => 0.0,
        (false, true) => row.1,
        (false, false) => row.2,
    };
    CountRate::from_si(bubbles * PER_MINUTE)
}

/// Most bubbles of air past a metal seat: from which set pressure (psig), and bubbles a minute up to and above an
/// effective area of 0.307 square inch. Between two rows the lower one holds, which allows less. From memory.
pub const BUBBLES: &[(f64, f64, f64)] = &[
    (15.0, 40.0, 20.0),
    (1500.0, 60.0, 30.0),
    (2000.0, 80.0, 40.0),
    (2500.0, 100.0, 50.0),
    (3000.0, 100.0, 60.0),
    (4000.0, 100.0, 80.0),
    (5000.0, 100.0, 100.0),
];

/// Greatest error of a gauge (pascal, a difference): a share of its span, by grade and by the part of the scale.
///
/// # Errors
/// [`RelationError::Order`] where the reading is above the span.
pub fn gauge_error(grade: &str, span: Difference, reading: Gauge) -> Result<Difference, RelationError> {
    in_order(("reading", Difference::from_si(reading.si())), ("span", span))?;
    let quarter = span.si() / 4.0;
    let middle = !above(quarter, reading.si()) && !above(reading.si(), 3.0 * quarter);
    let row = GAUGE_GRADES.iter().find(|row| row.name == grade).unwrap_or(&GAUGE_GRADES[0]);
    Ok(Difference::from_si(span.si() * if middle { row.middle } else { row.ends }))
}

/// What a grade of gauge promises.
#[derive(Debug)]
pub struct GaugeGrade {
    /// The grade, as the relation's choice names it.
    pub name: &'static str,
    /// Greatest error in the middle half of the scale (a share of the span).
    pub middle: f64,
    /// Greatest error in the first and the last quarter of the scale (a share of the span).
    pub ends: f64,
}

const fn grade(name: &'static str, middle: f64, ends: f64) -> GaugeGrade {
    GaugeGrade { name, middle, ends }
}

/// The grades of gauges, the widest first.
pub const GAUGE_GRADES: &[GaugeGrade] = &[
    grade("b", 0.02, 0.03),
    grade("a", 0.01, 0.02),
    grade("one_a", 0.01, 0.01),
    grade("two_a", 0.005, 0.005),
    grade("three_a", 0.0025, 0.0025),
    grade("four_a", 0.001, 0.001),
];

/// How far a valve opened from its cold test pressure (pascal, a difference), and whether a code allows it.
#[must_use]
pub fn within_tolerance(cold_test: Gauge, found: Gauge, code: &str, form: System) -> (Difference, &'static str) {
    let (low, high) = band(cold_test, code, form);
    let within = !above(low.si(), found.si()) && !above(found.si(), high.si());
    (found - cold_test, if within { "within" } else { "outside" })
}

/// How far a new setting is from the marked one (a ratio), and the first rule that it breaks. The limit from the marked
/// pressure holds for the valves of US ships that carry liquefied gas alone.
///
/// # Errors
/// [`RelationError::Order`] where the spring's range is upside down.
pub fn reset_limit(
    marked: Gauge,
    new: Gauge,
    spring: (Gauge, Gauge),
    mawp: Gauge,
    on_ship: bool,
) -> Result<(Ratio, &'static str), RelationError> {
    in_order(("spring_low", spring.0), ("spring_high", spring.1))?;
    let change = Ratio::from_si((new.si() - marked.si()) / marked.si());
    let verdict = if above(new.si(), mawp.si()) {
        "above_mawp"
    } else if above(spring.0.si(), new.si()) || above(new.si(), spring.1.si()) {
        "outside_spring_range"
    } else if on_ship && above(change.si().abs(), limits::RESETS[0].high.share) {
        "outside_marked"
    } else {
        "within_all"
    };
    Ok((change, verdict))
}

/// Span that a test gauge should have (pascal, differences): from one and a half times to four times the test pressure.
#[must_use]
pub fn gauge_range(test: Gauge) -> (Difference, Difference) {
    (Difference::from_si(1.5 * test.si()), Difference::from_si(4.0 * test.si()))
}

const COLD_TEST: Takes<Gauge> = opens(r"p_\mathrm{cold}");
const SEATS: &[&str] = &["metal", "soft"];
const SEAT: Choice = choice(r"\text{seat}", SEATS);
const GRADES: &[&str] = &["b", "a", "one_a", "two_a", "three_a", "four_a"];
/// Which valves a rule for new settings is for.
const RESET_RULES: &[&str] = &["general", "ship_gas"];
const VERDICTS: &[&str] = &["within", "outside"];
const RESETS: &[&str] = &["within_all", "outside_marked", "outside_spring_range", "above_mawp"];
const CODE: Choice = choice(r"\text{code}", TOLERANCE_CODES);
/// The pressures that API Std 527, 4th edition, holds for (pascal, gauge): 15 to 6000 psig. The last bits do not decide.
const SCOPE_OF_TIGHTNESS: Range =
    Range::between(15.0 * POUND_PER_SQUARE_INCH * (1.0 - 1e-9), 6000.0 * POUND_PER_SQUARE_INCH * (1.0 + 1e-9));
const TIGHTNESS: &str = "API Std 527, 4th edition";

/// The relations of this family.
pub const RELATIONS: &[Relation] = &[
    relation! {
        id: "leak_test_pressure",
        inputs: { cold_test: quantity::<Gauge>(r"p_\mathrm{cold}", SCOPE_OF_TIGHTNESS) },
        outputs: &[output::<Gauge>("leak_test", r"p_\mathrm{leak}")],
        forms: same(
            r"#leak_test = 0.90 \, #cold_test\ \text{above 50 psig, else}\ #cold_test - 5\ \text{psi}",
            Source {
                document: "API Std 527, 4th edition (90 % and 50 psig read; 5 psi from memory)",
                status: Status::Partly,
            },
        ),
        run: one(leak_test_pressure(cold_test)?),
    },
    relation! {
        id: "water_leak_limit",
        inputs: { inlet: quantity::<Length>(r"\mathrm{NPS}", Range::between(0.005, 1.0)), seat: SEAT },
        outputs: &[Output { stated_in: Some("cm3/h"), ..at_most::<VolumeFlow>("leakage", r"Q_\mathrm{leak}") }],
        forms: same(
            r"#leakage = 10\ \mathrm{cm^3/h} \cdot \max(\text{inches of } #inlet,\ 1);\ \text{soft seat: none}",
            Source {
                document: "API Std 527 as summarised by a calibration laboratory; below NPS 1 from memory",
                status: Status::Partly,
            },
        ),
        run: one(water_leak_limit(inlet, seat == "soft")),
    },
    relation! {
        id: "bubble_limit",
        inputs: {
            set: quantity::<Gauge>(r"p_\mathrm{set}", SCOPE_OF_TIGHTNESS),
            area: quantity::<Area>("A", Range::positive(1.0)),
            seat: SEAT,
        },
        outputs: &[at_most::<CountRate>("bubbles", "n")],
        forms: mechanics(
            r"#bubbles = \text{table}(#set,\ #area);\ \text{soft seat: none}",
            Source { document: TIGHTNESS, status: Status::Memory },
        ),
        run: one(bubble_limit(set, area, seat == "soft")),
    },
    relation! {
        id: "gauge_error",
        inputs: {
            grade: choice(r"\text{grade}", GRADES),
            span: quantity::<Difference>("S", Range::positive(PRESSURE)),
            reading: gauge("p"),
        },
        outputs: &[at_least::<Difference>("error", "e")],
        forms: same(
            r"#error = s \, #span,\quad s\ \text{by grade and}\ \frac{#reading}{#span}",
            Source {
                document: "ASME B40.100, grades of accuracy (grades A and B read; 1A to 4A from memory)",
                status: Status::Partly,
            },
        ),
        run: one(gauge_error(grade, span, reading)?),
    },
    relation! {
        id: "within_tolerance",
        inputs: { cold_test: COLD_TEST, found: gauge(r"p_\mathrm{found}"), code: CODE },
        outputs: &[output::<Difference>("deviation", r"\Delta p"), one_of("verdict", r"\text{verdict}", VERDICTS)],
        forms: stated(r"#deviation = #found - #cold_test", limits::SET_TOLERANCES_SOURCE),
        run(manner): {
            let (deviation, verdict) = within_tolerance(cold_test, found, code, manner.form);
            Ok(Outputs::Named(deviation.quantity(), verdict))
        },
    },
    relation! {
        id: "reset_limit",
        inputs: {
            marked: opens(r"p_\mathrm{marked}").is(Role::Whole),
            new: opens(r"p_\mathrm{new}"),
            spring_low: gauge(r"p_\mathrm{low}"),
            spring_high: opens(r"p_\mathrm{high}"),
            mawp: opens(r"p_\mathrm{MAWP}"),
            rule: choice(r"\text{rule}", RESET_RULES)
                .usually("general", "the maker's range for the spring; NBIC Part 4, from memory"),
        },
        outputs: &[output::<Ratio>("change", "r"), one_of("verdict", r"\text{verdict}", RESETS)],
        forms: same(
            r"#change = \frac{#new - #marked}{#marked},\quad #spring_low \le #new \le #spring_high,\ #new \le #mawp",
            limits::RESETS_SOURCE,
        ),
        run: {
            let (change, verdict) =
                reset_limit(marked, new, (spring_low, spring_high), mawp, rule == "ship_gas")?;
            Ok(Outputs::Named(change.quantity(), verdict))
        },
    },
    relation! {
        id: "gauge_range",
        inputs: { test: opens(r"p_\mathrm{test}") },
        outputs: &[
            output::<Difference>("least", r"S_\mathrm{least}"),
            output::<Difference>("most", r"S_\mathrm{most}"),
        ],
        forms: same(
            r"#least = 1.5 \, #test,\quad #most = 4 \, #test",
            Source { document: "", status: Status::CommonPractice },
        ),
        run: {
            let (least, most) = gauge_range(test);
            Ok(Outputs::Two(least.quantity(), most.quantity()))
        },
    },
];
