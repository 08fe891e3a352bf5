//! Checking a number with a unit: the answer, how near one must come, how it is rounded, and the mistakes.

use faults::Code;
use relief::units::{self, Unit};
use relief::{Exact, Kind};

use super::asked::{AlsoRight, Limit, Mistake, Number, Tolerance, UsualRange};
use crate::forms::keys::{RawAlsoRight, RawRound};
use crate::formula::{Formula, Node, literal};
use crate::recipe::checking::{Check, Checked, Path, RecipeFault};
use crate::recipe::written::{Entries, RawPair, RawText};
use crate::recipe::{Pair, UnitRef};
use crate::rounding::{FIGURES, Grid, RoundTo, Side};
use crate::template::Template;

/// The keys of a number, wherever it is asked.
#[derive(Clone, Copy, Debug)]
pub(crate) struct NumberKeys<'k> {
    pub(crate) answer: Option<&'k str>,
    pub(crate) unit: Option<&'k RawText>,
    pub(crate) within: Option<&'k RawText>,
    pub(crate) limit: Option<&'k str>,
    pub(crate) unsafe_fails: Option<bool>,
    pub(crate) round: Option<&'k RawRound>,
    pub(crate) usual_range: Option<&'k RawText>,
    pub(crate) also_right: Option<&'k [RawAlsoRight]>,
    pub(crate) mistakes: Option<&'k Entries<String>>,
}

/// Checks and compiles a number.
pub(crate) fn number(keys: NumberKeys, path: &Path, check: &mut Check) -> Option<Number> {
    let Some(text) = keys.answer else {
        check.faults.push(path.fault(Code::RecipeNoAnswer));
        return None;
    };
    let answer = read(text, &path.key("answer"), check);
    let answer = of_unit(check.keep(answer)?, keys.unit);
    let kind = answer.kind();
    if let Some(fault) = of_other_units(keys, kind, path, check) {
        check.faults.push(fault);
        return None;
    }
    let unit = check.keep(match keys.unit {
        None if answer.is_bare() => Ok(Pair { us: UnitRef(None), si: UnitRef(None) }),
        unit => asked_unit(unit, kind, &path.key("unit")),
    });
    let manner = manner(keys, unit.as_ref(), path, check);
    let others = also_right(keys, kind, &path.key("also_right"), check);
    let mistakes = mistakes(keys.mistakes, kind, path, check);
    let Manner { within, limit, round, usual_range } = manner?;
    let (answer, unsafe_fails) = (answer.into_node(), keys.unsafe_fails.unwrap_or(false));
    let also_right = Vec::new();
    let alone =
        Number { answer, kind, unit: unit?, within, limit, unsafe_fails, round, usual_range, also_right, mistakes };
    let with = |other: Other| AlsoRight {
        number: Number { answer: other.answer, mistakes: Vec::new(), ..alone.clone() },
        when: other.when,
        beyond_limit: other.beyond_limit,
    };
    Some(Number { also_right: others.into_iter().map(with).collect(), ..alone.clone() })
}

/// How near one must come, and how the answer is rounded.
struct Manner {
    within: Pair<Tolerance>,
    limit: Option<Limit>,
    round: Option<RoundTo>,
    usual_range: Option<Pair<UsualRange>>,
}

/// Checks all of it before a fault in one of them ends it.
fn manner(keys: NumberKeys, unit: Option<&Pair<UnitRef>>, path: &Path, check: &mut Check) -> Option<Manner> {
    let limit = check.keep(limit(keys.limit, &path.key("limit")));
    let within = check.keep(tolerance(keys, unit, &path.key("within")));
    let round = keys.round.map(|round| rounding(round, unit, limit.flatten(), &path.key("round")));
    let round = round.map_or(Some(None), |round| check.keep(round).map(Some));
    // Without the unit of the answer, what follows from it would be reported beside it.
    if let (Some(RawText::Same(one)), Some(RawText::Pair(range))) = (keys.unit, keys.usual_range)
        && let Some(fault) = one_for_two(one, range, path)
    {
        check.faults.push(fault);
        return None;
    }
    let usual_range = keys.usual_range.filter(|_| unit.is_some());
    let usual_range = usual_range.map(|text| self::usual_range(text, unit, &path.key("usual_range")));
    let usual_range = usual_range.map_or(Some(None), |range| check.keep(range).map(Some));
    if keys.unsafe_fails.is_some() && keys.limit.is_none() {
        check.faults.push(path.key("unsafe_fails").fault(Code::RecipeUnsafeWithoutLimit));
    }
    Some(Manner { within: within?, limit: limit?, round: round?, usual_range: usual_range? })
}

