//! Faults as the frame shows them: the words of the terminal, with the line that they are in.

use std::path::Path;

use course::{Fault, Faults, Place};
use pages::Words;
use serde::Serialize;

/// A fault in words, with its places.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(crate) struct ShownFault {
    code: &'static str,
    title: String,
    /// Its own, and then those that belong to it.
    places: Vec<ShownPlace>,
    expected: String,
    fix: String,
}

/// Where it is.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
struct ShownPlace {
    /// What is there, if it is not the fault itself.
    label: String,
    /// File, line and column, as the terminal writes them.
    at: String,
    /// The line, cut where the mark begins and ends; `None` where the whole file is meant.
    line: Option<[String; 3]>,
}

/// All faults of a course in a folder, in their order.
pub(crate) fn shown(folder: &Path, faults: &Faults, words: &Words) -> Vec<ShownFault> {
    faults.list.iter().map(|fault| shown_fault(folder, faults, fault, words)).collect()
}

fn shown_fault(folder: &Path, faults: &Faults, fault: &Fault, words: &Words) -> ShownFault {
    let message = fault.message(words);
    let label = |label: &str| words.get(&format!("faults.labels.{label}")).to_owned();
    let also = fault.also.iter().map(|(place, name)| (place, label(name)));
    let places = std::iter::once((&fault.place, String::new())).chain(also);
    ShownFault {
        code: fault.code.id(),
        title: message.title,
        places: places.map(|(place, label)| shown_place(folder, faults, place, &label)).collect(),
        expected: message.expected,
        fix: message.fix,
    }
}

fn shown_place(folder: &Path, faults: &Faults, place: &Place, label: &str) -> ShownPlace {
    let file = format!("{}/{}", folder.display(), place.file);
    let found = faults.line_and_column(place).zip(faults.sources.get(&place.file));
    let at = match found {
        Some(((line, column), _)) => format!("{file}:{line}:{column}"),
        None => file,
    };
    ShownPlace { label: label.to_owned(), at, line: found.and_then(|(_, text)| marked_line(text, place)) }
}

/// The first line of a place, in three parts: before what is meant, that, and after it.
fn marked_line(text: &str, place: &Place) -> Option<[String; 3]> {
    let (start, end) = (place.span.start, place.span.end);
    let from = text.get(..start)?.rfind('\n').map_or(0, |at| at + 1);
    let to = text[start..].find('\n').map_or(text.len(), |at| start + at);
    let end = end.clamp(start, to);
    let parts = [text.get(from..start)?, text.get(start..end)?, text.get(end..to)?];
    Some(parts.map(str::to_owned))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_line_is_cut_where_the_mark_is() {
        let cut = |span: std::ops::Range<usize>| marked_line("one\ntwo three\nfour", &Place::new("a", span));
        assert_eq!(cut(8..13), Some(["two ", "three", ""].map(str::to_owned)));
        assert_eq!(cut(8..16), Some(["two ", "three", ""].map(str::to_owned)), "the first of two lines");
        assert_eq!(cut(18..18), Some(["four", "", ""].map(str::to_owned)));
        assert_eq!(cut(99..99), None);
    }
}
