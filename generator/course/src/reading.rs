//! The reading of one course: what is gathered meanwhile, and the files that are opened.

use std::collections::{BTreeMap, BTreeSet};
use std::iter;
use std::path::Path;

use faults::Code;

use crate::course::Images;
use crate::document::Source;
use crate::fault::{COURSE_FILE, Fault, Faults, Place};
use crate::files::{self, Found, NoText, Sort};
use crate::handouts::{self, Handout, Offer};
use crate::memory::Memory;
use crate::pictures;
use crate::progress::Progress;
use crate::suppress::Unread;
use crate::threads::{FEWEST_FILES, on_threads};

/// What people call the file that makes a folder a course.
const ALMOST: [&str; 3] = ["course.yml", "course.yaml.txt", "course.txt"];

/// What is gathered while a course is read.
pub(crate) struct Reading<'t> {
    pub(crate) faults: Vec<Fault>,
    pub(crate) texts: BTreeMap<String, String>,
    pub(crate) unreadable: bool,
    pub(crate) unread: Unread,
    pub(crate) progress: Progress<'t>,
    pub(crate) memory: Option<&'t mut Memory>,
}

impl Reading<'_> {
    /// The text of `course.yaml`.
    pub(crate) fn course_text(&mut self, dir: &Path) -> Option<String> {
        let path = dir.join(COURSE_FILE);
        if path.is_symlink() {
            let fault = Fault::at(Code::CourseSymlink, Place::whole(COURSE_FILE));
            self.faults.push(fault.with("file", COURSE_FILE).with("name", COURSE_FILE));
            return None;
        }
        if !path.is_file() {
            let fault = Fault::at(Code::CourseFileMissing, Place::whole(COURSE_FILE));
            let meant = ALMOST.into_iter().find(|name| dir.join(name).is_file());
            self.faults.push(meant.into_iter().fold(fault, |fault, name| fault.with("nearest", name)));
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
    pub(crate) fn sources(&mut self, found: &[Found]) -> Vec<Source> {
        let found: Vec<_> = found.iter().filter(|found| !matches!(found.sort, Sort::Image | Sort::Handout)).collect();
        self.progress.expect(found.len());
        let progress = &self.progress;
        let texts = on_threads(&found, FEWEST_FILES, |found| progress.done(files::text(&found.path, &found.file)));
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

    /// Reads every picture; of one that is refused there is no more than its name.
    pub(crate) fn images(&mut self, found: &[Found]) -> Images {
        let found: Vec<_> = found.iter().filter(|found| found.sort == Sort::Image).collect();
        let read = on_threads(&found, FEWEST_FILES, |found| pictures::read(&found.path, &found.file));
        let read = found.into_iter().zip(read);
        read.map(|(found, image)| (found.file.clone(), image.map_err(|why| self.no_text(&found.file, why)).ok()))
            .collect()
    }

    /// Takes files to hand out as they are now.
    pub(crate) fn handouts<'o>(&mut self, offers: impl Iterator<Item = &'o Offer>) -> Vec<Handout> {
        offers.filter_map(|offer| handouts::handout(offer).map_err(|fault| self.faults.push(fault)).ok()).collect()
    }
}

/// Faults or warnings in their order, with the texts of the files that they are in.
pub(crate) fn in_order(list: Vec<Fault>, mut texts: BTreeMap<String, String>) -> Faults {
    let places =
        list.iter().flat_map(|fault| iter::once(&fault.place).chain(fault.also.iter().map(|(place, _)| place)));
    let named: BTreeSet<_> = places.map(|place| place.file.as_str()).collect();
    texts.retain(|file, _| named.contains(file.as_str()));
    let mut faults = Faults { list, sources: texts, unreadable: false };
    faults.sort();
    faults
}
