//! The lessons of the guide that explain faults, and which faults each explains.

/// Each lesson by its id, and the first of the codes that it explains; the next lesson's first code ends it. The codes
/// are in the order of `course::FAULTS`, in which neighbours belong together, and the warnings follow.
const FIRST: [(&str, &str); 9] = [
    ("faults_files", "course-folder-missing"),
    ("faults_front_matter", "front-matter-missing"),
    ("faults_text_and_links", "markdown-raw-html"),
    ("faults_notes_and_formulas", "signal-word-unknown"),
    ("faults_blocks", "unit-unknown"),
    ("faults_of_formulas", "formula-character"),
    ("faults_of_draws", "recipe-format"),
    ("faults_of_questions", "recipe-form"),
    ("faults_of_proof", "proof-never-met"),
];

/// Each lesson by its id, with the codes that it explains.
///
/// # Panics
/// Where a lesson starts with a code that is not among `codes`, or before the one above it.
#[must_use]
pub fn families(codes: &[&'static str]) -> Vec<(&'static str, Vec<&'static str>)> {
    let at = |first: &str| codes.iter().position(|code| *code == first).unwrap_or_else(|| panic!("{first}"));
    let ends = FIRST.iter().skip(1).map(|(_, first)| at(first)).chain([codes.len()]);
    FIRST.iter().zip(ends).map(|((lesson, first), end)| (*lesson, codes[at(first)..end].to_vec())).collect()
}
