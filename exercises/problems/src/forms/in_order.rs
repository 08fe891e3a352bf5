//! Items to put in order.

use core::ops::RangeInclusive;

use faults::Code;
use serde::{Deserialize, Serialize};

use super::common::{joined, list, number, percent, places};
use super::form::AnswerForm;
use super::keys::{PartKeys, SaidText, keys};
use super::options::computed;
use crate::facts::{DrawError, Facts, PartOf};
use crate::formula::{Node, Scope};
use crate::proof::found::{Found, filled_alike};
use crate::recipe::checking::{Check, Path};
#[cfg(feature = "schema")]
use crate::recipe::schema;
use crate::review::{OptionReview, Reviewed};
use crate::seed::Seed;
use crate::stored::stored_fields;
use crate::template::Template;
use crate::verdict::{Marked, Typed, Verdict, typed};
use crate::views::{OptionView, Outline, is_false};

/// Fewer are guessed; more are not held in mind at once.
pub(super) const SIZE: RangeInclusive<usize> = 3..=8;

/// Items to put in order.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct InOrder {
    /// The items; in the right order, where nothing else gives it.
    pub items: Vec<Item>,
    /// Whether the items go by their values from the greatest to the least.
    pub highest_first: bool,
}

/// An item to put in order.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Item {
    /// What it says.
    pub text: Template,
    /// The value that gives its place.
    pub by: Option<Node>,
    /// Why it has its place.
    pub why: Option<Template>,
    /// Whether somebody can be hurt where it is done before what must come first.
    #[serde(skip_serializing_if = "is_false")]
    pub is_unsafe: bool,
}

stored_fields!(InOrder { items, highest_first });
stored_fields!(Item { text, by, why, is_unsafe });

keys! {
    /// The keys of items to put in order.
    Keys {
        /// What is to be put in order.
        items: Vec<RawItem>,
        /// Whether items go by their values from the greatest to the least.
        highest_first: bool,
    }
}

/// One item to put in order.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(crate) struct RawItem {
    /// What it says, with holes.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Scalar"))]
    pub text: String,
    /// The formula whose value gives its place.
    #[cfg_attr(feature = "schema", schemars(with = "Option<schema::Scalar>"))]
    pub by: Option<String>,
    /// Why it has its place.
    pub why: Option<String>,
    /// `true`: whoever does this too early can hurt somebody. Then it needs a `why`.
    #[serde(default, rename = "unsafe")]
    pub is_unsafe: bool,
}

/// The order in which the items are shown, and the right one.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Answer {
    order: Vec<usize>,
    right: Vec<usize>,
}

/// The items, in the order to show them.
#[derive(Debug, Serialize)]
pub(crate) struct View {
    form: &'static str,
    items: Vec<OptionView>,
}

impl AnswerForm for InOrder {
    const NAME: &'static str = "in_order";
    const KEYS: &'static [&'static str] = &["items", "highest_first"];
    #[cfg(feature = "schema")]
    const NEEDED: &'static [&'static str] = &["items"];
    type Keys = Keys;
    type Answer = Answer;
    type View = View;

    #[cfg(feature = "schema")]
    fn counts() -> serde_json::Value {
        serde_json::json!({ "items": { "minItems": SIZE.start(), "maxItems": SIZE.end() } })
    }

    fn check(PartKeys { own, .. }: PartKeys<Keys>, path: &Path, check: &mut Check) -> Option<Self> {
        let items = own.items.as_deref().unwrap_or_default();
        let inside = path.key("items");
        check.size(items.len(), SIZE, Code::RecipeItemsCount, &inside);
        let valued = items.iter().filter(|item| item.by.is_some()).count();
        if valued != 0 && valued != items.len() {
            check.faults.push(inside.fault(Code::RecipeItemsBy));
        }
        if own.highest_first.is_some() && valued == 0 {
            check.faults.push(path.key("highest_first").fault(Code::RecipeHighestOfWords));
        }
        let mut kind = None;
        let all = items.iter().enumerate().filter_map(|(index, raw)| item(raw, &mut kind, &inside.index(index), check));
        Some(Self { items: all.collect(), highest_first: own.highest_first.unwrap_or(false) })
    }

    fn texts<'k>(keys: PartKeys<'k, Keys>) -> Vec<SaidText<'k>> {
        let items = keys.own.items.iter().flatten().enumerate();
        let each = items.flat_map(|(place, item)| {
            [("text", Some(item.text.as_str())), ("why", item.why.as_deref())].map(|(key, text)| (place, key, text))
        });
        each.filter_map(|(place, key, text)| Some(SaidText::listed("items", place, key, text?))).collect()
    }

    fn names_danger(&self) -> bool {
        self.items.iter().any(|item| item.is_unsafe)
    }

    fn draw(&self, id: &str, seed: &Seed, facts: &mut Facts) -> Result<Answer, DrawError> {
        let right = self.right(id, &facts.scope)?;
        let mut stream = seed.stream(id);
        let mut order = stream.shuffled(right.len());
        // To show the right order would ask nothing. With two items or more, another one comes soon.
        while order == right && right.len() > 1 {
            order = stream.shuffled(right.len());
        }
        Ok(Answer { order, right })
    }

    /// Every two items in their right order count, every two that are not take as much away: an order at random earns
    /// nothing.
    fn mark(&self, answer: &Answer, part: PartOf, answers: &Typed) -> Marked {
        let right = &answer.right;
        let Some(given) = places(typed(answers, part.id), right.len()) else {
            return Marked::new(Verdict::Unreadable);
        };
        // As they were shown is never right, and nothing has been put in order yet.
        if given.is_empty() || right.len() > 1 && given == answer.order {
            return Marked::new(Verdict::Blank);
        }
        if given.len() < right.len() {
            return Marked::new(Verdict::Unreadable);
        }
        if given == *right {
            return Marked::new(Verdict::Right);
        }
        if let Some(early) = self.too_early(&given, right) {
            return Marked { html: part.facts.explain(early.why.as_ref()), ..Marked::new(Verdict::Unsafe) };
        }
        self.partly(&given, right, part)
    }

    fn view(&self, answer: &Answer, part: PartOf, _: &str) -> View {
        let items = answer.order.iter().filter_map(|place| Some((place, self.items.get(*place)?)));
        let view =
            |(place, item): (&usize, &Item)| OptionView { id: place.to_string(), html: part.facts.fill(&item.text) };
        View { form: Self::NAME, items: items.map(view).collect() }
    }

    fn outline(view: &View) -> Vec<Outline<'_>> {
        vec![Outline::Options(None, &view.items)]
    }

    fn shown(&self, answer: &Answer, part: PartOf) -> String {
        let items = answer.right.iter().filter_map(|place| self.items.get(*place));
        list("ol", items.map(|item| part.facts.fill(&item.text)))
    }

    fn exact(&self, answer: &Answer, _: PartOf) -> String {
        joined(&answer.right)
    }

    fn review(&self, answer: &Answer, part: PartOf) -> Reviewed {
        let items = answer.right.iter().filter_map(|place| self.items.get(*place));
        Reviewed::options(items.map(|item| {
            OptionReview::new(part.facts, part.facts.fill(&item.text), true, item.is_unsafe, item.why.as_ref())
        }))
    }

    fn prove(&self, _: &Answer, part: PartOf) -> Result<(), Found> {
        filled_alike(part.facts, part.id, self.items.iter().map(|item| &item.text))
    }
}

