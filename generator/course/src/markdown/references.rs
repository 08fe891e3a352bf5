//! What texts may refer to.

use std::collections::{BTreeMap, BTreeSet};

use imagesize::ImageSize;
use problems::DecimalMark;
use relief::Relation;

use super::math::Math;
use super::terms::Terms;
use crate::captions::Cue;
use crate::files::Sort;
use crate::handouts::Offer;
use crate::quantities::Finder;

/// The signal words of ANSI Z535, as they are written in every course; the theme has them in its language.
pub(crate) const SIGNALS: [&str; 4] = ["DANGER", "WARNING", "CAUTION", "NOTICE"];

/// What a text may refer to.
pub(crate) struct References<'s> {
    pub(crate) language: String,
    pub(crate) decimal_mark: char,
    pub(crate) terms: Terms,
    pub(crate) lessons: BTreeSet<String>,
    pub(crate) recipes: BTreeSet<String>,
    /// Pictures, by their path in the course, each with its size; none where it was refused.
    pub(crate) images: BTreeMap<String, Option<ImageSize>>,
    /// Files to hand out, and captions, by their path in the course.
    pub(crate) handouts: BTreeMap<String, Offer>,
    pub(crate) captions: BTreeMap<String, Vec<Cue>>,
    /// The signal words in the language, in the order of [`SIGNALS`].
    pub(crate) signals: [String; 4],
    pub(crate) math: Math,
    /// The files that a lesson may show whole.
    pub(crate) files: Vec<Whole<'s>>,
    pub(crate) finder: Finder,
    /// The relations of the course's own.
    pub(crate) relations: Vec<&'static Relation>,
}

impl References<'_> {
    /// The relation with an id: one of the core, or of the course.
    pub(crate) fn relation(&self, id: &str) -> Option<&'static Relation> {
        relief::find(id).or_else(|| self.relations.iter().find(|relation| relation.id == id).copied())
    }

    /// The ids of all relations.
    pub(crate) fn relation_ids(&self) -> impl Iterator<Item = &'static str> {
        relief::relations().map(|relation| relation.id).chain(self.relations.iter().map(|relation| relation.id))
    }

    /// The decimal mark of the course.
    pub(crate) fn mark(&self) -> DecimalMark {
        DecimalMark::of(self.decimal_mark)
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
