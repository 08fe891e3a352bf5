//! What only follows from a file that was not read: it would be told before its cause, and mended in the wrong place.

use crate::fault::Fault;

/// What is missing where a file was not read.
const FOLLOWING: [&str; 5] = ["lesson-unknown", "objective-unknown", "term-unknown", "recipe-unknown", "image-missing"];

/// The files that were not read.
#[derive(Default)]
pub(crate) struct Unread {
    /// Whether some were passed over, so that nobody knows what was in them: a folder with another name, say.
    pub(crate) passed_over: bool,
    /// Those whose text could not be read.
    pub(crate) files: Vec<String>,
}

/// Leaves out what may only follow from files that were not read. What does not will be told when all is read.
pub(crate) fn without_what_follows(faults: &mut Vec<Fault>, Unread { passed_over, files }: &Unread) {
    faults.retain(|fault| !(FOLLOWING.contains(&fault.code) && (*passed_over || follows(fault, files))));
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
        let left = |codes: &[&'static str], passed_over: bool, files: &[&str]| {
            let fault = |code: &&'static str| Fault::at(code, Place::whole("f")).with("id", "outlet");
            let mut faults: Vec<_> = codes.iter().map(fault).collect();
            let files = files.iter().map(|file| (*file).to_owned()).collect();
            without_what_follows(&mut faults, &Unread { passed_over, files });
            faults.iter().map(|fault| fault.code).collect::<Vec<_>>()
        };
        let unknown = ["lesson-unknown", "objective-unknown"];
        assert!(left(&unknown, false, &["en/lessons/outlet.md"]).is_empty());
        assert_eq!(left(&unknown, false, &["en/lessons/other.md"]), ["lesson-unknown"]);
        assert_eq!(left(&unknown, false, &["en/terms/other.md"]), unknown);
        assert_eq!(left(&["lesson-unknown", "course-unexpected-folder"], true, &[]), ["course-unexpected-folder"]);
    }
}
