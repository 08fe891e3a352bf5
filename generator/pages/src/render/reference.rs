//! What the reference pages and the calculators say alike: where a law or table comes from, what to watch for, and the
//! links between relations and the tables that hold their numbers.

use course::addresses;
use relief::{Family, Relation, Status, System, TABLES, Table};

use super::context::Link;
use super::renderer::Renderer;
use crate::words::Words;

/// The title of a family of relations.
pub(super) fn family_title<'w>(words: &'w Words, family: &'w Family) -> &'w str {
    words.section("families").get(family.id).and_then(|title| title.as_str()).unwrap_or(family.id)
}

impl Renderer<'_> {
    /// The document of a form of a law, and how well it is known.
    pub(super) fn source(&self, relation: &Relation, form: System) -> String {
        let source = &relation.forms.of(form).source;
        self.source_of(source.document, source.status)
    }

    /// A document and how well it is known; the latter alone without a document.
    pub(super) fn source_of(&self, document: &str, status: Status) -> String {
        let key = format!("status.{}", status.id());
        let status = self.words.get(&key);
        match document {
            "" => status.to_owned(),
            document => format!("{document} ({status})"),
        }
    }

    /// What to watch for with a relation.
    pub(super) fn traps(&self, relation: &Relation) -> Vec<String> {
        let trap = |index: usize| course::Words::text(self.words, &format!("relations.{}.traps.{index}", relation.id));
        (0..).map_while(trap).collect()
    }

    /// The tables that hold numbers of a relation, as the page of the relation links to them.
    pub(super) fn tables_of(&self, relation: &str) -> Vec<Link> {
        let places = TABLES.iter().flat_map(|family| family.tables.iter().map(move |table| (family.id, table)));
        let own = places.filter(|(_, table)| table.relations.contains(&relation));
        let link = |(family, table): (&str, &Table)| Link {
            title: self.table_word(table, "title"),
            href: format!("../{}#{}", addresses::tables(family), table.id),
            number: String::new(),
        };
        own.map(link).collect()
    }

    /// A relation, as the page of a table links to it.
    pub(super) fn relation_link(&self, relation: &Relation) -> Link {
        let family = relief::FAMILIES.iter().find(|family| family.relations.contains(relation));
        let page = family.map_or_else(String::new, |own| addresses::relations(own.id));
        Link {
            title: self.words.get(&format!("relations.{}.title", relation.id)).to_owned(),
            href: format!("../{page}#{}", relation.id),
            number: String::new(),
        }
    }

    /// A word of a table.
    pub(super) fn table_word(&self, table: &Table, name: &str) -> String {
        self.words.get(&format!("tables.rows.{}.{name}", table.id)).to_owned()
    }
}
