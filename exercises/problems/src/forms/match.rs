//! Items to match with their partners.

use faults::Code;
use serde::{Deserialize, Serialize};

use super::common::{list, number, percent};
use super::form::AnswerForm;
use super::in_order::SIZE;
use super::keys::{PartKeys, SaidText, keys};
use crate::facts::{DrawError, Facts, PartOf};
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

/// Items to match with their partners.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Match {
    /// The items, each with its partner.
    pub pairs: Vec<Pairing>,
    /// Partners that go with nothing.
    pub extra: Vec<Template>,
}

/// An item and its partner.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Pairing {
    /// The item.
    pub item: Template,
    /// What goes with it.
    pub with: Template,
    /// Why.
    pub why: Option<Template>,
    /// Whether somebody who gives it another partner can be hurt.
    #[serde(skip_serializing_if = "is_false")]
    pub is_unsafe: bool,
}

stored_fields!(Match { pairs, extra });
stored_fields!(Pairing { item, with, why, is_unsafe });

keys! {
    /// The keys of items to match.
    Keys {
        /// What is to be matched.
        pairs: Vec<RawPairing>,
        /// Partners that go with nothing.
        #[cfg_attr(feature = "schema", schemars(with = "Option<Vec<schema::Scalar>>"))]
        extra: Vec<String>,
    }
}

/// An item and its partner.
#[derive(Debug, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(crate) struct RawPairing {
    /// The item, with holes.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Scalar"))]
    pub item: String,
    /// What goes with it, with holes.
    #[cfg_attr(feature = "schema", schemars(with = "schema::Scalar"))]
    pub with: String,
    /// Why.
    pub why: Option<String>,
    /// `true`: who gives this item another partner can be hurt. Then it needs a `why`.
    #[serde(default, rename = "unsafe")]
    pub is_unsafe: bool,
}

/// The orders in which items and partners are shown: the partners of the pairs first, then the extra ones.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Answer {
    items: Vec<usize>,
    partners: Vec<usize>,
}

/// The items and the partners, in the order to show them.
#[derive(Debug, Serialize)]
pub(crate) struct View {
    form: &'static str,
    items: Vec<OptionView>,
    partners: Vec<OptionView>,
}

