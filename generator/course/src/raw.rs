//! What authors write in YAML, as it is read, before it is checked.

use problems::recipe::raw::Entries;
use serde::Deserialize;

/// `course.yaml`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawCourse {
    pub(crate) format: u32,
    pub(crate) site: String,
    pub(crate) title: String,
    pub(crate) owner: String,
    pub(crate) languages: Vec<String>,
    pub(crate) units: String,
    pub(crate) decimal_mark: String,
    pub(crate) safety: String,
    pub(crate) lessons: Vec<String>,
}

/// The front matter of a lesson.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawLesson {
    pub(crate) format: u32,
    pub(crate) id: String,
    pub(crate) title: String,
    pub(crate) summary: String,
    pub(crate) objectives: Vec<RawObjective>,
    /// Made-up numbers, by name.
    #[serde(default)]
    pub(crate) scenario: Entries<String>,
}

/// An objective of a lesson.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawObjective {
    pub(crate) id: String,
    pub(crate) text: String,
}

/// The front matter of a term.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RawTerm {
    pub(crate) format: u32,
    pub(crate) id: String,
    pub(crate) term: String,
    #[serde(default)]
    pub(crate) also: Vec<String>,
    #[serde(default)]
    pub(crate) not: Vec<String>,
    pub(crate) definition: String,
    pub(crate) source: String,
}
