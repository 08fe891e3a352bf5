//! Tables: ruled like those on a drawing, with scopes, in a box that scrolls alone; never with a style attribute.

use std::ops::Range;

use faults::Code;
use pulldown_cmark::{Alignment, Tag, TagEnd};

use super::checking::Checking;
use super::flow::Flow;

/// The table that is being written.
#[derive(Default)]
pub(super) struct Table {
    columns: Vec<Alignment>,
    in_head: bool,
    /// How many cells its row has so far.
    cell: usize,
}

impl Table {
    /// Opens a table, or a part of one.
    pub(super) fn start(&mut self, tag: &Tag, range: &Range<usize>, flow: &mut Flow) {
        match tag {
            Tag::Table(columns) => {
                self.columns.clone_from(columns);
                flow.between("<div class=\"table-wrap\"><table>");
            }
            Tag::TableHead => {
                (self.in_head, self.cell) = (true, 0);
                flow.between("<thead><tr>");
            }
            Tag::TableRow => {
                self.check_row(range, &mut flow.checking);
                self.cell = 0;
                flow.between("<tr>");
            }
            _ => flow.between(&self.cell_start()),
        }
    }

    /// Closes what was opened last.
    pub(super) fn end(&mut self, tag: TagEnd, flow: &mut Flow) {
        match tag {
            TagEnd::Table => flow.between("</tbody></table></div>\n"),
            TagEnd::TableHead => {
                self.in_head = false;
                flow.between("</tr></thead><tbody>\n");
            }
            TagEnd::TableRow => flow.between("</tr>\n"),
            _ => {
                self.cell += 1;
                flow.between(if self.in_head { "</th>" } else { "</td>" });
            }
        }
    }

    fn cell_start(&self) -> String {
        let name = if self.in_head { "th scope=\"col\"" } else { "td" };
        let class = match self.columns.get(self.cell) {
            Some(Alignment::Right) => " class=\"align-end\"",
            Some(Alignment::Center) => " class=\"align-center\"",
            _ => "",
        };
        format!("<{name}{class}>")
    }

    /// Refuses a row with fewer or more cells than the head of its table.
    fn check_row(&self, range: &Range<usize>, checking: &mut Checking) {
        let row = checking.text.body()[range.clone()].lines().next().unwrap_or_default().trim_end();
        let (found, wanted) = (cells(row), self.columns.len());
        if found != wanted {
            let place = range.start..range.start + row.len();
            let fault = checking.text.fault(Code::MarkdownRowUneven, &place);
            checking.tell(fault.with("found", found).with("wanted", wanted));
        }
    }
}

/// How many cells a row has, as it is written: Markdown adds what lacks and drops what is too much.
fn cells(row: &str) -> usize {
    let row = row.trim();
    let row = row.strip_prefix('|').unwrap_or(row);
    let marks: Vec<_> = row.match_indices('|').filter(|(at, _)| !row[..*at].ends_with('\\')).collect();
    let closed = marks.last().is_some_and(|(at, _)| at + 1 == row.len());
    marks.len() + usize::from(!closed)
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
