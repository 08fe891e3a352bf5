//! Whether a statement is true, and why.

use faults::Code;
use serde::Serialize;

use super::form::AnswerForm;
use super::keys::{PartKeys, RawOption, SaidText, keys};
use super::options::{self, Choice, holds, is_drawn};
use crate::facts::{DrawError, Facts, PartOf};
use crate::formula::Condition;
use crate::proof::found::{Found, filled_alike};
use crate::recipe::checking::{Check, Path};
use crate::recipe::written::RawRight;
use crate::review::{OptionReview, Reviewed};
use crate::seed::Seed;
use crate::stored::stored_fields;
use crate::template::Template;
use crate::verdict::{Marked, Typed, Verdict, typed};
use crate::views::{OptionView, Outline};

/// The fewest reasons that leave something to choose.
const FEWEST: usize = 3;

/// Whether a statement is true, and why.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TrueOrFalse {
    /// The statement.
    pub statement: Template,
    /// When it is true; never where there is none.
    pub right: Option<Condition>,
    /// The reasons to choose from.
    pub reasons: Vec<Choice>,
    /// Which answer can hurt somebody who believes it where it is wrong.
    pub unsafe_if: Option<bool>,
}

stored_fields!(TrueOrFalse { statement, right, reasons, unsafe_if });

keys! {
    /// The keys of a statement.
    Keys {
        /// What is true or false.
        statement: String,
        /// Whether the statement is true.
        right: RawRight,
        /// The reasons to choose from.
        reasons: Vec<RawOption>,
        /// Which answer, `true` or `false`, can hurt somebody who believes it where it is wrong.
        unsafe_if: bool,
    }
}

/// Whether it is true, the order in which the reasons are shown, and the right one.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Answer {
    right: bool,
    order: Vec<usize>,
    reason: usize,
}

/// The statement and the reasons, in the order to show them.
#[derive(Debug, Serialize)]
pub(crate) struct View {
    form: &'static str,
    statement: String,
    reasons: Vec<OptionView>,
}

