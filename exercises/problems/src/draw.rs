//! A drawn problem: what is given, and what is right.

use crate::facts::{Facts, NumberAt, PartOf};
use crate::forms::Drawn;
use crate::givens::{Givens, draw_givens};
use crate::recipe::{Ask, Recipe};
use crate::seed::Seed;

pub use crate::facts::{DrawError, GivenValue, Setting};

/// A drawn problem.
#[derive(Debug)]
pub struct Problem<'r> {
    /// The recipe.
    pub recipe: &'r Recipe,
    /// How often all of it was drawn again until it met what the recipe requires.
    pub redraws: u32,
    /// What its parts share.
    pub facts: Facts<'r>,
    /// What is right, in the order of the parts.
    pub(crate) parts: Vec<Part<'r>>,
}

/// Something that is asked, and what is right there.
#[derive(Debug)]
pub(crate) struct Part<'r> {
    pub(crate) ask: &'r Ask,
    pub(crate) drawn: Drawn<'r>,
}

/// Draws a problem.
///
/// # Errors
/// [`DrawError`], by its rule.
pub fn draw<'r>(recipe: &'r Recipe, seed: &Seed, setting: Setting) -> Result<Problem<'r>, DrawError> {
    let givens = draw_givens(recipe, seed, setting)?;
    with_givens(recipe, seed, setting, givens)
}

/// The problem that what is given makes.
pub(crate) fn with_givens<'r>(
    recipe: &'r Recipe,
    seed: &Seed,
    setting: Setting,
    Givens { redraws, values, scope }: Givens,
) -> Result<Problem<'r>, DrawError> {
    let numbers: Vec<NumberAt> = recipe.numbers().collect();
    let (laws, words) = (recipe.laws.as_slice(), recipe.words.as_slice());
    let rights = Vec::with_capacity(numbers.len());
    let mut facts = Facts { setting, givens: values, scope, numbers, rights, answers: Vec::new(), laws, words };
    let mut parts = Vec::with_capacity(recipe.asks.len());
    for ask in &recipe.asks {
        let part = Part { ask, drawn: ask.form.draw(&ask.id, seed, &mut facts)? };
        // What comes later may say the answer of a part; a number is said from its value.
        if facts.number(&ask.id).is_none() {
            let shown = part.drawn.shown(part.of(&facts));
            facts.answers.push((ask.id.clone(), shown));
        }
        parts.push(part);
    }
    Ok(Problem { recipe, redraws, facts, parts })
}

impl<'r> Part<'r> {
    /// The part as its form sees it.
    pub(crate) fn of<'p>(&self, facts: &'p Facts<'r>) -> PartOf<'p>
    where
        'r: 'p,
    {
        PartOf { id: &self.ask.id, label: &self.ask.label, facts }
    }
}

impl<'r> Problem<'r> {
    /// The part with a name, or with a number of that name.
    pub(crate) fn part(&self, id: &str) -> Option<&Part<'r>> {
        self.parts.iter().find(|part| part.ask.id == id || part.ask.numbers().any(|at| at.id == id))
    }

    /// The numbers that are asked, each with what is right; without those that were not measured.
    pub fn numbers(&self) -> impl Iterator<Item = (NumberAt<'r>, relief::Quantity)> {
        self.facts.numbers.iter().filter_map(|at| self.facts.number(at.id))
    }

    /// The value of a name, as the learner reads it: as drawn, or as the right answer of a part.
    #[must_use]
    pub fn text(&self, name: &str) -> String {
        self.facts.text(name)
    }
}
