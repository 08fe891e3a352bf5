//! The way from a folder to a course: every file read, then every rule checked, then the course put together.

use std::collections::{BTreeMap, BTreeSet};
use std::iter;
use std::mem::take;
use std::path::Path;

use faults::Code;
use problems::display::Mark;
use problems::recipe::System;
use problems::recipe::raw::RawRecipe;
use serde::de::DeserializeOwned;

use crate::assemble::{lessons, terms};
use crate::course::{Course, Image, RecipeFile};
use crate::document::Source;
use crate::fault::{Fault, Faults, Place};
use crate::files::{self, COURSE_FILE, Found, NoText, Sort};
use crate::following::{Unread, without_what_follows};
use crate::front::Front;
use crate::habits;
use crate::lexicon::ThemeLexicon;
use crate::markdown::{self, Entry, Math, Mode, Page, SIGNALS, Shelf, Terms, Text, Whole};
use crate::memory::{Matter, Memory, Surroundings};
use crate::quantities::Finder;
use crate::raw::{RawCourse, RawLesson, RawTerm};
use crate::scenario::{self, Scenario};
use crate::steps::{Steps, Told};
use crate::threads::{FEWEST_FILES, on_threads, with_faults};
use crate::warn::{self, Shown};
use crate::yaml::{Yaml, key};
use crate::{Words, check, ids, recipe};

/// Reads the course in a folder and checks all of it.
///
/// # Errors
/// Every fault that was found, in the order of the files.
pub fn read(dir: &Path, words: &dyn Words) -> Result<Course, Faults> {
    read_telling(dir, words, &|_, _| ())
}

/// As [`read`], telling how far it has come.
///
/// # Errors
/// As [`read`].
pub fn read_telling(dir: &Path, words: &dyn Words, told: &Told) -> Result<Course, Faults> {
    read_with(dir, words, told, None)
}

/// As [`read`], for a course that is read again and again: the memory is always the same for one folder and its words.
///
/// # Errors
/// As [`read`].
pub fn read_again(dir: &Path, words: &dyn Words, memory: &mut Memory) -> Result<Course, Faults> {
    read_with(dir, words, &|_, _| (), Some(memory))
}

fn read_with(dir: &Path, words: &dyn Words, told: &Told, memory: Option<&mut Memory>) -> Result<Course, Faults> {
    let mut reading = Reading {
        faults: Vec::new(),
        texts: BTreeMap::new(),
        unreadable: false,
        unread: Unread::default(),
        steps: Steps::new(told),
        memory,
    };
    let course = reading.read(dir, words);
    if reading.faults.is_empty()
        && let Some(mut course) = course
    {
        course.warnings = in_order(take(&mut course.warnings.list), reading.texts);
        return Ok(course);
    }
    without_what_follows(&mut reading.faults, &reading.unread, &reading.texts);
    habits::told(&mut reading.faults, &reading.texts);
    Err(Faults { unreadable: reading.unreadable, ..in_order(reading.faults, reading.texts) })
}

/// What is gathered while a course is read.
struct Reading<'t> {
    faults: Vec<Fault>,
    texts: BTreeMap<String, String>,
    unreadable: bool,
    unread: Unread,
    steps: Steps<'t>,
    memory: Option<&'t mut Memory>,
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

impl<T> Read<'_, T> {
    pub(crate) fn id_place(&self) -> Place {
        self.yaml.place(&[key("id")])
    }

    /// The file up to a byte, as a lesson may show it.
    fn shown(&self, end: usize) -> Whole<'_> {
        let Source { file, sort, text } = self.source;
        Whole { sort: *sort, id: &self.id, file, text: &text[..end] }
    }
}

