//! Checking what is drawn: ranges, choices and derived values.

use faults::Code;
use relief::units::Unit;
use relief::{Exact, Kind, Style};

use super::checking::{Check, Checked, Path, RecipeFault};
use super::raw::{RawChoose, RawDraw, RawLongDraw, RawSide};
use super::written::RawPair;
use super::{Given, Measure, Pair, Source};
use crate::formula::{Formula, NameKind, Node, literal};
use crate::template::is_name;

type Drawn = (Pair<Source>, NameKind);

/// The most values that a range may have: enough for any problem, few enough to draw without bias in 32 bits.
const MOST_STEPS: i64 = 1_000_000;

pub(super) fn draw(raw: &RawDraw, path: &Path, check: &Check) -> Checked<Drawn> {
    match raw {
        RawDraw::Same(text) => {
            let (source, kind) = side(&RawSide::Range(text.clone()), path, check)?;
            Ok((Pair { us: source.clone(), si: source }, kind))
        }
        RawDraw::Long(long) => long_draw(long, path, check),
    }
}

fn long_draw(raw: &RawLongDraw, path: &Path, check: &Check) -> Checked<Drawn> {
    let chosen = (raw.choose.as_ref(), raw.choose_text.as_ref());
    match (&raw.us, &raw.si, chosen, &raw.from, &raw.rounded_to) {
        (Some(us), Some(si), (None, None), None, None) => {
            let sides = (side(us, &path.key("us"), check)?, side(si, &path.key("si"), check)?);
            if let Some(fault) = bare_beside_gauge(raw, [&sides.0.1, &sides.1.1], path) {
                return Err(vec![fault]);
            }
            both(sides.0, sides.1, path)
        }
        (None, None, (Some(_), None) | (None, Some(_)), None, None) => {
            let (source, kind) = one_of(chosen, path, check)?;
            Ok((Pair { us: source.clone(), si: source }, kind))
        }
        (None, None, (None, None), Some(formula), Some(grid)) => derived(formula, grid, path, check),
        (None, None, (None, None), Some(_), None) => Err(vec![path.fault(Code::RecipeDerivedNotRounded)]),
        (Some(_), None, (None, None), None, None) => {
            Err(vec![lacking("us", "si", "3 barg .. 6 barg by 0.5 bar", path)])
        }
        (None, Some(_), (None, None), None, None) => {
            Err(vec![lacking("si", "us", "40 psig .. 90 psig by 5 psi", path)])
        }
        _ => Err(vec![path.fault(Code::RecipeDrawForm)]),
    }
}

/// One of the values of `choose`, or of the texts of `choose_text`.
fn one_of(
    chosen: (Option<&Vec<String>>, Option<&Vec<String>>),
    path: &Path,
    check: &Check,
) -> Checked<(Source, NameKind)> {
    match chosen {
        (Some(options), None) => choose(options, &path.key("choose"), check),
        (None, Some(options)) => texts(options, &path.key("choose_text")),
        _ => Err(vec![path.fault(Code::RecipeDrawForm)]),
    }
}

/// The fault of a draw for one system alone.
fn lacking(given: &str, missing: &str, such_as: &str, path: &Path) -> RecipeFault {
    let fault = path.fault(Code::RecipeDrawForm).with("habit", "one_system");
    fault.with("given", given).with("missing", missing).with("such_as", such_as)
}

fn both((us, us_kind): (Source, NameKind), (si, si_kind): (Source, NameKind), path: &Path) -> Checked<Drawn> {
    let kind = match (us_kind, si_kind) {
        (NameKind::Quantity(us), NameKind::Quantity(si)) if us == si => NameKind::Quantity(us),
        (NameKind::Choice(mut us), NameKind::Choice(si)) => {
            us.extend(si);
            NameKind::Choice(us)
        }
        (us, si) => {
            let fault = path.fault(Code::RecipeSystemsDiffer);
            return Err(vec![fault.with("us", kind_id(&us)).with("si", kind_id(&si))]);
        }
    };
    Ok((Pair { us, si }, kind))
}

fn kind_id(kind: &NameKind) -> &'static str {
    match kind {
        NameKind::Quantity(kind) => kind.id(),
        NameKind::Choice(_) => "choice",
    }
}

fn side(raw: &RawSide, path: &Path, check: &Check) -> Checked<(Source, NameKind)> {
    match raw {
        RawSide::Choose(RawChoose { choose, choose_text }) => {
            one_of((choose.as_ref(), choose_text.as_ref()), path, check)
        }
        RawSide::Range(text) => range(text, path),
    }
}

