//! What a text becomes.

use std::collections::{BTreeMap, BTreeSet};

use problems::template::Template;

use crate::course::{Block, Heading};
use crate::fault::Place;
use crate::scenario::Scenario;

/// A part of a recipe's text: everything under one heading.
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

/// Where a lesson shows a recipe.
#[derive(Clone)]
pub(crate) struct Practised {
    pub(crate) recipe: String,
    pub(crate) place: Place,
}

/// What a text becomes, and what it uses.
#[derive(Clone, Default)]
pub(crate) struct Page {
    pub(crate) blocks: Vec<Block>,
    pub(crate) sections: Vec<Section>,
    pub(crate) headings: Vec<Heading>,
    pub(crate) words: usize,
    /// How many figures it has.
    pub(crate) figures: usize,
    /// Ids of the terms that are linked to, in the order of their first mention.
    pub(crate) terms: Vec<String>,
    pub(crate) anchors: Vec<AnchorUse>,
    pub(crate) images: BTreeSet<String>,
    /// The files that it hands out, and captions.
    pub(crate) handouts: BTreeSet<String>,
    /// How many pieces of sound and film it has.
    pub(crate) media: usize,
    /// The recipes that are shown, in their order.
    pub(crate) practised: Vec<Practised>,
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

    /// Adds HTML, if there is any.
    pub(super) fn push_html(&mut self, html: String) {
        if !html.is_empty() {
            self.blocks.push(Block::Html(html));
        }
    }

    /// The HTML of a text that has none of our blocks.
    pub(crate) fn into_html(self) -> String {
        let html = self.blocks.into_iter().filter_map(|block| match block {
            Block::Html(html) => Some(html),
            _ => None,
        });
        html.collect()
    }
}
