//! What proof finds wrong with a draw.

use std::collections::BTreeMap;

use faults::{Code, Fault};

use crate::facts::{DrawError, Facts};
use crate::template::Template;

/// A rule that a draw breaks, before it is said which draw.
pub(crate) type Found = Fault<()>;

pub(crate) fn found<const N: usize>(code: Code, values: [(&'static str, String); N]) -> Found {
    Fault { values: values.into(), ..Fault::at(code, ()) }
}

/// The rule that is broken where nothing can be drawn.
pub(crate) fn of_draw(error: &DrawError) -> Found {
    let (code, part, reason) = match error {
        DrawError::NeverMet => (Code::ProofNeverMet, "", String::new()),
        DrawError::NoValue(name, error) => (Code::ProofNoValue, name.as_str(), error.to_string()),
        DrawError::RightOptions(name, places) => {
            let holds = |place: &u32| places >> place & 1 == 1;
            let places: Vec<_> = (0..u64::BITS).filter(holds).map(|place| (place + 1).to_string()).collect();
            let places = if places.is_empty() { "none".to_owned() } else { places.join(", ") };
            return found(Code::ProofRightOptions, [("part", name.clone()), ("places", places)]);
        }
        DrawError::AllOrNone(name) => (Code::ProofAllOrNone, name.as_str(), String::new()),
        DrawError::Tie(name) => (Code::ProofTie, name.as_str(), String::new()),
        DrawError::NoFigure(name, rule) => (Code::ProofNoFigure, name.as_str(), rule.clone()),
    };
    found(code, [("part", part.to_owned()), ("error", reason)])
}

/// Refuses two texts of a part that read the same on a draw, since a learner cannot tell them apart.
///
/// # Errors
/// Which two.
pub(crate) fn alike(part: &str, texts: impl Iterator<Item = String>) -> Result<(), Found> {
    let mut seen = BTreeMap::new();
    for (index, text) in texts.enumerate() {
        if let Some(first) = seen.insert(text, index) {
            let [one, other] = [first, index].map(|index: usize| (index + 1).to_string());
            return Err(found(Code::ProofOptionsAlike, [("part", part.to_owned()), ("one", one), ("other", other)]));
        }
    }
    Ok(())
}

/// The same for texts with holes.
///
/// # Errors
/// Which two.
pub(crate) fn filled_alike<'t>(
    facts: &Facts,
    part: &str,
    texts: impl Iterator<Item = &'t Template>,
) -> Result<(), Found> {
    alike(part, texts.map(|text| facts.fill(text)))
}
