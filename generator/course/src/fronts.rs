//! The front matter of all files.

use std::collections::BTreeMap;

use faults::Code;
use problems::own::raw::RawRelation;
use problems::recipe::raw::RawRecipe;
use serde::de::DeserializeOwned;

use crate::captions::{self, Cue};
use crate::document::Source;
use crate::fault::Fault;
use crate::files::{Found, Sort};
use crate::folder::{Folder, HasId, Read};
use crate::handouts;
use crate::ids;
use crate::raw::{RawLesson, RawPicture, RawTerm};
use crate::reading::Reading;
use crate::threads::with_faults;

/// Reads the front matter of all files of a language.
pub(crate) fn folder<'a>(
    language: &'a str,
    sources: &'a [Source],
    found: &'a [Found],
    reading: &mut Reading,
) -> Folder<'a> {
    Folder {
        language,
        lessons: lessons(sources, reading),
        terms: all::<RawTerm>(sources, Sort::Term, ids::TAKEN_BESIDE_TERMS, reading),
        recipes: all::<RawRecipe>(sources, Sort::Recipe, ids::TAKEN_BESIDE_RECIPES, reading),
        pictures: all::<RawPicture>(sources, Sort::Picture, &figures(), reading),
        relations: all::<RawRelation>(sources, Sort::Relation, ids::TAKEN_BESIDE_TERMS, reading),
        images: reading.images(found),
        handouts: handouts::offers(found.iter().filter(|found| found.sort == Sort::Handout), &mut reading.faults),
        captions: captions(found, sources, &mut reading.faults),
    }
}

/// Reads every file of captions; of one that is no text there is no more than its name.
fn captions(found: &[Found], sources: &[Source], faults: &mut Vec<Fault>) -> BTreeMap<String, Vec<Cue>> {
    let named = found.iter().filter(|found| found.sort == Sort::Captions).map(|found| (found.file.clone(), Vec::new()));
    let sources = sources.iter().filter(|source| source.sort == Sort::Captions);
    named.chain(sources.map(|source| (source.file.clone(), captions::read(source, faults)))).collect()
}

/// What no picture may be called: the names of the figures that the tool draws.
fn figures() -> Vec<&'static str> {
    figures::FIGURES.iter().map(|figure| figure.id).collect()
}

/// Reads the front matter of every lesson that is not known.
fn lessons<'a>(sources: &'a [Source], reading: &mut Reading) -> Vec<Read<'a, RawLesson>> {
    let memory = reading.memory.take();
    let read = |source: &'a Source, faults: &mut Vec<Fault>| {
        let known = memory.as_ref().and_then(|memory| memory.matter(&source.file, &source.text));
        let known = known.and_then(|matter| Read::known(source, matter.raw, matter.tree));
        known.unwrap_or_else(|| Read::front(source, faults))
    };
    let reads = each(sources, Sort::Lesson, &read, reading);
    reading.memory = memory;
    reads
}

/// Reads the front matter of every file of a sort, beside which some ids are taken.
fn all<'a, T: HasId + DeserializeOwned + Send>(
    sources: &'a [Source],
    sort: Sort,
    taken: &[&str],
    reading: &mut Reading,
) -> Vec<Read<'a, T>> {
    let reads = each(sources, sort, &Read::front, reading);
    for read in reads.iter().filter(|read: &&Read<T>| taken.contains(&read.id.as_str())) {
        reading.faults.push(Fault::at(Code::IdTaken, read.id_place()).with("id", &read.id));
    }
    reads
}

/// Reads the files of a sort, no two of which have the same id.
fn each<'a, T: Send>(
    sources: &'a [Source],
    sort: Sort,
    front: &(dyn Fn(&'a Source, &mut Vec<Fault>) -> Read<'a, T> + Sync),
    reading: &mut Reading,
) -> Vec<Read<'a, T>> {
    let sources: Vec<_> = sources.iter().filter(|source| source.sort == sort).collect();
    let progress = &reading.progress;
    let reads = with_faults(&sources, &mut reading.faults, |source, faults| progress.done(front(source, faults)));
    ids::all(reads.iter().map(|read| (read.id.as_str(), || read.id_place())), &mut reading.faults);
    reads
}
