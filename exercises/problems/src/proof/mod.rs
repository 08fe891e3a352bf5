//! Proof: a recipe is drawn over many seeds before anyone sees it, and refused where a draw would let a learner down.
//!
//! What passes is described in a [`Report`]: how often numbers come back, what they spread over, which draw is the
//! hardest to mark fairly, how often each option is right. [`SystemReport::points`] picks out what its author should look at.

mod digits;
mod effort;
mod fault;
pub(crate) mod found;
mod never_met;
pub(crate) mod number;
mod report;
mod tally;

use crate::decimal_mark::DecimalMark;
use crate::draw::{Problem, with_givens};
use crate::facts::{GivenValue, Setting};
use crate::givens::draw_givens;
use crate::html::texts;
use crate::recipe::{Recipe, System};
use crate::seed::{FIRST_ATTEMPT, Seed};
use crate::template::Piece;

pub use effort::Effort;
pub use fault::{Drawn, ProofFault};
use faults::Code;
use found::{Found, found, of_draw};
pub use report::{
    Hardest, POINTS, PartReport, Point, Redraws, Repeats, Report, RightShare, Spread, SystemReport, Widest,
};
use tally::Tally;

/// The fewest different problems that a recipe must have in each system, where it draws anything.
const FEWEST_DIFFERENT: u64 = 8;

/// The longest statement, in letters: what a learner on a phone reads without losing the start.
const LONGEST_STATEMENT: usize = 1_200;

/// Draws a recipe in both systems of units.
///
/// # Errors
/// The first fault in each system.
pub fn prove(recipe: &Recipe, effort: Effort) -> Result<Report, Vec<ProofFault>> {
    let (mut systems, mut faults) = (Vec::new(), Vec::new());
    for system in System::BOTH {
        match (Proof { recipe, system, letters: question_letters(recipe) }).run(effort) {
            Ok(report) => systems.push(report),
            Err(fault) => faults.push(fault),
        }
    }
    if faults.is_empty() { Ok(Report { recipe: recipe.id.clone(), systems }) } else { Err(faults) }
}

/// The proof of a recipe in one system.
struct Proof<'r> {
    recipe: &'r Recipe,
    system: System,
    /// How many letters the question has without what is drawn.
    letters: usize,
}

impl Proof<'_> {
    fn run(&self, effort: Effort) -> Result<SystemReport, ProofFault> {
        let mut tally = Tally::new(self.recipe, self.system, effort);
        for count in 0..effort.seeds.max(effort.problems) {
            let number = effort.from.saturating_add(count);
            self.one(number, count, effort, &mut tally).map_err(|found| self.fault(number, found))?;
        }
        let report = tally.report();
        let repeats = &report.problems;
        if self.recipe.draws.is_empty() || repeats.different >= FEWEST_DIFFERENT.min(repeats.draws) {
            return Ok(report);
        }
        let values = [("found", repeats.different.to_string()), ("least", FEWEST_DIFFERENT.to_string())];
        Err(self.fault(effort.from, found(Code::ProofRepeats, values)))
    }

    fn fault(&self, seed: u64, found: Found) -> ProofFault {
        let found = match found.code {
            Code::ProofNeverMet => never_met::described(found, self.recipe, &self.seed(seed), self.setting()),
            _ => found.with("givens", self.givens(seed)),
        };
        found.map(|()| Drawn { seed, system: self.system })
    }

    /// What is given for a seed, as a message says it; nothing where nothing can be drawn.
    fn givens(&self, seed: u64) -> String {
        let drawn = draw_givens(self.recipe, &self.seed(seed), self.setting());
        let values = drawn.map(|givens| givens.values).unwrap_or_default();
        values.iter().map(|given| format!("{} {}", given.name, given.text)).collect::<Vec<_>>().join(", ")
    }

    fn seed(&self, number: u64) -> Seed {
        Seed { text: number.to_string(), question: self.recipe.id.clone(), attempt: FIRST_ATTEMPT }
    }

    fn setting(&self) -> Setting {
        Setting { system: self.system, mark: DecimalMark::Point }
    }

    /// One seed: all of the problem; or what is given, where more draws are only looked through for repeats, or where the
    /// same was given before and so all but the order of the options was proven.
    fn one(&self, number: u64, count: u64, effort: Effort, tally: &mut Tally) -> Result<(), Found> {
        let (setting, seed) = (self.setting(), self.seed(number));
        let givens = draw_givens(self.recipe, &seed, setting).map_err(|error| of_draw(&error))?;
        if count >= effort.seeds || tally.again(&givens.values) {
            self.check_givens(&givens.values)?;
            tally.givens(number, count, &givens.values, givens.redraws);
            return Ok(());
        }
        let problem = with_givens(self.recipe, &seed, setting, givens).map_err(|error| of_draw(&error))?;
        self.check_givens(&problem.facts.givens)?;
        self.statement(&problem)?;
        check(&problem)?;
        tally.givens(number, count, &problem.facts.givens, problem.redraws);
        tally.answers(number, &problem);
        Ok(())
    }

    /// Whether the question is short enough.
    fn statement(&self, problem: &Problem) -> Result<(), Found> {
        let holes = self.recipe.question.holes().map(|name| problem.text(name).chars().count());
        let length = self.letters + holes.sum::<usize>();
        if length <= LONGEST_STATEMENT {
            return Ok(());
        }
        let values = [("length", length.to_string()), ("most", LONGEST_STATEMENT.to_string())];
        Err(found(Code::ProofLongStatement, values))
    }

    fn check_givens(&self, givens: &[GivenValue]) -> Result<(), Found> {
        let mut drawn = self.recipe.draws.iter().zip(givens);
        drawn.try_for_each(|(draw, given)| digits::given(draw.source.of(self.system), given))
    }
}

fn check(problem: &Problem) -> Result<(), Found> {
    for (index, condition) in problem.recipe.must_hold.iter().enumerate() {
        match condition.holds(&problem.facts.scope) {
            Ok(true) => {}
            Ok(false) => return Err(found(Code::ProofMustHold, [("condition", (index + 1).to_string())])),
            Err(error) => {
                return Err(found(Code::ProofNoValue, [("part", "must_hold".into()), ("error", error.to_string())]));
            }
        }
    }
    problem.parts.iter().try_for_each(|part| part.drawn.prove(part.of(&problem.facts)))
}

/// How many letters of a question are the same in every draw.
fn question_letters(recipe: &Recipe) -> usize {
    let letters = |piece: &Piece| match piece {
        Piece::Html(html) => texts(html).map(|text| text.chars().count()).sum(),
        _ => 0,
    };
    recipe.question.0.iter().map(letters).sum()
}
