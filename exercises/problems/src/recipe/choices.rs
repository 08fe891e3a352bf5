//! Checking choices: one of several options, any number of them, and the reason for true or false.

use faults::Code;
use relief::Kind;

use super::check::{Check, Way};
use super::numbers::asked_unit;
use super::raw::{RawAsk, RawOption, RawRight};
use super::{Choice, ChoiceAsk, TruthAsk};
use crate::formula::{Condition, Formula, Node};
use crate::template::Template;

/// The fewest options that leave something to choose: one of them, several of them, and the reason for true or false.
pub(super) const FEWEST: [usize; 3] = [2, 3, 3];

pub(super) fn one_of(raw: &RawAsk, way: &Way, check: &mut Check) -> Option<ChoiceAsk> {
    let options = raw.options.as_deref().unwrap_or_default();
    exactly_one(options, FEWEST[0], &way.key("options"), check);
    choice(raw, options, way, check)
}

pub(super) fn several_of(raw: &RawAsk, way: &Way, check: &mut Check) -> Option<ChoiceAsk> {
    let options = raw.options.as_deref().unwrap_or_default();
    let always = options.iter().filter(|option| matches!(option.right, RawRight::Yes)).count();
    let never = options.iter().filter(|option| matches!(option.right, RawRight::No)).count();
    if options.len() < FEWEST[1] {
        check.faults.push(way.key("options").fault(Code::RecipeOptionsFew).with("least", FEWEST[1]));
    } else if always == options.len() || never == options.len() {
        check.faults.push(way.key("options").fault(Code::RecipeOptionsAlike));
    }
    choice(raw, options, way, check)
}

pub(super) fn true_or_false(raw: &RawAsk, way: &Way, check: &mut Check) -> Option<TruthAsk> {
    let reasons = raw.reasons.as_deref().unwrap_or_default();
    exactly_one(reasons, FEWEST[2], &way.key("reasons"), check);
    let Some(statement) = raw.statement.as_deref().filter(|text| !text.trim().is_empty()) else {
        check.faults.push(way.fault(Code::RecipeNoStatement));
        return None;
    };
    let Some(right) = &raw.right else {
        check.faults.push(way.fault(Code::RecipeNoTruth));
        return None;
    };
    let statement = words(statement, &way.key("statement"), check);
    let always = match right {
        RawRight::Yes => Some(true),
        RawRight::No => Some(false),
        RawRight::When(_) => None,
    };
    if always.is_some() && always == raw.unsafe_if {
        check.faults.push(way.key("unsafe_if").fault(Code::RecipeUnsafeRight));
    }
    let right = condition(right, &way.key("right"), check)?;
    let way = way.key("reasons");
    let reasons = reasons.iter().enumerate().filter_map(|(index, raw)| option(raw, None, &way.index(index), check));
    let reasons = reasons.collect();
    Some(TruthAsk { statement, right, reasons, unsafe_if: raw.unsafe_if })
}

/// Faults where not exactly one of some options can be right.
fn exactly_one(options: &[RawOption], least: usize, way: &Way, check: &mut Check) {
    let rights = options.iter().map(|option| &option.right);
    if options.len() < least {
        check.faults.push(way.fault(Code::RecipeOptionsFew).with("least", least));
    } else if !can_be_one(rights) {
        check.faults.push(way.fault(Code::RecipeOptionsRight));
    }
}

/// Whether one of these may be right and no other.
pub(super) fn can_be_one<'r>(rights: impl Iterator<Item = &'r RawRight> + Clone) -> bool {
    let always = rights.clone().filter(|right| matches!(right, RawRight::Yes)).count();
    let perhaps = rights.filter(|right| matches!(right, RawRight::When(_))).count();
    always <= 1 && always + perhaps > 0
}

fn choice(raw: &RawAsk, options: &[RawOption], way: &Way, check: &mut Check) -> Option<ChoiceAsk> {
    let inside = way.key("options");
    let mut kind = None;
    let computed = |option: &RawOption| option.value.is_some();
    let all: Vec<_> = (options.iter().enumerate())
        .filter_map(|(index, raw)| option(raw, Some(&mut kind), &inside.index(index), check))
        .collect();
    let unit = match kind {
        Some(kind) => Some(check.keep(asked_unit(raw.unit.as_ref(), kind, &way.key("unit")))?),
        None => None,
    };
    if raw.unit.is_some() && !options.iter().any(computed) {
        check.faults.push(way.key("unit").fault(Code::RecipeUnitOfWords));
    }
    Some(ChoiceAsk { options: all, keep_order: raw.keep_order.unwrap_or(false), unit })
}

/// An option. The first that is computed gives the `kind` of those after it; reasons are words only.
fn option(raw: &RawOption, kind: Option<&mut Option<Kind>>, way: &Way, check: &mut Check) -> Option<Choice> {
    let right = condition(&raw.right, &way.key("right"), check)?;
    let why = raw.why.as_deref().map(|why| words(why, &way.key("why"), check));
    let (say, value) = match (&raw.say, &raw.value, kind) {
        (Some(say), None, _) => (words(say, &way.key("say"), check), None),
        (None, Some(value), Some(kind)) => {
            (Template::default(), Some(computed(value, kind, &way.key("value"), check)?))
        }
        _ => {
            check.faults.push(way.fault(Code::RecipeOptionWords));
            return None;
        }
    };
    let named = !matches!(raw.is_unsafe, RawRight::No);
    if named && matches!(raw.right, RawRight::Yes) {
        check.faults.push(way.key("unsafe").fault(Code::RecipeUnsafeRight));
    }
    explained(named, raw.why.as_deref(), way, check);
    let is_unsafe = condition(&raw.is_unsafe, &way.key("unsafe"), check)?;
    Some(Choice { say, value, right, why, is_unsafe })
}

/// Whether something is unsafe, which must be explained: who is told so wants to know what can happen.
pub(super) fn explained(is_unsafe: bool, why: Option<&str>, way: &Way, check: &mut Check) -> bool {
    if is_unsafe && why.is_none_or(|why| why.trim().is_empty()) {
        check.faults.push(way.key("unsafe").fault(Code::RecipeUnsafeUnexplained));
    }
    is_unsafe
}

fn computed(text: &str, kind: &mut Option<Kind>, way: &Way, check: &mut Check) -> Option<Node> {
    let formula = Formula::read(text, &check.names, *kind).map_err(|faults| check.told(text, way, faults));
    let formula = check.keep(formula)?;
    kind.get_or_insert(formula.kind());
    Some(formula.into_node())
}

/// When something is right: `None` within for never.
pub(super) fn condition(raw: &RawRight, way: &Way, check: &mut Check) -> Option<Option<Condition>> {
    match raw {
        RawRight::No => Some(None),
        RawRight::Yes => Some(Some(Condition::always())),
        RawRight::When(text) => check.condition(text, way).map(Some),
    }
}

/// Words with holes.
pub(super) fn words(text: &str, way: &Way, check: &mut Check) -> Template {
    let template = Template::of_text(text);
    check.holes(&template, way);
    template
}
