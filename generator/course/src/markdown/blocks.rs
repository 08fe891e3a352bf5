//! Our blocks in a lesson: `practice`, `work`, `figure`, `media` and `file` with YAML inside, `shown` with Markdown.

use std::ops::Range;

use faults::Code;
use problems::template::is_name;

use super::checking::Checking;
use super::inside::Inside;
use super::page::{Page, Practised};
use super::{figure_block, file_block, media_block, work_block};
use crate::course::{Block, Practice};
use crate::fault::Fault;
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
    if let Some(near) = faults::nearest(name, NAMES).or_else(|| begun(name, inside, checking)) {
        let fault = checking.text.fault(Code::BlockUnknown, &first_line);
        checking.tell(fault.with("name", name).with("nearest", near));
    }
    false
}

/// The block of ours that a block of another name begins as, unless the name is that of a language in which a course
/// shows code.
fn begun(name: &str, inside: &Range<usize>, checking: &Checking) -> Option<&'static str> {
    let is_code = name.is_empty() || CODE.contains(&name.to_ascii_lowercase().as_str());
    if is_code { None } else { meant(inside, checking) }
}

/// Languages in which the files of a course are written.
const CODE: [&str; 6] = ["yaml", "yml", "md", "markdown", "text", "txt"];

/// The block of ours that begins with the key that stands first in a block.
fn meant(inside: &Range<usize>, checking: &Checking) -> Option<&'static str> {
    let key = checking.text.body()[inside.clone()].split(':').next().unwrap_or_default().trim();
    let meant = [("recipe", "practice"), ("relation", "work"), ("show", "figure")];
    meant.iter().find(|(first, _)| *first == key).map(|(_, name)| *name)
}

/// A block without a name that begins as one of ours does.
fn nameless(first_line: &Range<usize>, inside: &Range<usize>, checking: &mut Checking) {
    let fenced = checking.text.body()[first_line.clone()].starts_with(['`', '~']);
    if let Some(name) = meant(inside, checking).filter(|_| fenced) {
        checking.tell(checking.text.fault(Code::BlockNameless, first_line).with("name", name));
    }
}

/// The fault of a block with keys that was not closed: it goes on to another fence, or over a blank line into a text. It is
/// told at the line that opens it, with the last line that seems to belong to it.
pub(super) fn unclosed(range: &Range<usize>, inside: &Range<usize>, checking: &Checking) -> Option<Fault> {
    let text = checking.text;
    let lines: Vec<_> = lines(&text.body()[inside.clone()], inside.start).collect();
    let blank = lines.iter().position(|(_, line)| line.trim().is_empty()).unwrap_or(lines.len());
    let is_fence = |line: &str| line.trim_start().starts_with("```") || line.trim_start().starts_with("~~~");
    let fence = lines.iter().find(|(_, line)| is_fence(line));
    let runs_on = fence.is_some() || lines[blank..].iter().any(|(_, line)| is_text(line));
    let last = lines[..blank].iter().rev().find(|(_, line)| !is_fence(line)).map_or("", |(_, line)| line.trim());
    let fault = text.fault(Code::BlockUnclosed, &text.first_line(range)).with("last", last);
    let with_next = |fault: Fault| match fence {
        Some((at, line)) => fault.also(text.place(&(*at..at + line.len())), "next"),
        None => fault,
    };
    runs_on.then(|| with_next(fault))
}

/// The lines of a part of a text with the places of their first bytes.
fn lines(part: &str, start: usize) -> impl Iterator<Item = (usize, &str)> {
    let mut at = start;
    part.split_inclusive('\n').map(move |line| {
        let from = at;
        at += line.len();
        (from, line.trim_end_matches(['\n', '\r']))
    })
}

/// Whether a line is no line of keys: no key, no item, nothing that belongs to the one above it.
fn is_text(line: &str) -> bool {
    let key = line.split_once(':').is_some_and(|(key, _)| is_name(key.trim()));
    !(line.trim().is_empty() || key || line.starts_with([' ', '#', '-', '}', ']']))
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
