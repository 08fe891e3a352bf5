//! Words with values in them.

use crate::measure::Label;

/// `text` with its holes filled.
pub(super) fn fill(text: &str, holes: &[(&str, String)]) -> String {
    holes.iter().fold(text.to_owned(), |text, (name, value)| text.replace(&format!("{{{name}}}"), value))
}

/// A word with its value in it.
pub(super) fn with_value(label: &Label, key: &str, value: String) -> String {
    fill(&label(key), &[("value", value)])
}
