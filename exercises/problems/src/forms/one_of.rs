//! One of several options.

use serde::Serialize;

use super::common::places;
use super::form::AnswerForm;
use super::keys::{NoKeys, PartKeys, SaidText};
use super::options::{self, Options, View};
use crate::facts::{DrawError, Facts, PartOf};
use crate::proof::found::Found;
use crate::recipe::checking::{Check, Path};
use crate::review::Reviewed;
use crate::seed::Seed;
use crate::stored::{Stored, Unfit};
use crate::verdict::{Marked, Typed, Verdict, typed};
use crate::views::Outline;

/// The fewest options that leave something to choose.
const FEWEST: usize = 2;

/// One of several options.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OneOf(pub Options);

impl Stored for OneOf {
    #[inline]
    fn read(tree: serde_json::Value) -> Result<Self, Unfit> {
        Stored::read(tree).map(Self)
    }
}

/// The one option that is right, and the order in which all are shown.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Answer {
    order: Vec<usize>,
    right: usize,
}

impl AnswerForm for OneOf {
    const NAME: &'static str = "one_of";
    const KEYS: &'static [&'static str] = &["options", "keep_order", "unit"];
    #[cfg(feature = "schema")]
    const NEEDED: &'static [&'static str] = &["options"];
    type Keys = NoKeys;
    type Answer = Answer;
    type View = View;

    #[cfg(feature = "schema")]
    fn counts() -> serde_json::Value {
        serde_json::json!({ "options": { "minItems": FEWEST } })
    }

    fn check(PartKeys { shared, .. }: PartKeys<NoKeys>, path: &Path, check: &mut Check) -> Option<Self> {
        let options = shared.options.as_deref().unwrap_or_default();
        options::exactly_one(options, FEWEST, &path.key("options"), check);
        Options::check(options, shared.keep_order, shared.unit.as_ref(), path, check).map(Self)
    }

    fn texts<'k>(keys: PartKeys<'k, NoKeys>) -> Vec<SaidText<'k>> {
        options::texts("options", keys.shared.options.as_ref())
    }

    fn names_danger(&self) -> bool {
        options::name_danger(&self.0.options)
    }

    fn draw(&self, id: &str, seed: &Seed, facts: &mut Facts) -> Result<Answer, DrawError> {
        let right = options::only(id, &self.0.options, &facts.scope)?;
        Ok(Answer { order: self.0.shuffled(id, seed), right })
    }

    fn mark(&self, answer: &Answer, part: PartOf, answers: &Typed) -> Marked {
        let places = places(typed(answers, part.id), self.0.options.len());
        let Some(places) = places else { return Marked::new(Verdict::Unreadable) };
        let [place] = places.as_slice() else {
            return Marked::new(if places.is_empty() { Verdict::Blank } else { Verdict::Unreadable });
        };
        let verdict = match (*place == answer.right, self.0.options[*place].is_unsafe(&part.facts.scope)) {
            (true, _) => Verdict::Right,
            (false, true) => Verdict::Unsafe,
            (false, false) => Verdict::WrongOption,
        };
        Marked { html: self.0.why(part.facts, *place), ..Marked::new(verdict) }
    }

    fn view(&self, answer: &Answer, part: PartOf, _: &str) -> View {
        self.0.view(Self::NAME, part.facts, &answer.order)
    }

    fn outline(view: &View) -> Vec<Outline<'_>> {
        vec![Outline::Options(None, &view.options)]
    }

    fn shown(&self, answer: &Answer, part: PartOf) -> String {
        self.0.say_at(part.facts, &[answer.right]).next().unwrap_or_default()
    }

    fn exact(&self, answer: &Answer, _: PartOf) -> String {
        answer.right.to_string()
    }

    fn review(&self, answer: &Answer, part: PartOf) -> Reviewed {
        Reviewed::options(self.0.review(part.facts, &[answer.right]))
    }

    fn prove(&self, _: &Answer, part: PartOf) -> Result<(), Found> {
        options::told_apart(&self.0, part)
    }

    fn choices(&self) -> Vec<(String, bool)> {
        options::numbered(&self.0.options).collect()
    }

    fn count(&self, answer: &Answer, counts: &mut [u64]) {
        counts[answer.right] += 1;
    }
}