impl Reading<'_> {
    fn read(&mut self, dir: &Path, words: &dyn Words) -> Option<Course> {
        if !dir.is_dir() {
            self.unreadable = true;
            let code = if dir.is_file() { Code::CourseNotAFolder } else { Code::CourseFolderMissing };
            self.faults.push(Fault::at(code, Place::whole("")));
            return None;
        }
        let text = self.course_text(dir)?;
        let yaml = Yaml::new(COURSE_FILE, &text, 0);
        let raw: Option<RawCourse> = yaml.read(&mut self.faults);
        if let Some(raw) = &raw {
            check::course(&yaml, raw, &mut self.faults);
        }
        let language = raw.as_ref().and_then(|raw| raw.languages.first()).map_or("en", String::as_str);
        let before = self.faults.len();
        let (found, unreadable) = files::find(dir, &[language.to_owned()], &mut self.faults);
        self.unreadable |= unreadable;
        self.unread.passed_over = self.faults.len() > before;
        let sources = self.sources(&found);
        let folder = Folder {
            language,
            lessons: self.lesson_fronts(&sources),
            terms: self.fronts::<RawTerm>(&sources, Sort::Term, &front),
            recipes: self.fronts::<RawRecipe>(&sources, Sort::Recipe, &front),
            images: found.iter().filter(|found| found.sort == Sort::Image).collect(),
        };
        let pages = self.pages(&folder, raw.as_ref(), words);
        let course = self.check(&folder, &yaml, raw.as_ref(), pages, words);
        drop(folder);
        self.texts.extend(sources.into_iter().map(|source| (source.file, source.text)));
        course
    }

    fn course_text(&mut self, dir: &Path) -> Option<String> {
        let path = dir.join(COURSE_FILE);
        if path.is_symlink() {
            let fault = Fault::at(Code::CourseSymlink, Place::whole(COURSE_FILE));
            self.faults.push(fault.with("file", COURSE_FILE).with("name", COURSE_FILE));
            return None;
        }
        if !path.is_file() {
            self.faults.push(Fault::at(Code::CourseFileMissing, Place::whole(COURSE_FILE)));
            return None;
        }
        let text = files::text(&path, COURSE_FILE).map_err(|refused| self.no_text(COURSE_FILE, refused)).ok()?;
        self.texts.insert(COURSE_FILE.to_owned(), text.clone());
        Some(text)
    }

    fn no_text(&mut self, file: &str, refused: NoText) {
        match refused {
            NoText::Unreadable(fault) => {
                self.unreadable = true;
                self.faults.push(*fault);
            }
            NoText::Refused(fault, text) => {
                self.texts.extend(text.map(|text| (file.to_owned(), text)));
                self.faults.push(*fault);
            }
        }
    }

    /// Reads every file that is text.
    fn sources(&mut self, found: &[Found]) -> Vec<Source> {
        let found: Vec<_> = found.iter().filter(|found| found.sort != Sort::Image).collect();
        self.steps.expect(found.len());
        let steps = &self.steps;
        let texts = on_threads(&found, FEWEST_FILES, |found| steps.done(files::text(&found.path, &found.file)));
        let source = |(found, text): (&Found, Result<String, NoText>)| match text {
            Ok(text) => Some(Source { file: found.file.clone(), sort: found.sort, text }),
            Err(refused) => {
                self.unread.files.push(found.file.clone());
                self.no_text(&found.file, refused);
                None
            }
        };
        found.into_iter().zip(texts).filter_map(source).collect()
    }

    /// Reads the front matter of every lesson that is not known.
    fn lesson_fronts<'a>(&mut self, sources: &'a [Source]) -> Vec<Read<'a, RawLesson>> {
        let memory = self.memory.take();
        let reads = self.fronts(sources, Sort::Lesson, &|source: &'a Source, faults: &mut Vec<Fault>| {
            let known = memory.as_ref().and_then(|memory| memory.matter(&source.file, &source.text));
            known.and_then(|matter| known_front(source, matter)).unwrap_or_else(|| front(source, faults))
        });
        self.memory = memory;
        reads
    }

    /// Reads the front matter of every file of a sort.
    fn fronts<'a, T: HasId + Send>(
        &mut self,
        sources: &'a [Source],
        sort: Sort,
        front: &(dyn Fn(&'a Source, &mut Vec<Fault>) -> Read<'a, T> + Sync),
    ) -> Vec<Read<'a, T>> {
        let sources: Vec<_> = sources.iter().filter(|source| source.sort == sort).collect();
        let steps = &self.steps;
        let reads = with_faults(&sources, &mut self.faults, |source, faults| steps.done(front(source, faults)));
        ids::all(reads.iter().map(|read| (read.id.as_str(), || read.id_place())), &mut self.faults);
        let taken = match sort {
            Sort::Recipe => ids::TAKEN_BESIDE_RECIPES,
            Sort::Term => ids::TAKEN_BESIDE_TERMS,
            Sort::Lesson | Sort::Image => &[],
        };
        for read in reads.iter().filter(|read| taken.contains(&read.id.as_str())) {
            self.faults.push(Fault::at(Code::IdTaken, read.id_place()).with("id", &read.id));
        }
        reads
    }

    /// Renders every text.
    fn pages(&mut self, folder: &Folder, raw: Option<&RawCourse>, words: &dyn Words) -> Pages {
        let shelf = folder.shelf(raw, words, &mut self.faults);
        let (lessons, fronts) = self.lessons(folder, &shelf);
        let (faults, steps) = (&mut self.faults, &self.steps);
        Pages {
            lessons,
            fronts,
            terms: markdown::render_all(&shelf, &texts(&folder.terms, Mode::Term), steps, faults),
            recipes: markdown::render_all(&shelf, &texts(&folder.recipes, Mode::Recipe), steps, faults),
        }
    }

    /// Renders the lessons, each with the values of its scenario.
    fn lessons(&mut self, folder: &Folder, shelf: &Shelf) -> (Vec<Page>, Vec<Option<Front>>) {
        let Some(memory) = self.memory.take() else {
            let (steps, faults) = (&self.steps, &mut self.faults);
            let read = |read, faults: &mut Vec<Fault>| steps.done(lesson(read, shelf, faults));
            return with_faults(&folder.lessons, faults, read).into_iter().unzip();
        };
        memory.surround(folder.surroundings(shelf));
        let known = &*memory;
        let read = |read: &Read<RawLesson>, faults: &mut Vec<Fault>| {
            let Source { file, text, .. } = read.source;
            if let Some((page, front)) = known.rendered(file, text) {
                return (page, Some(front), false);
            }
            let (page, front) = lesson(read, shelf, faults);
            (page, front, faults.is_empty())
        };
        let read = with_faults(&folder.lessons, &mut self.faults, read);
        remember(memory, &folder.lessons, &read);
        self.memory = Some(memory);
        read.into_iter().map(|(page, front, _)| (page, front)).unzip()
    }

    /// Checks what holds between files, and puts the course together as far as its parts are there.
    fn check(
        &mut self,
        folder: &Folder,
        yaml: &Yaml,
        raw: Option<&RawCourse>,
        mut pages: Pages,
        words: &dyn Words,
    ) -> Option<Course> {
        check::anchors(&folder.lessons, &pages.lessons, &mut self.faults);
        check::objectives(&folder.lessons, &folder.recipes, &mut self.faults);
        check::terms(&folder.terms, &mut self.faults);
        let order = check::order(yaml, raw, &folder.lessons, &mut self.faults);
        let images = self.images(folder, &pages);
        let shown = shown(folder, &mut pages.lessons);
        let lexicon = ThemeLexicon::new(words, Mark::of(decimal_sign(raw)));
        let recipes = self.recipes(folder, pages.recipes, &lexicon);
        let lessons = lessons(folder, pages.lessons, pages.fronts, &order);
        let terms = terms(folder, pages.terms, &lessons);
        let raw = raw?;
        let mut course = Course {
            site: raw.site.clone(),
            title: raw.title.clone(),
            owner: raw.owner.clone(),
            language: folder.language.to_owned(),
            units: System::find(&raw.units)?,
            decimal_mark: raw.decimal_mark.chars().next()?,
            safety: raw.safety.clone(),
            lessons,
            terms,
            recipes,
            images,
            warnings: Faults::default(),
        };
        in_teaching_order(&mut course);
        if self.faults.is_empty() {
            course.warnings.list = warn::warnings(&course, folder, &shown);
        }
        Some(course)
    }

    fn recipes(&mut self, folder: &Folder, pages: Vec<Page>, lexicon: &ThemeLexicon) -> Vec<RecipeFile> {
        let mut recipes = Vec::new();
        for (read, page) in folder.recipes.iter().zip(pages) {
            let Some(raw) = &read.raw else { continue };
            check::recipe_texts(&read.yaml, raw, &mut self.faults);
            let recipe = recipe::build(&read.yaml, raw, page.sections, lexicon, &mut self.faults);
            recipes.extend(recipe.map(|recipe| RecipeFile {
                recipe,
                file: read.source.file.clone(),
                text: read.source.text.clone(),
            }));
        }
        recipes.sort_by(|one, other| one.recipe.id.cmp(&other.recipe.id));
        recipes
    }

    /// Reads the pictures that texts use.
    fn images(&mut self, folder: &Folder, pages: &Pages) -> Vec<Image> {
        let used: BTreeSet<_> = pages.all().flat_map(|page| &page.images).collect();
        let mut images = Vec::new();
        for found in folder.images.iter().filter(|found| used.contains(&found.file)) {
            match files::image(&found.path, &found.file) {
                Ok(bytes) => images.push(Image { file: found.file.clone(), bytes }),
                Err(refused) => self.no_text(&found.file, refused),
            }
        }
        images
    }
}

