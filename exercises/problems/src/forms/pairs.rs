//! Items to match with their partners.

use crate::draw::{Answer, Problem};
use crate::mark::{Marked, Verdict};
use crate::recipe::{Ask, PairsAsk};
use crate::seed::Seed;
use crate::template::Template;
use crate::view::OptionView;

use super::{list, number, percent, told};

pub(crate) fn draw(ask: &Ask, pairs: &PairsAsk, seed: &Seed) -> Answer {
    let mut stream = seed.stream(&ask.id);
    let items = stream.shuffled(pairs.pairs.len());
    Answer::Match { items, partners: stream.shuffled(pairs.pairs.len() + pairs.spare.len()) }
}

/// The partner at a place: those of the pairs first, then the spare ones.
pub(crate) fn partner(pairs: &PairsAsk, place: usize) -> Option<&Template> {
    pairs.pairs.iter().map(|pair| &pair.with).chain(&pairs.spare).nth(place)
}

pub(crate) fn views(problem: &Problem, pairs: &PairsAsk, items: &[usize], partners: &[usize]) -> [Vec<OptionView>; 2] {
    let view = |place: &usize, text: Option<&Template>| OptionView {
        id: place.to_string(),
        html: text.map(|text| problem.fill(text)).unwrap_or_default(),
    };
    let items = items.iter().map(|place| view(place, pairs.pairs.get(*place).map(|pair| &pair.item)));
    [items.collect(), partners.iter().map(|place| view(place, partner(pairs, *place))).collect()]
}

/// The pairs that a learner made, by item; `None` where the text is anything else.
fn read(typed: &str, pairs: &PairsAsk) -> Option<Vec<(usize, usize)>> {
    let (items, partners) = (pairs.pairs.len(), pairs.pairs.len() + pairs.spare.len());
    let mut all: Vec<(usize, usize)> = Vec::new();
    for word in typed.split_whitespace() {
        let (item, partner) = word.split_once('=')?;
        let item = item.parse().ok().filter(|item| *item < items && !all.iter().any(|(known, _)| known == item))?;
        all.push((item, partner.parse().ok().filter(|partner| *partner < partners)?));
    }
    Some(all)
}

/// Each right pair counts its share; each wrong one takes away what guessing would bring; what is left open neither.
pub(crate) fn mark(problem: &Problem, pairs: &PairsAsk, typed: &str) -> Marked {
    let Some(made) = read(typed, pairs) else { return Marked::new(Verdict::Unreadable) };
    if made.is_empty() {
        return Marked::new(Verdict::Blank);
    }
    let (count, partners) = (pairs.pairs.len(), pairs.pairs.len() + pairs.spare.len());
    let wrong: Vec<_> = made.iter().filter(|(item, partner)| item != partner).collect();
    let hits = made.len() - wrong.len();
    let marked = if hits == count {
        Marked::new(Verdict::Right)
    } else if wrong.iter().any(|(item, _)| pairs.pairs[*item].is_unsafe) {
        let whys = wrong.iter().filter(|(item, _)| pairs.pairs[*item].is_unsafe);
        let whys = whys.filter_map(|(item, _)| told(problem, pairs.pairs[*item].why.as_ref()));
        Marked { told: whys.collect(), ..Marked::new(Verdict::Unsafe) }
    } else {
        let share = (number(hits) - number(wrong.len()) / number(partners - 1)) / number(count);
        let whys = wrong.iter().filter_map(|(item, _)| told(problem, pairs.pairs[*item].why.as_ref()));
        Marked { told: whys.collect(), ..Marked::partly(percent(share), Verdict::WrongPairs) }
    };
    let counts = [("right", hits), ("wrong", wrong.len()), ("missing", count - made.len()), ("of", count)];
    counts.into_iter().fold(marked, |marked, (name, count)| marked.with(name, count.to_string()))
}

pub(crate) fn shown(problem: &Problem, pairs: &PairsAsk) -> String {
    let line = |pair: &crate::recipe::Pairing| format!("{} – {}", problem.fill(&pair.item), problem.fill(&pair.with));
    list("ul", pairs.pairs.iter().map(line))
}

pub(crate) fn exact(pairs: &PairsAsk) -> String {
    (0..pairs.pairs.len()).map(|place| format!("{place}={place}")).collect::<Vec<_>>().join(" ")
}
