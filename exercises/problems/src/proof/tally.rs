//! Counting what the draws give.

use std::collections::BTreeSet;

use super::effort::Effort;
use super::number;
use super::report::{Hardest, PartReport, Redraws, Repeats, RightShare, Spread, SystemReport, Widest};
use crate::draw::{Part, Problem};
use crate::facts::{Facts, GivenValue};
use crate::number::{Number, latitude, slack};
use crate::recipe::{Ask, Recipe, System};

/// What was counted so far.
pub(super) struct Tally<'r> {
    system: System,
    effort: Effort,
    /// What is given in each different problem.
    known: BTreeSet<String>,
    redraws: u64,
    most_redraws: u32,
    most_at: u64,
    parts: Vec<PartTally<'r>>,
}

/// What was counted of something that is asked: of a number by itself, of what is chosen by its choices.
struct PartTally<'r> {
    /// The name that it is answered under.
    id: &'r str,
    form: &'static str,
    /// The number, where it is one.
    number: Option<&'r Number>,
    answers: Vec<f64>,
    hardest: Option<Hardest>,
    widest: Option<Widest>,
    /// What can be right, and whether that depends on what is drawn.
    choices: Vec<(String, bool)>,
    right: Vec<u64>,
    /// In how many draws the printed forms differ after rounding.
    differing: u64,
}

impl<'r> Tally<'r> {
    pub(super) fn new(recipe: &'r Recipe, system: System, effort: Effort) -> Self {
        let parts = recipe.asks.iter().flat_map(PartTally::all_of);
        Self {
            system,
            effort,
            known: BTreeSet::new(),
            redraws: 0,
            most_redraws: 0,
            most_at: effort.from,
            parts: parts.collect(),
        }
    }

    /// Counts what is given.
    pub(super) fn givens(&mut self, seed: u64, count: u64, givens: &[GivenValue], redraws: u32) {
        if count < self.effort.problems {
            self.known.insert(givens.iter().flat_map(|given| [given.text.as_str(), "\n"]).collect());
        }
        self.redraws += u64::from(redraws);
        if redraws > self.most_redraws {
            (self.most_redraws, self.most_at) = (redraws, seed);
        }
    }

    /// Counts what is right.
    pub(super) fn answers(&mut self, seed: u64, problem: &Problem) {
        for part in &mut self.parts {
            match problem.part(part.id) {
                Some(drawn) if part.number.is_none() => part.chosen(drawn),
                _ => part.answered(seed, &problem.facts),
            }
        }
    }

    pub(super) fn report(self) -> SystemReport {
        let (draws, different) = (self.effort.problems, self.known.len() as u64);
        let all = self.effort.seeds.max(self.effort.problems);
        SystemReport {
            system: self.system,
            draws: self.effort.seeds,
            problems: Repeats { draws, different, repeats: draws - different },
            redraws: Redraws { mean: share(self.redraws, all), most: self.most_redraws, seed: self.most_at },
            parts: self.parts.into_iter().map(|part| part.report(self.system, self.effort.seeds)).collect(),
        }
    }
}

impl<'r> PartTally<'r> {
    /// One for each number that a part asks for; one for what is chosen in it, or where it asks for no number.
    fn all_of(ask: &'r Ask) -> Vec<Self> {
        let form = ask.form.id();
        let numbers = ask.numbers().map(|at| Self::new(at.id, form, Some(at.number), Vec::new()));
        let (mut all, choices): (Vec<_>, _) = (numbers.collect(), ask.form.choices());
        if all.is_empty() || !choices.is_empty() {
            all.push(Self::new(&ask.id, form, None, choices));
        }
        all
    }

    fn new(id: &'r str, form: &'static str, number: Option<&'r Number>, choices: Vec<(String, bool)>) -> Self {
        let right = vec![0; choices.len()];
        Self { id, form, number, answers: Vec::new(), hardest: None, widest: None, choices, right, differing: 0 }
    }

    fn chosen(&mut self, drawn: &Part) {
        drawn.drawn.count(&mut self.right);
    }

    fn answered(&mut self, seed: u64, facts: &Facts) {
        let Some((at, right)) = facts.number(self.id) else { return };
        self.answers.push(number::as_asked(facts, at.number, right));
        self.harder(seed, number::nearest_mistake(facts, at.number, right));
        self.wider(seed, at.number.tolerance(right, facts.setting.system) / right.si.abs());
        self.differing += u64::from(forms_differ(facts, at.number));
    }

    fn harder(&mut self, seed: u64, nearest: Option<(&str, f64)>) {
        let Some((mistake, tolerances)) = nearest else { return };
        if self.hardest.as_ref().is_none_or(|known| tolerances < known.tolerances) {
            self.hardest = Some(Hardest { seed, mistake: mistake.to_owned(), tolerances });
        }
    }

    fn wider(&mut self, seed: u64, share: f64) {
        if share.is_finite() && self.widest.as_ref().is_none_or(|known| share > known.share) {
            self.widest = Some(Widest { seed, share });
        }
    }

    fn report(self, system: System, draws: u64) -> PartReport {
        let right = self.choices.into_iter().zip(self.right);
        PartReport {
            id: self.id.to_owned(),
            form: self.form.to_owned(),
            unit: self.number.and_then(|number| number.unit_in(system)).map(|unit| unit.symbol.to_owned()),
            answers: spread(self.answers),
            hardest: self.hardest,
            widest: self.widest,
            forms_differ: share(self.differing, draws),
            right: right
                .map(|((option, drawn), right)| RightShare { option, share: share(right, draws), drawn })
                .collect(),
        }
    }
}

/// Whether the printed forms of the answer differ after it is rounded as it is asked for.
fn forms_differ(facts: &Facts, asked: &Number) -> bool {
    let Some(_) = asked.grid(facts.setting.system) else { return false };
    let [us, si] =
        latitude::by_form(facts, asked).map(|value| value.map(|value| number::as_asked(facts, asked, value)));
    us.zip(si).is_some_and(|(us, si)| (us - si).abs() > slack(si))
}

/// A share of draws. There are at most ten million, so nothing is rounded but the quotient.
#[expect(clippy::cast_precision_loss, reason = "counts of draws are far below 2^53")]
fn share(part: u64, all: u64) -> f64 {
    part as f64 / all.max(1) as f64
}

fn spread(mut answers: Vec<f64>) -> Option<Spread> {
    answers.sort_by(f64::total_cmp);
    // The nearest rank: the smallest answer that so many quarters of all are not above.
    let rank = |quarters: usize| answers.get((answers.len() * quarters).div_ceil(4).max(1) - 1).copied();
    Some(Spread {
        least: *answers.first()?,
        lower_quartile: rank(1)?,
        median: rank(2)?,
        upper_quartile: rank(3)?,
        greatest: *answers.last()?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quartiles_are_answers_of_draws() {
        let spread = spread(vec![4.0, 1.0, 3.0, 2.0]).expect("answers");
        let found = [spread.least, spread.lower_quartile, spread.median, spread.upper_quartile, spread.greatest];
        assert_eq!(found.map(|value| value.to_string()), ["1", "1", "2", "3", "4"]);
        assert_eq!(super::spread(Vec::new()), None);
    }
}