impl AnswerForm for Match {
    const NAME: &'static str = "match";
    const KEYS: &'static [&'static str] = &["pairs", "extra"];
    #[cfg(feature = "schema")]
    const NEEDED: &'static [&'static str] = &["pairs"];
    type Keys = Keys;
    type Answer = Answer;
    type View = View;

    #[cfg(feature = "schema")]
    fn counts() -> serde_json::Value {
        serde_json::json!({ "pairs": { "minItems": SIZE.start(), "maxItems": SIZE.end() } })
    }

    fn check(PartKeys { own, .. }: PartKeys<Keys>, path: &Path, check: &mut Check) -> Option<Self> {
        let pairs = own.pairs.as_deref().unwrap_or_default();
        let inside = path.key("pairs");
        check.size(pairs.len(), SIZE, Code::RecipePairsCount, &inside);
        let pairs = pairs.iter().enumerate().map(|(index, raw)| pairing(raw, &inside.index(index), check)).collect();
        let extras = path.key("extra");
        let extra = own.extra.iter().flatten().enumerate();
        let extra = extra.map(|(index, text)| check.text(text, &extras.index(index))).collect();
        Some(Self { pairs, extra })
    }

    fn texts<'k>(keys: PartKeys<'k, Keys>) -> Vec<SaidText<'k>> {
        let extra = keys.own.extra.iter().flatten().enumerate();
        let extra = extra.map(|(place, text)| SaidText { listed: Some(("extra", place)), key: None, text });
        let pairs = keys.own.pairs.iter().flatten().enumerate().flat_map(|(place, pair)| {
            let words = [("item", Some(pair.item.as_str())), ("with", Some(&pair.with)), ("why", pair.why.as_deref())];
            words.map(|(key, text)| (place, key, text))
        });
        let pairs = pairs.filter_map(|(place, key, text)| Some(SaidText::listed("pairs", place, key, text?)));
        extra.chain(pairs).collect()
    }

    fn names_danger(&self) -> bool {
        self.pairs.iter().any(|pair| pair.is_unsafe)
    }

    fn draw(&self, id: &str, seed: &Seed, _: &mut Facts) -> Result<Answer, DrawError> {
        let mut stream = seed.stream(id);
        let items = stream.shuffled(self.pairs.len());
        Ok(Answer { items, partners: stream.shuffled(self.partners()) })
    }

    /// Each right pair counts its share; each wrong one takes away what guessing would bring; what is left open neither.
    fn mark(&self, _: &Answer, part: PartOf, answers: &Typed) -> Marked {
        let Some(made) = self.read(typed(answers, part.id)) else { return Marked::new(Verdict::Unreadable) };
        if made.is_empty() {
            return Marked::new(Verdict::Blank);
        }
        let count = self.pairs.len();
        let wrong: Vec<_> = made.iter().filter(|(item, partner)| item != partner).map(|(item, _)| *item).collect();
        let hits = made.len() - wrong.len();
        let marked = if hits == count { Marked::new(Verdict::Right) } else { self.partly(hits, &wrong, part) };
        let counts = [("right", hits), ("wrong", wrong.len()), ("missing", count - made.len()), ("of", count)];
        marked.counted(counts)
    }

    fn view(&self, answer: &Answer, part: PartOf, _: &str) -> View {
        let view = |place: &usize, text: Option<&Template>| OptionView {
            id: place.to_string(),
            html: text.map(|text| part.facts.fill(text)).unwrap_or_default(),
        };
        let items = answer.items.iter().map(|place| view(place, self.pairs.get(*place).map(|pair| &pair.item)));
        let partners = answer.partners.iter().map(|place| view(place, self.all_partners().nth(*place)));
        View { form: Self::NAME, items: items.collect(), partners: partners.collect() }
    }

    fn outline(view: &View) -> Vec<Outline<'_>> {
        vec![Outline::Options(None, &view.items), Outline::Options(Some("command.draw.partners"), &view.partners)]
    }

    fn shown(&self, _: &Answer, part: PartOf) -> String {
        let line = |pair: &Pairing| format!("{} – {}", part.facts.fill(&pair.item), part.facts.fill(&pair.with));
        list("ul", self.pairs.iter().map(line))
    }

    fn exact(&self, _: &Answer, _: PartOf) -> String {
        (0..self.pairs.len()).map(|place| format!("{place}={place}")).collect::<Vec<_>>().join(" ")
    }

    fn review(&self, _: &Answer, part: PartOf) -> Reviewed {
        let facts = part.facts;
        let pairs = self.pairs.iter().map(|pair| {
            let html = format!("{}: {}", facts.fill(&pair.item), facts.fill(&pair.with));
            OptionReview::new(facts, html, true, pair.is_unsafe, pair.why.as_ref())
        });
        let extra = self.extra.iter().map(|extra| OptionReview::new(facts, facts.fill(extra), false, false, None));
        Reviewed::options(pairs.chain(extra))
    }

    fn prove(&self, _: &Answer, part: PartOf) -> Result<(), Found> {
        filled_alike(part.facts, part.id, self.pairs.iter().map(|pair| &pair.item))?;
        filled_alike(part.facts, part.id, self.all_partners())
    }
}

fn pairing(raw: &RawPairing, path: &Path, check: &mut Check) -> Pairing {
    Pairing {
        item: check.text(&raw.item, &path.key("item")),
        with: check.text(&raw.with, &path.key("with")),
        why: check.why(raw.why.as_deref(), path),
        is_unsafe: check.explained(raw.is_unsafe, raw.why.as_deref(), path),
    }
}

impl Match {
    /// The partners by their places: those of the pairs first, then the extra ones.
    fn all_partners(&self) -> impl Iterator<Item = &Template> {
        self.pairs.iter().map(|pair| &pair.with).chain(&self.extra)
    }

    fn partners(&self) -> usize {
        self.pairs.len() + self.extra.len()
    }

    /// The pairs that a learner made, by item; `None` where the text is anything else.
    fn read(&self, typed: &str) -> Option<Vec<(usize, usize)>> {
        let (items, partners) = (self.pairs.len(), self.partners());
        let mut all: Vec<(usize, usize)> = Vec::new();
        for word in typed.split_whitespace() {
            let (item, partner) = word.split_once('=')?;
            let item = item.parse().ok().filter(|item| *item < items && !all.iter().any(|(known, _)| known == item))?;
            all.push((item, partner.parse().ok().filter(|partner| *partner < partners)?));
        }
        Some(all)
    }

    fn partly(&self, hits: usize, wrong: &[usize], part: PartOf) -> Marked {
        let is_unsafe = |item: &&usize| self.pairs[**item].is_unsafe;
        let why = |item: &usize| part.facts.explain(self.pairs[*item].why.as_ref());
        if wrong.iter().any(|item| is_unsafe(&item)) {
            let told = wrong.iter().filter(is_unsafe).filter_map(why).collect();
            return Marked { told, ..Marked::new(Verdict::Unsafe) };
        }
        let share = (number(hits) - number(wrong.len()) / number(self.partners() - 1)) / number(self.pairs.len());
        let told = wrong.iter().filter_map(why).collect();
        Marked { told, ..Marked::partly(percent(share), Verdict::WrongPairs) }
    }
}
