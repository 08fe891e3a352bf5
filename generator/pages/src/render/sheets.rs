//! The set of sheets: every page of a site in its order, with its number and its neighbours.

use std::collections::BTreeMap;

use super::context::{Link, Sheet};

/// The sheet of a lesson at a place in the course: the cover is the first sheet.
pub(super) fn lesson_number(place: usize) -> usize {
    place + 2
}

/// The number of a sheet, or of a sheet within it, both counted from one: `5`, `5-2`. A hyphen, because `5.2` and `5,2`
/// are read as numbers.
fn number(sheet: usize, within: Option<usize>) -> String {
    within.map_or_else(|| sheet.to_string(), |within| format!("{sheet}-{within}"))
}

/// All pages in their order.
#[derive(Default)]
pub(super) struct Sheets {
    pages: Vec<Numbered>,
    /// The places among them of the pages that are sheets, not sheets within one.
    whole: Vec<usize>,
    places: BTreeMap<String, usize>,
}

struct Numbered {
    title: String,
    /// From the top of the site.
    address: String,
    /// Its sheet, or the one that it is within.
    sheet: usize,
    within: Option<usize>,
}

impl Sheets {
    /// Adds a sheet; gives its place among all pages.
    pub(super) fn add(&mut self, title: String, address: String) -> usize {
        self.whole.push(self.pages.len());
        self.push(title, address, None)
    }

    /// Adds a sheet within the last sheet; gives its place among all pages.
    pub(super) fn add_within(&mut self, title: String, address: String) -> usize {
        let before = self.pages.last().and_then(|page| page.within);
        self.push(title, address, Some(before.unwrap_or(0) + 1))
    }

    fn push(&mut self, title: String, address: String, within: Option<usize>) -> usize {
        let place = self.pages.len();
        self.places.insert(address.clone(), place);
        self.pages.push(Numbered { title, address, sheet: self.whole.len(), within });
        place
    }

    /// The title of the page at a place.
    pub(super) fn title(&self, place: usize) -> &str {
        &self.pages[place].title
    }

    /// The number and the neighbours of the page at a place, as it links to them. One turns from sheet to sheet, and within
    /// a sheet from one to the next; the last sheet goes on with those within it.
    pub(super) fn sheet(&self, place: usize, root: &str) -> Sheet {
        let page = &self.pages[place];
        let whole = |sheet: Option<usize>| self.whole.get(sheet?).copied();
        let within = self.pages.get(place + 1).filter(|next| next.within.is_some()).map(|_| place + 1);
        let after = whole(Some(page.sheet));
        let (previous, next) = match page.within {
            None => (whole(page.sheet.checked_sub(2)), after.or(within)),
            Some(_) => (place.checked_sub(1), within.or(after)),
        };
        let link = |other: usize| self.link_from(page, &self.pages[other], root);
        Sheet {
            number: number(page.sheet, page.within),
            of: page.within.is_none().then_some(self.whole.len()),
            previous: previous.map(link),
            next: next.map(link),
        }
    }

    /// The link to a page by its address, from a page of another sheet at `root`.
    pub(super) fn link_to(&self, address: &str, root: &str) -> Option<Link> {
        let page = &self.pages[*self.places.get(address)?];
        Some(link(page, format!("{root}{address}")))
    }

    /// The links to the sheets within the sheet of an address, from that sheet.
    pub(super) fn within(&self, address: &str) -> Vec<Link> {
        let Some(&list) = self.places.get(address) else { return Vec::new() };
        let inner = self.pages[list + 1..].iter().take_while(|page| page.within.is_some());
        inner.map(|page| link(page, beside(&page.address))).collect()
    }

    /// Pages of one sheet are in one folder.
    fn link_from(&self, from: &Numbered, to: &Numbered, root: &str) -> Link {
        let near = from.sheet == to.sheet;
        link(to, if near { beside(&to.address) } else { format!("{root}{}", to.address) })
    }
}

fn link(to: &Numbered, href: String) -> Link {
    Link { title: to.title.clone(), href, number: number(to.sheet, to.within) }
}

/// The link to a page of the same folder.
fn beside(address: &str) -> String {
    address.rsplit('/').next().unwrap_or(address).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn neighbours(sheets: &Sheets, place: usize) -> (String, Option<String>, Option<String>) {
        let Sheet { number, previous, next, .. } = sheets.sheet(place, "../");
        let shown = |link: Option<Link>| link.map(|link| format!("{} {}", link.number, link.href));
        (number, shown(previous), shown(next))
    }

    #[test]
    fn sheets_within_a_sheet_are_numbered_in_it_and_turned_through() {
        let mut sheets = Sheets::default();
        for name in ["a", "b", "b1", "b2", "c", "c1"] {
            let (title, address) = (name.to_uppercase(), format!("en/{name}"));
            match name.len() {
                1 => sheets.add(title, address),
                _ => sheets.add_within(title, address),
            };
        }
        let some = |text: &str| Some(text.to_owned());
        let all: Vec<_> = (0..6).map(|place| neighbours(&sheets, place)).collect();
        let expected = [
            ("1", None, some("2 ../en/b")),
            ("2", some("1 ../en/a"), some("3 ../en/c")),
            ("2-1", some("2 b"), some("2-2 b2")),
            ("2-2", some("2-1 b1"), some("3 ../en/c")),
            ("3", some("2 ../en/b"), some("3-1 c1")),
            ("3-1", some("3 c"), None),
        ];
        assert_eq!(all, expected.map(|(number, previous, next)| (number.to_owned(), previous, next)));
        assert_eq!(sheets.within("en/b").iter().map(|link| link.href.as_str()).collect::<Vec<_>>(), ["b1", "b2"]);
    }
}
