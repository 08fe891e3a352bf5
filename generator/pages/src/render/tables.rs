//! The reference tables, from the registry of the core: a family on each page, and each table as a CSV file.

use problems::display::unit_text;
use relief::tables::{Cell, Column, Row, TableFamily, tables};
use relief::units::{self, Unit};
use relief::{TABLES, Table};
use serde::Serialize;

use super::context::{Link, Page};
use super::lessons::ROOT;
use super::{RenderError, Renderer, family_address};
use crate::csv_text::csv_text;
use crate::words::Words;

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
    /// How many columns it stands over; one stands down to the cells.
    over: usize,
}

/// Rows under a heading of their own, or under none.
#[derive(Serialize)]
struct Group {
    title: Option<String>,
    rows: Vec<Vec<String>>,
}

impl Renderer<'_> {
    pub(super) fn tables(&self, family: &'static TableFamily, number: usize) -> Result<String, RenderError> {
        let sheet = self.after_practice() + 1 + relief::FAMILIES.len() + number;
        let title = tables_title(self.words, family);
        let page = Page { training_figures: true, ..self.blank_page(title, "tables", ROOT, sheet) };
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

    /// The tables that hold numbers of a relation, as a reference page of relations links to them.
    pub(super) fn tables_of(&self, relation: &str) -> Vec<Link> {
        let places = TABLES.iter().flat_map(|family| family.tables.iter().map(move |table| (family.id, table)));
        let own = places.filter(|(_, table)| table.relations.contains(&relation));
        let link = |(family, table): (&str, &Table)| Link {
            title: self.table_word(table, "title"),
            href: format!("../tables/{family}.html#{}", table.id),
            number: String::new(),
        };
        own.map(link).collect()
    }

    /// A table as a file for a spreadsheet: numbers with a point whatever the course writes, units as they are typed.
    pub(super) fn table_file(&self, table: &Table) -> String {
        let columns = table.columns();
        let mut head: Vec<String> = columns.iter().map(|column| self.heading(*column, typed)).collect();
        head.extend(["source", "status"].map(|name| self.column_word(name)));
        let rows = table.rows().into_iter().map(|row| {
            let cells = row.cells.iter().map(|cell| self.cell(cell, str::to_owned, str::to_owned));
            cells.chain([row.document.to_owned(), self.status(&row)]).collect()
        });
        csv_text([head].into_iter().chain(rows))
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
            csv: format!("{}.csv", table.id),
            relations: relations.clone().map(|relation| self.relation_link(relation)).collect(),
            traps: relations.filter(|own| first_use(family, own.id, table)).flat_map(|own| self.traps(own)).collect(),
        }
    }

    /// The headings in two rows; those of the second stand under those of the first that are over more than one column.
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

    /// The heading of a column in full, with its unit.
    fn heading(&self, column: Column, unit: fn(&Unit) -> String) -> String {
        let words = [column.under, column.name].into_iter().flatten().map(|name| self.column_word(name));
        let named = words.collect::<Vec<_>>().join(", ");
        match column.unit.map(unit) {
            Some(unit) if named.is_empty() => unit,
            Some(unit) => format!("{named} ({unit})"),
            None => named,
        }
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

    fn cell(&self, cell: &Cell, number: impl Fn(&str) -> String, symbol: impl Fn(&str) -> String) -> String {
        match cell {
            Cell::Nothing => String::new(),
            Cell::Number(value, figures) => number(&relief::shown(*value, *figures, relief::Rounding::Nearest)),
            Cell::Choice(name) => self.words.get(&format!("choices.{name}")).to_owned(),
            Cell::Kinds(kinds) => {
                let words = kinds.iter().map(|kind| self.words.get(&format!("kinds.{}", kind.id())).to_owned());
                words.collect::<Vec<_>>().join(", ")
            }
            Cell::Symbol(typed) => symbol(typed),
            Cell::Letter(letter) => (*letter).to_owned(),
        }
    }

    fn status(&self, row: &Row) -> String {
        self.words.get(&format!("status.{}", row.status.id())).to_owned()
    }

    fn table_word(&self, table: &Table, name: &str) -> String {
        self.words.get(&format!("tables.rows.{}.{name}", table.id)).to_owned()
    }

    /// The heading of a column: a word of its own, or that of the choice which the column is for.
    fn column_word(&self, name: &str) -> String {
        let own = course::Words::text(self.words, &format!("tables.columns.{name}"));
        own.unwrap_or_else(|| self.words.get(&format!("choices.{name}")).to_owned())
    }

    fn relation_link(&self, relation: &relief::Relation) -> Link {
        let family = relief::FAMILIES.iter().find(|family| family.relations.contains(relation));
        Link {
            title: self.words.get(&format!("relations.{}.title", relation.id)).to_owned(),
            href: format!("../{}#{}", family.map_or_else(String::new, |own| family_address(own.id)), relation.id),
            number: String::new(),
        }
    }
}

fn typed(unit: &Unit) -> String {
    unit.symbol.to_owned()
}

fn printed(unit: &Unit) -> String {
    unit_text(unit, 1.0)
}

/// The title of a page of tables.
pub(super) fn tables_title(words: &Words, family: &TableFamily) -> String {
    let key = format!("tables.families.{}.title", family.id);
    words.fill("pages.tables.title", &[("family", words.get(&key))])
}

/// Whether a table is the first of its page that a relation belongs to: what there is to watch for stands there once.
fn first_use(family: &TableFamily, relation: &str, table: &Table) -> bool {
    let first = family.tables.iter().find(|other| other.relations.contains(&relation));
    first.is_some_and(|first| first.id == table.id)
}

/// The address of every CSV file without the language, with its table.
pub(super) fn files() -> impl Iterator<Item = (String, &'static Table)> {
    tables().map(|table| (format!("tables/{}.csv", table.id), table))
}
