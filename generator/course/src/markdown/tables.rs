//! Tables: ruled like those on a drawing, with scopes, in a box that scrolls alone; never with a style attribute.

use std::ops::Range;

use faults::Code;
use pulldown_cmark::{Alignment, Tag, TagEnd};

use super::writer::Writer;

/// How many cells a row has, as it is written: Markdown adds what lacks and drops what is too much.
fn cells(row: &str) -> usize {
    let row = row.trim();
    let row = row.strip_prefix('|').unwrap_or(row);
    let marks: Vec<_> = row.match_indices('|').filter(|(at, _)| !row[..*at].ends_with('\\')).collect();
    let closed = marks.last().is_some_and(|(at, _)| at + 1 == row.len());
    marks.len() + usize::from(!closed)
}

impl<'a> Writer<'_, 'a> {
    /// A row with fewer or more cells than the head of its table.
    fn uneven_row(&mut self, range: &Range<usize>) {
        let row = self.text.body()[range.clone()].lines().next().unwrap_or_default().trim_end();
        let (found, wanted) = (cells(row), self.table_columns.len());
        if found != wanted {
            self.fault(Code::MarkdownRowUneven, &(range.start..range.start + row.len()))
                .values
                .extend([("found", found.to_string()), ("wanted", wanted.to_string())]);
        }
    }

    pub(super) fn start_table(&mut self, tag: &Tag<'a>, range: &Range<usize>) {
        match tag {
            Tag::Table(columns) => {
                self.table_columns.clone_from(columns);
                self.block("<div class=\"table-wrap\"><table>");
            }
            Tag::TableHead => {
                (self.table_head, self.table_cell) = (true, 0);
                self.block("<thead><tr>");
            }
            Tag::TableRow => {
                self.uneven_row(range);
                self.table_cell = 0;
                self.block("<tr>");
            }
            _ => {
                let name = if self.table_head { "th scope=\"col\"" } else { "td" };
                let class = match self.table_columns.get(self.table_cell) {
                    Some(Alignment::Right) => " class=\"align-end\"",
                    Some(Alignment::Center) => " class=\"align-center\"",
                    _ => "",
                };
                self.block(&format!("<{name}{class}>"));
            }
        }
    }

    pub(super) fn end_table(&mut self, tag: TagEnd) {
        match tag {
            TagEnd::Table => self.block("</tbody></table></div>\n"),
            TagEnd::TableHead => {
                self.table_head = false;
                self.block("</tr></thead><tbody>\n");
            }
            TagEnd::TableRow => self.block("</tr>\n"),
            _ => {
                self.table_cell += 1;
                self.block(if self.table_head { "</th>" } else { "</td>" });
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::cells;

    #[test]
    fn cells_are_counted_as_they_are_written() {
        for (row, count) in [("| a | b |", 2), ("a | b", 2), ("| a \\| b |", 1), ("| a | |", 2), ("| a |  | c", 3)] {
            assert_eq!(cells(row), count, "{row}");
        }
    }
}
