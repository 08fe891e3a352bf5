//! The figure that a part names, as its author wrote it.

use faults::Code;
use figures::Figure;

use super::keys::RawFigure;
use crate::recipe::checking::{Check, Path};

/// The name of the figure that a part has; empty where it has none.
pub(super) fn name(raw: Option<&RawFigure>) -> &str {
    match raw {
        Some(RawFigure::Named(name)) => name,
        Some(RawFigure::Drawn(entries)) => {
            entries.0.iter().find(|(key, _)| key == "show").map_or("", |(_, name)| name.as_str())
        }
        None => "",
    }
}

/// The figure that a part names, where it is of the wanted sort. The part could also name one of the author's own.
pub(super) fn find(
    raw: Option<&RawFigure>,
    path: &Path,
    check: &mut Check,
    wanted: fn(&Figure) -> bool,
    own: &[&str],
) -> Option<&'static Figure> {
    let name = name(raw);
    let fitting = || figures::FIGURES.iter().filter(|figure| wanted(figure));
    let found = fitting().find(|figure| figure.id == name);
    if found.is_none() {
        let known = fitting().map(|figure| figure.id).chain(own.iter().copied()).collect::<Vec<_>>().join(", ");
        let code = if name.is_empty() { Code::RecipeNoFigure } else { Code::RecipeFigureUnfit };
        check.faults.push(path.fault(code).with("found", name).known(known));
    }
    found
}

/// The word for something in a figure.
pub(super) fn word(figure: &Figure, key: &str, check: &Check) -> String {
    check.lexicon.text(&format!("figures.{}.{key}", figure.id))
}
