//! Checking numbers with a unit: the answer, how near one must come, how it is rounded, and the mistakes.

use faults::Code;
use relief::units::{self, Unit};
use relief::{Exact, Kind};

use super::check::{Check, RecipeFault, Way};
use super::plot;
use super::raw::{RawAsk, RawRound, RawText};
use super::{Believable, Grid, Limit, Mistake, NumberAsk, Pair, ROUNDED_FIGURES, RoundTo, Side, Tolerance, UnitRef};
use crate::formula::{Formula, literal};

pub(super) type Checked<T> = Result<T, Vec<RecipeFault>>;

pub(super) fn number(raw: &RawAsk, way: &Way, check: &mut Check) -> Option<NumberAsk> {
    let Some(text) = &raw.answer else {
        check.faults.push(way.fault(Code::RecipeNoAnswer));
        return None;
    };
    let answer = read(text, &way.key("answer"), check);
    let answer = check.keep(answer)?;
    let kind = answer.kind();
    let unit = check.keep(match &raw.unit {
        None if answer.is_bare() => Ok(Pair { us: UnitRef(None), si: UnitRef(None) }),
        unit => asked_unit(unit.as_ref(), kind, &way.key("unit")),
    });
    let limit = check.keep(limit(raw.limit.as_deref(), &way.key("limit")));
    let within = check.keep(tolerance(raw, unit.as_ref(), &way.key("within")));
    let known = limit.flatten();
    let round = raw.round.as_ref().map(|round| rounding(round, unit.as_ref(), known, &way.key("round")));
    let round = round.map_or(Some(None), |round| check.keep(round).map(Some));
    // Without the unit of the answer, what follows from it would be told beside it.
    let believable = raw
        .believable
        .as_ref()
        .filter(|_| unit.is_some())
        .map(|text| believable(text, unit.as_ref(), &way.key("believable")));
    let believable = believable.map_or(Some(None), |range| check.keep(range).map(Some));
    if raw.unsafe_fails.is_some() && raw.limit.is_none() {
        check.faults.push(way.key("unsafe_fails").fault(Code::RecipeUnsafeWithoutLimit));
    }
    let mistakes = mistakes(raw, kind, way, check);
    Some(NumberAsk {
        answer: answer.into_node(),
        kind,
        unit: unit?,
        within: within?,
        limit: limit?,
        unsafe_fails: raw.unsafe_fails.unwrap_or(false),
        round: round?,
        believable: believable?,
        mistakes,
        plot: None,
    })
}

/// A number that is read off a plot.
pub(super) fn read_off(raw: &RawAsk, way: &Way, check: &mut Check) -> Option<NumberAsk> {
    let number = number(raw, way, check);
    let plot = plot::plot(raw, &way.key("figure"), check)?;
    Some(NumberAsk { plot: Some(plot), ..number? })
}

fn read(text: &str, way: &Way, check: &Check) -> Checked<Formula> {
    Formula::read(text, &check.names, None).map_err(|faults| check.told(text, way, faults))
}

/// The unit that an answer is asked in; a bare number needs none.
pub(super) fn asked_unit(raw: Option<&RawText>, kind: Kind, way: &Way) -> Checked<Pair<UnitRef>> {
    match raw {
        None if kind == Kind::Number => Ok(Pair { us: UnitRef(None), si: UnitRef(None) }),
        None => Err(vec![way.fault(Code::RecipeNoUnit).with("kind", kind.id()).known(menu(kind))]),
        Some(raw) => of_both(raw, way, |text, _, way| unit(text, kind, way)),
    }
}

/// What a text that is one for both systems, or one for each, says in each of them.
fn of_both<T>(raw: &RawText, way: &Way, read: impl Fn(&str, usize, &Way) -> Checked<T>) -> Checked<Pair<T>> {
    match raw {
        RawText::Same(text) => Ok(Pair { us: read(text, 0, way)?, si: read(text, 1, way)? }),
        RawText::Pair(pair) => {
            Ok(Pair { us: read(&pair.us, 0, &way.key("us"))?, si: read(&pair.si, 1, &way.key("si"))? })
        }
    }
}

fn unit(text: &str, kind: Kind, way: &Way) -> Checked<UnitRef> {
    let unit = units::find(text)
        .ok_or_else(|| vec![way.fault(Code::RecipeUnknownUnit).with("found", text).known(menu(kind))])?;
    if unit.measures(kind) {
        return Ok(UnitRef(Some(unit)));
    }
    let fault = way.fault(Code::RecipeUnitKind).with("unit", unit.symbol).with("kind", kind.id());
    Err(vec![fault.known(menu(kind))])
}

fn menu(kind: Kind) -> String {
    units::for_kind(kind).map(|unit| unit.symbol).collect::<Vec<_>>().join(", ")
}

/// The unit asked for in the first or second system.
fn asked(unit: Option<&Pair<UnitRef>>, system: usize) -> Option<&'static Unit> {
    unit.and_then(|unit| if system == 0 { unit.us.0 } else { unit.si.0 })
}

/// One percent, where the author does not say; a tenth of that where the answer is rounded as instructed, since then
/// only the number before rounding may differ.
fn tolerance(raw: &RawAsk, unit: Option<&Pair<UnitRef>>, way: &Way) -> Checked<Pair<Tolerance>> {
    let usual = RawText::Same(if raw.round.is_some() { "0.1 %" } else { "1 %" }.to_owned());
    let text = raw.within.as_ref().unwrap_or(&usual);
    of_both(text, way, |text, system, way| one_tolerance(text, asked(unit, system), way))
}

