//! Every fault that a course can have.

/// The codes of all faults, by the groups in which their words stand; those of formulas, recipes and proof come from
/// `problems`. Tests hold the list against the sources, the words and the documents.
pub const FAULTS: &[&str] = &[
    "course-folder-missing",
    "course-not-a-folder",
    "course-file-missing",
    "course-unreadable",
    "course-symlink",
    "course-not-utf8",
    "course-control-character",
    "course-file-too-large",
    "course-unexpected-file",
    "course-unexpected-folder",
    "course-wrong-folder",
    "course-unportable-name",
    "course-reserved-name",
    "course-path-too-long",
    "course-names-differ-by-case",
    "course-languages",
    "course-units",
    "course-decimal-mark",
    "course-without-lessons",
    "course-repeated-lesson",
    "lesson-not-in-order",
    "course-repeated-id",
    "course-ids-differ-by-case",
    "id-badly-written",
    "format-unknown",
    "text-empty",
    "front-matter-missing",
    "front-matter-unclosed",
    "yaml-syntax",
    "yaml-unclosed",
    "yaml-apostrophe",
    "yaml-tab",
    "yaml-odd-blank",
    "yaml-no-space",
    "yaml-uneven",
    "yaml-unquoted-formula",
    "yaml-unquoted-text",
    "yaml-unknown-key",
    "yaml-missing-key",
    "yaml-repeated-key",
    "yaml-text-cut",
    "yaml-wrong-shape",
    "yaml-not-finite",
    "yaml-anchor-or-tag",
    "yaml-too-deep",
    "yaml-too-long",
    "yaml-empty",
    "markdown-raw-html",
    "markdown-too-deep",
    "markdown-lookalike",
    "markdown-row-uneven",
    "heading-of-first-level",
    "heading-skips-level",
    "heading-not-here",
    "link-broken",
    "link-without-text",
    "link-address-refused",
    "link-anchor-unknown",
    "term-unknown",
    "term-repeated-wording",
    "lesson-unknown",
    "relation-unknown",
    "table-unknown",
    "recipe-unknown",
    "id-taken",
    "objective-unknown",
    "lesson-without-objectives",
    "recipe-without-objectives",
    "image-without-alternative",
    "image-missing",
    "image-leaves-course",
    "image-kind",
    "image-not-what-it-says",
    "signal-word-unknown",
    "signal-word-plain",
    "signal-without-text",
    "note-unknown",
    "note-not-here",
    "note-without-text",
    "number-unsourced",
    "scenario-name",
    "scenario-value",
    "scenario-unknown",
    "scenario-unused",
    "formula-unreadable",
    "formula-unclosed",
    "formula-too-large",
    "formula-without-words",
    "block-unknown",
    "block-not-here",
    "block-unclosed",
    "block-nameless",
    "block-file-names-one",
    "computed-unclosed",
    "computed-without-unit",
    "computed-no-value",
    "computed-in-formula",
    "unit-unknown",
    "unit-of-another-kind",
    "unit-for-product",
    "work-unknown-input",
    "work-missing-input",
    "work-unreadable",
    "work-unknown-unit",
    "work-wrong-kind",
    "work-wrong-choice",
    "work-out-of-range",
    "work-out-of-order",
    "work-no-result",
    "figure-unknown",
    "figure-missing-parameter",
    "figure-parameter-unreadable",
    "figure-wrong-kind",
    "figure-out-of-range",
    "figure-out-of-order",
    "formula-character",
    "formula-number",
    "formula-syntax",
    "formula-depth",
    "formula-long",
    "formula-argument-name",
    "formula-unknown-relation",
    "formula-unknown-name",
    "formula-unknown-input",
    "formula-unknown-output",
    "formula-unknown-choice",
    "formula-missing-input",
    "formula-repeated-input",
    "formula-argument-kind",
    "formula-kind",
    "formula-result-kind",
    "formula-choice",
    "recipe-format",
    "recipe-level",
    "recipe-asks-nothing",
    "recipe-no-question",
    "recipe-unknown-section",
    "recipe-repeated-section",
    "recipe-empty-section",
    "recipe-text-before-section",
    "recipe-hole-unreadable",
    "recipe-steps-not-alone",
    "recipe-unknown-hole",
    "recipe-unknown-steps",
    "recipe-name",
    "recipe-repeated-name",
    "recipe-draw-form",
    "recipe-derived-not-rounded",
    "recipe-systems-differ",
    "recipe-range",
    "recipe-range-unit",
    "recipe-range-backwards",
    "recipe-range-step",
    "recipe-range-too-many",
    "recipe-choose-nothing",
    "recipe-choose-unreadable",
    "recipe-choose-kinds",
    "recipe-grid",
    "recipe-form",
    "recipe-no-answer",
    "recipe-no-unit",
    "recipe-unknown-unit",
    "recipe-unit-kind",
    "recipe-within",
    "recipe-limit",
    "recipe-mistake-unexplained",
    "recipe-mistake-kind",
    "recipe-stray-mistake",
    "recipe-key-misplaced",
    "recipe-label-hole",
    "recipe-too-large",
    "recipe-options-few",
    "recipe-options-right",
    "recipe-options-alike",
    "recipe-option-words",
    "recipe-unit-of-words",
    "recipe-no-statement",
    "recipe-no-truth",
    "recipe-items-count",
    "recipe-items-by",
    "recipe-highest-of-words",
    "recipe-pairs-count",
    "recipe-no-figure",
    "recipe-figure-unfit",
    "recipe-figure-parameter",
    "recipe-figure-lacks",
    "recipe-part-unknown",
    "recipe-part-repeated",
    "recipe-round",
    "recipe-round-step",
    "recipe-round-side",
    "recipe-round-safe",
    "recipe-round-unsafe",
    "recipe-believable",
    "recipe-unsafe-right",
    "recipe-unsafe-unexplained",
    "recipe-unsafe-without-limit",
    "proof-never-met",
    "proof-no-value",
    "proof-right-options",
    "proof-all-or-none",
    "proof-tie",
    "proof-no-figure",
    "proof-not-plausible",
    "proof-unbelievable",
    "proof-impossible",
    "proof-shown-answer-wrong",
    "proof-mistake-hidden",
    "proof-mistakes-alike",
    "proof-repeats",
    "proof-absurd-digits",
    "proof-long-statement",
    "proof-options-alike",
    "proof-not-believable",
    "proof-believable-wide",
];