/// The fault of a formula that gives another kind than the units of both systems and all the mistakes: then it is the one
/// that is wrong, and not they.
fn of_other_units(keys: NumberKeys, kind: Kind, path: &Path, check: &Check) -> Option<RecipeFault> {
    let RawText::Pair(pair) = keys.unit? else { return None };
    let [us, si] = [units::find(&pair.us)?, units::find(&pair.si)?];
    let wanted = us.usual_kind();
    let mistakes = || keys.mistakes.into_iter().flat_map(|mistakes| &mistakes.0);
    let of_units =
        |text: &str| Formula::read(text, &check.names, None).is_ok_and(|formula| us.measures(formula.kind()));
    let alone = mistakes().next().is_some() && mistakes().all(|(_, text)| of_units(text));
    let differs = !us.measures(kind) && !si.measures(kind) && si.measures(wanted);
    let fault = || path.key("answer").fault(Code::FormulaResultKind).with("expected", wanted.id()).with("base", "");
    (alone && differs).then(|| fault().with("found", kind.id()))
}

/// The fault of one unit for both systems beside a range of usual values that is in two.
fn one_for_two(one: &str, range: &RawPair, path: &Path) -> Option<RecipeFault> {
    let unit_of = |text: &str| text.split_once("..").and_then(|(_, end)| literal(end)?.2);
    let (unit, [us, si]) = (units::find(one)?, [unit_of(&range.us)?, unit_of(&range.si)?]);
    let differ = us != si && [us, si].contains(&unit);
    let fault = path.key("unit").fault(Code::RecipeUsualRange).with("found", &range.si).with("unit", unit.symbol);
    differ.then(|| fault.with("habit", "unit_each").with("us", us.symbol).with("si", si.symbol))
}

fn read(text: &str, path: &Path, check: &Check) -> Checked<Formula> {
    Formula::read(text, &check.names, None).map_err(|faults| check.in_place(text, path, faults))
}

/// The formula of an answer, of the kind that the units it is asked in are for.
fn of_unit(answer: Formula, unit: Option<&RawText>) -> Formula {
    let texts = match unit {
        None => Vec::new(),
        Some(RawText::Same(text)) => vec![text],
        Some(RawText::Pair(pair)) => vec![&pair.us, &pair.si],
    };
    let units: Option<Vec<_>> = texts.into_iter().map(|text| units::find(text)).collect();
    answer.in_units(&units.unwrap_or_default())
}

/// The unit that an answer is asked in; a bare number needs none.
pub(crate) fn asked_unit(raw: Option<&RawText>, kind: Kind, path: &Path) -> Checked<Pair<UnitRef>> {
    match raw {
        None if kind == Kind::Number => Ok(Pair { us: UnitRef(None), si: UnitRef(None) }),
        None => Err(vec![path.fault(Code::RecipeNoUnit).with("kind", kind.told()).with("known", menu(kind))]),
        Some(raw) => of_both(raw, path, |text, _, path| unit(text, kind, path)),
    }
}

/// What a text that is one for both systems, or one for each, says in each of them.
fn of_both<T>(raw: &RawText, path: &Path, read: impl Fn(&str, usize, &Path) -> Checked<T>) -> Checked<Pair<T>> {
    match raw {
        RawText::Same(text) => Ok(Pair { us: read(text, 0, path)?, si: read(text, 1, path)? }),
        RawText::Pair(pair) => {
            Ok(Pair { us: read(&pair.us, 0, &path.key("us"))?, si: read(&pair.si, 1, &path.key("si"))? })
        }
    }
}

