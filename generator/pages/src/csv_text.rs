//! Rows as the text of a CSV file (RFC 4180).

use csv::{Terminator, WriterBuilder};

/// Rows of cells as text, the headings first. A cell that a spreadsheet would take for a formula has an apostrophe put
/// before it.
pub(crate) fn csv_text(rows: impl Iterator<Item = Vec<String>>) -> String {
    let mut writer = WriterBuilder::new().terminator(Terminator::CRLF).from_writer(Vec::new());
    for row in rows {
        let cells: Vec<_> = row.iter().map(|cell| harmless(cell)).collect();
        // Writing into memory fails only where rows differ in length, and a test holds those of every table together.
        if writer.write_record(&cells).is_err() {
            break;
        }
    }
    writer.into_inner().map(|bytes| String::from_utf8_lossy(&bytes).into_owned()).unwrap_or_default()
}

fn harmless(cell: &str) -> String {
    let formula = cell.starts_with(['=', '+', '-', '@', '\t', '\r']) && cell.parse::<f64>().is_err();
    if formula { format!("'{cell}") } else { cell.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_spreadsheet_would_work_out_is_text_and_numbers_stay_numbers() {
        assert_eq!(harmless("=1+1"), "'=1+1");
        assert_eq!(harmless("@sum"), "'@sum");
        assert_eq!(harmless("-2.5"), "-2.5");
        assert_eq!(harmless("-2.5 psi"), "'-2.5 psi");
        assert_eq!(harmless("psi"), "psi");
    }

    #[test]
    fn rows_end_as_the_standard_says_and_commas_are_kept() {
        let rows = [vec!["a".to_owned(), "b (in2)".to_owned()], vec!["x, \"y\"".to_owned(), String::new()]];
        assert_eq!(csv_text(rows.into_iter()), "a,b (in2)\r\n\"x, \"\"y\"\"\",\r\n");
    }
}
