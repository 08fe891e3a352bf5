//! What proof reports of a recipe that passed.

use serde::{Deserialize, Serialize};

use crate::recipe::System;

/// What proof found of a recipe.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Report {
    /// The recipe.
    pub recipe: String,
    /// In each system of units.
    pub systems: Vec<SystemReport>,
}

/// A system is kept by its id.
mod system {
    use serde::{Deserialize, Deserializer, de::Error};

    use crate::recipe::System;

    pub(super) use crate::stored::system::serialize;

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(input: D) -> Result<System, D::Error> {
        let id = String::deserialize(input)?;
        System::find(&id).ok_or_else(|| D::Error::custom("no system of units"))
    }
}

/// What proof found in one system of units.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SystemReport {
    /// The system.
    #[serde(with = "system")]
    pub system: System,
    /// How many problems were drawn and marked.
    pub draws: u64,
    /// How many different problems there are.
    pub problems: Repeats,
    /// What the conditions under `require` cost.
    pub redraws: Redraws,
    /// What is asked, in order.
    pub parts: Vec<PartReport>,
}

/// How often the same numbers come again.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Repeats {
    /// Among how many draws they were looked for.
    pub draws: u64,
    /// How many draws differ in what is given.
    pub different: u64,
    /// How many draws share what is given with an earlier one.
    pub repeats: u64,
}

/// How often numbers were drawn again because they did not meet what the recipe requires.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Redraws {
    /// On average over all draws.
    pub mean: f64,
    /// In the draw that took most.
    pub most: u32,
    /// The first seed that took so many.
    pub seed: u64,
}

/// What proof found of something that is asked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PartReport {
    /// The part.
    pub id: String,
    /// The form of its answer, as it is named in recipes.
    pub form: String,
    /// The symbol of the unit of a number; none for a bare one and for every other form.
    pub unit: Option<String>,
    /// The right answers of a number.
    pub answers: Option<Spread>,
    /// The draw in which a named mistake of a number comes nearest to the right answer.
    pub hardest: Option<Hardest>,
    /// The draw in which the tolerance of a number is the greatest share of its answer; none where all answers are zero.
    pub widest: Option<Widest>,
    /// In which share of draws the printed forms of a number differ after it is rounded, from 0 to 1.
    pub forms_differ: f64,
    /// In which share of draws each of the other right answers of a number makes another number right, from 0 to 1.
    pub also_right: Vec<f64>,
    /// How often each option of a choice is right, in the author's order.
    pub right: Vec<RightShare>,
}

/// How right answers are spread, in the unit asked for. Each is an answer of some draw (nearest rank).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Spread {
    /// The least.
    pub least: f64,
    /// A quarter of the answers are not above it.
    pub lower_quartile: f64,
    /// Half of them are not above it.
    pub median: f64,
    /// Three quarters of them are not above it.
    pub upper_quartile: f64,
    /// The greatest.
    pub greatest: f64,
}

/// The draw that is hardest to mark fairly.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Hardest {
    /// Its seed.
    pub seed: u64,
    /// The named mistake that comes nearest.
    pub mistake: String,
    /// How far from the right answer it lies, in tolerances.
    pub tolerances: f64,
}

/// The draw that is easiest to guess.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Widest {
    /// Its seed.
    pub seed: u64,
    /// The tolerance as a share of the right answer: 0.01 is one percent.
    pub share: f64,
}

/// How often an option is right.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RightShare {
    /// The option: its place in the author's list, from 1, or its name.
    pub option: String,
    /// The share of draws in which it is right, from 0 to 1.
    pub share: f64,
    /// Whether that depends on what is drawn.
    pub drawn: bool,
}

/// Something that an author should look at, though nothing is wrong with it.
#[derive(Clone, Debug, PartialEq)]
pub struct Point {
    /// What it is.
    pub code: &'static str,
    /// What a message needs to know.
    pub values: Vec<(&'static str, String)>,
}

/// Fewer different problems than this are soon known in a class.
const FEW_PROBLEMS: u64 = 100;
/// More redraws than this on average: the ranges hardly meet what is required.
const MANY_REDRAWS: f64 = 20.0;
/// An option whose truth is drawn should not be right nearly never or nearly always.
const USUAL_SHARES: core::ops::RangeInclusive<f64> = 0.05..=0.95;

/// A tolerance that is a greater share of the answer lets rough guesses pass.
const WIDE: f64 = 0.2;

/// The codes of all points, under which words for them are kept.
pub const POINTS: [&str; 7] = [
    "few_problems",
    "many_redraws",
    "wide_tolerance",
    "forms_differ",
    "also_right_idle",
    "seldom_right",
    "nearly_always_right",
];

/// Where the printed forms differ in more draws than this after rounding, the step is too fine for them.
const OFTEN_DIFFERENT: f64 = 0.2;

impl SystemReport {
    /// What its author should look at.
    #[must_use]
    pub fn points(&self) -> Vec<Point> {
        let mut points = Vec::new();
        let different = self.problems.different;
        if (2..FEW_PROBLEMS.min(self.problems.draws)).contains(&different) {
            points.push(Point { code: "few_problems", values: vec![("different", different.to_string())] });
        }
        if self.redraws.mean > MANY_REDRAWS {
            points.push(Point { code: "many_redraws", values: Vec::new() });
        }
        points.extend(self.parts.iter().flat_map(PartReport::points));
        points
    }
}

impl PartReport {
    fn points(&self) -> impl Iterator<Item = Point> {
        let wide = self.widest.iter().filter(|widest| widest.share > WIDE * (1.0 + 1e-9)).map(|widest| Point {
            code: "wide_tolerance",
            values: vec![
                ("part", self.id.clone()),
                ("percent", relief::shown(widest.share * 100.0, 2, relief::Rounding::Nearest)),
                ("seed", widest.seed.to_string()),
            ],
        });
        let differ = (self.forms_differ > OFTEN_DIFFERENT).then(|| Point {
            code: "forms_differ",
            values: vec![
                ("part", self.id.clone()),
                ("percent", relief::shown(self.forms_differ * 100.0, 2, relief::Rounding::Nearest)),
            ],
        });
        let idle = self.also_right.iter().enumerate().filter(|(_, share)| **share <= 0.0).map(|(place, _)| Point {
            code: "also_right_idle",
            values: vec![("part", self.id.clone()), ("place", (place + 1).to_string())],
        });
        let lopsided = |right: &&RightShare| right.drawn && !USUAL_SHARES.contains(&right.share);
        let lopsided = self.right.iter().filter(lopsided).map(|right| {
            let code = if right.share < *USUAL_SHARES.start() { "seldom_right" } else { "nearly_always_right" };
            Point { code, values: vec![("part", self.id.clone()), ("option", right.option.clone())] }
        });
        wide.chain(differ).chain(idle).chain(lopsided)
    }
}
