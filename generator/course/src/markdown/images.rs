//! Pictures in a text: of the course, with words for those who cannot see them.

use std::ops::Range;

use faults::Code;
use imagesize::ImageSize;
use problems::template::escape;
use pulldown_cmark::{Event, Tag, TagEnd};

use super::checking::Checking;
use super::events::{Events, up_to};
use super::flow::Flow;
use super::lines::Lines;
use super::links::{address_range, title_attribute};
use super::run::Run;
use super::text::Mode;
use crate::addresses::ROOT;
use crate::files::is_portable;

/// Writes the picture that the events start with; says how many belong to it.
pub(super) fn image(rest: Events, flow: &mut Flow) -> usize {
    let (Event::Start(Tag::Image { dest_url, title, .. }), range) = &rest[0] else { return 1 };
    let (inside, used) = up_to(rest, |tag| *tag == TagEnd::Image);
    let alternative = alternative(inside, flow);
    if alternative.trim().is_empty() {
        flow.checking.refuse(Code::ImageWithoutAlternative, range);
    }
    let place = address_range(flow.checking.text, dest_url, range);
    if let Some(file) = file(dest_url, &place, &mut flow.checking) {
        let size = flow.checking.references.images.get(&file).copied().flatten().map_or_else(String::new, attributes);
        let (address, words) = (escape(&file), escape(alternative.trim()));
        flow.inline(&format!("<img src=\"{ROOT}{address}\" alt=\"{words}\"{}{size} />", title_attribute(title)));
        flow.page.images.insert(file);
    }
    flow.sources.read_other(range);
    used
}

/// The alternative text of a picture. In a lesson, numbers are put in and checked as in its text.
fn alternative(events: Events, flow: &mut Flow) -> String {
    let mut run = Run::default();
    for (event, range) in events {
        if let Some(text) = words(event) {
            run.push(text, range);
        }
    }
    let Checking { text, references, faults } = &mut flow.checking;
    if text.mode != Mode::Lesson {
        return run.text;
    }
    let mut lines = Lines { references, scenario: text.scenario, page: &mut flow.page, faults };
    lines.line(&run.text, |range| text.place(&run.range(&range)))
}

/// The picture's path in the course, if it is there.
fn file(address: &str, place: &Range<usize>, checking: &mut Checking) -> Option<String> {
    let text = checking.text;
    let folder = text.file.rsplit_once('/').map_or("", |(folder, _)| folder);
    let absolute = address.starts_with(['/', '\\']) || address.contains(':');
    let Some(file) = (!absolute).then(|| join(folder, address)).flatten() else {
        checking.tell(text.fault(Code::ImageLeavesCourse, place).with("address", address));
        return None;
    };
    let images = &checking.references.images;
    if images.contains_key(&file) {
        return Some(file);
    }
    // A file of that name is refused too, and in which of two ways its accents are stored does not matter.
    let fault = match file.split('/').find(|name| !is_portable(name)) {
        Some(name) => text.fault(Code::CourseUnportableName, place).with("name", name),
        None => {
            let known = images.keys().map(String::as_str);
            text.fault(Code::ImageMissing, place).with("file", &file).near(&file, known)
        }
    };
    checking.tell(fault);
    None
}

/// A relative address from a folder; `None` where it leaves the course.
pub(crate) fn join(folder: &str, address: &str) -> Option<String> {
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

/// What an event adds to the alternative text.
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
