//! The reference tables as CSV files.

use relief::Table;

use super::renderer::Renderer;
use super::table_text::typed;
use crate::csv_text::csv_text;

impl Renderer<'_> {
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
}