/// Puts the recipes behind one another as their lessons teach what they practise, the easier ones first.
fn in_teaching_order(course: &mut Course) {
    let taught: BTreeMap<_, _> = course
        .lessons
        .iter()
        .enumerate()
        .flat_map(|(place, lesson)| lesson.objectives.iter().map(move |objective| (objective.id.clone(), place)))
        .collect();
    let place = |file: &RecipeFile| {
        // A recipe that practises several comes once the last of them is taught.
        let last = file.recipe.objectives.iter().filter_map(|id| taught.get(id)).max();
        (last.copied().unwrap_or(usize::MAX), file.recipe.level)
    };
    course.recipes.sort_by_cached_key(|file| (place(file), file.recipe.id.clone()));
}

/// Faults or warnings in their order, with the texts of the files that they are in.
fn in_order(list: Vec<Fault>, mut texts: BTreeMap<String, String>) -> Faults {
    let places =
        list.iter().flat_map(|fault| iter::once(&fault.place).chain(fault.also.iter().map(|(place, _)| place)));
    let named: BTreeSet<_> = places.map(|place| place.file.as_str()).collect();
    texts.retain(|file, _| named.contains(file.as_str()));
    let mut faults = Faults { list, sources: texts, unreadable: false };
    faults.sort();
    faults
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

/// The front matter of a lesson that is known.
fn known_front(source: &Source, Matter { raw, tree }: Matter) -> Option<Read<'_, RawLesson>> {
    let (matter, body) = source.split().ok()?;
    let yaml = Yaml::known(&source.file, &source.text[matter.clone()], matter.start, tree);
    Some(Read { source, yaml, id: raw.id.clone(), raw: Some(raw), body })
}