fn item(raw: &RawItem, kind: &mut Option<relief::Kind>, path: &Path, check: &mut Check) -> Option<Item> {
    let text = check.text(&raw.text, &path.key("text"));
    let why = check.why(raw.why.as_deref(), path);
    let is_unsafe = check.explained(raw.is_unsafe, raw.why.as_deref(), path);
    let by = match &raw.by {
        Some(by) => Some(computed(by, kind, &path.key("by"), check)?),
        None => None,
    };
    Some(Item { text, by, why, is_unsafe })
}

impl InOrder {
    /// The items in their right order: as their author wrote them, or by their values, of which no two may be equal.
    fn right(&self, id: &str, scope: &Scope) -> Result<Vec<usize>, DrawError> {
        let mut valued: Vec<(f64, usize)> = Vec::with_capacity(self.items.len());
        for (place, item) in self.items.iter().enumerate() {
            let Some(by) = &item.by else { continue };
            let value = by.quantity(scope).map_err(|error| DrawError::NoValue(id.to_owned(), error))?;
            // Put where it belongs, after its equals: shorter in the engine than a general sort.
            let rank = valued.partition_point(|(other, _)| other.total_cmp(&value.si).is_le());
            valued.insert(rank, (value.si, place));
        }
        if valued.is_empty() {
            return Ok((0..self.items.len()).collect());
        }
        let tie = valued.windows(2).any(|pair| (pair[1].0 - pair[0].0).abs() <= 1e-9 * pair[1].0.abs());
        if tie {
            return Err(DrawError::Tie(id.to_owned()));
        }
        if self.highest_first {
            valued.reverse();
        }
        Ok(valued.into_iter().map(|(_, place)| place).collect())
    }

    fn partly(&self, given: &[usize], right: &[usize], part: PartOf) -> Marked {
        let placed = given.iter().zip(right).take_while(|(given, right)| given == right).count();
        let (turned, twos) = (in_turn(given, right), right.len() * (right.len() - 1) / 2);
        let share = 2.0 * number(turned) / number(twos) - 1.0;
        let why = given.get(placed).and_then(|place| self.items.get(*place)).and_then(|item| item.why.as_ref());
        let marked = Marked::partly(percent(share), Verdict::WrongSequence);
        let marked = marked.counted([("placed", placed), ("of", right.len()), ("turned", turned), ("twos", twos)]);
        Marked { told: part.facts.explain(why).into_iter().collect(), ..marked }
    }

    /// The first item that is unsafe where it comes before what must come first, and does.
    fn too_early(&self, given: &[usize], right: &[usize]) -> Option<&Item> {
        let rank = |item: usize| right.iter().position(|place| *place == item);
        let early = |(at, place): &(usize, &usize)| given[at + 1..].iter().any(|later| rank(*later) < rank(**place));
        let mut unsafe_ones = given.iter().enumerate().filter(|(_, place)| self.items[**place].is_unsafe);
        unsafe_ones.find(early).map(|(_, place)| &self.items[*place])
    }
}

/// How many twos of items are in their right order.
fn in_turn(given: &[usize], right: &[usize]) -> usize {
    let rank = |item: &usize| right.iter().position(|place| place == item);
    let ranks: Vec<_> = given.iter().map(rank).collect();
    (1..ranks.len()).map(|later| ranks[..later].iter().filter(|earlier| **earlier < ranks[later]).count()).sum()
}
