//! What only follows from a file that was not read: it would be told before its cause, and mended in the wrong place.

use crate::fault::Fault;

/// Why a file of the course, or a whole folder, was passed over.
const PASSED_OVER: [&str; 5] = [
    "course-unexpected-folder",
    "course-unexpected-file",
    "course-unportable-name",
    "course-reserved-name",
    "course-path-too-long",
];

/// What is missing where a file was not read.
const FOLLOWING: [&str; 5] = ["lesson-unknown", "objective-unknown", "term-unknown", "recipe-unknown", "image-missing"];

/// Leaves out what may only follow from files that were passed over, or that are in `unread`. What does not follow from
/// them will be told when all is read.
pub(crate) fn without_what_follows(faults: &mut Vec<Fault>, unread: &[String]) {
    let passed_over = faults.iter().any(|fault| PASSED_OVER.contains(&fault.code));
    faults.retain(|fault| !(FOLLOWING.contains(&fault.code) && (passed_over || follows(fault, unread))));
}

/// Whether a fault names what an unread file has: its id, which its name most often is, or an objective.
fn follows(fault: &Fault, unread: &[String]) -> bool {
    let id = fault.values.iter().find(|(name, _)| *name == "id").map(|(_, id)| format!("/{id}.md"));
    match fault.code {
        "objective-unknown" => unread.iter().any(|file| file.contains("/lessons/")),
        _ => id.is_some_and(|end| unread.iter().any(|file| file.ends_with(&end))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fault::Place;

    #[test]
    fn what_follows_is_told_only_where_all_was_read() {
        let left = |codes: &[&'static str], unread: &[&str]| {
            let fault = |code: &&'static str| Fault::at(code, Place::whole("f")).with("id", "outlet");
            let mut faults: Vec<_> = codes.iter().map(fault).collect();
            without_what_follows(&mut faults, &unread.iter().map(|file| (*file).to_owned()).collect::<Vec<_>>());
            faults.iter().map(|fault| fault.code).collect::<Vec<_>>()
        };
        let unknown = ["lesson-unknown", "objective-unknown"];
        assert!(left(&unknown, &["en/lessons/outlet.md"]).is_empty());
        assert_eq!(left(&unknown, &["en/lessons/other.md"]), ["lesson-unknown"]);
        assert_eq!(left(&unknown, &["en/terms/other.md"]), unknown);
        assert_eq!(left(&["lesson-unknown", "course-unexpected-folder"], &[]), ["course-unexpected-folder"]);
    }
}
