//! Counting what the draws give.

use std::collections::btree_map::Entry;
use std::collections::{BTreeMap, BTreeSet};
use std::iter::repeat_n;

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
    /// What is given in each different problem, as learners read it.
    known: BTreeSet<String>,
    /// The place of each problem that was proven, by all of what is given.
    proven: BTreeMap<String, usize>,
    /// How often each of them was drawn.
    times: Vec<u64>,
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
    hardest: Option<Hardest>,
    widest: Option<Widest>,
    /// What can be right, and whether that depends on what is drawn.
    choices: Vec<(String, bool)>,
    /// What is right in each problem that was proven.
    right: Vec<Right>,
}

/// What is right in one problem.
#[derive(Default)]
struct Right {
    /// The number, as it is asked for.
    answer: Option<f64>,
    /// Whether the printed forms of the number differ after rounding.
    differs: bool,
    /// Which of the other right answers make another number right.
    also: Vec<bool>,
    /// How many of each of the choices are right.
    choices: Vec<u64>,
}

impl<'r> Tally<'r> {
    pub(super) fn new(recipe: &'r Recipe, system: System, effort: Effort) -> Self {
        let parts = recipe.asks.iter().flat_map(PartTally::all_of);
        Self {
            system,
            effort,
            known: BTreeSet::new(),
            proven: BTreeMap::new(),
            times: Vec::new(),
            redraws: 0,
            most_redraws: 0,
            most_at: effort.from,
            parts: parts.collect(),
        }
    }

    /// Counts a problem that is to be proven; says whether it was before.
    pub(super) fn again(&mut self, givens: &[GivenValue]) -> bool {
        match self.proven.entry(all_of(givens)) {
            Entry::Occupied(known) => {
                self.times[*known.get()] += 1;
                true
            }
            Entry::Vacant(new) => {
                new.insert(self.times.len());
                self.times.push(1);
                false
            }
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

    /// Counts what is right in a problem that was proven.
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
            parts: self.parts.into_iter().map(|part| part.report(self.system, &self.times)).collect(),
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
        Self { id, form, number, hardest: None, widest: None, choices, right: Vec::new() }
    }

    fn chosen(&mut self, drawn: &Part) {
        let mut choices = vec![0; self.choices.len()];
        drawn.drawn.count(&mut choices);
        self.right.push(Right { choices, ..Right::default() });
    }

    fn answered(&mut self, seed: u64, facts: &Facts) {
        let Some((at, right)) = facts.number(self.id) else { return self.right.push(Right::default()) };
        let (answer, differs) = (number::as_asked(facts, at.number, right), forms_differ(facts, at.number));
        let also = number::also_right(facts, at, right);
        self.right.push(Right { answer: Some(answer), differs, also, ..Right::default() });
        self.harder(seed, number::nearest_mistake(facts, at.number, right));
        self.wider(seed, at.number.tolerance(right, facts.setting.system) / right.si.abs());
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

    /// Tells it all, of problems that were drawn so many times each.
    fn report(self, system: System, times: &[u64]) -> PartReport {
        let draws = times.iter().sum();
        let right = || self.right.iter().zip(times.iter().copied());
        let differing = right().filter(|(right, _)| right.differs).map(|(_, times)| times).sum();
        let count = |choice: usize| {
            right().map(|(right, times)| right.choices.get(choice).map_or(0, |count| count * times)).sum()
        };
        let also = |place: usize| {
            let counting = right().filter(|(right, _)| right.also.get(place) == Some(&true));
            counting.map(|(_, times)| times).sum()
        };
        PartReport {
            id: self.id.to_owned(),
            form: self.form.to_owned(),
            unit: self.number.and_then(|number| number.unit_in(system)).map(|unit| unit.symbol.to_owned()),
            answers: spread(right().flat_map(|(right, times)| answers(right, times)).collect()),
            forms_differ: share(differing, draws),
            also_right: (0..self.number.map_or(0, |number| number.also_right.len()))
                .map(|place| share(also(place), draws))
                .collect(),
            right: (self.choices.iter().enumerate())
                .map(|(place, (option, drawn))| RightShare {
                    option: option.clone(),
                    share: share(count(place), draws),
                    drawn: *drawn,
                })
                .collect(),
            hardest: self.hardest,
            widest: self.widest,
        }
    }
}

/// The answer of a problem as often as it was drawn.
fn answers(right: &Right, times: u64) -> impl Iterator<Item = f64> {
    right.answer.into_iter().flat_map(move |answer| repeat_n(answer, usize::try_from(times).unwrap_or(usize::MAX)))
}

/// All of what is given: problems in which it is the same differ in nothing but the order of what is shown.
fn all_of(givens: &[GivenValue]) -> String {
    givens.iter().flat_map(|given| [given.value.as_str(), "\n", &given.text, "\n"]).collect()
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
