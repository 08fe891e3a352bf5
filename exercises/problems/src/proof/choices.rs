//! What proof asks of everything that is chosen, ordered or matched: a learner can tell it apart.

use std::collections::BTreeMap;

use faults::Code;

use super::fault::{Found, found};
use crate::draw::Problem;
use crate::forms::{choices, pairs};
use crate::recipe::{Ask, ChoiceAsk, Form, PairsAsk};
use crate::template::Template;

/// Whether no two options, items, partners or reasons of a draw read the same.
pub(super) fn check(problem: &Problem, ask: &Ask) -> Result<(), Found> {
    match &ask.form {
        Form::OneOf(choice) | Form::SeveralOf(choice) => options(problem, &ask.id, choice),
        Form::InOrder(order) => filled(problem, &ask.id, order.items.iter().map(|item| &item.say)),
        Form::Match(matched) => matches(problem, &ask.id, matched),
        Form::TrueOrFalse(claim) => filled(problem, &ask.id, claim.reasons.iter().map(|reason| &reason.say)),
        // The names of parts are the figure's own, and numbers are looked at by themselves.
        Form::Number(_) | Form::PointAt(_) => Ok(()),
    }
}

fn options(problem: &Problem, part: &str, choice: &ChoiceAsk) -> Result<(), Found> {
    alike(part, choice.options.iter().map(|option| choices::says(problem, choice, option)))
}

fn matches(problem: &Problem, part: &str, matched: &PairsAsk) -> Result<(), Found> {
    filled(problem, part, matched.pairs.iter().map(|pair| &pair.item))?;
    filled(problem, part, (0..).map_while(|place| pairs::partner(matched, place)))
}

fn filled<'t>(problem: &Problem, part: &str, texts: impl Iterator<Item = &'t Template>) -> Result<(), Found> {
    alike(part, texts.map(|text| problem.fill(text)))
}

/// Refuses two texts that read the same.
fn alike(part: &str, texts: impl Iterator<Item = String>) -> Result<(), Found> {
    let mut seen = BTreeMap::new();
    for (index, text) in texts.enumerate() {
        if let Some(first) = seen.insert(text, index) {
            let [one, other] = [first, index].map(|index: usize| (index + 1).to_string());
            return Err(found(Code::ProofOptionsAlike, [("part", part.to_owned()), ("one", one), ("other", other)]));
        }
    }
    Ok(())
}
