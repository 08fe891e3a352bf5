//! The lessons of the guide that explain faults, and which faults each explains.

use faults::Code;

/// Each lesson by its id, and the first of the codes that it explains; the next lesson's first code ends it. Codes that
/// belong together are neighbours in their list, and the warnings come last.
const FIRST: [(&str, Code); 12] = [
    ("faults_files", Code::CourseFolderMissing),
    ("faults_front_matter", Code::FrontMatterMissing),
    ("faults_text_and_links", Code::MarkdownRawHtml),
    ("faults_of_pictures_and_files", Code::ImageWithoutAlternative),
    ("faults_notes_and_formulas", Code::SignalWordUnknown),
    ("faults_blocks", Code::UnitUnknown),
    ("faults_of_formulas", Code::FormulaCharacter),
    ("faults_of_relations", Code::RelationTaken),
    ("faults_of_draws", Code::RecipeFormat),
    ("faults_of_questions", Code::RecipeForm),
    ("faults_of_tables", Code::RecipeTableSize),
    ("faults_of_proof", Code::ProofNeverMet),
];

/// Each lesson by its id, with the codes that it explains.
///
/// # Panics
/// Where a lesson starts with a code that comes before the one above it.
#[must_use]
pub fn families() -> Vec<(&'static str, Vec<Code>)> {
    let codes: Vec<_> = Code::all().collect();
    let at = |first: Code| codes.iter().position(|code| *code == first).expect("a code");
    let ends = FIRST.iter().skip(1).map(|(_, first)| at(*first)).chain([codes.len()]);
    FIRST.iter().zip(ends).map(|((lesson, first), end)| (*lesson, codes[at(*first)..end].to_vec())).collect()
}
