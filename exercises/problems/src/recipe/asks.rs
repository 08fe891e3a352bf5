//! Checking what is asked: numbers with a unit, and choices.

use relief::units::{self, Unit};
use relief::{Exact, Kind};

use super::check::{Check, RecipeFault, Way};
use super::raw::{RawAsk, RawOption, RawRight, RawText};
use super::{Choice, Form, Limit, Mistake, NumberAsk, OneOfAsk, Pair, Tolerance, UnitRef};
use crate::formula::{Condition, Formula, literal};
use crate::template::Template;

type Checked<T> = Result<T, Vec<RecipeFault>>;

pub(super) fn form(raw: &RawAsk, way: &Way, check: &mut Check) -> Option<Form> {
    match raw.form.as_str() {
        "number" => number(raw, way, check).map(Form::Number),
        "one_of" => one_of(raw, way, check).map(Form::OneOf),
        other => {
            check.faults.push(way.key("form").fault("recipe-form").with("found", other));
            None
        }
    }
}

fn number(raw: &RawAsk, way: &Way, check: &mut Check) -> Option<NumberAsk> {
    if !raw.options.is_empty() {
        check.faults.push(way.key("options").fault("recipe-options-misplaced"));
    }
    let Some(text) = &raw.answer else {
        check.faults.push(way.fault("recipe-no-answer"));
        return None;
    };
    let answer = read(text, &way.key("answer"), check);
    let answer = check.keep(answer)?;
    let kind = answer.kind();
    let unit = check.keep(asked_unit(raw.unit.as_ref(), kind, &way.key("unit")));
    let within = check.keep(tolerance(raw.within.as_ref(), unit.as_ref(), &way.key("within")));
    let limit = check.keep(limit(raw.limit.as_deref(), &way.key("limit")));
    let mistakes = mistakes(raw, kind, way, check);
    Some(NumberAsk { answer: answer.into_node(), kind, unit: unit?, within: within?, limit: limit?, mistakes })
}

fn read(text: &str, way: &Way, check: &Check) -> Checked<Formula> {
    Formula::read(text, &check.names, None).map_err(|faults| check.told(text, way, faults))
}

fn asked_unit(raw: Option<&RawText>, kind: Kind, way: &Way) -> Checked<Pair<UnitRef>> {
    match raw {
        None if kind == Kind::Number => Ok(Pair { us: UnitRef(None), si: UnitRef(None) }),
        None => Err(vec![way.fault("recipe-no-unit").with("kind", kind.id()).with("known", menu(kind))]),
        Some(RawText::Same(text)) => {
            let unit = unit(text, kind, way)?;
            Ok(Pair { us: unit, si: unit })
        }
        Some(RawText::Pair(pair)) => {
            Ok(Pair { us: unit(&pair.us, kind, &way.key("us"))?, si: unit(&pair.si, kind, &way.key("si"))? })
        }
    }
}

fn unit(text: &str, kind: Kind, way: &Way) -> Checked<UnitRef> {
    let unit = units::find(text)
        .ok_or_else(|| vec![way.fault("recipe-unknown-unit").with("found", text).with("known", menu(kind))])?;
    if unit.measures(kind) {
        return Ok(UnitRef(Some(unit)));
    }
    let fault = way.fault("recipe-unit-kind").with("unit", unit.symbol).with("kind", kind.id());
    Err(vec![fault.with("known", menu(kind))])
}

fn menu(kind: Kind) -> String {
    units::for_kind(kind).map(|unit| unit.symbol).collect::<Vec<_>>().join(", ")
}

/// One percent, where the author does not say.
fn tolerance(raw: Option<&RawText>, unit: Option<&Pair<UnitRef>>, way: &Way) -> Checked<Pair<Tolerance>> {
    let of = |text: &str, unit: Option<&'static Unit>, way: &Way| one_tolerance(text, unit, way);
    let asked = |of: fn(&Pair<UnitRef>) -> &UnitRef| unit.and_then(|unit| of(unit).0);
    let (us, si) = (asked(|pair| &pair.us), asked(|pair| &pair.si));
    match raw {
        None => Ok(Pair { us: of("1 %", us, way)?, si: of("1 %", si, way)? }),
        Some(RawText::Same(text)) => Ok(Pair { us: of(text, us, way)?, si: of(text, si, way)? }),
        Some(RawText::Pair(pair)) => {
            Ok(Pair { us: of(&pair.us, us, &way.key("us"))?, si: of(&pair.si, si, &way.key("si"))? })
        }
    }
}

/// A percentage is a share of the answer, also where the answer is a percentage itself.
fn one_tolerance(text: &str, asked: Option<&'static Unit>, way: &Way) -> Checked<Tolerance> {
    let fault = || vec![way.fault("recipe-within").with("found", text)];
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
    match raw {
        None => Ok(None),
        Some("upper") => Ok(Some(Limit::Upper)),
        Some("lower") => Ok(Some(Limit::Lower)),
        Some(other) => Err(vec![way.fault("recipe-limit").with("found", other)]),
    }
}

fn mistakes(raw: &RawAsk, kind: Kind, way: &Way, check: &mut Check) -> Vec<Mistake> {
    let mut all = Vec::new();
    for (name, text) in &raw.mistakes.0 {
        let way = way.key("mistakes").key(name);
        let message = check.bodies.mistakes.iter().find(|(known, _)| known == name).map(|(_, body)| body.clone());
        let Some(message) = message else {
            check.faults.push(way.fault("recipe-mistake-unexplained").with("found", name));
            continue;
        };
        check.holes(&message, &way);
        let formula = read(text, &way, check);
        let Some(formula) = check.keep(formula) else { continue };
        if formula.kind().dimension() == kind.dimension() {
            all.push(Mistake { name: name.clone(), answer: formula.into_node(), message });
        } else {
            let fault = way.fault("recipe-mistake-kind").with("expected", kind.id());
            check.faults.push(fault.with("found", formula.kind().id()));
        }
    }
    all
}

fn one_of(raw: &RawAsk, way: &Way, check: &mut Check) -> Option<OneOfAsk> {
    if raw.answer.is_some() || raw.unit.is_some() || raw.within.is_some() || raw.limit.is_some() {
        check.faults.push(way.fault("recipe-number-misplaced"));
    }
    let way = way.key("options");
    let always = raw.options.iter().filter(|option| matches!(option.right, RawRight::Yes)).count();
    let perhaps = raw.options.iter().filter(|option| matches!(option.right, RawRight::When(_))).count();
    if raw.options.len() < 2 {
        check.faults.push(way.fault("recipe-options-few"));
    } else if always > 1 || always + perhaps == 0 {
        check.faults.push(way.fault("recipe-options-right").with("found", always));
    }
    let options: Vec<_> =
        raw.options.iter().enumerate().filter_map(|(index, raw)| option(raw, &way.index(index), check)).collect();
    Some(OneOfAsk { options, keep_order: raw.keep_order })
}

fn option(raw: &RawOption, way: &Way, check: &mut Check) -> Option<Choice> {
    let right = match &raw.right {
        RawRight::No => None,
        RawRight::Yes => Some(Condition::always()),
        RawRight::When(text) => Some(check.condition(text, &way.key("right"))?),
    };
    let say = Template::of_text(&raw.say);
    check.holes(&say, &way.key("say"));
    let why = raw.why.as_deref().map(Template::of_text);
    if let Some(why) = &why {
        check.holes(why, &way.key("why"));
    }
    Some(Choice { say, right, why })
}
