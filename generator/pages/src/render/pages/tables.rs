//! The page of a family of reference tables, from the registry of the core.

use course::addresses;
use relief::tables::{Cell, Column, Row, TableFamily};
use relief::units;
use relief::{TABLES, Table};
use serde::Serialize;

use crate::render::context::{Link, Page};
use crate::render::error::RenderError;
use crate::render::kind::{Entry, Navigation, Order, PageKind};
use crate::render::renderer::Renderer;
use crate::render::table_text::{file, printed};
use crate::words::Words;

pub(super) const KIND: PageKind = PageKind {
    name: "tables",
    root: addresses::ROOT,
    order: Order::Sheets,
    navigation: Navigation::Reference,
    entries: |_, words| {
        TABLES.iter().map(|family| Entry::new(title(words, family), addresses::tables(family.id))).collect()
    },
    render: |renderer, page, place| renderer.tables(page, &TABLES[place]),
};

fn title(words: &Words, family: &TableFamily) -> String {
    let key = format!("tables.families.{}.title", family.id);
    words.fill("pages.tables.title", &[("family", words.get(&key))])
}

#[derive(Serialize)]
struct TableContext {
    id: &'static str,
    title: String,
    purpose: String,
    caution: Option<String>,
    heads: Vec<Head>,
    subheads: Vec<String>,
    groups: Vec<Group>,
    /// The sources with their status. Where there are several, the rows have their numbers.
    sources: Vec<String>,
    csv: String,
    relations: Vec<Link>,
    traps: Vec<String>,
}

/// A heading of the first row.
#[derive(Serialize)]
struct Head {
    text: String,
    /// How many columns it is over; over one, it goes down to the cells.
    over: usize,
}

/// Rows under a heading of their own, or under none.
#[derive(Serialize)]
struct Group {
    title: Option<String>,
    rows: Vec<Vec<String>>,
}

impl Renderer<'_> {
    fn tables(&self, page: Page, family: &'static TableFamily) -> Result<String, RenderError> {
        let page = Page { training_figures: true, ..page };
        let shown: Vec<_> = family.tables.iter().map(|table| self.table(table, family)).collect();
        let families: Vec<_> = TABLES.iter().map(|other| self.table_family(other, other.id == family.id)).collect();
        self.page("tables.html", &page, |context| {
            context.insert("families", &families);
            context.insert("summary", self.words.get(&format!("tables.families.{}.summary", family.id)));
            context.insert("tables", &shown);
        })
    }

    /// A family of tables as a link; the one that is open has no number.
    fn table_family(&self, family: &TableFamily, open: bool) -> Link {
        Link {
            title: self.words.get(&format!("tables.families.{}.title", family.id)).to_owned(),
            href: format!("{}.html", family.id),
            number: if open { String::new() } else { family.id.to_owned() },
        }
    }

    fn table(&self, table: &'static Table, family: &TableFamily) -> TableContext {
        let rows = table.rows();
        let sources = self.sources(&rows);
        let (heads, subheads) = self.heads(table, sources.len() > 1);
        let relations = table.relations.iter().filter_map(|id| relief::find(id));
        let caution = format!("tables.rows.{}.caution", table.id);
        TableContext {
            id: table.id,
            title: self.table_word(table, "title"),
            purpose: self.table_word(table, "purpose"),
            caution: course::Words::text(self.words, &caution),
            heads,
            subheads,
            groups: self.groups(table, &rows, &sources),
            sources,
            csv: file(table),
            relations: relations.clone().map(|relation| self.relation_link(relation)).collect(),
            traps: relations.filter(|own| first_use(family, own.id, table)).flat_map(|own| self.traps(own)).collect(),
        }
    }

    /// The headings in two rows: those of the second row are under a heading of the first that spans several columns.
    fn heads(&self, table: &Table, numbered: bool) -> (Vec<Head>, Vec<String>) {
        let columns = table.columns();
        let columns = &columns[usize::from(table.is_grouped())..];
        let (mut heads, mut subheads) = (Vec::new(), Vec::new());
        for together in columns.chunk_by(|one, other| one.under.is_some() && one.under == other.under) {
            match together {
                [alone] => heads.push(Head { text: self.heading(*alone, printed), over: 1 }),
                _ => {
                    let under = together[0].under.unwrap_or_default();
                    heads.push(Head { text: self.column_word(under), over: together.len() });
                    let own = |column: &Column| self.heading(Column { under: None, ..*column }, printed);
                    subheads.extend(together.iter().map(own));
                }
            }
        }
        heads.extend(numbered.then(|| Head { text: self.column_word("source"), over: 1 }));
        (heads, subheads)
    }

    /// The sources of rows, each once.
    fn sources(&self, rows: &[Row]) -> Vec<String> {
        let mut all = Vec::new();
        for source in rows.iter().map(|row| self.source_of(row.document, row.status)) {
            if !all.contains(&source) {
                all.push(source);
            }
        }
        all
    }

    fn groups(&self, table: &Table, rows: &[Row], sources: &[String]) -> Vec<Group> {
        let grouped = table.is_grouped();
        let together = |one: &Row, other: &Row| !grouped || one.cells.first() == other.cells.first();
        let group = |rows: &[Row]| Group {
            title: grouped.then(|| self.page_cell(&rows[0].cells[0])),
            rows: rows.iter().map(|row| self.page_row(row, usize::from(grouped), sources)).collect(),
        };
        rows.chunk_by(together).map(group).collect()
    }

    /// The cells of a row on a page, from a place on, and the number of its source where there are several.
    fn page_row(&self, row: &Row, from: usize, sources: &[String]) -> Vec<String> {
        let cells = row.cells.iter().skip(from).map(|cell| self.page_cell(cell));
        let source = self.source_of(row.document, row.status);
        let number = sources.iter().position(|own| *own == source).filter(|_| sources.len() > 1);
        cells.chain(number.map(|number| (number + 1).to_string())).collect()
    }

    fn page_cell(&self, cell: &Cell) -> String {
        let symbol = |typed: &str| units::find(typed).map_or_else(|| typed.to_owned(), printed);
        match cell {
            Cell::Nothing => self.words.get("pages.tables.nothing").to_owned(),
            _ => self.cell(cell, |number| self.mark().print(number), symbol),
        }
    }
}

/// Whether a table is the first of its page that a relation belongs to: what there is to watch for is said there once.
fn first_use(family: &TableFamily, relation: &str, table: &Table) -> bool {
    let first = family.tables.iter().find(|other| other.relations.contains(&relation));
    first.is_some_and(|first| first.id == table.id)
}
