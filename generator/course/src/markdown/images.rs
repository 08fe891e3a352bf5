//! Pictures in a text: of the course, with words for those who cannot see them.

use std::ops::Range;

use faults::Code;
use imagesize::ImageSize;
use pulldown_cmark::{Event, Tag, TagEnd};

use super::run::Run;
use super::writer::Writer;
use super::{Events, Mode, filled, unsourced};
use crate::addresses::ROOT;
use crate::files::is_portable;
use problems::template::escape;

impl<'a> Writer<'_, 'a> {
    /// Writes the picture that the events start with; says how many belong to it.
    pub(super) fn image(&mut self, rest: Events<'_, 'a>) -> usize {
        let (Event::Start(Tag::Image { dest_url, title, .. }), range) = &rest[0] else { return 1 };
        let end =
            rest.iter().position(|(event, _)| matches!(event, Event::End(TagEnd::Image))).unwrap_or(rest.len() - 1);
        let alternative = self.alternative(&rest[..end]);
        if alternative.trim().is_empty() {
            self.fault(Code::ImageWithoutAlternative, range);
        }
        let place = self.address_range(dest_url, range);
        if let Some(file) = self.image_file(dest_url, &place) {
            let title = if title.is_empty() { String::new() } else { format!(" title=\"{}\"", escape(title)) };
            let size = self.shelf.images.get(&file).copied().flatten().map_or_else(String::new, attributes);
            self.inline(&format!(
                "<img src=\"{ROOT}{}\" alt=\"{}\"{title}{size} />",
                escape(&file),
                escape(alternative.trim())
            ));
            self.page.images.insert(file);
        }
        self.read_other(range);
        end + 1
    }

    /// The words that stand for a picture. In a lesson, numbers are put in and looked at as in its text.
    fn alternative(&mut self, events: Events<'_, 'a>) -> String {
        let mut run = Run::default();
        for (event, range) in events {
            if let Some(text) = words(event) {
                run.push(text, range);
            }
        }
        if self.text.mode != Mode::Lesson {
            return run.text;
        }
        let text = self.text;
        let place = |range: Range<usize>| text.place(&run.range(&range));
        let (shown, reading) = filled(&run.text, text.scenario, self.shelf.mark(), place, &mut self.page, self.faults);
        self.faults.extend(unsourced(&self.shelf.finder, &reading, place));
        shown
    }

    /// The picture's path in the course, if it is there.
    fn image_file(&mut self, address: &str, place: &Range<usize>) -> Option<String> {
        let folder = self.text.file.rsplit_once('/').map_or("", |(folder, _)| folder);
        let absolute = address.starts_with(['/', '\\']) || address.contains(':');
        let Some(file) = (!absolute).then(|| join(folder, address)).flatten() else {
            self.fault(Code::ImageLeavesCourse, place).values.push(("address", address.to_owned()));
            return None;
        };
        if self.shelf.images.contains_key(&file) {
            return Some(file);
        }
        // A file of that name is refused too, and in which of two ways its accents are stored does not matter.
        if let Some(name) = file.split('/').find(|name| !is_portable(name)) {
            self.fault(Code::CourseUnportableName, place).values.push(("name", name.to_owned()));
            return None;
        }
        let images = self.shelf.images.keys().map(String::as_str);
        let place = self.text.place(place);
        self.faults.push(crate::fault::Fault::at(Code::ImageMissing, place).with("file", &file).near(&file, images));
        None
    }
}

/// A relative address from a folder; `None` where it leaves the course.
fn join(folder: &str, address: &str) -> Option<String> {
    let mut parts: Vec<_> = folder.split('/').filter(|part| !part.is_empty()).collect();
    for part in address.split(['/', '\\']) {
        match part {
            "" | "." => (),
            ".." => {
                parts.pop()?;
            }
            part => parts.push(part),
        }
    }
    Some(parts.join("/"))
}

/// The size of a picture as attributes, so that its room is kept before it is loaded.
fn attributes(size: ImageSize) -> String {
    format!(" width=\"{}\" height=\"{}\"", size.width, size.height)
}

/// What an event adds to the words that stand for a picture.
fn words<'e>(event: &'e Event) -> Option<&'e str> {
    match event {
        Event::Text(text) | Event::Code(text) => Some(text),
        Event::SoftBreak | Event::HardBreak => Some(" "),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::join;

    #[test]
    fn addresses_stay_in_the_course() {
        assert_eq!(join("en/lessons", "images/a.png").as_deref(), Some("en/lessons/images/a.png"));
        assert_eq!(join("en/lessons", "../images/./a.png").as_deref(), Some("en/images/a.png"));
        assert_eq!(join("en/lessons", r"..\images\a.png").as_deref(), Some("en/images/a.png"));
        assert_eq!(join("en/lessons", "../../../a.png"), None);
        assert_eq!(join("en/lessons", r"..\..\..\a.png"), None);
    }
}
