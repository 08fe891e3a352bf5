//! What an instructor sees of a drawn problem besides what a learner sees: what every named mistake comes out as and is
//! told, and what is said of every option.

use serde::Serialize;

use crate::facts::Facts;
use crate::template::Template;

/// What an author sees of something that is asked.
#[derive(Debug, Serialize)]
pub struct PartReview {
    /// The name of the part.
    pub id: String,
    /// What is shown beside the field.
    pub label: String,
    /// The form of the answer, as it is named in recipes.
    pub form: &'static str,
    /// What its form says about it.
    #[serde(flatten)]
    pub reviewed: Reviewed,
}

/// What a form tells an author of a part.
#[derive(Debug, Default, Serialize)]
pub struct Reviewed {
    /// What is right as well.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub also_right: Vec<AlsoReview>,
    /// What the named mistakes come out as.
    pub mistakes: Vec<MistakeReview>,
    /// What can be chosen, in the author's order; items in their right order; pairs, and partners that go with nothing.
    pub options: Vec<OptionReview>,
}

/// What is right as well.
#[derive(Debug, Serialize)]
pub struct AlsoReview {
    /// The value as the learner would type it; none where it has no value on this draw.
    pub shown: Option<String>,
    /// When it holds, as HTML.
    pub html: String,
}

/// What a named mistake comes out as.
#[derive(Debug, Serialize)]
pub struct MistakeReview {
    /// The name.
    pub name: String,
    /// The value as the learner would type it: in the unit asked for, rounded as instructed; none where the mistake has no value on this draw.
    pub shown: Option<String>,
    /// Whether that is on the unsafe side of a limit.
    pub is_unsafe: bool,
    /// What the learner reads, as HTML.
    pub html: String,
}

/// An option, item, pair or reason with its truth.
#[derive(Debug, Serialize)]
pub struct OptionReview {
    /// What it says, as HTML.
    pub html: String,
    /// Whether it is right.
    pub right: bool,
    /// Whether somebody who believes it where it is wrong can be hurt.
    pub is_unsafe: bool,
    /// Why, as HTML.
    pub why: Option<String>,
}

impl Reviewed {
    /// Options alone.
    pub(crate) fn options(options: impl IntoIterator<Item = OptionReview>) -> Self {
        Self { options: options.into_iter().collect(), ..Self::default() }
    }
}

impl OptionReview {
    /// What is said about something that can be chosen.
    pub(crate) fn new(facts: &Facts, html: String, right: bool, is_unsafe: bool, why: Option<&Template>) -> Self {
        Self { html, right, is_unsafe, why: facts.explain(why) }
    }
}
