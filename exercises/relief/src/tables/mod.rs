//! The registry of reference tables: what the core holds in rows, for people to look up. Cells come from the rows and
//! functions that the relations use.

mod cells;
mod fill;
mod ladder;
mod layout;

pub use layout::{Cell, Column, Content, Ladder, LimitTable, Row, Table};

use crate::limits::{self, Limit};

/// Tables that belong together: one reference page.
#[derive(Debug)]
pub struct TableFamily {
    /// The name, the same in addresses and words.
    pub id: &'static str,
    /// Its tables, in the order of the page.
    pub tables: &'static [Table],
}

const fn limits(of: &'static str, low: Option<&'static str>, high: &'static str, rows: &'static [Limit]) -> Content {
    Content::Limits(LimitTable { of, low, high, rows })
}

/// Every table, by family, in the order of the reference.
pub const TABLES: &[TableFamily] = &[
    TableFamily {
        id: "limits",
        tables: &[
            Table {
                id: "maximum_set",
                relations: &["maximum_set"],
                content: limits("rank", None, "above_mawp", limits::MAXIMUM_SETS),
            },
            Table {
                id: "allowed_accumulation",
                relations: &["allowed_accumulation_over_mawp"],
                content: limits("case", None, "over_mawp", limits::ALLOWED_ACCUMULATIONS),
            },
            Table {
                id: "set_tolerance",
                relations: &["set_tolerance", "within_tolerance"],
                content: limits("code", Some("below_set"), "above_set", limits::SET_TOLERANCES),
            },
            Table {
                id: "blowdown_limit",
                relations: &["blowdown_limit"],
                content: limits("code", Some("least"), "most", limits::BLOWDOWN_LIMITS),
            },
            Table {
                id: "reset_limit",
                relations: &["reset_limit"],
                content: limits("rule", Some("below_marked"), "above_marked", limits::RESETS),
            },
        ],
    },
    TableFamily { id: "differ", tables: ladder::COMPARED },
    TableFamily {
        id: "bench",
        tables: &[
            ladder::LEAK_TEST,
            Table { id: "bubble_limit", relations: &["bubble_limit"], content: Content::Bubbles },
            ladder::WATER_LEAK,
            Table { id: "gauge_grade", relations: &["gauge_error"], content: Content::GaugeGrades },
            ladder::GAUGE_SPAN,
        ],
    },
    TableFamily {
        id: "sizes",
        tables: &[Table { id: "orifice", relations: &["standard_orifice"], content: Content::Orifices }],
    },
    TableFamily { id: "units", tables: &[Table { id: "unit", relations: &[], content: Content::Units }] },
];

/// Every table, in the order of the families.
pub fn tables() -> impl Iterator<Item = &'static Table> {
    TABLES.iter().flat_map(|family| family.tables)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::relation::Status;
    use crate::system::System;

    #[test]
    fn every_row_has_a_cell_for_each_column_and_a_source_with_a_status() {
        for table in tables() {
            let (columns, rows) = (table.columns(), table.rows());
            assert!(!rows.is_empty(), "{}", table.id);
            for row in rows {
                assert_eq!(row.cells.len(), columns.len(), "{}", table.id);
                assert!(!row.document.is_empty() || row.status == Status::CommonPractice, "{}", table.id);
                let finite = |cell: &Cell| !matches!(cell, Cell::Number(value, _) if !value.is_finite());
                assert!(row.cells.iter().all(finite), "{}", table.id);
            }
        }
    }

    #[test]
    fn every_relation_that_a_table_names_is_in_the_registry_and_says_the_same_source() {
        for table in tables() {
            for id in table.relations {
                let relation = crate::find(id).unwrap_or_else(|| panic!("{}: {id}", table.id));
                for row in table.rows() {
                    let document = relation.forms.of(System::Us).source.document;
                    assert!(document.contains(row.document), "{}: {}", table.id, row.document);
                }
            }
        }
    }

    /// Nobody can choose a code that has no row, and no row is for a code that nobody can choose.
    #[test]
    fn the_rows_of_limits_are_for_the_choices_of_their_relation() {
        let mut seen = 0;
        for table in tables() {
            let Content::Limits(limits) = &table.content else { continue };
            let relation = crate::find(table.relations[0]).expect("relation");
            let Some((_, input)) = relation.input(limits.of) else { continue };
            let crate::Form::Choice(known) = input.form else { panic!("{}: no choice", table.id) };
            let mut names: Vec<_> = limits.rows.iter().map(|row| row.name).collect();
            names.dedup();
            // The general rule for a new setting is the maker's range, and no number of a table.
            let listed: Vec<_> =
                known.iter().copied().filter(|name| (table.id, *name) != ("reset_limit", "general")).collect();
            assert_eq!(names, listed, "{}", table.id);
            seen += 1;
        }
        assert_eq!(seen, 5);
    }

    #[test]
    fn every_unit_stands_in_the_table_once() {
        let table = tables().find(|table| table.id == "unit").expect("table");
        let mut symbols: Vec<_> = table.rows().iter().map(|row| format!("{:?}", row.cells[1])).collect();
        assert_eq!(symbols.len(), crate::units::UNITS.len());
        symbols.sort_unstable();
        symbols.dedup();
        assert_eq!(symbols.len(), crate::units::UNITS.len());
    }
}
