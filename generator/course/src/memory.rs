//! What was read of lessons before, so that a course that is read again takes only as long as what has changed in it.
//!
//! A lesson is taken from here where its own file is the same to the byte and so is all that its text refers to. Only
//! lessons without a fault are kept.

use std::collections::{BTreeMap, BTreeSet};

use imagesize::ImageSize;

use crate::captions::Cue;
use crate::course::Block;
use crate::front::Front;
use crate::handouts::Offer;
use crate::markdown::{Entry, Page};
use crate::raw::RawLesson;
use crate::yaml::Tree;

/// The lessons of one course, as they were last read.
#[derive(Default)]
pub struct Memory {
    lessons: BTreeMap<String, Known>,
    surroundings: Option<Surroundings>,
}

/// A lesson that was read.
struct Known {
    text: String,
    matter: Matter,
    rendered: Option<(Page, Front)>,
}

/// The front matter of a lesson.
#[derive(Clone)]
pub(crate) struct Matter {
    pub(crate) raw: RawLesson,
    pub(crate) tree: Tree,
}

/// What texts refer to beside their own files. Where it changes, no text is taken from the memory.
#[derive(PartialEq)]
pub(crate) struct Surroundings {
    pub(crate) language: String,
    pub(crate) decimal_mark: char,
    pub(crate) terms: Vec<Entry>,
    pub(crate) lessons: BTreeSet<String>,
    pub(crate) recipes: BTreeSet<String>,
    pub(crate) images: BTreeMap<String, Option<ImageSize>>,
    pub(crate) handouts: BTreeMap<String, Offer>,
    pub(crate) captions: BTreeMap<String, Vec<Cue>>,
    pub(crate) relations: Vec<&'static str>,
}

impl Memory {
    /// The front matter of a lesson, if its file has not changed.
    pub(crate) fn matter(&self, file: &str, text: &str) -> Option<Matter> {
        self.same(file, text).map(|known| known.matter.clone())
    }

    /// The page of a lesson, if neither its file nor what it refers to has changed.
    pub(crate) fn rendered(&self, file: &str, text: &str) -> Option<(Page, Front)> {
        self.same(file, text)?.rendered.clone()
    }

    fn same(&self, file: &str, text: &str) -> Option<&Known> {
        self.lessons.get(file).filter(|known| known.text == text)
    }

    /// Forgets every page where what texts refer to has changed.
    pub(crate) fn surround(&mut self, now: Surroundings) {
        if self.surroundings.as_ref() != Some(&now) {
            self.lessons.values_mut().for_each(|known| known.rendered = None);
            self.surroundings = Some(now);
        }
    }

    /// Keeps a lesson that has no fault.
    pub(crate) fn keep(&mut self, file: &str, text: &str, matter: Matter, page: &Page, front: &Front) {
        // A whole file that it shows may change without it.
        let rendered = (!shows_files(&page.blocks)).then(|| (page.clone(), front.clone()));
        self.lessons.insert(file.to_owned(), Known { text: text.to_owned(), matter, rendered });
    }

    /// Forgets the lessons whose files are gone.
    pub(crate) fn retain(&mut self, files: &BTreeSet<&str>) {
        self.lessons.retain(|file, _| files.contains(file.as_str()));
    }
}

fn shows_files(blocks: &[Block]) -> bool {
    blocks.iter().any(|block| match block {
        Block::Shown(shown) => shown.file.is_some() || shows_files(&shown.becomes),
        _ => false,
    })
}
