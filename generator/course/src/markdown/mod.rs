//! Markdown to HTML: each file is parsed once, and every address, formula and block is checked meanwhile.

mod beginnings;
mod blocks;
mod braces;
mod characters;
mod checking;
mod code;
mod computed;
mod events;
mod explained;
mod figure_block;
mod file_block;
mod flow;
mod formulas;
mod headings;
mod html;
mod images;
mod inside;
mod lines;
mod links;
mod lookalikes;
mod math;
mod media_block;
mod mentions;
mod notes;
mod open;
mod page;
mod paths;
mod references;
mod run;
mod sections;
mod signals;
mod sources;
mod tables;
mod tags;
mod terms;
mod text;
mod walk;
mod work_block;

pub(crate) use lines::Lines;
pub(crate) use math::Math;
pub(crate) use page::{Page, Practised, Section};
pub(crate) use paths::in_course;
pub(crate) use references::{References, SIGNALS, Whole};
pub(crate) use terms::{Entry, Terms};
pub(crate) use text::{Mode, Text};

use checking::Checking;
use walk::Walk;

use crate::fault::Fault;

/// Turns a text into HTML and blocks, and collects its faults.
pub(crate) fn render<'a>(references: &'a References<'a>, text: Text<'a>, faults: &mut Vec<Fault>) -> Page {
    Walk::new(Checking { text, references, faults }).page()
}

#[cfg(test)]
mod tests;
