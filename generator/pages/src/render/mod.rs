//! A checked course as the files of a site.

mod blocks;
mod context;
mod coverage_cells;
mod error;
mod files;
mod kind;
mod pages;
mod practice_list;
mod recipe_list;
mod reference;
mod renderer;
mod revision;
mod scripts;
mod sheets;
mod table_files;
mod table_text;
mod term_entry;
mod unit_menus;

use std::borrow::Cow;

use course::{Course, Handout, on_threads};

pub(crate) use context::CourseContext;
pub use error::RenderError;
pub(crate) use revision::revision;

use crate::words::Words;
use files::{Listed, SiteFile, files};
use renderer::{Prepared, Renderer};

/// The fewest files for which another thread is worth its while. A small course is written by one, file after file.
const FEWEST_WRITTEN: usize = 100;

/// What a file of a site holds.
#[derive(Debug)]
pub enum Content<'a> {
    /// It is made here.
    Bytes(Cow<'a, [u8]>),
    /// It is copied as it is.
    Handout(&'a Handout),
}

/// Where the files of a site go, from any thread: address in the site, and what it holds.
pub type Sink<'a, E> = dyn Fn(&str, &Content) -> Result<(), E> + Sync + 'a;

/// The files of a course's site.
pub(crate) struct SiteFiles {
    files: Listed,
    prepared: Prepared,
}

impl SiteFiles {
    /// Lists the files and prepares the templates.
    ///
    /// # Errors
    /// [`RenderError::Template`].
    pub(crate) fn of(course: &Course, words: &Words) -> Result<Self, RenderError> {
        let words = words.with(&course.words);
        let (files, prepared) = files(course, &words)?;
        Ok(Self { files, prepared })
    }

    /// How many there are.
    pub(crate) fn count(&self) -> usize {
        self.files.pages.len() + self.files.others.len()
    }

    fn find(&self, address: &str) -> Option<&SiteFile> {
        self.files.pages.iter().chain(&self.files.others).find(|file| file.address == address)
    }

    /// Renders every file, on several threads, the pages first; of several errors, that of the first file is given.
    ///
    /// # Errors
    /// [`RenderError`], or what the sink refuses.
    pub(crate) fn render<E: From<RenderError> + Send>(
        &self,
        course: &Course,
        words: &Words,
        sink: &Sink<E>,
    ) -> Result<(), E> {
        let words = words.with(&course.words);
        let renderer = Renderer::new(course, &words, &self.prepared);
        let files: Vec<_> = self.files.pages.iter().chain(&self.files.others).collect();
        let write = |file: &&SiteFile| sink(&file.address, &file.content(&renderer)?);
        on_threads(&files, FEWEST_WRITTEN, write).into_iter().collect()
    }
}

/// The site of a course of which each file is rendered when it is asked for: the same bytes that [`crate::publish`] writes.
pub struct LazySite {
    course: Course,
    words: Words,
    files: SiteFiles,
}

impl LazySite {
    /// Takes a course, and renders nothing yet.
    ///
    /// # Errors
    /// [`RenderError::Template`].
    pub fn new(course: Course, words: Words) -> Result<Self, RenderError> {
        let files = SiteFiles::of(&course, &words)?;
        let words = words.with(&course.words);
        Ok(Self { course, words, files })
    }

    /// The course.
    #[must_use]
    pub fn course(&self) -> &Course {
        &self.course
    }

    /// The file to hand out at an address from the top of the site, if there is one.
    #[must_use]
    pub fn handout(&self, address: &str) -> Option<&Handout> {
        self.course.handouts.iter().find(|handout| handout.file == address)
    }

    /// The file at an address from the top of the site; `None` where the site has none, or hands it out as it is.
    ///
    /// # Errors
    /// [`RenderError`].
    pub fn file(&self, address: &str) -> Result<Option<Vec<u8>>, RenderError> {
        let renderer = Renderer::new(&self.course, &self.words, &self.files.prepared);
        let file = self.files.find(address);
        let bytes = |content| match content {
            Content::Bytes(bytes) => Some(bytes.into_owned()),
            Content::Handout(_) => None,
        };
        Ok(file.map(|file| file.content(&renderer)).transpose()?.and_then(bytes))
    }
}
