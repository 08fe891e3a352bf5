//! Tables: ruled like those on a drawing, with scopes, in a box that scrolls alone; never with a style attribute.

use pulldown_cmark::{Alignment, Tag, TagEnd};

use super::writer::Writer;

impl<'a> Writer<'_, 'a> {
    pub(super) fn start_table(&mut self, tag: &Tag<'a>) {
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
