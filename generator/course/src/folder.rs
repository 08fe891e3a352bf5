//! The files of a course with their front matter read.

use std::collections::BTreeMap;

use serde::de::DeserializeOwned;

use crate::captions::Cue;
use crate::course::Images;
use crate::document::Source;
use crate::fault::{Fault, Place};
use crate::handouts::Offer;
use crate::raw::{RawLesson, RawPicture, RawTerm};
use crate::yaml::{Tree, Yaml, key};
use problems::own::raw::RawRelation;
use problems::recipe::raw::RawRecipe;

/// All files of a language.
pub(crate) struct Folder<'a> {
    pub(crate) language: &'a str,
    pub(crate) lessons: Vec<Read<'a, RawLesson>>,
    pub(crate) terms: Vec<Read<'a, RawTerm>>,
    pub(crate) recipes: Vec<Read<'a, RawRecipe>>,
    pub(crate) pictures: Vec<Read<'a, RawPicture>>,
    pub(crate) relations: Vec<Read<'a, RawRelation>>,
    pub(crate) images: Images,
    pub(crate) handouts: Vec<Offer>,
    /// Captions, by their path in the course.
    pub(crate) captions: BTreeMap<String, Vec<Cue>>,
}

/// One file after its front matter was read.
pub(crate) struct Read<'a, T> {
    pub(crate) source: &'a Source,
    pub(crate) yaml: Yaml<'a>,
    /// `None` where the front matter has faults.
    pub(crate) raw: Option<T>,
    /// The id; where the front matter could not be read, what it seems to be, so that links to it do not fault too.
    pub(crate) id: String,
    /// Where the Markdown starts.
    pub(crate) body: usize,
}

impl<'a, T: HasId> Read<'a, T> {
    /// Reads the front matter of a file.
    pub(crate) fn front(source: &'a Source, faults: &mut Vec<Fault>) -> Self
    where
        T: DeserializeOwned,
    {
        let (matter, body) = source.split().unwrap_or_else(|fault| {
            faults.push(fault);
            (0..0, source.text.len())
        });
        let yaml = Yaml::new(&source.file, &source.text[matter.clone()], matter.start);
        let raw: Option<T> = if matter.start > 0 { yaml.read(faults) } else { None };
        let guess = || yaml.tree()?.get("id")?.text().map(str::to_owned);
        let id = raw.as_ref().map(|raw| raw.id().to_owned()).or_else(guess);
        let id = id.unwrap_or_else(|| source.stem().to_owned());
        Self { source, yaml, raw, id, body }
    }

    /// A file whose front matter is known from an earlier reading.
    pub(crate) fn known(source: &'a Source, raw: T, tree: Tree) -> Option<Self> {
        let (matter, body) = source.split().ok()?;
        let yaml = Yaml::known(&source.file, &source.text[matter.clone()], matter.start, tree);
        Some(Self { source, yaml, id: raw.id().to_owned(), raw: Some(raw), body })
    }
}

impl<T> Read<'_, T> {
    pub(crate) fn id_place(&self) -> Place {
        self.yaml.place(&[key("id")])
    }
}

/// Front matter that has an id.
pub(crate) trait HasId {
    fn id(&self) -> &str;
}

macro_rules! has_id {
    ($($raw:ty),*) => {$(
        impl HasId for $raw {
            fn id(&self) -> &str {
                &self.id
            }
        }
    )*};
}

has_id!(RawLesson, RawTerm, RawRecipe, RawPicture, RawRelation);
