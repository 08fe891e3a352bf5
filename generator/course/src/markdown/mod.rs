//! Markdown into HTML: one parse a file, every address, formula and block checked on the way.

mod beginnings;
mod blocks;
mod braces;
mod characters;
mod computed;
mod formulas;
mod images;
mod links;
mod lookalikes;
mod math;
mod notes;
mod run;
mod shown;
mod sources;
mod structure;
mod tables;
mod terms;
mod writer;

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use pulldown_cmark::{Event, Options, Parser};

pub(crate) use computed::filled;
pub(crate) use math::Math;
pub(crate) use sources::unsourced;
pub(crate) use terms::{Entry, Terms};

use crate::course::{Block, Heading};
use crate::fault::{Fault, Place};
use crate::files::Sort;
use crate::quantities::Finder;
use crate::scenario::Scenario;
use crate::steps::Steps;
use crate::threads::with_faults;
use crate::warn::Shown;
use imagesize::ImageSize;
use problems::display::Mark;
use problems::template::Template;
use writer::Writer;

/// Characters that mark holes between the parts of a recipe's HTML. Files that hold them are refused.
pub(crate) const MARKS: [char; 2] = ['\u{e000}', '\u{e001}'];

/// The signal words of ANSI Z535, as they are written in every course; the theme has them in its language.
pub(crate) const SIGNALS: [&str; 4] = ["DANGER", "WARNING", "CAUTION", "NOTICE"];

/// The deepest that a text nests.
const MOST_DEPTH: usize = 40;

/// What a text may use, and what is checked in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Mode {
    /// A lesson: everything.
    Lesson,
    /// The text of a term: no headings, blocks or notes.
    Term,
    /// The text of a recipe: sections with holes.
    Recipe,
}

/// What a text may refer to.
pub(crate) struct Shelf<'s> {
    pub(crate) language: String,
    pub(crate) decimal_mark: char,
    pub(crate) terms: Terms,
    pub(crate) lessons: BTreeSet<String>,
    pub(crate) recipes: BTreeSet<String>,
    /// Pictures, by their path in the course.
    /// Each picture with its size, where it says one.
    pub(crate) images: BTreeMap<String, Option<ImageSize>>,
    /// The signal words in the language, in the order of [`SIGNALS`].
    pub(crate) signals: [String; 4],
    pub(crate) math: Math,
    /// The files that a lesson may show whole.
    pub(crate) files: Vec<Whole<'s>>,
    pub(crate) finder: Finder,
}

impl Shelf<'_> {
    /// The decimal mark of the course.
    pub(crate) fn mark(&self) -> Mark {
        Mark::of(self.decimal_mark)
    }
}

/// A file that a lesson may show.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Whole<'s> {
    pub(crate) sort: Sort,
    pub(crate) id: &'s str,
    pub(crate) file: &'s str,
    /// What is shown of it: of a lesson, the front matter.
    pub(crate) text: &'s str,
}

/// A text and where it stands.
#[derive(Clone, Copy)]
pub(crate) struct Text<'a> {
    pub(crate) file: &'a str,
    /// The whole file.
    pub(crate) source: &'a str,
    /// Where the Markdown starts in it.
    pub(crate) base: usize,
    pub(crate) mode: Mode,
    /// The term whose text it is.
    pub(crate) own_term: Option<&'a str>,
    /// The made-up numbers that it may name.
    pub(crate) scenario: &'a Scenario,
}

impl<'a> Text<'a> {
    /// The Markdown.
    pub(crate) fn body(&self) -> &'a str {
        &self.source[self.base..]
    }

    /// Bytes of the Markdown as a place.
    pub(crate) fn place(&self, range: &Range<usize>) -> Place {
        Place::new(self.file, self.base + range.start..self.base + range.end)
    }
}

/// A part of a recipe's text: what stands under one heading.
#[derive(Clone)]
pub(crate) struct Section {
    pub(crate) title: String,
    pub(crate) place: Place,
    pub(crate) template: Template,
    /// Where each hole is.
    pub(crate) holes: BTreeMap<String, Place>,
}

/// A heading of a lesson that something links to.
#[derive(Clone)]
pub(crate) struct AnchorUse {
    /// The lesson; `None` for the one that the link is in.
    pub(crate) lesson: Option<String>,
    pub(crate) anchor: String,
    pub(crate) place: Place,
}

/// What a text gives.
#[derive(Clone, Default)]
pub(crate) struct Page {
    pub(crate) blocks: Vec<Block>,
    pub(crate) sections: Vec<Section>,
    pub(crate) headings: Vec<Heading>,
    pub(crate) words: usize,
    /// Ids of the terms that are linked to, in the order of their first mention.
    pub(crate) terms: Vec<String>,
    pub(crate) anchors: Vec<AnchorUse>,
    pub(crate) images: BTreeSet<String>,
    /// The recipes that are shown, in their order.
    pub(crate) practised: Vec<Shown>,
    /// The places of the values of the scenario that it names.
    pub(crate) given: BTreeSet<usize>,
}

impl Page {
    /// Notes that a value of the scenario is used.
    pub(crate) fn use_given(&mut self, place: usize) {
        self.given.insert(place);
    }

    /// Notes that the values are used that a formula names.
    pub(crate) fn use_named(&mut self, scenario: &Scenario, formula: &str) {
        self.given.extend(scenario.named_in(formula));
    }

    /// The HTML of a text that has no blocks of ours.
    pub(crate) fn into_html(self) -> String {
        let html = self.blocks.into_iter().filter_map(|block| match block {
            Block::Html(html) => Some(html),
            _ => None,
        });
        html.collect()
    }
}

type Events<'e, 'a> = &'e [(Event<'a>, Range<usize>)];

/// Renders many texts. Pages and faults come in the order of the texts.
pub(crate) fn render_all(shelf: &Shelf, texts: &[Text], steps: &Steps, faults: &mut Vec<Fault>) -> Vec<Page> {
    with_faults(texts, faults, |text, faults| steps.done(render(shelf, *text, faults)))
}

/// Turns a text into HTML and blocks, and collects its faults.
pub(crate) fn render<'a>(shelf: &'a Shelf<'a>, text: Text<'a>, faults: &mut Vec<Fault>) -> Page {
    let mut writer = Writer::new(shelf, text, faults);
    writer.take_all(0..text.body().len());
    writer.finish()
}

/// The events of Markdown that starts at a byte of the text.
fn events(markdown: &str, start: usize) -> Vec<(Event<'_>, Range<usize>)> {
    let options = Options::ENABLE_TABLES | Options::ENABLE_FOOTNOTES | Options::ENABLE_MATH;
    let moved = |(event, range): (_, Range<usize>)| (event, range.start + start..range.end + start);
    let mut events = Vec::with_capacity(markdown.len() / 16);
    events.extend(Parser::new_ext(markdown, options).into_offset_iter().map(moved));
    events
}

#[cfg(test)]
mod tests;
