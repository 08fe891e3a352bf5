//! Checking what is asked: which form, and which keys belong to it.

use faults::Code;

use super::check::{Check, Way};
use super::raw::RawAsk;
use super::{Form, choices, numbers, plot, sets};

/// The keys of every part.
#[cfg(feature = "schema")]
pub(super) const OF_EVERY_PART: [&str; 3] = ["id", "form", "label"];

/// Every form, with the keys that belong to it beside `id`, `form` and `label`.
pub(super) const FORMS: [(&str, &[&str]); 8] = [
    ("number", &["answer", "unit", "within", "limit", "unsafe_fails", "round", "believable", "mistakes"]),
    ("one_of", &["options", "keep_order", "unit"]),
    ("several_of", &["options", "keep_order", "unit"]),
    ("in_order", &["items", "highest_first"]),
    ("match", &["pairs", "spare"]),
    ("point_at", &["figure", "parts", "otherwise"]),
    ("read_off", &["figure", "answer", "unit", "within", "limit", "unsafe_fails", "round", "believable", "mistakes"]),
    ("true_or_false", &["statement", "right", "reasons", "unsafe_if"]),
];

pub(super) fn form(raw: &RawAsk, way: &Way, check: &mut Check) -> Option<Form> {
    let names = || FORMS.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(", ");
    let Some((name, keys)) = FORMS.iter().find(|(name, _)| *name == raw.form) else {
        check.faults.push(way.key("form").fault(Code::RecipeForm).with("found", &raw.form).known(names()));
        return None;
    };
    for key in given(raw).into_iter().filter(|key| !keys.contains(key)) {
        let fault = way.key(key).fault(Code::RecipeKeyMisplaced).with("key", key).with("form", name);
        check.faults.push(fault.known(keys.join(", ")));
    }
    match *name {
        "one_of" => choices::one_of(raw, way, check).map(Form::OneOf),
        "several_of" => choices::several_of(raw, way, check).map(Form::SeveralOf),
        "true_or_false" => choices::true_or_false(raw, way, check).map(Form::TrueOrFalse),
        "in_order" => sets::in_order(raw, way, check).map(Form::InOrder),
        "match" => sets::pairs(raw, way, check).map(Form::Match),
        "point_at" => plot::point_at(raw, way, check).map(Form::PointAt),
        "read_off" => numbers::read_off(raw, way, check).map(Form::Number),
        _ => numbers::number(raw, way, check).map(Form::Number),
    }
}

/// The keys that the author gave a part, of those that belong to some form.
fn given(raw: &RawAsk) -> Vec<&'static str> {
    let all = [
        ("answer", raw.answer.is_some()),
        ("unit", raw.unit.is_some()),
        ("within", raw.within.is_some()),
        ("limit", raw.limit.is_some()),
        ("unsafe_fails", raw.unsafe_fails.is_some()),
        ("round", raw.round.is_some()),
        ("believable", raw.believable.is_some()),
        ("mistakes", !raw.mistakes.0.is_empty()),
        ("figure", raw.figure.is_some()),
        ("options", raw.options.is_some()),
        ("keep_order", raw.keep_order.is_some()),
        ("items", raw.items.is_some()),
        ("highest_first", raw.highest_first.is_some()),
        ("pairs", raw.pairs.is_some()),
        ("spare", raw.spare.is_some()),
        ("parts", raw.parts.is_some()),
        ("otherwise", raw.otherwise.is_some()),
        ("statement", raw.statement.is_some()),
        ("right", raw.right.is_some()),
        ("reasons", raw.reasons.is_some()),
        ("unsafe_if", raw.unsafe_if.is_some()),
    ];
    all.into_iter().filter(|(_, given)| *given).map(|(key, _)| key).collect()
}