/// A percentage is a share of the answer, also where the answer is a percentage itself.
fn one_tolerance(text: &str, asked: Option<&'static Unit>, way: &Way) -> Checked<Tolerance> {
    let fault = || vec![way.fault(Code::RecipeWithin).with("found", text)];
    let (value, _, unit) = literal(text).filter(|(value, ..)| *value > Exact::ZERO).ok_or_else(fault)?;
    match unit {
        Some(unit) if unit.symbol == "%" => share(value).ok_or_else(fault),
        _ if unit == asked => Ok(Tolerance::Amount(value)),
        Some(unit) if asked.is_some_and(|asked| same_factor(unit, asked)) => Ok(Tolerance::Amount(value)),
        _ => Err(fault()),
    }
}

/// A tolerance in `psi` goes with an answer in `psig`.
fn same_factor(one: &Unit, other: &Unit) -> bool {
    one.factor().to_bits() == other.factor().to_bits() && one.usual_kind().dimension() == other.usual_kind().dimension()
}

/// A share below one half; more would make any answer right.
fn share(percent: Exact) -> Option<Tolerance> {
    let share = Exact::new(i128::from(percent.numerator()), i128::from(percent.denominator()) * 100).ok()?;
    (share.to_f64() < 0.5).then_some(Tolerance::Share(share))
}

fn limit(raw: Option<&str>, way: &Way) -> Checked<Option<Limit>> {
    let Some(found) = raw else { return Ok(None) };
    let limit = Limit::BOTH.into_iter().find(|limit| limit.id() == found);
    limit.map(Some).ok_or_else(|| vec![way.fault(Code::RecipeLimit).with("found", found)])
}

fn rounding(raw: &RawRound, unit: Option<&Pair<UnitRef>>, limit: Option<Limit>, way: &Way) -> Checked<RoundTo> {
    let found = raw.side.as_deref().unwrap_or("nearest");
    let side = Side::ALL.into_iter().find(|side| side.id() == found);
    let side = side.ok_or_else(|| vec![way.key("side").fault(Code::RecipeRoundSide).with("found", found)])?;
    match (side, limit) {
        (Side::Safe, None) => return Err(vec![way.key("side").fault(Code::RecipeRoundSafe)]),
        (Side::Nearest, Some(_)) | (Side::Up, Some(Limit::Upper)) | (Side::Down, Some(Limit::Lower)) => {
            return Err(vec![way.fault(Code::RecipeRoundUnsafe)]);
        }
        _ => {}
    }
    let to = match (&raw.to, raw.figures) {
        (Some(step), None) => of_both(step, &way.key("to"), |text, system, way| grid(text, asked(unit, system), way))?,
        (None, Some(figures)) if ROUNDED_FIGURES.contains(&figures) => {
            Pair { us: Grid::Figures(figures), si: Grid::Figures(figures) }
        }
        _ => return Err(vec![way.fault(Code::RecipeRound)]),
    };
    Ok(RoundTo { to, side })
}

fn grid(text: &str, asked: Option<&'static Unit>, way: &Way) -> Checked<Grid> {
    let (step, style) = in_unit(text, asked).filter(|(step, _)| *step > Exact::ZERO).ok_or_else(|| {
        vec![way.fault(Code::RecipeRoundStep).with("found", text).with("unit", asked.map_or("", |unit| unit.symbol))]
    })?;
    Ok(Grid::Step { step, style })
}

/// A number in the unit asked for.
fn in_unit(text: &str, asked: Option<&'static Unit>) -> Option<(Exact, relief::Style)> {
    let (value, style, unit) = literal(text)?;
    let fits = unit == asked || unit.zip(asked).is_some_and(|(unit, asked)| same_factor(unit, asked));
    fits.then_some((value, style))
}

fn believable(text: &RawText, unit: Option<&Pair<UnitRef>>, way: &Way) -> Checked<Pair<Believable>> {
    of_both(text, way, |text, system, way| {
        let asked = asked(unit, system);
        let range = text.split_once("..").and_then(|(low, high)| Some((in_unit(low, asked)?, in_unit(high, asked)?)));
        match range.filter(|((low, _), (high, _))| low < high) {
            Some(((low, low_style), (high, high_style))) => {
                Ok(Believable { low, high, style: low_style.joined(high_style) })
            }
            None => {
                let unit = asked.map_or("", |unit| unit.symbol);
                Err(vec![way.fault(Code::RecipeBelievable).with("found", text).with("unit", unit)])
            }
        }
    })
}

fn mistakes(raw: &RawAsk, kind: Kind, way: &Way, check: &mut Check) -> Vec<Mistake> {
    let mut all = Vec::new();
    for (name, text) in &raw.mistakes.0 {
        let way = way.key("mistakes").key(name);
        let message = check.bodies.mistakes.iter().find(|(known, _)| known == name).map(|(_, body)| body.clone());
        let Some(message) = message else {
            check.faults.push(way.fault(Code::RecipeMistakeUnexplained).with("found", name));
            continue;
        };
        check.holes(&message, &way);
        let formula = read(text, &way, check);
        let Some(formula) = check.keep(formula) else { continue };
        if formula.kind().dimension() == kind.dimension() {
            all.push(Mistake { name: name.clone(), answer: formula.into_node(), message });
        } else {
            let fault = way.fault(Code::RecipeMistakeKind).with("expected", kind.id());
            check.faults.push(fault.with("found", formula.kind().id()));
        }
    }
    all
}
