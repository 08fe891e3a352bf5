//! What only follows from a file that was not read: it would be told before its cause, and mended in the wrong place.

use crate::fault::Fault;

/// Why a file of the course, or a whole folder, was not read.
const NOT_READ: [&str; 9] = [
    "course-not-utf8",
    "course-control-character",
    "course-unreadable",
    "course-file-too-large",
    "course-unexpected-folder",
    "course-unexpected-file",
    "course-unportable-name",
    "course-reserved-name",
    "course-path-too-long",
];

/// What is missing where a file was not read.
const FOLLOWING: [&str; 5] = ["lesson-unknown", "objective-unknown", "term-unknown", "recipe-unknown", "image-missing"];

/// Leaves out what may only follow. What does not will be told when the file is read.
pub(crate) fn without_what_follows(faults: &mut Vec<Fault>) {
    if faults.iter().any(|fault| NOT_READ.contains(&fault.code)) {
        faults.retain(|fault| !FOLLOWING.contains(&fault.code));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fault::Place;

    #[test]
    fn what_follows_is_told_only_where_all_was_read() {
        let left = |codes: &[&'static str]| {
            let mut faults: Vec<_> = codes.iter().map(|code| Fault::at(code, Place::whole("f"))).collect();
            without_what_follows(&mut faults);
            faults.iter().map(|fault| fault.code).collect::<Vec<_>>()
        };
        assert_eq!(left(&["lesson-unknown", "course-not-utf8", "text-empty"]), ["course-not-utf8", "text-empty"]);
        assert_eq!(left(&["lesson-unknown", "text-empty"]), ["lesson-unknown", "text-empty"]);
    }
}
