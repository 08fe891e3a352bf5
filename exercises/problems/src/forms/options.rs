//! Options to choose from, as three forms have them: how they are checked, drawn and shown.

use faults::Code;
use relief::Kind;
use serde::Serialize;

use super::keys::{RawOption, SaidText};
use crate::display;
use crate::facts::{DrawError, Facts, PartOf};
use crate::formula::{Condition, Formula, Node, Scope};
use crate::number::check::asked_unit;
use crate::recipe::checking::{Check, Path};
use crate::recipe::written::{RawRight, RawText};
use crate::recipe::{Pair, UnitRef};
use crate::review::OptionReview;
use crate::seed::Seed;
use crate::stored::stored_fields;
use crate::template::{Template, escape};
use crate::views::OptionView;

/// Options to choose from.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Options {
    /// The options, in the author's order.
    pub options: Vec<Choice>,
    /// Whether they stay in that order.
    pub keep_order: bool,
    /// The unit in which options that are computed are shown.
    pub unit: Option<Pair<UnitRef>>,
}

/// One option.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Choice {
    /// What it says; nothing where it is computed.
    pub text: Template,
    /// What it is computed from.
    pub value: Option<Node>,
    /// When it is right; never where there is none.
    pub right: Option<Condition>,
    /// Why it is right or wrong.
    pub why: Option<Template>,
    /// When somebody who believes it where it is wrong can be hurt; never where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub is_unsafe: Option<Condition>,
}

stored_fields!(Options { options, keep_order, unit });
stored_fields!(Choice { text, value, right, why, is_unsafe });

/// What can be chosen, in the order to show it.
#[derive(Debug, Serialize)]
pub(crate) struct View {
    pub(super) form: &'static str,
    /// The options.
    pub(super) options: Vec<OptionView>,
}

impl Choice {
    /// Whether somebody who believes it where it is wrong can be hurt.
    #[must_use]
    pub fn is_unsafe(&self, scope: &Scope) -> bool {
        self.is_unsafe.as_ref().is_some_and(|condition| condition.holds(scope) == Ok(true))
    }
}

/// Whether some option can hurt somebody.
pub(super) fn name_danger(options: &[Choice]) -> bool {
    options.iter().any(|option| option.is_unsafe.is_some())
}

impl Options {
    /// Checks the options of a part. The first that is computed gives the kind of those after it.
    pub(super) fn check(
        options: &[RawOption],
        keep_order: Option<bool>,
        unit: Option<&RawText>,
        path: &Path,
        check: &mut Check,
    ) -> Option<Self> {
        let inside = path.key("options");
        let mut kind = None;
        let all = options.iter().enumerate();
        let all = all.filter_map(|(index, raw)| option(raw, Some(&mut kind), &inside.index(index), check)).collect();
        let shown_in = match kind {
            Some(kind) => Some(check.keep(asked_unit(unit, kind, &path.key("unit")))?),
            None => None,
        };
        if unit.is_some() && options.iter().all(|option| option.value.is_none()) {
            check.faults.push(path.key("unit").fault(Code::RecipeUnitOfWords));
        }
        Some(Self { options: all, keep_order: keep_order.unwrap_or(false), unit: shown_in })
    }

    /// The order in which the options are shown.
    pub(super) fn shuffled(&self, id: &str, seed: &Seed) -> Vec<usize> {
        let count = self.options.len();
        if self.keep_order { (0..count).collect() } else { seed.stream(id).shuffled(count) }
    }

    /// What an option says, as HTML.
    fn says(&self, facts: &Facts, option: &Choice) -> String {
        let value = option.value.as_ref().and_then(|value| value.quantity(&facts.scope).ok());
        let Some(value) = value else { return facts.fill(&option.text) };
        let unit = self.unit.as_ref().and_then(|unit| unit.of(facts.setting.system).0);
        escape(&display::computed(value, unit, relief::Rounding::Nearest, facts.setting.mark))
    }

    /// What all of them say.
    pub(super) fn all_say(&self, facts: &Facts) -> impl Iterator<Item = String> {
        self.options.iter().map(|option| self.says(facts, option))
    }

    /// What those at some places say.
    pub(super) fn say_at(&self, facts: &Facts, places: &[usize]) -> impl Iterator<Item = String> {
        places.iter().filter_map(|place| self.options.get(*place)).map(|option| self.says(facts, option))
    }

    pub(super) fn view(&self, form: &'static str, facts: &Facts, order: &[usize]) -> View {
        let view = |place: &usize| {
            let option = self.options.get(*place)?;
            Some(OptionView { id: place.to_string(), html: self.says(facts, option) })
        };
        View { form, options: order.iter().filter_map(view).collect() }
    }

    pub(super) fn review(&self, facts: &Facts, right: &[usize]) -> impl Iterator<Item = OptionReview> {
        self.options.iter().enumerate().map(|(place, option)| {
            let (html, is_right) = (self.says(facts, option), right.contains(&place));
            OptionReview::new(facts, html, is_right, option.is_unsafe(&facts.scope), option.why.as_ref())
        })
    }

