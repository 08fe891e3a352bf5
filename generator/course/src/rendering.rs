//! The texts of all files, rendered.

use std::iter::once;

use crate::Words;
use crate::check;
use crate::document::Source;
use crate::fault::Fault;
use crate::folder::{Folder, Read};
use crate::front::Front;
use crate::markdown::{Entry, Math, Mode, Page, References, SIGNALS, Terms, Text, Whole, render};
use crate::memory::{Matter, Memory, Surroundings};
use crate::quantities::Finder;
use crate::raw::{RawCourse, RawLesson, RawTerm};
use crate::reading::Reading;
use crate::relation::Relations;
use crate::scenario::{self, Scenario};
use crate::threads::with_faults;

/// The texts of all files, in the order of the folder.
pub(crate) struct Pages {
    pub(crate) lessons: Vec<Page>,
    pub(crate) fronts: Vec<Option<Front>>,
    pub(crate) terms: Vec<Page>,
    pub(crate) recipes: Vec<Page>,
    pub(crate) relations: Vec<Page>,
}

impl Pages {
    /// Renders every text.
    pub(crate) fn of(
        folder: &Folder,
        raw: Option<&RawCourse>,
        words: &dyn Words,
        relations: &Relations,
        reading: &mut Reading,
    ) -> Self {
        check::wordings(&folder.terms, &mut reading.faults);
        let references = references(folder, decimal_sign(raw), words, relations);
        let (lessons, fronts) = lessons(folder, &references, reading);
        let terms = all(&folder.terms, Mode::Term, &references, reading);
        let recipes = all(&folder.recipes, Mode::Recipe, &references, reading);
        let relations = all(&folder.relations, Mode::Term, &references, reading);
        Self { lessons, fronts, terms, recipes, relations }
    }

    /// All texts.
    pub(crate) fn all(&self) -> impl Iterator<Item = &Page> {
        self.lessons.iter().chain(&self.terms).chain(&self.recipes).chain(&self.relations)
    }
}

/// The character of the decimal mark; a point where none could be read.
pub(crate) fn decimal_sign(raw: Option<&RawCourse>) -> char {
    raw.and_then(|raw| raw.decimal_mark.chars().next()).unwrap_or('.')
}

/// Renders the texts of a sort of files that have no scenario.
fn all<T: Sync>(reads: &[Read<T>], mode: Mode, references: &References, reading: &mut Reading) -> Vec<Page> {
    let progress = &reading.progress;
    with_faults(reads, &mut reading.faults, |read, faults| progress.done(render(references, text(read, mode), faults)))
}

/// Renders the lessons, each with the values of its scenario.
fn lessons(folder: &Folder, references: &References, reading: &mut Reading) -> (Vec<Page>, Vec<Option<Front>>) {
    let progress = &reading.progress;
    let Some(memory) = reading.memory.as_deref_mut() else {
        let read = |read, faults: &mut Vec<Fault>| progress.done(lesson(read, references, faults));
        return with_faults(&folder.lessons, &mut reading.faults, read).into_iter().unzip();
    };
    memory.surround(surroundings(folder, references));
    let known = &*memory;
    let read = |read: &Read<RawLesson>, faults: &mut Vec<Fault>| {
        let Source { file, text, .. } = read.source;
        if let Some((page, front)) = known.rendered(file, text) {
            return (page, Some(front), false);
        }
        let (page, front) = lesson(read, references, faults);
        (page, front, faults.is_empty())
    };
    let read = with_faults(&folder.lessons, &mut reading.faults, read);
    remember(memory, &folder.lessons, &read);
    read.into_iter().map(|(page, front, _)| (page, front)).unzip()
}

/// Renders a lesson with the values of its scenario, and reads what it says of itself.
fn lesson(read: &Read<RawLesson>, references: &References, faults: &mut Vec<Fault>) -> (Page, Option<Front>) {
    let scenario = |raw: &RawLesson| Scenario::read(&read.yaml, &raw.scenario, references, faults);
    let scenario = read.raw.as_ref().map(scenario).unwrap_or_default();
    let text = Text { scenario: &scenario, ..text(read, Mode::Lesson) };
    let mut page = render(references, text, faults);
    let front = Front::read(read, &scenario, references, &mut page, faults);
    (page, front)
}

