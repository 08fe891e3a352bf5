//! What a preview is started with, and what it reports.

use std::path::PathBuf;

use course::{Course, Faults};
use pages::{RenderError, Words};

use crate::listen::Port;

/// Reads, checks and proves the course.
pub type Check = dyn FnMut() -> Result<Course, Faults> + Send;

/// Is called with the outcome whenever it has changed.
pub type Tell = dyn Fn(&Outcome) + Send;

/// What to serve, and how.
pub struct Settings {
    /// The folder of the course, as faults name it.
    pub folder: PathBuf,
    /// The words of the pages and of the frame.
    pub words: Words,
    /// Where to listen.
    pub port: Port,
    /// How the course is read.
    pub check: Box<Check>,
    /// What is called with each outcome.
    pub tell: Box<Tell>,
}

/// What came of reading the course.
#[derive(Debug)]
pub enum Outcome<'o> {
    /// The site shows the course as it is now.
    Shown(&'o Course),
    /// The course has faults.
    Faults {
        /// The faults.
        faults: &'o Faults,
        /// Whether an earlier site is still shown.
        shown: bool,
    },
    /// A page could not be rendered.
    NotRendered(&'o RenderError),
}