/// Reads the front matter of a file.
fn front<'a, T: DeserializeOwned + HasId>(source: &'a Source, faults: &mut Vec<Fault>) -> Read<'a, T> {
    let (matter, body) = match source.split() {
        Ok(split) => split,
        Err(fault) => {
            faults.push(fault);
            (0..0, source.text.len())
        }
    };
    let yaml = Yaml::new(&source.file, &source.text[matter.clone()], matter.start);
    let raw: Option<T> = if matter.start > 0 { yaml.read(faults) } else { None };
    let guess = || yaml.tree()?.get("id")?.text().map(str::to_owned);
    let id = raw.as_ref().map(|raw| raw.id().to_owned()).or_else(guess);
    let id = id.unwrap_or_else(|| source.stem().to_owned());
    Read { source, yaml, raw, id, body }
}

/// Renders a lesson with the values of its scenario, and reads what it says of itself.
fn lesson(read: &Read<RawLesson>, shelf: &Shelf, faults: &mut Vec<Fault>) -> (Page, Option<Front>) {
    let scenario = |raw: &RawLesson| Scenario::read(&read.yaml, &raw.scenario, shelf.mark(), faults);
    let scenario = read.raw.as_ref().map(scenario).unwrap_or_default();
    let mut page = markdown::render(shelf, Text { scenario: &scenario, ..text(read, Mode::Lesson) }, faults);
    let front = Front::read(read, &scenario, shelf, &mut page, faults);
    (page, front)
}

