//! A Markdown file: its front matter and its text.

use std::ops::Range;

use faults::Code;

use crate::fault::{Fault, Place};
use crate::files::Sort;

/// The line before and after the front matter.
const FENCE: &str = "---";

/// A file that was read as text.
#[derive(Debug)]
pub(crate) struct Source {
    pub(crate) file: String,
    pub(crate) sort: Sort,
    pub(crate) text: String,
}

impl Source {
    /// The name of the file without its ending.
    pub(crate) fn stem(&self) -> &str {
        let name = self.file.rsplit('/').next().unwrap_or_default();
        name.split('.').next().unwrap_or_default()
    }

    /// The bytes of the front matter, and where the text starts.
    pub(crate) fn split(&self) -> Result<(Range<usize>, usize), Fault> {
        let mut at = 0;
        let mut start = None;
        for line in self.text.split_inclusive('\n') {
            let (from, is_fence) = (at, line.trim_end() == FENCE);
            at += line.len();
            match start {
                None if is_fence => start = Some(at),
                None => {
                    return Err(Fault::at(Code::FrontMatterMissing, Place::new(&self.file, 0..line.trim_end().len())));
                }
                Some(start) if is_fence => return Ok((start..from, at)),
                Some(_) => (),
            }
        }
        let code = if start.is_some() { Code::FrontMatterUnclosed } else { Code::FrontMatterMissing };
        Err(Fault::at(code, Place::new(&self.file, 0..self.text.lines().next().map_or(0, str::len))))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn split(text: &str) -> Result<(String, String), Code> {
        let source = Source { file: "a.md".to_owned(), sort: Sort::Lesson, text: text.to_owned() };
        source
            .split()
            .map(|(matter, body)| (text[matter].to_owned(), text[body..].to_owned()))
            .map_err(|fault| fault.code)
    }

    #[test]
    fn front_matter_stands_between_two_lines() {
        assert_eq!(split("---\nid: a\n---\nText\n---\n"), Ok(("id: a\n".to_owned(), "Text\n---\n".to_owned())));
        assert_eq!(split("---\r\nid: a\r\n---  \r\nText"), Ok(("id: a\r\n".to_owned(), "Text".to_owned())));
        assert_eq!(split("---\n---"), Ok((String::new(), String::new())));
        assert_eq!(split("id: a\n---\n"), Err(Code::FrontMatterMissing));
        assert_eq!(split(""), Err(Code::FrontMatterMissing));
        assert_eq!(split("---\nid: a\nText"), Err(Code::FrontMatterUnclosed));
    }
}
