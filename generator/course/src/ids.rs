//! Ids: how they are written, and that no two are the same.

use std::collections::BTreeMap;

use faults::Code;

use crate::fault::{Fault, Place};
use crate::files::is_device_name;

/// What no recipe may be called: the names of the pages beside theirs.
pub(crate) const TAKEN_BESIDE_RECIPES: &[&str] = &["index", "progress"];
/// What no term or relation may be called: the name of the page beside theirs, and of a part of it.
pub(crate) const TAKEN_BESIDE_TERMS: &[&str] = &["index", "main"];

/// Checks how an id is written: it becomes a file name and an address.
pub(crate) fn written(id: &str, place: impl Fn() -> Place, faults: &mut Vec<Fault>) {
    let letters = id.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'_');
    if !letters || !id.starts_with(|first: char| first.is_ascii_lowercase()) || id.len() > 80 {
        faults.push(Fault::at(Code::IdBadlyWritten, place()).with("id", id).with("nearest", mended(id)));
    } else if is_device_name(id) {
        faults.push(Fault::at(Code::CourseReservedName, place()).with("name", id).with("file", id));
    }
}

/// The id that was probably meant; empty where there is nothing to keep.
fn mended(id: &str) -> String {
    let words = id.split(|next: char| !next.is_ascii_alphanumeric()).filter(|word| !word.is_empty());
    let mended = words.map(str::to_ascii_lowercase).collect::<Vec<_>>().join("_");
    mended.trim_start_matches(|first: char| !first.is_ascii_lowercase()).to_owned()
}

/// Checks how ids are written, and that none is used twice, whatever the case of its letters. An id that only differs from
/// another by its capitals is reported as that alone. Places are only looked for where there is a fault.
pub(crate) fn all<'a, P: Fn() -> Place>(ids: impl Iterator<Item = (&'a str, P)>, faults: &mut Vec<Fault>) {
    let mut known: BTreeMap<String, (&str, P)> = BTreeMap::new();
    for (id, place) in ids {
        match known.get(&id.to_lowercase()) {
            Some((first, first_place)) => {
                let code = if *first == id { Code::CourseRepeatedId } else { Code::CourseIdsDifferByCase };
                let fault = Fault::at(code, place()).with("id", id).with("other", first);
                faults.push(fault.also(first_place(), "first"));
            }
            None => {
                written(id, &place, faults);
                known.insert(id.to_lowercase(), (id, place));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_are_lower_case_words() {
        let code = |id: &str| {
            let mut faults = Vec::new();
            written(id, || Place::whole("a"), &mut faults);
            faults
                .pop()
                .map(|fault| (fault.code, fault.values.last().map(|(_, value)| value.clone()).unwrap_or_default()))
        };
        assert_eq!(code("full_lift2"), None);
        assert_eq!(code("Full Lift"), Some((Code::IdBadlyWritten, "full_lift".to_owned())));
        assert_eq!(code("2nd"), Some((Code::IdBadlyWritten, "nd".to_owned())));
        assert_eq!(code(""), Some((Code::IdBadlyWritten, String::new())));
        assert_eq!(code("con").map(|fault| fault.0), Some(Code::CourseReservedName));
    }

    #[test]
    fn the_second_of_two_alike_is_told_with_the_first() {
        let mut faults = Vec::new();
        all(
            [("a", 0), ("b", 1), ("a", 2), ("B", 3)].map(|(id, at)| (id, move || Place::new("x", at..at))).into_iter(),
            &mut faults,
        );
        let told: Vec<_> = faults.iter().map(|fault| (fault.code, fault.also[0].0.span.start)).collect();
        assert_eq!(told, [(Code::CourseRepeatedId, 0), (Code::CourseIdsDifferByCase, 1)]);
    }
}
