//! Addresses in a text: what each leads to, and what is refused.

use std::iter::once;
use std::ops::Range;

use faults::Code;
use problems::template::escape;
use pulldown_cmark::{LinkType, Tag};

use super::checking::Checking;
use super::flow::Flow;
use super::page::AnchorUse;
use super::paths::in_course;
use super::text::{Mode, Text};
use crate::addresses::{self, ROOT};

/// A link that is being opened.
struct Link<'l, 'f, 'a> {
    flow: &'l mut Flow<'f, 'a>,
    title: &'l str,
    /// The bytes of its address.
    place: Range<usize>,
}

/// Opens a link.
pub(super) fn start(tag: &Tag, range: &Range<usize>, flow: &mut Flow) {
    let Tag::Link { link_type, dest_url, title, .. } = tag else { return };
    let place = address_range(flow.checking.text, dest_url, range);
    let mut link = Link { flow, title, place };
    match link_type {
        LinkType::Email => link.write(&format!("mailto:{dest_url}")),
        _ => link.open(dest_url),
    }
}

/// The bytes of the address within a link or picture.
pub(super) fn address_range(text: Text, address: &str, range: &Range<usize>) -> Range<usize> {
    let raw = &text.body()[range.clone()];
    let found = raw.rfind(address).filter(|_| !address.is_empty());
    found.map_or(range.clone(), |at| range.start + at..range.start + at + address.len())
}

/// The attribute for the title of a link or picture, if it has one.
pub(super) fn title_attribute(title: &str) -> String {
    if title.is_empty() { String::new() } else { format!(" title=\"{}\"", escape(title)) }
}

impl Link<'_, '_, '_> {
    fn open(&mut self, address: &str) {
        match address.split_once(':') {
            Some(("term", id)) => self.term(id),
            Some(("lesson", id)) => self.lesson(id),
            Some(("relation", id)) => self.relation(id),
            Some(("table", id)) => self.table(id),
            Some(("https", rest)) if rest.starts_with("//") && rest.len() > 2 => self.write(address),
            Some(("mailto", rest)) if rest.contains('@') => self.write(address),
            _ => match address.strip_prefix('#') {
                Some(anchor) if self.flow.checking.text.mode == Mode::Lesson => self.anchor(anchor),
                _ => match self.handout(address) {
                    Some(file) => self.file(&file, address),
                    None => self.refuse(address),
                },
            },
        }
    }

    fn write(&mut self, href: &str) {
        let title = title_attribute(self.title);
        self.flow.inline(&format!("<a href=\"{}\"{title}>", escape(href)));
    }

    /// The address of a page of the site, as a text links to it.
    fn href(&self, page: &str) -> String {
        addresses::from_page(&self.flow.checking.references.language, page)
    }

    fn term(&mut self, id: &str) {
        let terms = self.flow.mentions.terms;
        match terms.find(id) {
            Some(term) => {
                self.flow.mentions.note(term);
                self.flow.inline(terms.link(term));
            }
            None => self.unknown(Code::TermUnknown, id, terms.ids()),
        }
    }

    fn lesson(&mut self, target: &str) {
        let (id, anchor) = target.split_once('#').map_or((target, None), |(id, anchor)| (id, Some(anchor)));
        let lessons = &self.flow.checking.references.lessons;
        if !lessons.contains(id) {
            return self.unknown(Code::LessonUnknown, id, lessons.iter().map(String::as_str));
        }
        if let Some(anchor) = anchor {
            self.note_anchor(Some(id), anchor);
        }
        let anchor = anchor.map_or_else(String::new, |anchor| format!("#{anchor}"));
        self.write(&(self.href(&addresses::lesson(id)) + &anchor));
    }

    fn relation(&mut self, id: &str) {
        let references = self.flow.checking.references;
        let family = relief::FAMILIES.iter().find(|family| family.relations.iter().any(|relation| relation.id == id));
        let own = references.relations.iter().any(|relation| relation.id == id).then_some(addresses::OWN);
        match family.map(|family| family.id).or(own) {
            Some(family) => self.write(&format!("{}#{id}", self.href(&addresses::relations(family)))),
            None => self.unknown(Code::RelationUnknown, id, references.relation_ids()),
        }
    }

    /// Leads to one table, or to the sheet of a family of tables.
    fn table(&mut self, id: &str) {
        let sheet = |family: &str| self.href(&addresses::tables(family));
        let found = relief::TABLES.iter().find_map(|family| match family.id == id {
            true => Some(sheet(family.id)),
            false => family.tables.iter().any(|table| table.id == id).then(|| format!("{}#{id}", sheet(family.id))),
        });
        let all = || {
            relief::TABLES.iter().flat_map(|family| once(family.id).chain(family.tables.iter().map(|table| table.id)))
        };
        match found {
            Some(href) => self.write(&href),
            None => self.unknown(Code::TableUnknown, id, all()),
        }
    }

    fn anchor(&mut self, anchor: &str) {
        self.note_anchor(None, anchor);
        self.write(&format!("#{anchor}"));
    }

    /// The path in the course of a file to hand out, where the address is of one.
    fn handout(&self, address: &str) -> Option<String> {
        let Checking { text, references, .. } = &self.flow.checking;
        let file = in_course(text.file, address)?;
        (text.mode != Mode::Recipe && file.starts_with(&format!("{}/files/", references.language))).then_some(file)
    }

    /// Leads to a file to hand out, with its form and size behind the link.
    fn file(&mut self, file: &str, address: &str) {
        let references = self.flow.checking.references;
        let Some(offer) = references.handouts.get(file) else {
            let names = references.handouts.keys().map(|file| file.rsplit('/').next().unwrap_or(file));
            let name = file.rsplit('/').next().unwrap_or(file);
            let fault = self.flow.checking.text.fault(Code::FileMissing, &self.place).with("address", address);
            self.flow.checking.tell(fault.near(name, names));
            return self.flow.inline("<a>");
        };
        self.write(&format!("{ROOT}{file}"));
        let note = escape(&offer.note(references.decimal_mark));
        self.flow.behind_link = format!(" <span class=\"file-note\">({note})</span>");
        self.flow.page.handouts.insert(file.to_owned());
    }

    fn note_anchor(&mut self, lesson: Option<&str>, anchor: &str) {
        let place = self.flow.checking.text.place(&self.place);
        let lesson = lesson.map(str::to_owned);
        self.flow.page.anchors.push(AnchorUse { lesson, anchor: anchor.to_owned(), place });
    }

    /// A fault for an id that is not known. The link's end is still to come, so its start is written all the same.
    fn unknown<'k>(&mut self, code: Code, id: &str, known: impl Iterator<Item = &'k str>) {
        let checking = &mut self.flow.checking;
        checking.tell(checking.text.fault(code, &self.place).with("id", id).near(id, known));
        self.flow.inline("<a>");
    }

    fn refuse(&mut self, address: &str) {
        let checking = &mut self.flow.checking;
        checking.tell(checking.text.fault(Code::LinkAddressRefused, &self.place).with("address", address));
        self.flow.inline("<a>");
    }
}
