//! Our blocks in a lesson: `practice`, `work`, `figure`, `media` and `file` with YAML inside, `shown` with Markdown.

use std::ops::Range;

use faults::Code;

use super::checking::Checking;
use super::inside::Inside;
use super::page::{Page, Practised};
use super::{figure_block, file_block, media_block, work_block};
use crate::course::{Block, Practice};
use crate::yaml::{Yaml, key};

/// The block with Markdown inside.
pub(super) const SHOWN: &str = "shown";

const NAMES: [&str; 6] = ["practice", "work", "figure", "media", SHOWN, "file"];

/// Whether a block of code is one of ours. A name that is nearly one is a fault.
pub(super) fn is_ours(name: &str, range: &Range<usize>, inside: &Range<usize>, checking: &mut Checking) -> bool {
    if NAMES.contains(&name) {
        return true;
    }
    let first_line = checking.text.first_line(range);
    if name.is_empty() {
        nameless(&first_line, inside, checking);
    }
    if let Some(near) = faults::nearest(name, NAMES) {
        let fault = checking.text.fault(Code::BlockUnknown, &first_line);
        checking.tell(fault.with("name", name).with("nearest", near));
    }
    false
}

/// A block without a name that begins as one of ours does.
fn nameless(first_line: &Range<usize>, inside: &Range<usize>, checking: &mut Checking) {
    let body = checking.text.body();
    let key = body[inside.clone()].split(':').next().unwrap_or_default().trim();
    let meant = [("recipe", "practice"), ("relation", "work"), ("show", "figure")];
    let fenced = body[first_line.clone()].starts_with(['`', '~']);
    if let Some((_, name)) = meant.iter().find(|(first, _)| fenced && *first == key) {
        checking.tell(checking.text.fault(Code::BlockNameless, first_line).with("name", name));
    }
}

/// Reads one of our blocks with YAML inside.
pub(super) fn of_yaml(
    name: &str,
    range: &Range<usize>,
    inside: &Range<usize>,
    page: &mut Page,
    checking: &mut Checking,
) -> Option<Block> {
    let text = checking.text;
    // From the start of the line, where there is one inside: the indent belongs to the YAML.
    let line = text.body()[..inside.start].rfind('\n').map_or(0, |newline| newline + 1);
    let start = if inside.is_empty() { inside.start } else { line.max(range.start) };
    let base = text.base + start;
    let source = text.source.get(base..text.base + inside.end).unwrap_or_default();
    let inside = Inside::read(Yaml::new(text.file, source, base), checking.faults)?;
    match name {
        "practice" => practice(&inside, page, checking),
        "work" => work_block::block(&inside, page, checking),
        "media" => media_block::block(&inside, page, checking),
        "figure" => figure_block::block(&inside, page, checking),
        _ => file_block::block(&inside, checking),
    }
}

fn practice(inside: &Inside, page: &mut Page, checking: &mut Checking) -> Option<Block> {
    inside.refuse_others(&["recipe"], checking.faults);
    let recipe = inside.needed("recipe", checking.faults)?;
    let known = &checking.references.recipes;
    if !known.contains(recipe) {
        let known = known.iter().map(String::as_str);
        checking.tell(inside.unknown_id(Code::RecipeUnknown, "recipe", recipe, known));
        return None;
    }
    let place = inside.yaml.place_of_value(&[key("recipe")], recipe);
    page.practised.push(Practised { recipe: recipe.to_owned(), place });
    Some(Block::Practice(Practice { recipe: recipe.to_owned() }))
}
