//! From a folder to a course: every file is read, then every rule checked, then the course put together.

use std::collections::BTreeMap;
use std::mem::take;
use std::path::Path;

use faults::Code;

use crate::assemble::assembled;
use crate::course::Course;
use crate::fault::{COURSE_FILE, Fault, Faults, Place};
use crate::files;
use crate::fronts;
use crate::look;
use crate::memory::Memory;
use crate::progress::{Progress, Told};
use crate::raw::RawCourse;
use crate::reading::{Reading, in_order};
use crate::rendering::Pages;
use crate::suppress::{Unread, without_what_follows};
use crate::yaml::{Yaml, key};
use crate::{Words, check, hints, relation};

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
        progress: Progress::new(told),
        memory,
    };
    let course = course(dir, words, &mut reading);
    if reading.faults.is_empty()
        && let Some(mut course) = course
    {
        course.warnings = in_order(take(&mut course.warnings.list), reading.texts);
        return Ok(course);
    }
    without_what_follows(&mut reading.faults, &reading.unread, &reading.texts);
    hints::add(&mut reading.faults, &reading.texts);
    Err(Faults { unreadable: reading.unreadable, ..in_order(reading.faults, reading.texts) })
}

fn course(dir: &Path, words: &dyn Words, reading: &mut Reading) -> Option<Course> {
    if !dir.is_dir() {
        reading.unreadable = true;
        let code = if dir.is_file() { Code::CourseNotAFolder } else { Code::CourseFolderMissing };
        reading.faults.push(Fault::at(code, Place::whole("")));
        return None;
    }
    let text = reading.course_text(dir)?;
    let yaml = Yaml::new(COURSE_FILE, &text, 0);
    let raw: Option<RawCourse> = yaml.read(&mut reading.faults);
    if let Some(raw) = &raw {
        check::course(&yaml, raw, &mut reading.faults);
    }
    language(dir, words, &yaml, raw.as_ref(), reading)
}

/// Reads the files of the course's language, and puts the course together.
fn language(
    dir: &Path,
    words: &dyn Words,
    yaml: &Yaml,
    raw: Option<&RawCourse>,
    reading: &mut Reading,
) -> Option<Course> {
    let language = raw.and_then(|raw| raw.languages.first()).map_or("en", String::as_str);
    let before = reading.faults.len();
    let (found, unreadable) = files::find(dir, &[language.to_owned()], &mut reading.faults);
    reading.unreadable |= unreadable;
    reading.unread.passed_over = reading.faults.len() > before;
    let sources = reading.sources(&found);
    let folder = fronts::folder(language, &sources, &found, reading);
    let relations = relation::relations(&folder, reading);
    let pages = Pages::of(&folder, raw, words, &relations, reading);
    look::logo(yaml, raw, &folder.images, &mut reading.faults);
    check::anchors(&folder.lessons, &pages.lessons, &mut reading.faults);
    check::objectives(&folder.lessons, &folder.recipes, &mut reading.faults);
    check::terms(&folder.terms, &mut reading.faults);
    let order = check::order(yaml, raw, &folder.lessons, &mut reading.faults);
    let lost = relations.lost.clone();
    let mut course = assembled(&folder, raw, pages, &order, words, relations, reading);
    relation::without_lost(&lost, &mut reading.faults);
    if let Some(course) = &mut course
        && words.text("reading.language").is_some_and(|spoken| spoken != language)
    {
        let place = yaml.place(&[key("languages")]);
        course.warnings.list.push(Fault::at(Code::CourseLanguageOfPages, place).with("language", language));
    }
    drop(folder);
    reading.texts.extend(sources.into_iter().map(|source| (source.file, source.text)));
    course
}