impl AnswerForm for TrueOrFalse {
    const NAME: &'static str = "true_or_false";
    const KEYS: &'static [&'static str] = &["statement", "right", "reasons", "unsafe_if"];
    #[cfg(feature = "schema")]
    const NEEDED: &'static [&'static str] = &["statement", "right", "reasons"];
    type Keys = Keys;
    type Answer = Answer;
    type View = View;

    #[cfg(feature = "schema")]
    fn counts() -> serde_json::Value {
        serde_json::json!({ "reasons": { "minItems": FEWEST } })
    }

    fn check(PartKeys { own, .. }: PartKeys<Keys>, path: &Path, check: &mut Check) -> Option<Self> {
        let reasons = own.reasons.as_deref().unwrap_or_default();
        let inside = path.key("reasons");
        options::exactly_one(reasons, FEWEST, &inside, check);
        let Some(statement) = own.statement.as_deref().filter(|text| !text.trim().is_empty()) else {
            check.faults.push(path.fault(Code::RecipeNoStatement));
            return None;
        };
        let Some(right) = &own.right else {
            check.faults.push(path.fault(Code::RecipeNoTruth));
            return None;
        };
        let statement = check.text(statement, &path.key("statement"));
        if always(right).is_some() && always(right) == own.unsafe_if {
            check.faults.push(path.key("unsafe_if").fault(Code::RecipeUnsafeRight));
        }
        let right = check.right(right, &path.key("right"))?;
        let reasons = reasons.iter().enumerate();
        let reasons = reasons.filter_map(|(index, raw)| options::option(raw, None, &inside.index(index), check));
        Some(Self { statement, right, reasons: reasons.collect(), unsafe_if: own.unsafe_if })
    }

    fn texts<'k>(keys: PartKeys<'k, Keys>) -> Vec<SaidText<'k>> {
        options::texts("reasons", keys.own.reasons.as_ref())
    }

    fn names_danger(&self) -> bool {
        self.unsafe_if.is_some() || options::name_danger(&self.reasons)
    }

    fn words(&self) -> Vec<&'static str> {
        vec!["answers.is_true", "answers.is_false"]
    }

    fn draw(&self, id: &str, seed: &Seed, facts: &mut Facts) -> Result<Answer, DrawError> {
        let right = holds(self.right.as_ref(), &facts.scope);
        let right = right.map_err(|error| DrawError::NoValue(id.to_owned(), error))?;
        let reason = options::only(id, &self.reasons, &facts.scope)?;
        Ok(Answer { right, order: seed.stream(id).shuffled(self.reasons.len()), reason })
    }

    /// A coin gets every second one right, so true or false counts only together with its reason.
    fn mark(&self, answer: &Answer, part: PartOf, answers: &Typed) -> Marked {
        let (said, place) = match self.read(typed(answers, part.id)) {
            Ok(read) => read,
            Err(verdict) => return Marked::new(verdict),
        };
        let is_wrong = said != answer.right;
        let dangerous = is_wrong && self.unsafe_if == Some(said)
            || place != answer.reason && self.reasons[place].is_unsafe(&part.facts.scope);
        let verdict = match (is_wrong, place == answer.reason) {
            _ if dangerous => Verdict::Unsafe,
            (false, true) => Verdict::Right,
            (false, false) => Verdict::WrongReason,
            (true, _) => Verdict::WrongTruth,
        };
        Marked { html: part.facts.explain(self.reasons[place].why.as_ref()), ..Marked::new(verdict) }
    }

    fn view(&self, answer: &Answer, part: PartOf, _: &str) -> View {
        let reasons = answer.order.iter().filter_map(|place| Some((place, self.reasons.get(*place)?)));
        let view = |(place, reason): (&usize, &Choice)| OptionView {
            id: place.to_string(),
            html: part.facts.fill(&reason.text),
        };
        View { form: Self::NAME, statement: part.facts.fill(&self.statement), reasons: reasons.map(view).collect() }
    }

    fn outline(view: &View) -> Vec<Outline<'_>> {
        vec![Outline::Statement(&view.statement), Outline::Options(Some("command.draw.reasons"), &view.reasons)]
    }

    fn shown(&self, answer: &Answer, part: PartOf) -> String {
        let reason = self.reasons.get(answer.reason).map(|reason| part.facts.fill(&reason.text)).unwrap_or_default();
        let word = part.facts.word(if answer.right { "answers.is_true" } else { "answers.is_false" });
        format!("{word}: {reason}")
    }

    fn exact(&self, answer: &Answer, _: PartOf) -> String {
        format!("{} {}", answer.right, answer.reason)
    }

    fn review(&self, answer: &Answer, part: PartOf) -> Reviewed {
        let facts = part.facts;
        Reviewed::options(self.reasons.iter().enumerate().map(|(place, reason)| {
            let (html, is_unsafe) = (facts.fill(&reason.text), reason.is_unsafe(&facts.scope));
            OptionReview::new(facts, html, place == answer.reason, is_unsafe, reason.why.as_ref())
        }))
    }

    fn prove(&self, _: &Answer, part: PartOf) -> Result<(), Found> {
        filled_alike(part.facts, part.id, self.reasons.iter().map(|reason| &reason.text))
    }

    fn choices(&self) -> Vec<(String, bool)> {
        let truth = [("true".to_owned(), is_drawn(self.right.as_ref()))];
        truth.into_iter().chain(options::numbered(&self.reasons)).collect()
    }

    fn count(&self, answer: &Answer, counts: &mut [u64]) {
        counts[0] += u64::from(answer.right);
        counts[1 + answer.reason] += 1;
    }
}

/// Whether a statement is always true or never; `None` where that depends on what is drawn.
fn always(right: &RawRight) -> Option<bool> {
    match right {
        RawRight::Yes => Some(true),
        RawRight::No => Some(false),
        RawRight::When(_) => None,
    }
}

impl TrueOrFalse {
    /// What a learner said, and the place of the reason; or that it is blank or unreadable.
    fn read(&self, typed: &str) -> Result<(bool, usize), Verdict> {
        let mut words = typed.split_whitespace();
        let said = match words.next() {
            None => return Err(Verdict::Blank),
            Some("true") => true,
            Some("false") => false,
            Some(_) => return Err(Verdict::Unreadable),
        };
        let why = words.next().ok_or(Verdict::Blank)?;
        let place = why.parse().ok().filter(|place: &usize| *place < self.reasons.len() && words.next().is_none());
        place.map(|place| (said, place)).ok_or(Verdict::Unreadable)
    }
}