/// The codes of all warnings: what is no fault, so that the course is published, and yet its author should look at it.
/// Their words stand among those of the faults.
pub const WARNINGS: &[&str] = &[
    "objective-unpractised",
    "term-unexplained",
    "lesson-practises-ahead",
    "image-unused",
    "recipe-draw-of-one-system",
    "recipe-draw-unused",
    "recipe-names-no-danger",
];

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;
    use std::path::Path;

    use super::{FAULTS, WARNINGS};

    /// The first words of codes.
    const GROUPS: [&str; 23] = [
        "block",
        "computed",
        "course",
        "figure",
        "format",
        "formula",
        "front",
        "heading",
        "id",
        "image",
        "lesson",
        "link",
        "markdown",
        "note",
        "number",
        "objective",
        "proof",
        "recipe",
        "relation",
        "scenario",
        "signal",
        "term",
        "text",
    ];
    const MORE_GROUPS: [&str; 4] = ["table", "unit", "work", "yaml"];

    #[test]
    fn the_list_has_every_code_in_the_sources_and_no_other() {
        let root = Path::new(env!("CARGO_MANIFEST_DIR"));
        let mut written = BTreeSet::new();
        for folder in [root.join("src"), root.join("../../exercises/problems/src")] {
            for entry in walkdir::WalkDir::new(folder).into_iter().filter_map(Result::ok) {
                let is_code = entry.path().extension().is_some_and(|extension| extension == "rs");
                if is_code && !entry.path().ends_with("codes.rs") {
                    let text = std::fs::read_to_string(entry.path()).expect("a source file");
                    written.extend(text.split('"').filter(|text| is_code_of_ours(text)).map(str::to_owned));
                }
            }
        }
        assert_eq!(written, FAULTS.iter().chain(WARNINGS).map(|code| (*code).to_owned()).collect::<BTreeSet<_>>());
    }

    fn is_code_of_ours(text: &str) -> bool {
        let words: Vec<_> = text.split('-').collect();
        let letters = words
            .iter()
            .all(|word| !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'8'));
        letters && words.len() > 1 && GROUPS.iter().chain(&MORE_GROUPS).any(|group| *group == words[0])
    }

    #[test]
    fn every_code_has_its_three_parts_in_words() {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../theme/words");
        let files = std::fs::read_dir(root).expect("the words").filter_map(Result::ok);
        let texts = files.map(|file| std::fs::read_to_string(file.path()).expect("words"));
        let values = texts.map(|text| serde_yaml::from_str::<serde_yaml::Value>(&text).expect("YAML"));
        let faults: Vec<_> = values.filter_map(|value| value.get("faults").cloned()).collect();
        for code in FAULTS.iter().chain(WARNINGS) {
            for part in ["title", "expected", "fix"] {
                let found = faults.iter().any(|faults| faults.get(code).and_then(|words| words.get(part)).is_some());
                assert!(found, "faults.{code}.{part}");
            }
        }
    }
}