/// The text of a file, without a scenario.
fn text<'a, T>(read: &'a Read<T>, mode: Mode) -> Text<'a> {
    Text {
        file: &read.source.file,
        source: &read.source.text,
        base: read.body,
        mode,
        own_term: (mode == Mode::Term).then_some(read.id.as_str()),
        scenario: &scenario::NONE,
    }
}

/// Keeps the lessons that are new and have no fault.
fn remember(memory: &mut Memory, lessons: &[Read<RawLesson>], pages: &[(Page, Option<Front>, bool)]) {
    memory.retain(&lessons.iter().map(|read| read.source.file.as_str()).collect());
    for (read, (page, front, is_new)) in lessons.iter().zip(pages) {
        let Source { file, text, .. } = read.source;
        if let (Some(raw), Some(front), true) = (&read.raw, front, *is_new) {
            let matter = Matter { raw: raw.clone(), tree: read.yaml.kept_tree() };
            memory.keep(file, text, matter, page, front);
        }
    }
}

/// What texts may refer to.
fn references<'f>(folder: &'f Folder, decimal_mark: char, words: &dyn Words, relations: &Relations) -> References<'f> {
    let signal =
        |word: &str| words.text(&format!("pages.signal.{}", word.to_lowercase())).unwrap_or_else(|| word.to_owned());
    References {
        language: folder.language.to_owned(),
        decimal_mark,
        terms: Terms::new(&entries(folder), folder.language),
        lessons: folder.lessons.iter().map(|read| read.id.clone()).collect(),
        recipes: folder.recipes.iter().map(|read| read.id.clone()).collect(),
        images: folder
            .images
            .iter()
            .map(|(file, image)| (file.clone(), image.as_ref().map(|image| image.size)))
            .collect(),
        handouts: folder.handouts.iter().map(|offer| (offer.file.clone(), offer.clone())).collect(),
        captions: folder.captions.clone(),
        signals: SIGNALS.map(signal),
        math: Math::new(),
        files: files(folder),
        finder: Finder::new(words),
        relations: relations.all.clone(),
    }
}

fn entries(folder: &Folder) -> Vec<Entry> {
    let entry = |read: &Read<RawTerm>| Entry {
        id: read.id.clone(),
        wordings: read.raw.iter().flat_map(|raw| once(&raw.term).chain(&raw.also).cloned()).collect(),
        definition: read.raw.as_ref().map_or_else(String::new, |raw| raw.definition.clone()),
    };
    folder.terms.iter().map(entry).collect()
}

/// What a memory of texts depends on.
fn surroundings(folder: &Folder, references: &References) -> Surroundings {
    Surroundings {
        language: references.language.clone(),
        decimal_mark: references.decimal_mark,
        terms: entries(folder),
        lessons: references.lessons.clone(),
        recipes: references.recipes.clone(),
        images: references.images.clone(),
        handouts: references.handouts.clone(),
        captions: references.captions.clone(),
        relations: references.relations.iter().map(|relation| relation.key).collect(),
    }
}

/// What lessons may show of files: of a lesson, the front matter alone.
fn files<'f>(folder: &'f Folder) -> Vec<Whole<'f>> {
    let lessons = folder.lessons.iter().map(|read| whole(read, read.body));
    let terms = folder.terms.iter().map(|read| whole(read, read.source.text.len()));
    let recipes = folder.recipes.iter().map(|read| whole(read, read.source.text.len()));
    lessons.chain(terms).chain(recipes).collect()
}

/// A file up to a byte.
fn whole<'f, T>(read: &'f Read<T>, end: usize) -> Whole<'f> {
    let Source { file, sort, text } = read.source;
    Whole { sort: *sort, id: &read.id, file, text: &text[..end] }
}
