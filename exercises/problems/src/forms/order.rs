//! Items to put in order.

use crate::draw::{Answer, DrawError, Problem};
use crate::formula::Scope;
use crate::mark::{Marked, Verdict};
use crate::recipe::{Ask, Item, OrderAsk};
use crate::seed::Seed;
use crate::view::OptionView;

use super::{list, number, percent, places, told};

pub(crate) fn draw(ask: &Ask, order: &OrderAsk, seed: &Seed, scope: &Scope) -> Result<Answer, DrawError> {
    let right = right(ask, order, scope)?;
    let mut stream = seed.stream(&ask.id);
    let mut shown = stream.shuffled(right.len());
    // The right order is no question. With two items or more, another one comes soon.
    while shown == right && right.len() > 1 {
        shown = stream.shuffled(right.len());
    }
    Ok(Answer::InOrder { order: shown, right })
}

/// The items in their right order: as their author wrote them, or by their values, of which no two may be equal.
fn right(ask: &Ask, order: &OrderAsk, scope: &Scope) -> Result<Vec<usize>, DrawError> {
    let mut valued: Vec<(f64, usize)> = Vec::with_capacity(order.items.len());
    for (place, item) in order.items.iter().enumerate() {
        let Some(by) = &item.by else { continue };
        let value = by.quantity(scope).map_err(|error| DrawError::NoValue(ask.id.clone(), error))?;
        // Put where it belongs, after its equals: shorter in the engine than a general sort.
        let rank = valued.partition_point(|(other, _)| other.total_cmp(&value.si).is_le());
        valued.insert(rank, (value.si, place));
    }
    if valued.is_empty() {
        return Ok((0..order.items.len()).collect());
    }
    let tie = valued.windows(2).any(|pair| (pair[1].0 - pair[0].0).abs() <= 1e-9 * pair[1].0.abs());
    if tie {
        return Err(DrawError::Tie(ask.id.clone()));
    }
    if order.highest_first {
        valued.reverse();
    }
    Ok(valued.into_iter().map(|(_, place)| place).collect())
}

pub(crate) fn views(problem: &Problem, order: &OrderAsk, shown: &[usize]) -> Vec<OptionView> {
    let items = shown.iter().filter_map(|place| Some((place, order.items.get(*place)?)));
    items.map(|(place, item)| OptionView { id: place.to_string(), html: problem.fill(&item.say) }).collect()
}

/// Every two items that stand the right way round count, every two that do not take as much away: an order at random
/// earns nothing.
pub(crate) fn mark(problem: &Problem, order: &OrderAsk, (shown, right): (&[usize], &[usize]), typed: &str) -> Marked {
    let Some(given) = places(typed, right.len()) else { return Marked::new(Verdict::Unreadable) };
    // As they were shown is never right, and nothing has been put in order yet.
    if given.is_empty() || right.len() > 1 && given == shown {
        return Marked::new(Verdict::Blank);
    }
    if given.len() < right.len() {
        return Marked::new(Verdict::Unreadable);
    }
    let placed = given.iter().zip(right).take_while(|(given, right)| given == right).count();
    if placed == right.len() {
        return Marked::new(Verdict::Right);
    }
    if let Some(early) = too_early(order, &given, right) {
        return Marked { html: told(problem, early.why.as_ref()), ..Marked::new(Verdict::Unsafe) };
    }
    let (turned, twos) = (in_turn(&given, right), right.len() * (right.len() - 1) / 2);
    let share = 2.0 * number(turned) / number(twos) - 1.0;
    let why = given.get(placed).and_then(|place| order.items.get(*place)).and_then(|item| item.why.as_ref());
    let marked = Marked::partly(percent(share), Verdict::WrongSequence).with("placed", placed.to_string());
    let marked =
        marked.with("of", right.len().to_string()).with("turned", turned.to_string()).with("twos", twos.to_string());
    Marked { told: told(problem, why).into_iter().collect(), ..marked }
}

/// The first item that is unsafe where it comes before what must come first, and does.
fn too_early<'o>(order: &'o OrderAsk, given: &[usize], right: &[usize]) -> Option<&'o Item> {
    let rank = |item: usize| right.iter().position(|place| *place == item);
    let early = |(at, place): &(usize, &usize)| given[at + 1..].iter().any(|later| rank(*later) < rank(**place));
    let mut unsafe_ones = given.iter().enumerate().filter(|(_, place)| order.items[**place].is_unsafe);
    unsafe_ones.find(early).map(|(_, place)| &order.items[*place])
}

/// How many twos of items stand the right way round.
fn in_turn(given: &[usize], right: &[usize]) -> usize {
    let rank = |item: &usize| right.iter().position(|place| place == item);
    let ranks: Vec<_> = given.iter().map(rank).collect();
    (1..ranks.len()).map(|later| ranks[..later].iter().filter(|earlier| **earlier < ranks[later]).count()).sum()
}

pub(crate) fn shown(problem: &Problem, order: &OrderAsk, right: &[usize]) -> String {
    list("ol", right.iter().filter_map(|place| order.items.get(*place)).map(|item| problem.fill(&item.say)))
}