fn unit(text: &str, kind: Kind, path: &Path) -> Checked<UnitRef> {
    let unit = units::find(text)
        .ok_or_else(|| vec![path.fault(Code::RecipeUnknownUnit).with("found", text).with("known", menu(kind))])?;
    if unit.measures(kind) {
        return Ok(UnitRef(Some(unit)));
    }
    let fault = path.fault(Code::RecipeUnitKind).with("unit", unit.symbol).with("kind", kind.told());
    Err(vec![fault.with("known", menu(kind))])
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
fn tolerance(keys: NumberKeys, unit: Option<&Pair<UnitRef>>, path: &Path) -> Checked<Pair<Tolerance>> {
    let usual = RawText::Same(if keys.round.is_some() { "0.1 %" } else { "1 %" }.to_owned());
    let text = keys.within.unwrap_or(&usual);
    if let RawText::Same(text) = text
        && let Some([us, si]) = amount_of_both(text, unit)
    {
        let fault = path.fault(Code::RecipeWithin).with("found", text).with("us", us).with("si", si);
        return Err(vec![fault.with("habit", "within_both")]);
    }
    of_both(text, path, |text, system, path| one_tolerance(text, asked(unit, system), path))
}

/// An amount in the unit of one system alone, for an answer that the two systems ask in different ones: it as an author
/// could write it for each.
fn amount_of_both(text: &str, asked_in: Option<&Pair<UnitRef>>) -> Option<[String; 2]> {
    let (value, _, unit) = literal(text).filter(|(value, ..)| *value > Exact::ZERO)?;
    let unit = unit.filter(|unit| unit.symbol != "%")?;
    let units = [asked(asked_in, 0)?, asked(asked_in, 1)?];
    let own = units.iter().position(|asked| same_factor(unit, asked))?;
    let other = units.iter().position(|asked| !same_factor(unit, asked))?;
    let usual = |system: usize| units::for_kind(unit.usual_kind()).find(|known| same_factor(known, units[system]));
    let converted = value.to_f64() * unit.factor() / units[other].factor();
    let converted = format!("{} {}", relief::shown(converted, 1, relief::Rounding::Nearest), usual(other)?.symbol);
    let written = text.trim().to_owned();
    Some(if own == 0 { [written, converted] } else { [converted, written] })
}

/// A percentage is a share of the answer, also where the answer is a percentage itself.
fn one_tolerance(text: &str, asked: Option<&'static Unit>, path: &Path) -> Checked<Tolerance> {
    let fault = || vec![path.fault(Code::RecipeWithin).with("found", text)];
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

fn limit(raw: Option<&str>, path: &Path) -> Checked<Option<Limit>> {
    let Some(found) = raw else { return Ok(None) };
    let limit = Limit::BOTH.into_iter().find(|limit| limit.id() == found);
    limit.map(Some).ok_or_else(|| vec![path.fault(Code::RecipeLimit).with("found", found)])
}

fn rounding(raw: &RawRound, unit: Option<&Pair<UnitRef>>, limit: Option<Limit>, path: &Path) -> Checked<RoundTo> {
    let found = raw.side.as_deref().unwrap_or("nearest");
    let side = Side::ALL.into_iter().find(|side| side.id() == found);
    let side = side.ok_or_else(|| {
        vec![path.key("side").fault(Code::RecipeRoundSide).with("found", found).known("nearest, up, down, safe")]
    })?;
    match (side, limit) {
        (Side::Safe, None) => return Err(vec![path.key("side").fault(Code::RecipeRoundSafe)]),
        (Side::Nearest, Some(_)) | (Side::Up, Some(Limit::Upper)) | (Side::Down, Some(Limit::Lower)) => {
            return Err(vec![path.fault(Code::RecipeRoundUnsafe)]);
        }
        _ => {}
    }
    let to = match (&raw.to, raw.figures) {
        (Some(step), None) => {
            of_both(step, &path.key("to"), |text, system, path| grid(text, asked(unit, system), path))?
        }
        (None, Some(figures)) if FIGURES.contains(&figures) => {
            Pair { us: Grid::Figures(figures), si: Grid::Figures(figures) }
        }
        _ => return Err(vec![path.fault(Code::RecipeRound)]),
    };
    Ok(RoundTo { to, side })
}

fn grid(text: &str, asked: Option<&'static Unit>, path: &Path) -> Checked<Grid> {
    let (step, style) = in_unit(text, asked).filter(|(step, _)| *step > Exact::ZERO).ok_or_else(|| {
        vec![path.fault(Code::RecipeRoundStep).with("found", text).with("unit", asked.map_or("", |unit| unit.symbol))]
    })?;
    Ok(Grid::Step { step, style })
}

/// A number in the unit asked for.
fn in_unit(text: &str, asked: Option<&'static Unit>) -> Option<(Exact, relief::Style)> {
    let (value, style, unit) = literal(text)?;
    let fits = unit == asked || unit.zip(asked).is_some_and(|(unit, asked)| same_factor(unit, asked));
    fits.then_some((value, style))
}

fn usual_range(text: &RawText, unit: Option<&Pair<UnitRef>>, path: &Path) -> Checked<Pair<UsualRange>> {
    of_both(text, path, |text, system, path| {
        let asked = asked(unit, system);
        let range = text.split_once("..").and_then(|(low, high)| Some((in_unit(low, asked)?, in_unit(high, asked)?)));
        match range.filter(|((low, _), (high, _))| low < high) {
            Some(((low, low_style), (high, high_style))) => {
                Ok(UsualRange { low, high, style: low_style.joined(high_style) })
            }
            None => {
                let unit = asked.map_or("", |unit| unit.symbol);
                Err(vec![path.fault(Code::RecipeUsualRange).with("found", text).with("unit", unit)])
            }
        }
    })
}

/// Another right answer, without what it has in common with the first.
struct Other {
    answer: Node,
    when: Template,
    beyond_limit: bool,
}

fn also_right(keys: NumberKeys, kind: Kind, path: &Path, check: &mut Check) -> Vec<Other> {
    let mut all = Vec::new();
    for (index, raw) in keys.also_right.into_iter().flatten().enumerate() {
        let path = path.index(index);
        if raw.when.trim().is_empty() {
            check.faults.push(path.key("when").fault(Code::RecipeAlsoRightWhen));
        }
        if raw.beyond_limit && keys.limit.is_none() {
            check.faults.push(path.key("beyond_limit").fault(Code::RecipeBeyondWithoutLimit));
        }
        let when = check.text(&raw.when, &path.key("when"));
        let place = path.key("answer");
        let formula = Formula::read(&raw.answer, &check.names, Some(kind));
        let formula = formula.map_err(|faults| check.in_place(&raw.answer, &place, faults));
        if let Some(formula) = check.keep(formula) {
            all.push(Other { answer: formula.into_node(), when, beyond_limit: raw.beyond_limit });
        }
    }
    all
}

fn mistakes(raw: Option<&Entries<String>>, kind: Kind, path: &Path, check: &mut Check) -> Vec<Mistake> {
    let mut all = Vec::new();
    for (name, text) in raw.into_iter().flat_map(|mistakes| &mistakes.0) {
        let path = path.key("mistakes").key(name);
        let message = check.bodies.mistakes.iter().find(|(known, _)| known == name).map(|(_, body)| body.clone());
        let Some(message) = message else {
            check.faults.push(path.fault(Code::RecipeMistakeUnexplained).with("found", name));
            continue;
        };
        check.holes(&message, &path);
        let formula = read(text, &path, check);
        let Some(formula) = check.keep(formula) else { continue };
        if formula.kind().dimension() == kind.dimension() {
            all.push(Mistake { name: name.clone(), answer: formula.into_node(), message });
        } else {
            let fault = path.fault(Code::RecipeMistakeKind).with("expected", kind.id());
            check.faults.push(fault.with("found", formula.kind().id()));
        }
    }
    all
}
