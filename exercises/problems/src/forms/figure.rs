//! The figure that a part names, as its author wrote it.

use faults::Code;
use figures::Figure;

use super::keys::RawFigure;
use crate::recipe::checking::{Check, Path};

/// The figure that a part names, where it is of the wanted sort.
pub(super) fn find(
    raw: Option<&RawFigure>,
    path: &Path,
    check: &mut Check,
    wanted: fn(&Figure) -> bool,
) -> Option<&'static Figure> {
    let name = match raw {
        Some(RawFigure::Named(name)) => name.as_str(),
        Some(RawFigure::Drawn(entries)) => {
            entries.0.iter().find(|(key, _)| key == "show").map_or("", |(_, name)| name.as_str())
        }
        None => "",
    };
    let fitting = || figures::FIGURES.iter().filter(|figure| wanted(figure));
    let found = fitting().find(|figure| figure.id == name);
    if found.is_none() {
        let known = fitting().map(|figure| figure.id).collect::<Vec<_>>().join(", ");
        let code = if name.is_empty() { Code::RecipeNoFigure } else { Code::RecipeFigureUnfit };
        check.faults.push(path.fault(code).with("found", name).known(known));
    }
    found
}

/// The word for something in a figure.
pub(super) fn word(figure: &Figure, key: &str, check: &Check) -> String {
    check.lexicon.text(&format!("figures.{}.{key}", figure.id))
}
