//! Checking what is put in order and what is matched.

use core::ops::RangeInclusive;

use faults::Code;

use super::check::{Check, Way};
use super::choices::{explained, words};
use super::raw::{RawAsk, RawItem};
use super::{Item, OrderAsk, Pairing, PairsAsk};
use crate::formula::Formula;

/// Fewer are guessed; more are not held in mind at once.
pub(super) const SIZE: RangeInclusive<usize> = 3..=8;

pub(super) fn in_order(raw: &RawAsk, way: &Way, check: &mut Check) -> Option<OrderAsk> {
    let items = raw.items.as_deref().unwrap_or_default();
    let inside = way.key("items");
    size(items.len(), Code::RecipeItemsCount, &inside, check);
    let valued = items.iter().filter(|item| item.by.is_some()).count();
    if valued != 0 && valued != items.len() {
        check.faults.push(inside.fault(Code::RecipeItemsBy));
    }
    if raw.highest_first.is_some() && valued == 0 {
        check.faults.push(way.key("highest_first").fault(Code::RecipeHighestOfWords));
    }
    let mut kind = None;
    let all = items.iter().enumerate().filter_map(|(index, raw)| item(raw, &mut kind, &inside.index(index), check));
    Some(OrderAsk { items: all.collect(), highest_first: raw.highest_first.unwrap_or(false) })
}

fn item(raw: &RawItem, kind: &mut Option<relief::Kind>, way: &Way, check: &mut Check) -> Option<Item> {
    let say = words(&raw.say, &way.key("say"), check);
    let why = raw.why.as_deref().map(|why| words(why, &way.key("why"), check));
    let is_unsafe = explained(raw.is_unsafe, raw.why.as_deref(), way, check);
    let Some(by) = &raw.by else { return Some(Item { say, by: None, why, is_unsafe }) };
    let way = way.key("by");
    let formula = Formula::read(by, &check.names, *kind).map_err(|faults| check.told(by, &way, faults));
    let formula = check.keep(formula)?;
    kind.get_or_insert(formula.kind());
    Some(Item { say, by: Some(formula.into_node()), why, is_unsafe })
}

pub(super) fn pairs(raw: &RawAsk, way: &Way, check: &mut Check) -> Option<PairsAsk> {
    let pairs = raw.pairs.as_deref().unwrap_or_default();
    let inside = way.key("pairs");
    size(pairs.len(), Code::RecipePairsCount, &inside, check);
    let all: Vec<_> = (pairs.iter().enumerate())
        .map(|(index, raw)| {
            let way = inside.index(index);
            Pairing {
                item: words(&raw.item, &way.key("item"), check),
                with: words(&raw.with, &way.key("with"), check),
                why: raw.why.as_deref().map(|why| words(why, &way.key("why"), check)),
                is_unsafe: explained(raw.is_unsafe, raw.why.as_deref(), &way, check),
            }
        })
        .collect();
    let spares = way.key("spare");
    let spare: Vec<_> = (raw.spare.iter().flatten().enumerate())
        .map(|(index, text)| words(text, &spares.index(index), check))
        .collect();
    Some(PairsAsk { pairs: all, spare })
}

fn size(found: usize, code: Code, way: &Way, check: &mut Check) {
    if !SIZE.contains(&found) {
        let fault = way.fault(code).with("found", found);
        check.faults.push(fault.with("least", SIZE.start()).with("most", SIZE.end()));
    }
}
