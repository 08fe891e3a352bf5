//! One of several options, and any number of them.

use crate::display;
use crate::draw::{Answer, DrawError, Problem};
use crate::formula::Scope;
use crate::mark::{Marked, Verdict};
use crate::recipe::{Ask, Choice, ChoiceAsk};
use crate::seed::Seed;
use crate::template::escape;
use crate::view::OptionView;

use super::{joined, list, number, percent, places, told};

/// The options that are right.
pub(crate) fn right(part: &str, options: &[Choice], scope: &Scope) -> Result<Vec<usize>, DrawError> {
    let mut right = Vec::new();
    for (place, option) in options.iter().enumerate() {
        let holds = option.right.as_ref().map_or(Ok(false), |condition| condition.holds(scope));
        if holds.map_err(|error| DrawError::NoValue(part.to_owned(), error))? {
            right.push(place);
        }
        if let Some(value) = &option.value {
            value.quantity(scope).map_err(|error| DrawError::NoValue(part.to_owned(), error))?;
        }
    }
    Ok(right)
}

/// The one option that is right.
pub(crate) fn only(part: &str, options: &[Choice], scope: &Scope) -> Result<usize, DrawError> {
    match right(part, options, scope)?.as_slice() {
        [right] => Ok(*right),
        several => Err(DrawError::RightOptions(part.to_owned(), several.len())),
    }
}

fn shuffled(ask: &Ask, choice: &ChoiceAsk, seed: &Seed) -> Vec<usize> {
    let count = choice.options.len();
    if choice.keep_order { (0..count).collect() } else { seed.stream(&ask.id).shuffled(count) }
}

pub(crate) fn draw_one(ask: &Ask, choice: &ChoiceAsk, seed: &Seed, scope: &Scope) -> Result<Answer, DrawError> {
    let right = only(&ask.id, &choice.options, scope)?;
    Ok(Answer::OneOf { order: shuffled(ask, choice, seed), right })
}

pub(crate) fn draw_several(ask: &Ask, choice: &ChoiceAsk, seed: &Seed, scope: &Scope) -> Result<Answer, DrawError> {
    let right = right(&ask.id, &choice.options, scope)?;
    if right.is_empty() || right.len() == choice.options.len() {
        return Err(DrawError::AllOrNone(ask.id.clone()));
    }
    Ok(Answer::SeveralOf { order: shuffled(ask, choice, seed), right })
}

/// What an option says, as HTML.
pub(crate) fn says(problem: &Problem, choice: &ChoiceAsk, option: &Choice) -> String {
    let value = option.value.as_ref().and_then(|value| value.quantity(&problem.scope).ok());
    let Some(value) = value else { return problem.fill(&option.say) };
    let system = problem.setting.system;
    let unit = choice.unit.as_ref().and_then(|unit| unit.of(system).0);
    escape(&display::computed(value, unit, relief::Rounding::Nearest, problem.setting.mark))
}

pub(crate) fn views(problem: &Problem, choice: &ChoiceAsk, order: &[usize]) -> Vec<OptionView> {
    let view = |place: &usize| {
        let option = choice.options.get(*place)?;
        Some(OptionView { id: place.to_string(), html: says(problem, choice, option) })
    };
    order.iter().filter_map(view).collect()
}

pub(crate) fn mark_one(problem: &Problem, choice: &ChoiceAsk, right: usize, typed: &str) -> Marked {
    let Some(places) = places(typed, choice.options.len()) else { return Marked::new(Verdict::Unreadable) };
    let [place] = places.as_slice() else {
        return Marked::new(if places.is_empty() { Verdict::Blank } else { Verdict::Unreadable });
    };
    let verdict = match (*place == right, choice.options[*place].is_unsafe(&problem.scope)) {
        (true, _) => Verdict::Right,
        (false, true) => Verdict::Unsafe,
        (false, false) => Verdict::WrongOption,
    };
    Marked { html: told(problem, choice.options[*place].why.as_ref()), ..Marked::new(verdict) }
}

/// Each right option that is chosen counts its share, each wrong one takes away its share: choosing all or at random
/// earns nothing.
pub(crate) fn mark_several(problem: &Problem, choice: &ChoiceAsk, right: &[usize], typed: &str) -> Marked {
    let count = choice.options.len();
    let Some(chosen) = places(typed, count) else { return Marked::new(Verdict::Unreadable) };
    if chosen.is_empty() {
        return Marked::new(Verdict::Blank);
    }
    let hits = chosen.iter().filter(|place| right.contains(place)).count();
    let wrong: Vec<_> = chosen.iter().filter(|place| !right.contains(place)).collect();
    let share = number(hits) / number(right.len()) - number(wrong.len()) / number(count - right.len());
    let whys = wrong.iter().filter_map(|place| told(problem, choice.options[**place].why.as_ref()));
    let marked = if hits == right.len() && wrong.is_empty() {
        let whys = right.iter().filter_map(|place| told(problem, choice.options[*place].why.as_ref()));
        Marked { told: whys.collect(), ..Marked::new(Verdict::Right) }
    } else if wrong.iter().any(|place| choice.options[**place].is_unsafe(&problem.scope)) {
        Marked { told: whys.collect(), ..Marked::new(Verdict::Unsafe) }
    } else {
        Marked { told: whys.collect(), ..Marked::partly(percent(share), Verdict::WrongChoices) }
    };
    let counts = [("right", hits), ("wrong", wrong.len()), ("missing", right.len() - hits), ("of", right.len())];
    counts.into_iter().fold(marked, |marked, (name, count)| marked.with(name, count.to_string()))
}

/// The right options, as the learner reads them.
pub(crate) fn shown(problem: &Problem, choice: &ChoiceAsk, right: &[usize]) -> String {
    let mut says =
        right.iter().filter_map(|place| choice.options.get(*place)).map(|option| says(problem, choice, option));
    if let [_] = right { says.next().unwrap_or_default() } else { list("ul", says) }
}

pub(crate) fn exact(right: &[usize]) -> String {
    joined(right)
}
