//! Any number of several options.

use faults::Code;
use serde::Serialize;

use super::common::{joined, list, number, percent, places};
use super::form::AnswerForm;
use super::keys::{NoKeys, PartKeys, SaidText};
use super::options::{self, Options, View};
use crate::facts::{DrawError, Facts, PartOf};
use crate::proof::found::Found;
use crate::recipe::checking::{Check, Path};
use crate::recipe::written::RawRight;
use crate::review::Reviewed;
use crate::seed::Seed;
use crate::stored::{Stored, Unfit};
use crate::verdict::{Marked, Typed, Verdict, typed};
use crate::views::Outline;

/// The fewest options that leave something to choose.
const FEWEST: usize = 3;

/// Any number of several options.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SeveralOf(pub Options);

impl Stored for SeveralOf {
    #[inline]
    fn read(tree: serde_json::Value) -> Result<Self, Unfit> {
        Stored::read(tree).map(Self)
    }
}

/// The options that are right, and the order in which all are shown.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Answer {
    order: Vec<usize>,
    right: Vec<usize>,
}

impl AnswerForm for SeveralOf {
    const NAME: &'static str = "several_of";
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
        let count = |wanted: fn(&RawRight) -> bool| options.iter().filter(|option| wanted(&option.right)).count();
        let (always, never) =
            (count(|right| matches!(right, RawRight::Yes)), count(|right| matches!(right, RawRight::No)));
        if options.len() < FEWEST {
            check.faults.push(path.key("options").fault(Code::RecipeOptionsFew).with("least", FEWEST));
        } else if always == options.len() || never == options.len() {
            check.faults.push(path.key("options").fault(Code::RecipeOptionsAlike));
        }
        Options::check(options, shared.keep_order, shared.unit.as_ref(), path, check).map(Self)
    }

    fn texts<'k>(keys: PartKeys<'k, NoKeys>) -> Vec<SaidText<'k>> {
        options::texts("options", keys.shared.options.as_ref())
    }

    fn names_danger(&self) -> bool {
        options::name_danger(&self.0.options)
    }

    fn draw(&self, id: &str, seed: &Seed, facts: &mut Facts) -> Result<Answer, DrawError> {
        let right = options::right(id, &self.0.options, &facts.scope)?;
        if right.is_empty() || right.len() == self.0.options.len() {
            return Err(DrawError::AllOrNone(id.to_owned()));
        }
        Ok(Answer { order: self.0.shuffled(id, seed), right })
    }

    /// Each right option that is chosen counts its share, each wrong one takes away its share: choosing all or at random
    /// earns nothing.
    fn mark(&self, answer: &Answer, part: PartOf, answers: &Typed) -> Marked {
        let (count, right) = (self.0.options.len(), &answer.right);
        let Some(chosen) = places(typed(answers, part.id), count) else { return Marked::new(Verdict::Unreadable) };
        if chosen.is_empty() {
            return Marked::new(Verdict::Blank);
        }
        let (hits, wrong): (Vec<usize>, Vec<usize>) = chosen.iter().partition(|place| right.contains(place));
        let why = |place: &usize| self.0.why(part.facts, *place);
        let marked = if hits.len() == right.len() && wrong.is_empty() {
            Marked { told: right.iter().filter_map(why).collect(), ..Marked::new(Verdict::Right) }
        } else {
            let share = number(hits.len()) / number(right.len()) - number(wrong.len()) / number(count - right.len());
            let is_unsafe = wrong.iter().any(|place| self.0.options[*place].is_unsafe(&part.facts.scope));
            let marked = if is_unsafe {
                Marked::new(Verdict::Unsafe)
            } else {
                Marked::partly(percent(share), Verdict::WrongChoices)
            };
            Marked { told: wrong.iter().filter_map(why).collect(), ..marked }
        };
        marked.counted([
            ("right", hits.len()),
            ("wrong", wrong.len()),
            ("missing", right.len() - hits.len()),
            ("of", right.len()),
        ])
    }

    fn view(&self, answer: &Answer, part: PartOf, _: &str) -> View {
        self.0.view(Self::NAME, part.facts, &answer.order)
    }

    fn outline(view: &View) -> Vec<Outline<'_>> {
        vec![Outline::Options(None, &view.options)]
    }

    /// One right option is shown alone, several in a list.
    fn shown(&self, answer: &Answer, part: PartOf) -> String {
        let mut says = self.0.say_at(part.facts, &answer.right);
        if let [_] = answer.right.as_slice() { says.next().unwrap_or_default() } else { list("ul", says) }
    }

    fn exact(&self, answer: &Answer, _: PartOf) -> String {
        joined(&answer.right)
    }

    fn review(&self, answer: &Answer, part: PartOf) -> Reviewed {
        Reviewed::options(self.0.review(part.facts, &answer.right))
    }

    fn prove(&self, _: &Answer, part: PartOf) -> Result<(), Found> {
        options::told_apart(&self.0, part)
    }

    fn choices(&self) -> Vec<(String, bool)> {
        options::numbered(&self.0.options).collect()
    }

    fn count(&self, answer: &Answer, counts: &mut [u64]) {
        answer.right.iter().for_each(|right| counts[*right] += 1);
    }
}
