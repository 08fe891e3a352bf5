//! Addresses in a text: what each leads to, and what is refused.

use std::ops::Range;

use faults::Code;
use pulldown_cmark::{LinkType, Tag};

use super::writer::Writer;
use super::{AnchorUse, Mode};
use crate::addresses;
use crate::fault::Fault;
use problems::template::escape;

impl<'a> Writer<'_, 'a> {
    pub(super) fn start_link(&mut self, tag: &Tag<'a>, range: &Range<usize>) {
        let Tag::Link { link_type, dest_url, title, .. } = tag else { return };
        if *link_type == LinkType::Email {
            return self.write_link(&format!("mailto:{dest_url}"), title);
        }
        let place = self.address_range(dest_url, range);
        let address: &str = dest_url;
        match address.split_once(':') {
            Some(("term", id)) => self.term_link(id, &place),
            Some(("lesson", id)) => self.lesson_link(id, title, &place),
            Some(("relation", id)) => self.relation_link(id, title, &place),
            Some(("table", id)) => self.table_link(id, title, &place),
            Some(("https", rest)) if rest.starts_with("//") && rest.len() > 2 => self.write_link(address, title),
            Some(("mailto", rest)) if rest.contains('@') => self.write_link(address, title),
            _ => match address.strip_prefix('#') {
                Some(anchor) => self.anchor_link(anchor, title, &place),
                None => self.refused_link(address, &place),
            },
        }
    }

    /// The bytes of the address within a link.
    pub(super) fn address_range(&self, address: &str, range: &Range<usize>) -> Range<usize> {
        let raw = &self.text.body()[range.clone()];
        let found = raw.rfind(address).filter(|_| !address.is_empty());
        found.map_or(range.clone(), |at| range.start + at..range.start + at + address.len())
    }

    /// The address of a page of the site, as a text links to it.
    fn href(&self, page: &str) -> String {
        addresses::from_page(&self.shelf.language, page)
    }

    fn write_link(&mut self, href: &str, title: &str) {
        let title = if title.is_empty() { String::new() } else { format!(" title=\"{}\"", escape(title)) };
        self.inline(&format!("<a href=\"{}\"{title}>", escape(href)));
    }

    fn term_link(&mut self, id: &str, place: &Range<usize>) {
        let shelf = self.shelf;
        match shelf.terms.find(id) {
            Some(term) => {
                self.mention(term);
                self.inline(shelf.terms.link(term));
            }
            None => self.unknown(Code::TermUnknown, id, place, shelf.terms.ids()),
        }
    }

    fn lesson_link(&mut self, target: &str, title: &str, place: &Range<usize>) {
        let (id, anchor) = target.split_once('#').map_or((target, None), |(id, anchor)| (id, Some(anchor)));
        let shelf = self.shelf;
        if !shelf.lessons.contains(id) {
            return self.unknown(Code::LessonUnknown, id, place, shelf.lessons.iter().map(String::as_str));
        }
        if let Some(anchor) = anchor {
            self.note_anchor(Some(id), anchor, place);
        }
        let anchor = anchor.map_or_else(String::new, |anchor| format!("#{anchor}"));
        self.write_link(&(self.href(&addresses::lesson(id)) + &anchor), title);
    }

    fn relation_link(&mut self, id: &str, title: &str, place: &Range<usize>) {
        let family = relief::FAMILIES.iter().find(|family| family.relations.iter().any(|relation| relation.id == id));
        match family {
            Some(family) => {
                let page = self.href(&addresses::relations(family.id));
                self.write_link(&format!("{page}#{id}"), title);
            }
            None => self.unknown(Code::RelationUnknown, id, place, relief::relations().map(|relation| relation.id)),
        }
    }

    /// Leads to one table, or to the sheet of a family of tables.
    fn table_link(&mut self, id: &str, title: &str, place: &Range<usize>) {
        let sheet = |family: &str| self.href(&addresses::tables(family));
        let found = relief::TABLES.iter().find_map(|family| match family.id == id {
            true => Some(sheet(family.id)),
            false => family.tables.iter().any(|table| table.id == id).then(|| format!("{}#{id}", sheet(family.id))),
        });
        match found {
            Some(href) => self.write_link(&href, title),
            None => {
                let known = relief::TABLES
                    .iter()
                    .flat_map(|family| std::iter::once(family.id).chain(family.tables.iter().map(|table| table.id)));
                self.unknown(Code::TableUnknown, id, place, known);
            }
        }
    }

    fn anchor_link(&mut self, anchor: &str, title: &str, place: &Range<usize>) {
        if self.text.mode != Mode::Lesson {
            return self.refused_link(&format!("#{anchor}"), place);
        }
        self.note_anchor(None, anchor, place);
        self.write_link(&format!("#{anchor}"), title);
    }

    fn note_anchor(&mut self, lesson: Option<&str>, anchor: &str, place: &Range<usize>) {
        let place = self.text.place(place);
        self.page.anchors.push(AnchorUse { lesson: lesson.map(str::to_owned), anchor: anchor.to_owned(), place });
    }

    /// A fault for an id that is not known. The link's end is still to come, so its start is written all the same.
    fn unknown<'k>(&mut self, code: Code, id: &str, place: &Range<usize>, known: impl Iterator<Item = &'k str>) {
        let fault = Fault::at(code, self.text.place(place)).with("id", id).near(id, known);
        self.faults.push(fault);
        self.inline("<a>");
    }

    fn refused_link(&mut self, address: &str, place: &Range<usize>) {
        let fault = Fault::at(Code::LinkAddressRefused, self.text.place(place)).with("address", address);
        self.faults.push(fault);
        self.inline("<a>");
    }
}