/// The character of the decimal mark; a point where none could be read.
fn decimal_sign(raw: Option<&RawCourse>) -> char {
    raw.and_then(|raw| raw.decimal_mark.chars().next()).unwrap_or('.')
}

/// All files of a language.
pub(crate) struct Folder<'a> {
    language: &'a str,
    pub(crate) lessons: Vec<Read<'a, RawLesson>>,
    pub(crate) terms: Vec<Read<'a, RawTerm>>,
    pub(crate) recipes: Vec<Read<'a, RawRecipe>>,
    pub(crate) images: Vec<&'a Found>,
}

/// The texts of all files, in the order of the folder.
struct Pages {
    lessons: Vec<Page>,
    fronts: Vec<Option<Front>>,
    terms: Vec<Page>,
    recipes: Vec<Page>,
}

impl Pages {
    fn all(&self) -> impl Iterator<Item = &Page> {
        self.lessons.iter().chain(&self.terms).chain(&self.recipes)
    }
}

impl Folder<'_> {
    /// What texts may refer to.
    fn shelf(&self, raw: Option<&RawCourse>, words: &dyn Words, faults: &mut Vec<Fault>) -> Shelf<'_> {
        check::wordings(&self.terms, faults);
        let signal = |word: &str| {
            words.text(&format!("pages.signal.{}", word.to_lowercase())).unwrap_or_else(|| word.to_owned())
        };
        Shelf {
            language: self.language.to_owned(),
            decimal_mark: decimal_sign(raw),
            terms: Terms::new(&self.entries(), self.language),
            lessons: self.lessons.iter().map(|read| read.id.clone()).collect(),
            recipes: self.recipes.iter().map(|read| read.id.clone()).collect(),
            images: self.images.iter().map(|found| (found.file.clone(), imagesize::size(&found.path).ok())).collect(),
            signals: SIGNALS.map(signal),
            math: Math::new(),
            files: self.files(),
            finder: Finder::new(words),
        }
    }

    fn entries(&self) -> Vec<Entry> {
        let entry = |read: &Read<RawTerm>| Entry {
            id: read.id.clone(),
            wordings: read.raw.iter().flat_map(|raw| std::iter::once(&raw.term).chain(&raw.also).cloned()).collect(),
            definition: read.raw.as_ref().map_or_else(String::new, |raw| raw.definition.clone()),
        };
        self.terms.iter().map(entry).collect()
    }

    /// What a memory of texts depends on.
    fn surroundings(&self, shelf: &Shelf) -> Surroundings {
        Surroundings {
            language: shelf.language.clone(),
            decimal_mark: shelf.decimal_mark,
            terms: self.entries(),
            lessons: shelf.lessons.clone(),
            recipes: shelf.recipes.clone(),
            images: shelf.images.clone(),
        }
    }

    /// What lessons may show of files.
    fn files(&self) -> Vec<Whole<'_>> {
        let lessons = self.lessons.iter().map(|read| read.shown(read.body));
        let terms = self.terms.iter().map(|read| read.shown(read.source.text.len()));
        let recipes = self.recipes.iter().map(|read| read.shown(read.source.text.len()));
        lessons.chain(terms).chain(recipes).collect()
    }
}

/// What each lesson shows of the recipes, by the id of the lesson.
fn shown(folder: &Folder, pages: &mut [Page]) -> BTreeMap<String, Vec<Shown>> {
    folder.lessons.iter().zip(pages).map(|(read, page)| (read.id.clone(), take(&mut page.practised))).collect()
}

/// The texts of files.
fn texts<'a, T>(reads: &'a [Read<T>], mode: Mode) -> Vec<Text<'a>> {
    reads.iter().map(|read| text(read, mode)).collect()
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

has_id!(RawLesson, RawTerm, RawRecipe);
