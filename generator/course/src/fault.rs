//! The faults of a course with their places in its files.

use std::collections::BTreeMap;
use std::ops::Range;

/// The file that makes a folder a course.
pub(crate) const COURSE_FILE: &str = "course.yaml";

/// A place in a file of the course.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// The file, relative to the folder of the course, with `/` between its parts.
    pub file: String,
    /// The bytes of its text, as [`Faults::sources`] holds it. Empty and at zero where the whole file is meant.
    pub span: Range<usize>,
}

impl Place {
    /// Bytes of a file.
    #[must_use]
    pub fn new(file: &str, span: Range<usize>) -> Self {
        Self { file: file.to_owned(), span }
    }

    /// A whole file or folder.
    #[must_use]
    pub fn whole(file: &str) -> Self {
        Self::new(file, 0..0)
    }
}

/// One thing that is wrong with a course.
pub type Fault = faults::Fault<Place>;

/// Everything that is wrong with a course, in the order of its files, with the texts that the places are in.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Faults {
    /// The faults.
    pub list: Vec<Fault>,
    /// The text of each file that a fault is in, without a byte order mark. A file that could not be read as text, or
    /// that is not a file, has none.
    pub sources: BTreeMap<String, String>,
    /// Whether the course could not be read at all: the folder or a file could not be opened.
    pub unreadable: bool,
}

impl Faults {
    /// Brings the faults into the order of the files: `course.yaml` first, then by name, then by place.
    pub(crate) fn sort(&mut self) {
        self.list.sort_by(|one, other| order(one).cmp(&order(other)));
        self.list.dedup();
    }

    /// The line and column (both from one, the column in characters) of a place.
    #[must_use]
    pub fn line_and_column(&self, place: &Place) -> Option<(usize, usize)> {
        let text = self.sources.get(&place.file)?;
        let before = text.get(..place.span.start)?;
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        Some((before.matches('\n').count() + 1, before[line_start..].chars().count() + 1))
    }
}

fn order(fault: &Fault) -> (bool, &str, usize, usize, &'static str) {
    let Place { file, span } = &fault.place;
    (file != COURSE_FILE, file, span.start, span.end, fault.code.id())
}

#[cfg(test)]
mod tests {
    use faults::Code;

    use super::*;

    #[test]
    fn the_course_file_comes_first_then_files_by_name_and_place() {
        let place = |file: &str, at: usize| Fault::at(Code::IdTaken, Place::new(file, at..at));
        let mut faults = Faults {
            list: vec![place("en/b", 2), place("en/b", 1), place("course.yaml", 9), place("a", 5)],
            ..Faults::default()
        };
        faults.sort();
        let order: Vec<_> = faults.list.into_iter().map(|fault| (fault.place.file, fault.place.span.start)).collect();
        assert_eq!(order, [("course.yaml".into(), 9), ("a".into(), 5), ("en/b".into(), 1), ("en/b".into(), 2)]);
    }
}
