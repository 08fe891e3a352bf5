//! Common slips, looked for without being listed by the author: what an answer would be if one usual thing went wrong.
//!
//! A slip is one substitution in the formula of a part or of an earlier part that it rests on: another given value, a
//! factor left out, a diameter for a radius. They are tried in the order of their likelihood (the search says which), and
//! the first that gives the typed number is named. Many different slips give many different numbers, so that a number made up
//! at random soon hits one of them: once their windows cover 2 % of the span about the answer, the rest are asked
//! about and never stated.

mod finding;
mod known;
mod misread;
mod numbers;
mod places;
mod reference;
mod search;
mod slip;
mod values;
mod work;
mod zeros;

use relief::Quantity;

use crate::facts::{Facts, NumberAt};
use crate::number::{Number, Window, slack};

use finding::{Finding, Found};

pub(crate) use reference::reference;
pub use slip::Slip;

/// The first slip that gives what was typed.
pub(crate) fn find(facts: &Facts, at: NumberAt, right: Quantity, window: &Window) -> Option<Found> {
    let mut finding = Finding { right, window, seen: Vec::new(), covered: 0.0, found: None, near: None };
    // Named mistakes are stated before, and take their share of the span.
    for mistake in &at.number.mistakes {
        if let Ok(value) = mistake.answer.quantity(&facts.scope) {
            finding.cover(value.si, 0.0);
        }
    }
    search::all(&mut finding, &work::Work { facts, at, right });
    finding.found.or(finding.near)
}

/// How far from the right answer rounding as instructed, or the tolerance, may move it.
pub(crate) fn reach(facts: &Facts, number: &Number, value: Quantity) -> f64 {
    let system = facts.setting.system;
    let asked = number.unit_in(system);
    let step = number.grid(system).map_or(0.0, |grid| {
        let step = grid.reach(number.in_unit(value, system));
        asked.map_or(step, |unit| step * unit.factor())
    });
    number.tolerance(value, system).max(step) + slack(value.si)
}
