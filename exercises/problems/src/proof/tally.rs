//! Counting what the draws give.

use std::collections::BTreeSet;

use super::Effort;
use super::number;
use super::report::{Hardest, PartReport, Redraws, Repeats, RightShare, Spread, SystemReport, Widest};
use crate::draw::{Answer, GivenValue, Problem};
use crate::formula::Condition;
use crate::latitude;
use crate::mark::{slack, tolerance};
use crate::recipe::{Ask, Choice, Form, NumberAsk, Recipe, System};

/// What was counted so far.
pub(super) struct Tally<'r> {
    recipe: &'r Recipe,
    system: System,
    effort: Effort,
    /// What is given in each different problem.
    known: BTreeSet<String>,
    redraws: u64,
    most_redraws: u32,
    most_at: u64,
    parts: Vec<PartTally>,
}

/// What was counted of something that is asked.
#[derive(Default)]
struct PartTally {
    answers: Vec<f64>,
    hardest: Option<Hardest>,
    widest: Option<Widest>,
    right: Vec<u64>,
    /// In how many draws the printed forms differ after rounding.
    differing: u64,
}

impl<'r> Tally<'r> {
    pub(super) fn new(recipe: &'r Recipe, system: System, effort: Effort) -> Self {
        let parts =
            recipe.asks.iter().map(|ask| PartTally { right: vec![0; options(ask).len()], ..Default::default() });
        Self {
            recipe,
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
        for ((ask, answer), part) in self.recipe.asks.iter().zip(&problem.answers).zip(&mut self.parts) {
            match (&ask.form, answer) {
                (Form::Number(asked), Answer::Number(right)) => {
                    part.answers.push(number::as_asked(problem, asked, *right));
                    part.harder(seed, number::nearest_mistake(problem, asked, *right));
                    part.wider(seed, tolerance(problem, asked, *right) / right.si.abs());
                    part.differing += u64::from(forms_differ(problem, asked));
                }
                (_, Answer::OneOf { right, .. } | Answer::PointAt { right }) => part.right[*right] += 1,
                (_, Answer::SeveralOf { right, .. }) => right.iter().for_each(|right| part.right[*right] += 1),
                (_, Answer::TrueOrFalse { right, reason, .. }) => {
                    part.right[0] += u64::from(*right);
                    part.right[1 + reason] += 1;
                }
                _ => {}
            }
        }
    }

    pub(super) fn report(self) -> SystemReport {
        let (draws, different) = (self.effort.problems, self.known.len() as u64);
        let all = self.effort.seeds.max(self.effort.problems);
        let parts = self.recipe.asks.iter().zip(self.parts);
        SystemReport {
            system: self.system,
            draws: self.effort.seeds,
            problems: Repeats { draws, different, repeats: draws - different },
            redraws: Redraws { mean: share(self.redraws, all), most: self.most_redraws, seed: self.most_at },
            parts: parts.map(|(ask, part)| part.report(ask, self.system, self.effort.seeds)).collect(),
        }
    }
}

impl PartTally {
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

    fn report(self, ask: &Ask, system: System, draws: u64) -> PartReport {
        let unit = match &ask.form {
            Form::Number(number) => number.unit.of(system).0.map(|unit| unit.symbol.to_owned()),
            _ => None,
        };
        let right = options(ask).into_iter().zip(self.right);
        PartReport {
            id: ask.id.clone(),
            form: ask.form.id().to_owned(),
            unit,
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
fn forms_differ(problem: &Problem, asked: &NumberAsk) -> bool {
    let Some(_) = asked.grid(problem.setting.system) else { return false };
    let [us, si] =
        latitude::by_form(problem, asked).map(|value| value.map(|value| number::as_asked(problem, asked, value)));
    us.zip(si).is_some_and(|(us, si)| (us - si).abs() > slack(si))
}

/// What can be right in a part: each by its name, and whether that depends on what is drawn. What is right in an order
/// and in pairs is no choice among few.
fn options(ask: &Ask) -> Vec<(String, bool)> {
    match &ask.form {
        Form::Number(_) | Form::InOrder(_) | Form::Match(_) => Vec::new(),
        Form::OneOf(choice) | Form::SeveralOf(choice) => numbered(&choice.options),
        Form::PointAt(point) => {
            point.parts.iter().map(|part| (part.id.clone(), is_drawn(part.right.as_ref()))).collect()
        }
        Form::TrueOrFalse(claim) => {
            let mut all = vec![("true".to_owned(), is_drawn(claim.right.as_ref()))];
            all.extend(numbered(&claim.reasons));
            all
        }
    }
}

fn numbered(options: &[Choice]) -> Vec<(String, bool)> {
    let named = |(index, option): (usize, &Choice)| ((index + 1).to_string(), is_drawn(option.right.as_ref()));
    options.iter().enumerate().map(named).collect()
}

/// Whether a condition can be one way or the other.
fn is_drawn(condition: Option<&Condition>) -> bool {
    condition.is_some_and(|condition| *condition != Condition::always())
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
