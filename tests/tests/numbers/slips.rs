//! Slips, found by search: whoever gets one thing in the work wrong is told what, and a number made up at random is given
//! no reason that is not its own. What may go wrong is listed here and not taken from the marker.
//!
//! `SEATWORK_SEEDS` says how many problems of each recipe are tried in each system of units.

mod variations;

use std::collections::BTreeMap;

use course::RecipeFile;
use problems::DecimalMark;
use problems::draw::{Problem, Setting, draw};
use problems::mark::{Marked, Verdict, mark};
use problems::number::Number;
use problems::recipe::System;
use problems::seed::{FIRST_ATTEMPT, Seed};
use relief::Quantity;
use seatwork_tests::top;

use variations::{Variation, Work};

/// How many problems of each recipe are tried in each system, where `SEATWORK_SEEDS` does not say.
const SEEDS: u64 = 50;

/// At least this share of the variations is named, stated or asked, where four figures are typed.
const LEAST_NAMED: f64 = 0.85;

/// At most this share of random numbers is given a reason that is stated as a fact.
const MOST_STATED: f64 = 0.02;

/// Random numbers for each part and problem.
const RANDOM: u64 = 10;

const FIGURES: [i32; 2] = [3, 4];

/// Counts by what was done, and by the number of figures.
#[derive(Clone, Default)]
struct Row {
    tried: [u32; 2],
    named: [u32; 2],
    other: BTreeMap<String, u32>,
}

#[derive(Default)]
struct Tally {
    rows: BTreeMap<String, Row>,
}

impl Tally {
    fn note(&mut self, row: &str, figures: usize, named: bool, other: impl FnOnce() -> String) {
        let row = self.rows.entry(row.to_owned()).or_default();
        row.tried[figures] += 1;
        if named {
            row.named[figures] += 1;
        } else if FIGURES[figures] == 4 {
            *row.other.entry(other()).or_default() += 1;
        }
    }

    fn together(tallies: Vec<Self>) -> Self {
        let mut all = Self::default();
        for (name, row) in tallies.into_iter().flat_map(|tally| tally.rows) {
            let into = all.rows.entry(name).or_default();
            for place in 0..2 {
                into.tried[place] += row.tried[place];
                into.named[place] += row.named[place];
            }
            for (other, count) in row.other {
                *into.other.entry(other).or_default() += count;
            }
        }
        all
    }

    /// What share of all was named at each number of figures.
    fn shares(&self) -> [f64; 2] {
        [0, 1].map(|place| {
            let sum =
                |counts: fn(&Row) -> [u32; 2]| self.rows.values().map(|row| f64::from(counts(row)[place])).sum::<f64>();
            sum(|row| row.named) / sum(|row| row.tried)
        })
    }

    fn told(&self) -> String {
        let mut told = String::new();
        for (name, row) in &self.rows {
            let share = |place: usize| 100.0 * f64::from(row.named[place]) / f64::from(row.tried[place].max(1));
            told.push_str(&format!(
                "{name}: of {} at 3 figures {:.1} %, of {} at 4 figures {:.1} %\n",
                row.tried[0],
                share(0),
                row.tried[1],
                share(1)
            ));
            let mut others: Vec<_> = row.other.iter().collect();
            others.sort_by_key(|(_, count)| std::cmp::Reverse(**count));
            for (other, count) in others.iter().take(12) {
                told.push_str(&format!("    {count:5} {other}\n"));
            }
        }
        told
    }
}

/// A number of one part of one problem.
struct Asked<'p> {
    problem: &'p Problem<'p>,
    part: &'p str,
    number: &'p Number,
    right: Quantity,
}

impl Asked<'_> {
    /// A number (SI) as it is typed with so many figures.
    fn typed(&self, si: f64, figures: i32) -> String {
        match self.number.unit.of(self.problem.facts.setting.system).0 {
            Some(unit) => {
                let value = unit.value(Quantity::new(si, self.right.kind));
                format!("{} {}", with_figures(value, figures), unit.symbol)
            }
            None => with_figures(si, figures),
        }
    }

    fn marked(&self, typed: &str) -> Marked {
        mark(self.problem, self.part, typed).expect("a part of the problem")
    }

    /// Whether a mark names a variation: by its kind and by what it was done to; in the words of the author for this
    /// very number; or as another one that gives the same number.
    fn names(&self, marked: &Marked, variation: &Variation, all: &[Variation]) -> bool {
        let same = |si: f64| (si - variation.si).abs() <= 1e-9 * variation.si.abs().max(si.abs());
        match &marked.verdict {
            Verdict::Mistake(name) => {
                let mistake = self.number.mistakes.iter().find(|mistake| mistake.name == *name).expect("named");
                mistake.answer.quantity(&self.problem.facts.scope).is_ok_and(|value| same(value.si))
            }
            Verdict::Slip(slip) => {
                let texts: Vec<&String> = marked.values.iter().map(|(_, text)| text).collect();
                let is_named = |other: &Variation| {
                    other.done == slip.id() && other.to.as_ref().is_none_or(|to| texts.contains(&to))
                };
                all.iter().any(|other| same(other.si) && is_named(other))
            }
            _ => false,
        }
    }
}