fn range(text: &str, path: &Path) -> Checked<(Source, NameKind)> {
    let unreadable = || vec![path.fault(Code::RecipeRange).with("found", text)];
    let Some((start, rest)) = text.split_once("..") else {
        let (value, measure) = measured(text).ok_or_else(unreadable)?;
        let kind = NameKind::Quantity(measure.kind);
        return Ok((Source::Choose(vec![Given::Quantity { value, measure }]), kind));
    };
    let (end, step) = rest.split_once(" by ").ok_or_else(unreadable)?;
    let read = |text| literal(text).ok_or_else(unreadable);
    let ((start, start_style, unit), (end, _, end_unit), (step, step_style, step_unit)) =
        (read(start)?, read(end)?, read(step)?);
    if unit != end_unit || !same_size(unit, step_unit) {
        return Err(vec![path.fault(Code::RecipeRangeUnit).with("found", text)]);
    }
    let reached = |end: &str| {
        let (before, after) = text.split_once("..").unwrap_or_default();
        let (old, step) = after.split_once(" by ").unwrap_or_default();
        let unit = old.trim().trim_start_matches(|next: char| !next.is_alphabetic() && !"°%".contains(next));
        format!("\"{}.. {end} {unit} by {step}\"", before)
    };
    let count = steps((start, end, step), reached, path)?;
    let style = start_style.joined(step_style);
    let measure = Measure { unit, kind: unit.map_or(Kind::Number, Unit::usual_kind), style };
    Ok((Source::Range { start, step, count, measure }, NameKind::Quantity(measure.kind)))
}

/// The fault of a range in `psi` beside one in `barg`, or the other way round: a gauge pressure was meant in both.
fn bare_beside_gauge(raw: &RawLongDraw, kinds: [&NameKind; 2], path: &Path) -> Option<RecipeFault> {
    let (key, raw) = match kinds {
        [NameKind::Quantity(Kind::Difference), NameKind::Quantity(Kind::Gauge)] => ("us", raw.us.as_ref()?),
        [NameKind::Quantity(Kind::Gauge), NameKind::Quantity(Kind::Difference)] => ("si", raw.si.as_ref()?),
        _ => return None,
    };
    let fault =
        path.key(key).fault(Code::RecipeSystemsDiffer).with("us", kind_id(kinds[0])).with("si", kind_id(kinds[1]));
    let RawSide::Range(text) = raw else { return Some(fault) };
    let (start, rest) = text.split_once("..")?;
    let (end, step) = rest.split_once(" by ")?;
    let in_gauge = |text: &str| {
        let (number, _) = text.trim().rsplit_once(' ')?;
        let (_, _, unit) = literal(text)?;
        Some(format!("{number} {}g", unit?.symbol))
    };
    let written = format!("\"{} .. {} by {}\"", in_gauge(start)?, in_gauge(end)?, step.trim());
    Some(fault.with("nearest", written))
}

/// Steps of `psi` go with a range in `psig`: a step is a difference.
fn same_size(unit: Option<&'static Unit>, step: Option<&'static Unit>) -> bool {
    match (unit, step) {
        (Some(unit), Some(step)) => {
            let alike = unit.usual_kind().dimension() == step.usual_kind().dimension();
            alike && unit.factor().to_bits() == step.factor().to_bits()
        }
        (None, None) => true,
        _ => false,
    }
}

/// How many values a range has.
fn steps((start, end, step): (Exact, Exact, Exact), reached: impl Fn(&str) -> String, path: &Path) -> Checked<u32> {
    if start > end || step <= Exact::ZERO {
        return Err(vec![path.fault(Code::RecipeRangeBackwards)]);
    }
    let Some(count) = start.steps_to(end, step) else {
        let fault = never_reached(start, end, step, path);
        let nearest = fault.raw("below").map(reached).unwrap_or_default();
        return Err(vec![fault.with("nearest", nearest)]);
    };
    let count = u32::try_from(count + 1).ok().filter(|_| count < MOST_STEPS);
    count.ok_or_else(|| vec![path.fault(Code::RecipeRangeTooMany).with("most", MOST_STEPS)])
}

/// Names the two ends that the steps do reach.
fn never_reached(start: Exact, end: Exact, step: Exact, path: &Path) -> RecipeFault {
    let steps = ((end.to_f64() - start.to_f64()) / step.to_f64()).floor();
    #[expect(clippy::cast_possible_truncation, reason = "a hint in a message; saturates")]
    let whole = steps as i64;
    let reached = |count| start.plus_steps(step, count).map(|value| value.text(Style::Decimal(3)));
    let (below, above) = (reached(whole).unwrap_or_default(), reached(whole + 1).unwrap_or_default());
    path.fault(Code::RecipeRangeStep).with("below", trimmed(&below)).with("above", trimmed(&above))
}

