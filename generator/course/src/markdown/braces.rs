//! What is written in braces in a text: worked numbers, holes of recipes, values of the scenario.

use std::ops::Range;

use faults::Code;
use problems::template::{is_name, is_path};

use super::text::Mode;

/// Something in braces that is not plain text.
pub(super) enum Brace {
    /// `{= formula in unit}`, without its `{=` and `}`.
    Computed(Range<usize>),
    /// `{name}`, the name without its braces: a hole of a recipe, or a value of the scenario.
    Name(Range<usize>),
    /// A brace that should have been one of these.
    Unreadable(Range<usize>, Code),
}

impl Brace {
    /// The bytes with the braces.
    pub(super) fn whole(&self) -> Range<usize> {
        match self {
            Self::Computed(inner) => inner.start - 2..inner.end + 1,
            Self::Name(inner) => inner.start - 1..inner.end + 1,
            Self::Unreadable(whole, _) => whole.clone(),
        }
    }
}

/// The next brace that is not plain text, as an escaped one is.
pub(super) fn next(text: &str, from: usize, mode: Mode, escaped: impl Fn(usize) -> bool) -> Option<Brace> {
    let opens = text[from..].match_indices('{').map(|(at, _)| from + at);
    opens.filter(|open| !escaped(*open)).find_map(|open| at(text, open, mode))
}

/// What the brace at a place opens.
fn at(text: &str, open: usize, mode: Mode) -> Option<Brace> {
    let close = text[open..].find('}').map(|length| open + length);
    let inner = |skip: usize| close.map(|close| open + skip..close);
    if text[open + 1..].starts_with('=') {
        let unclosed = Brace::Unreadable(open..text.len(), Code::ComputedUnclosed);
        return Some(inner(2).map_or(unclosed, Brace::Computed));
    }
    let name = |is: fn(&str) -> bool| inner(1).filter(|inner| is(&text[inner.clone()])).map(Brace::Name);
    match mode {
        Mode::Lesson => name(is_name),
        Mode::Recipe => {
            let end = close.map_or(text.len(), |close| close + 1);
            Some(name(is_path).unwrap_or_else(|| unreadable(text, open..end)))
        }
        Mode::Term => None,
    }
}

fn unreadable(text: &str, whole: Range<usize>) -> Brace {
    let steps = text[whole.clone()].starts_with("{steps");
    Brace::Unreadable(whole, if steps { Code::RecipeStepsNotAlone } else { Code::RecipeHoleUnreadable })
}
