//! Markdown into HTML: one parse a file, every address, formula and block checked on the way.

mod blocks;
mod computed;
mod formulas;
mod images;
mod links;
mod math;
mod notes;
mod run;
mod structure;
mod tables;
mod terms;
mod writer;

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use pulldown_cmark::{Event, Options, Parser};

pub(crate) use math::Math;
pub(crate) use terms::{Entry, Terms};

use crate::course::{Block, Heading};
use crate::fault::{Fault, Place};
use crate::steps::Steps;
use crate::threads::{FEWEST_FILES, on_threads};
use crate::warn::Shown;
use problems::template::Template;
use writer::Writer;

/// From every page with text to the top of the site: lessons, terms and relations all stand two folders deep.
pub(crate) const ROOT: &str = "../../";

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
pub(crate) struct Shelf {
    pub(crate) language: String,
    pub(crate) decimal_mark: char,
    pub(crate) terms: Terms,
    pub(crate) lessons: BTreeSet<String>,
    pub(crate) recipes: BTreeSet<String>,
    /// Pictures, by their path in the course.
    pub(crate) images: BTreeSet<String>,
    /// The signal words in the language, in the order of [`SIGNALS`].
    pub(crate) signals: [String; 4],
    pub(crate) math: Math,
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
pub(crate) struct Section {
    pub(crate) title: String,
    pub(crate) place: Place,
    pub(crate) template: Template,
    /// Where each hole is.
    pub(crate) holes: BTreeMap<String, Place>,
}

/// A heading of a lesson that something links to.
pub(crate) struct AnchorUse {
    /// The lesson; `None` for the one that the link is in.
    pub(crate) lesson: Option<String>,
    pub(crate) anchor: String,
    pub(crate) place: Place,
}

/// What a text gives.
#[derive(Default)]
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
}

impl Page {
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
    let rendered = on_threads(texts, FEWEST_FILES, |text| {
        let mut faults = Vec::new();
        (steps.done(render(shelf, *text, &mut faults)), faults)
    });
    let page = |(page, found)| {
        faults.extend::<Vec<_>>(found);
        page
    };
    rendered.into_iter().map(page).collect()
}

/// Turns a text into HTML and blocks, and collects its faults.
pub(crate) fn render<'a>(shelf: &'a Shelf, text: Text<'a>, faults: &mut Vec<Fault>) -> Page {
    let options = Options::ENABLE_TABLES | Options::ENABLE_FOOTNOTES | Options::ENABLE_MATH;
    let mut events = Vec::with_capacity(text.body().len() / 16);
    events.extend(Parser::new_ext(text.body(), options).into_offset_iter());
    let mut writer = Writer::new(shelf, text, faults);
    let mut rest: Events = &events;
    while !rest.is_empty() {
        let used = writer.take(rest);
        rest = &rest[used.clamp(1, rest.len())..];
    }
    writer.finish()
}

#[cfg(test)]
mod tests;