fn trimmed(text: &str) -> &str {
    text.trim_end_matches('0').trim_end_matches('.')
}

fn choose(options: &[String], path: &Path, check: &Check) -> Checked<(Source, NameKind)> {
    if options.is_empty() {
        return Err(vec![path.fault(Code::RecipeChooseNothing)]);
    }
    if options.iter().all(|option| is_name(option)) {
        let given =
            |name: &String| Given::Choice { name: name.clone(), text: check.lexicon.text(&format!("choices.{name}")) };
        return Ok((Source::Choose(options.iter().map(given).collect()), NameKind::Choice(options.to_vec())));
    }
    if !options.iter().any(|option| begins_as_number(option)) {
        return texts(options, path);
    }
    let unreadable = |option: &String| measured(option).is_none();
    // What begins like a number and is none is to blame before what is none at all.
    let mistyped = options.iter().position(|option| unreadable(option) && begins_as_number(option));
    if let Some(index) = mistyped.or_else(|| options.iter().position(unreadable)) {
        let fault = path.index(index).fault(Code::RecipeChooseUnreadable);
        return Err(vec![fault.with("found", &options[index])]);
    }
    let read = options.iter().filter_map(|option| measured(option));
    let given: Vec<_> = read.map(|(value, measure)| Given::Quantity { value, measure }).collect();
    let kinds = || {
        given.iter().map(|given| if let Given::Quantity { measure, .. } = given { measure.kind } else { Kind::Number })
    };
    let Some(kind) = kinds().next().filter(|first| kinds().all(|kind| kind == *first)) else {
        return Err(vec![path.fault(Code::RecipeChooseKinds)]);
    };
    Ok((Source::Choose(given), NameKind::Quantity(kind)))
}

/// Texts that are shown as they are typed. A formula compares them, and does nothing else with them.
fn texts(options: &[String], path: &Path) -> Checked<(Source, NameKind)> {
    if options.is_empty() {
        return Err(vec![path.fault(Code::RecipeChooseNothing)]);
    }
    if let Some(blank) = options.iter().position(|option| option.trim().is_empty()) {
        return Err(vec![path.index(blank).fault(Code::RecipeChooseBlank)]);
    }
    let texts: Vec<_> = options.iter().map(|option| option.trim().to_owned()).collect();
    let given = |text: &String| Given::Choice { name: text.clone(), text: text.clone() };
    Ok((Source::Choose(texts.iter().map(given).collect()), NameKind::Choice(texts)))
}

/// Whether an entry may be a number that was mistyped. Then the list is one of numbers, and no typing error is drawn as a
/// text.
fn begins_as_number(text: &str) -> bool {
    text.trim_start().starts_with(|first: char| first.is_numeric() || "+-−–.,<>=±~≈".contains(first))
}

fn measured(text: &str) -> Option<(Exact, Measure)> {
    let (value, style, unit) = literal(text)?;
    Some((value, Measure { unit, kind: unit.map_or(Kind::Number, Unit::usual_kind), style }))
}

fn derived(formula: &str, grid: &RawPair, path: &Path, check: &Check) -> Checked<Drawn> {
    let from = path.key("from");
    let checked =
        Formula::read(formula, &check.names, None).map_err(|faults| check.in_place(formula, &from, faults))?;
    let units = [&grid.us, &grid.si].map(|text| literal(text).and_then(|(.., unit)| unit));
    let checked = checked.in_units(&units.into_iter().flatten().collect::<Vec<_>>());
    let (kind, path) = (checked.kind(), path.key("rounded_to"));
    let node = checked.into_node();
    let us = on_grid(&node, kind, &grid.us, &path.key("us"))?;
    let si = on_grid(&node, kind, &grid.si, &path.key("si"))?;
    Ok((Pair { us, si }, NameKind::Quantity(kind)))
}

fn on_grid(formula: &Node, kind: Kind, text: &str, path: &Path) -> Checked<Source> {
    let (grid, style, unit) = literal(text)
        .filter(|(grid, ..)| *grid > Exact::ZERO)
        .ok_or_else(|| vec![path.fault(Code::RecipeGrid).with("found", text)])?;
    if !unit.map_or(kind.is_pure(), |unit| unit.measures(kind)) {
        let unit = unit.map_or("", |unit| unit.symbol);
        return Err(vec![path.fault(Code::RecipeUnitKind).with("unit", unit).with("kind", kind.told())]);
    }
    Ok(Source::From { formula: formula.clone(), grid, measure: Measure { unit, kind, style } })
}