    /// The reason of the option at a place.
    pub(super) fn why(&self, facts: &Facts, place: usize) -> Option<String> {
        facts.explain(self.options.get(place)?.why.as_ref())
    }
}

/// The options that are right.
pub(super) fn right(part: &str, options: &[Choice], scope: &Scope) -> Result<Vec<usize>, DrawError> {
    let no_value = |error| DrawError::NoValue(part.to_owned(), error);
    let mut right = Vec::new();
    for (place, option) in options.iter().enumerate() {
        if holds(option.right.as_ref(), scope).map_err(no_value)? {
            right.push(place);
        }
        if let Some(value) = &option.value {
            value.quantity(scope).map_err(no_value)?;
        }
    }
    Ok(right)
}

/// The one option that is right.
pub(super) fn only(part: &str, options: &[Choice], scope: &Scope) -> Result<usize, DrawError> {
    match right(part, options, scope)?.as_slice() {
        [right] => Ok(*right),
        several => Err(DrawError::RightOptions(part.to_owned(), bits(several))),
    }
}

/// Places as bits, the first the lowest.
pub(super) fn bits(places: &[usize]) -> u64 {
    places.iter().fold(0, |bits, place| bits | 1 << (place % 64))
}

/// Whether a condition holds; never where there is none.
pub(super) fn holds(condition: Option<&Condition>, scope: &Scope) -> Result<bool, crate::formula::EvaluateError> {
    condition.map_or(Ok(false), |condition| condition.holds(scope))
}

/// The texts of options that learners read.
pub(super) fn texts<'k>(list: &'static str, options: Option<&'k Vec<RawOption>>) -> Vec<SaidText<'k>> {
    let each = options.into_iter().flatten().enumerate().flat_map(|(place, option)| {
        [("text", &option.text), ("why", &option.why)].map(|(key, text)| (place, key, text.as_deref()))
    });
    each.filter_map(|(place, key, text)| Some(SaidText::listed(list, place, key, text?))).collect()
}

/// Faults where not exactly one of some options can be right.
pub(super) fn exactly_one(options: &[RawOption], least: usize, path: &Path, check: &mut Check) {
    let rights = options.iter().map(|option| &option.right);
    if options.len() < least {
        check.faults.push(path.fault(Code::RecipeOptionsFew).with("least", least));
    } else if !can_be_one(rights) {
        check.faults.push(path.fault(Code::RecipeOptionsRight));
    }
}

/// Whether one of these may be right and no other.
pub(super) fn can_be_one<'r>(rights: impl Iterator<Item = &'r RawRight> + Clone) -> bool {
    let always = rights.clone().filter(|right| matches!(right, RawRight::Yes)).count();
    let perhaps = rights.filter(|right| matches!(right, RawRight::When(_))).count();
    always <= 1 && always + perhaps > 0
}

/// An option. The first that is computed gives the `kind` of those after it; reasons are words only.
pub(super) fn option(
    raw: &RawOption,
    kind: Option<&mut Option<Kind>>,
    path: &Path,
    check: &mut Check,
) -> Option<Choice> {
    let right = check.right(&raw.right, &path.key("right"))?;
    let why = check.why(raw.why.as_deref(), path);
    let (text, value) = match (&raw.text, &raw.value, kind) {
        (Some(text), None, _) => (check.text(text, &path.key("text")), None),
        (None, Some(value), Some(kind)) => {
            (Template::default(), Some(computed(value, kind, &path.key("value"), check)?))
        }
        _ => {
            check.faults.push(path.fault(Code::RecipeOptionWords));
            return None;
        }
    };
    let named = !matches!(raw.is_unsafe, RawRight::No);
    if named && matches!(raw.right, RawRight::Yes) {
        check.faults.push(path.key("unsafe").fault(Code::RecipeUnsafeRight));
    }
    check.explained(named, raw.why.as_deref(), path);
    let is_unsafe = check.right(&raw.is_unsafe, &path.key("unsafe"))?;
    Some(Choice { text, value, right, why, is_unsafe })
}

/// A formula of the kind of those before it, if there is one.
pub(super) fn computed(text: &str, kind: &mut Option<Kind>, path: &Path, check: &mut Check) -> Option<Node> {
    let formula = Formula::read(text, &check.names, *kind).map_err(|faults| check.in_place(text, path, faults));
    let formula = check.keep(formula)?;
    kind.get_or_insert(formula.kind());
    Some(formula.into_node())
}

/// The options by their places from 1, each with whether its truth is drawn.
pub(super) fn numbered(options: &[Choice]) -> impl Iterator<Item = (String, bool)> {
    options.iter().enumerate().map(|(index, option)| ((index + 1).to_string(), is_drawn(option.right.as_ref())))
}

/// Whether a condition can hold on one draw and not on another.
pub(super) fn is_drawn(condition: Option<&Condition>) -> bool {
    condition.is_some_and(|condition| *condition != Condition::always())
}

/// Whether no two options of a draw read the same.
pub(super) fn told_apart(options: &Options, part: PartOf) -> Result<(), crate::proof::found::Found> {
    crate::proof::found::alike(part.id, options.all_say(part.facts))
}