fn seeds() -> u64 {
    std::env::var("SEATWORK_SEEDS").map_or(SEEDS, |wanted| wanted.parse().expect("SEATWORK_SEEDS is a number"))
}

/// A number with so many significant figures, zeros at the end too.
fn with_figures(value: f64, figures: i32) -> String {
    let scientific = format!("{:.*e}", usize::try_from(figures - 1).expect("some figures"), value);
    let (digits, power) = scientific.split_once('e').expect("scientific");
    let power: i32 = power.parse().expect("a whole number");
    let places = usize::try_from((figures - 1 - power).max(0)).expect("not below zero");
    let rounded: f64 = format!("{digits}e{power}").parse().expect("a number");
    format!("{rounded:.places$}")
}

/// Tries every number of every recipe.
fn each_number(attempt: impl Fn(&Asked, &Work, &mut Tally, u64) + Sync) -> Tally {
    let words = pages::Words::of("en").expect("words");
    let course = course::read(&top().join("content"), &words).expect("the course is sound");
    let seeds = seeds();
    let of_recipe = |file: &RecipeFile| {
        let mut tally = Tally::default();
        for system in System::BOTH {
            for seed in 1..=seeds {
                let text = Seed { text: seed.to_string(), question: file.recipe.id.clone(), attempt: FIRST_ATTEMPT };
                let problem = draw(&file.recipe, &text, Setting { system, mark: DecimalMark::Point }).expect("proven");
                for (at, right) in problem.numbers() {
                    let asked = Asked { problem: &problem, part: at.id, number: at.number, right };
                    attempt(&asked, &Work { problem: &problem, at }, &mut tally, seed);
                }
            }
        }
        tally
    };
    Tally::together(course::on_threads(&course.recipes, 1, of_recipe))
}

#[test]
fn whoever_gets_one_thing_wrong_is_told_what() {
    let tally = each_number(|asked, work, tally, seed| {
        let mut all = work.variations();
        all.extend(work.usual_left_out());
        let mut tried: Vec<f64> = Vec::new();
        for variation in &all {
            // Equal results count once.
            if tried.iter().any(|si| (si - variation.si).abs() <= 1e-9 * si.abs()) {
                continue;
            }
            tried.push(variation.si);
            for (place, figures) in FIGURES.into_iter().enumerate() {
                let typed = asked.typed(variation.si, figures);
                let marked = asked.marked(&typed);
                // What is right, or right but for its rounding, is not a mistake of method.
                if matches!(marked.verdict, Verdict::Right | Verdict::Rounding | Verdict::WrongUnit) {
                    continue;
                }
                let named = asked.names(&marked, variation, &all);
                let recipe = &asked.problem.recipe.id;
                let other = || {
                    let found = match &marked.verdict {
                        Verdict::Slip(slip) => slip.id().to_owned(),
                        Verdict::Mistake(name) => format!("mistake {name}"),
                        other => other.id().to_owned(),
                    };
                    if std::env::var("SEATWORK_BY_RECIPE").is_ok() {
                        format!("{found}: {recipe} {} seed {seed} {typed} {:?}", asked.part, variation.to)
                    } else {
                        found
                    }
                };
                tally.note(variation.done, place, named, other);
            }
        }
    });
    let [three, four] = tally.shares();
    let told =
        format!("named at 3 figures {:.1} %, at 4 figures {:.1} %\n{}", 100.0 * three, 100.0 * four, tally.told());
    println!("{told}");
    assert!(four >= LEAST_NAMED, "{told}");
}

/// Numbers between nought and one, made from a seed (SplitMix64).
struct Random(u64);

impl Random {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^= mixed >> 31;
        f64::from(u32::try_from(mixed >> 32).expect("32 bits")) / f64::from(u32::MAX)
    }
}

#[test]
fn a_number_made_up_at_random_is_given_no_reason_as_a_fact() {
    let tally = each_number(|asked, _, tally, seed| {
        let mut random = Random(seed);
        for name in [&asked.problem.recipe.id, asked.part] {
            name.bytes().for_each(|byte| random.0 = random.0.wrapping_mul(31).wrapping_add(u64::from(byte)));
        }
        let answer = asked.right.si;
        for _ in 0..RANDOM {
            // From a quarter to four times the answer, even by logarithms.
            let si = answer * libm::pow(16.0, random.next() - 0.5);
            for (place, figures) in FIGURES.into_iter().enumerate() {
                let marked = asked.marked(&asked.typed(si, figures));
                if matches!(marked.verdict, Verdict::Right | Verdict::Rounding) {
                    continue;
                }
                let reason = matches!(marked.verdict, Verdict::Slip(_) | Verdict::Mistake(_) | Verdict::WrongUnit);
                let stated = reason && !marked.notes.contains(&"asked");
                let is_asked = reason && !stated;
                tally.note("random", place, stated, String::new);
                tally.note("random, asked", place, is_asked, String::new);
            }
        }
    });
    println!("{}", tally.told());
    let row = &tally.rows["random"];
    for (place, figures) in FIGURES.into_iter().enumerate() {
        let share = f64::from(row.named[place]) / f64::from(row.tried[place]);
        assert!(share <= MOST_STATED, "at {figures} figures:\n{}", tally.told());
    }
}
