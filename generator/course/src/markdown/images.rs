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
use super::paths::in_course;
use super::run::Run;
use super::text::Mode;
use crate::addresses::ROOT;
use crate::course::{Block, Picture};
use crate::files::is_portable;
use crate::placing::Placing;

/// Writes the picture that the events start with; says how many belong to it.
pub(super) fn image(rest: Events, flow: &mut Flow) -> usize {
    let (picture, used) = picture(rest, flow);
    let range = &rest[0].1;
    if let Some(picture) = picture {
        if let Some(placing) = picture.placing {
            let fault = flow.checking.text.fault(Code::FigurePlaceNotHere, range);
            flow.checking.tell(fault.with("place", placing.id()));
        }
        flow.inline(&picture.html);
    }
    flow.sources.read_other(range);
    used
}

/// Takes a picture that has a paragraph of a lesson to itself; says how many events that are.
pub(super) fn alone(rest: Events, flow: &mut Flow) -> Option<usize> {
    let [_, (Event::Start(Tag::Image { .. }), _), ..] = rest else { return None };
    let (_, used) = up_to(&rest[1..], |tag| *tag == TagEnd::Image);
    let is_alone = matches!(rest.get(used + 1), Some((Event::End(TagEnd::Paragraph), _)));
    if !is_alone || flow.checking.text.mode != Mode::Lesson || flow.sources.depth() > 0 {
        return None;
    }
    flow.cut();
    let (picture, _) = picture(&rest[1..], flow);
    flow.page.blocks.extend(picture.map(Block::Picture));
    Some(used + 2)
}

/// The picture that the events start with, if it is there, and how many belong to it.
fn picture(rest: Events, flow: &mut Flow) -> (Option<Picture>, usize) {
    let (Event::Start(Tag::Image { dest_url, title, .. }), range) = &rest[0] else { return (None, 1) };
    let (inside, used) = up_to(rest, |tag| *tag == TagEnd::Image);
    let alternative = alternative(inside, flow);
    if alternative.trim().is_empty() {
        flow.checking.refuse(Code::ImageWithoutAlternative, range);
    }
    let place = address_range(flow.checking.text, dest_url, range);
    let (address, placing) = placed(dest_url, &place, &mut flow.checking);
    let Some(file) = file(address, &place, &mut flow.checking) else { return (None, used) };
    let size = flow.checking.references.images.get(&file).copied().flatten();
    let (address, words) = (escape(&file), escape(alternative.trim()));
    let attributes = title_attribute(title) + &size.map_or_else(String::new, attributes);
    let html = format!("<img src=\"{ROOT}{address}\" alt=\"{words}\"{attributes} />");
    flow.page.images.insert(file);
    (Some(Picture { html, size: size.map(|size| (size.width, size.height)), placing }), used)
}

/// An address and the place that its author wants the picture in, which stands behind a `#`.
fn placed<'a>(address: &'a str, range: &Range<usize>, checking: &mut Checking) -> (&'a str, Option<Placing>) {
    let Some((address, id)) = address.split_once('#') else { return (address, None) };
    let placing = Placing::find(id);
    if placing.is_none() {
        let fault = checking.text.fault(Code::FigurePlace, range).with("id", id);
        checking.tell(fault.near(id, Placing::ALL.map(Placing::id)));
    }
    (address, placing)
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
    let Some(file) = in_course(text.file, address) else {
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
