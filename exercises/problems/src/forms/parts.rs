//! A part to point at in a drawing.

use crate::draw::{Answer, DrawError, Problem};
use crate::formula::Scope;
use crate::mark::{Marked, Verdict};
use crate::recipe::{Ask, PointAsk};
use crate::template::escape;
use crate::view::NumberedView;

use super::told;

pub(crate) fn draw(ask: &Ask, point: &PointAsk, scope: &Scope) -> Result<Answer, DrawError> {
    let mut right = Vec::new();
    for (place, part) in point.parts.iter().enumerate() {
        let holds = part.right.as_ref().map_or(Ok(false), |condition| condition.holds(scope));
        if holds.map_err(|error| DrawError::NoValue(ask.id.clone(), error))? {
            right.push(place);
        }
    }
    match right.as_slice() {
        [right] => Ok(Answer::PointAt { right: *right }),
        several => Err(DrawError::RightOptions(ask.id.clone(), several.len())),
    }
}

/// The parts in the order of their numbers, so that the list answers as the drawing does.
pub(crate) fn views(point: &PointAsk) -> Vec<NumberedView> {
    let view = |part: &crate::recipe::Part| NumberedView {
        id: part.id.clone(),
        number: part.number,
        html: escape(&part.name),
    };
    point.parts.iter().map(view).collect()
}

pub(crate) fn mark(problem: &Problem, point: &PointAsk, right: usize, typed: &str) -> Marked {
    let typed = typed.trim();
    if typed.is_empty() {
        return Marked::new(Verdict::Blank);
    }
    let Some(place) = point.parts.iter().position(|part| part.id == typed) else {
        return Marked::new(Verdict::Unreadable);
    };
    let part = &point.parts[place];
    let verdict = match (place == right, part.is_unsafe) {
        (true, _) => Verdict::Right,
        (false, true) => Verdict::Unsafe,
        (false, false) => Verdict::WrongPart,
    };
    let why = part.why.as_ref().or(point.otherwise.as_ref().filter(|_| place != right));
    Marked { html: told(problem, why), ..Marked::new(verdict).with("part", part.name.clone()) }
}

pub(crate) fn shown(point: &PointAsk, right: usize) -> String {
    point.parts.get(right).map(|part| format!("{}, {}", part.number, escape(&part.name))).unwrap_or_default()
}
