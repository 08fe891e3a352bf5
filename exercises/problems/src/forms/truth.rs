//! Whether a statement is true, and why.

use crate::draw::{Answer, DrawError, Problem};
use crate::formula::Scope;
use crate::mark::{Marked, Verdict};
use crate::recipe::{Ask, TruthAsk};
use crate::seed::Seed;
use crate::view::OptionView;

use super::{choices, told};

pub(crate) fn draw(ask: &Ask, truth: &TruthAsk, seed: &Seed, scope: &Scope) -> Result<Answer, DrawError> {
    let holds = truth.right.as_ref().map_or(Ok(false), |condition| condition.holds(scope));
    let right = holds.map_err(|error| DrawError::NoValue(ask.id.clone(), error))?;
    let reason = choices::only(&ask.id, &truth.reasons, scope)?;
    Ok(Answer::TrueOrFalse { right, order: seed.stream(&ask.id).shuffled(truth.reasons.len()), reason })
}

pub(crate) fn views(problem: &Problem, truth: &TruthAsk, order: &[usize]) -> Vec<OptionView> {
    let reasons = order.iter().filter_map(|place| Some((place, truth.reasons.get(*place)?)));
    reasons.map(|(place, reason)| OptionView { id: place.to_string(), html: problem.fill(&reason.say) }).collect()
}

/// A coin gets every second one right, so true or false counts only together with its reason.
pub(crate) fn mark(problem: &Problem, truth: &TruthAsk, right: bool, reason: usize, typed: &str) -> Marked {
    let mut words = typed.split_whitespace();
    let (said, why) = (words.next(), words.next());
    let said = match said {
        None => return Marked::new(Verdict::Blank),
        Some("true") => true,
        Some("false") => false,
        Some(_) => return Marked::new(Verdict::Unreadable),
    };
    let Some(why) = why else { return Marked::new(Verdict::Blank) };
    let place = why.parse().ok().filter(|place: &usize| *place < truth.reasons.len() && words.next().is_none());
    let Some(place) = place else { return Marked::new(Verdict::Unreadable) };
    let is_unsafe = said != right && truth.unsafe_if == Some(said);
    let verdict = match (said == right, place == reason) {
        _ if is_unsafe || place != reason && truth.reasons[place].is_unsafe(&problem.scope) => Verdict::Unsafe,
        (true, true) => Verdict::Right,
        (true, false) => Verdict::WrongReason,
        (false, _) => Verdict::WrongTruth,
    };
    Marked { html: told(problem, truth.reasons[place].why.as_ref()), ..Marked::new(verdict) }
}

pub(crate) fn exact(right: bool, reason: usize) -> String {
    format!("{right} {reason}")
}
