//! The scripts that are made from data: words, menus of units, recipes.

use course::RecipeFile;
use serde_json::Value;

use super::unit_menus::menus;
use crate::words::Words;

/// The words that scripts say.
pub(super) fn words(words: &Words) -> String {
    let mut live = words.section("live").clone();
    live["choices"] = words.section("choices").clone();
    format!("window.SEATWORK_WORDS = {};\n", script_text(&live.to_string()))
}

/// The menus of units of the calculators.
pub(super) fn units(own: &[&'static relief::Relation]) -> String {
    format!("window.SEATWORK_UNITS = {};\n", script_text(&menus(own).to_string()))
}

/// A recipe in its compiled form.
pub(super) fn recipe(file: &RecipeFile) -> String {
    let id = script_text(&Value::from(file.recipe.id.as_str()).to_string());
    let json = script_text(&Value::from(file.compiled.as_str()).to_string());
    format!("window.SEATWORK_RECIPES = window.SEATWORK_RECIPES || {{}};\nwindow.SEATWORK_RECIPES[{id}] = {json};\n")
}

/// Text that may be in a script file: JSON is not quite a part of JavaScript, and a file may be shown as HTML.
fn script_text(json: &str) -> String {
    json.replace('\u{2028}', "\\u2028").replace('\u{2029}', "\\u2029").replace('<', "\\u003c")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_in_a_script_ends_it() {
        assert_eq!(script_text("\"</script>\u{2028}\""), "\"\\u003c/script>\\u2028\"");
    }
}
