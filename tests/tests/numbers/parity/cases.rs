//! The cases: random evaluations of every relation, and every recipe drawn, worked and marked.

use std::collections::BTreeMap;
use std::rc::Rc;

use problems::DecimalMark;
use problems::draw::{Setting, draw};
use problems::mark::mark_all;
use problems::recipe::System;
use problems::seed::{FIRST_ATTEMPT, Seed};
use problems::view::AnswerView;
use problems::{Recipe, parity};
use relief::{Bound, Form, Input};
use seatwork_tests::top;
use serde_json::json;

/// Evaluations of each relation, where nothing else is asked for.
const EVALUATIONS: u64 = 400;

/// How many evaluations of each relation are made: more where `SEATWORK_EVALUATIONS` says so.
fn evaluation_count() -> u64 {
    std::env::var("SEATWORK_EVALUATIONS").ok().and_then(|count| count.parse().ok()).unwrap_or(EVALUATIONS)
}

/// Seeds of each recipe in each system, where nothing else is asked for.
const SEEDS: u64 = 2;

/// With how many seeds each recipe is drawn and marked in each system: more where `SEATWORK_SEEDS` says so.
fn seed_count() -> u64 {
    std::env::var("SEATWORK_SEEDS").ok().and_then(|count| count.parse().ok()).unwrap_or(SEEDS)
}

/// A recipe as it is read from its stored form, which is all that the engine is given.
type Stored = Rc<Recipe>;

#[derive(Debug)]
pub(crate) enum Call {
    Bits { relation: &'static str, arguments: String },
    Draw { recipe: Stored, seed: String, system: System },
    Solve { recipe: Stored, seed: String, system: System },
    Mark { recipe: Stored, seed: String, system: System, answers: String },
}

pub(crate) fn all_cases() -> Vec<Call> {
    let mut all: Vec<Call> = relief::relations().flat_map(evaluations).collect();
    let words = pages::Words::of("en").expect("words");
    let course = course::read(&top().join("content"), &words).expect("the course is sound");
    for file in course.recipes {
        let recipe = Rc::new(Recipe::read(&file.recipe.write()).expect("own form"));
        for system in System::BOTH {
            for seed in 1..=seed_count() {
                problems_of(&recipe, seed, system, &mut all);
            }
        }
    }
    all
}

fn problems_of(recipe: &Stored, seed: u64, system: System, all: &mut Vec<Call>) {
    let seed = seed.to_string();
    all.push(Call::Draw { recipe: Rc::clone(recipe), seed: seed.clone(), system });
    all.push(Call::Solve { recipe: Rc::clone(recipe), seed: seed.clone(), system });
    let problem = draw(recipe, &seed_of(recipe, &seed), setting(system)).expect("proven");
    let answers = problem.solution().answers;
    let fields = answers.iter().flat_map(AnswerView::fields);
    let right: BTreeMap<_, _> =
        fields.map(|answer| (answer.id.clone(), (answer.exact.clone(), answer.shown.clone()))).collect();
    for (id, (exact, shown)) in &right {
        for typed in answers_to(exact, shown) {
            // The part alone, and after other parts that went wrong: an error may be carried on.
            let alone = json!({ id: typed });
            let mut after: BTreeMap<_, _> = right.iter().map(|(id, (exact, _))| (id, tripled(exact))).collect();
            after.insert(id, typed);
            for answers in if right.len() > 1 { vec![alone, json!(after)] } else { vec![alone] } {
                let (recipe, seed) = (Rc::clone(recipe), seed.clone());
                all.push(Call::Mark { recipe, seed, system, answers: answers.to_string() });
            }
        }
    }
}

/// A right answer three times as large; one that is not a number stays.
fn tripled(exact: &str) -> String {
    let (number, unit) = exact.split_once(' ').unwrap_or((exact, ""));
    number.parse::<f64>().map_or(exact.to_owned(), |number| format!("{} {unit}", number * 3.0))
}

/// Right and wrong answers of every form.
fn answers_to(exact: &str, shown: &str) -> Vec<String> {
    let number: f64 = exact.split(' ').next().and_then(|number| number.parse().ok()).unwrap_or(0.0);
    let texts = [
        "1,234",
        "1 3/8\"",
        "rubbish",
        "",
        "not measured: 0",
        "not measured: 1",
        "0",
        "1 0",
        "0 1 2",
        "0=1 1=0",
        "0=0",
        "true 0",
        "false 1",
        "disc",
    ];
    let numbers = [
        format!("{}", number * 4.0),
        format!("{} kPa", number * 10.0),
        format!("{}", -number),
        format!("{}", 1.0 / number),
    ];
    [exact.to_owned(), shown.to_owned()].into_iter().chain(numbers).chain(texts.map(str::to_owned)).collect()
}

fn evaluations(relation: &'static relief::Relation) -> impl Iterator<Item = Call> {
    let mut random =
        Random(relation.id.bytes().fold(7, |sum: u64, byte| sum.wrapping_mul(31).wrapping_add(u64::from(byte))));
    (0..evaluation_count()).map(move |_| {
        // Half of the values share an order of magnitude, so that pressures are often near each other.
        let common = random.magnitude();
        let arguments: Vec<_> = relation.inputs.iter().map(|input| argument(input, common, &mut random)).collect();
        let form = System::BOTH[random.below(2)].id();
        Call::Bits { relation: relation.id, arguments: format!("{form} {}", arguments.join(" ")) }
    })
}

/// A lawful value nine times in ten, spread over the orders of magnitude of the range; else any bits at all.
fn argument(input: &Input, common: f64, random: &mut Random) -> String {
    match &input.form {
        Form::Choice(known) => known[random.below(known.len() as u64)].to_owned(),
        Form::Quantity(_, range) => {
            if random.below(10) == 0 {
                return format!("{:016x}", random.next());
            }
            let (Bound::Including(low) | Bound::Above(low)) = range.low;
            let magnitude = if random.below(2) == 0 { common } else { random.magnitude() };
            let value = low + (range.high - low) * magnitude * (0.5 + 0.5 * random.share());
            format!("{:016x}", value.to_bits())
        }
    }
}

/// SplitMix64: enough for picking cases, and no part of the product.
struct Random(u64);

impl Random {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// From one down to a millionth of a millionth, each order as likely.
    fn magnitude(&mut self) -> f64 {
        libm::pow(10.0, -12.0 * self.share())
    }

    fn below(&mut self, count: u64) -> usize {
        usize::try_from(self.next() % count).expect("small")
    }

    #[expect(clippy::cast_precision_loss, reason = "53 bits fit")]
    fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }
}

fn setting(system: System) -> Setting {
    Setting { system, mark: DecimalMark::Point }
}

fn seed_of(recipe: &Recipe, text: &str) -> Seed {
    Seed { text: text.to_owned(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT }
}

impl Call {
    /// What the native core answers.
    pub(crate) fn natively(&self) -> String {
        match self {
            Self::Bits { relation, arguments } => parity::bits(relation, arguments),
            Self::Draw { recipe, seed, system } => {
                let problem = draw(recipe, &seed_of(recipe, seed), setting(*system)).expect("proven");
                serde_json::to_string(&problem.view(false, "")).expect("plain data")
            }
            Self::Solve { recipe, seed, system } => {
                let problem = draw(recipe, &seed_of(recipe, seed), setting(*system)).expect("proven");
                serde_json::to_string(&problem.solution()).expect("plain data")
            }
            Self::Mark { recipe, seed, system, answers } => {
                let problem = draw(recipe, &seed_of(recipe, seed), setting(*system)).expect("proven");
                let answers: BTreeMap<String, String> = serde_json::from_str(answers).expect("texts by name");
                let answers: Vec<_> = answers.into_iter().collect();
                serde_json::to_string(&mark_all(&problem, &answers).view()).expect("plain data")
            }
        }
    }

    /// The case as a line for the browser, with what the native core answers.
    pub(crate) fn line(&self) -> String {
        let expected = self.natively();
        let (call, recipe, rest) = match self {
            Self::Bits { relation, arguments } => {
                return json!({ "call": "bits", "args": [relation, arguments], "expect": expected }).to_string();
            }
            Self::Draw { recipe, seed, system } => ("draw", recipe, json!([seed, FIRST_ATTEMPT, system.id(), ".", ""])),
            Self::Solve { recipe, seed, system } => ("solve", recipe, json!([seed, FIRST_ATTEMPT, system.id(), "."])),
            Self::Mark { recipe, seed, system, answers } => {
                ("mark", recipe, json!([seed, FIRST_ATTEMPT, system.id(), ".", answers]))
            }
        };
        json!({ "call": call, "recipe": recipe.id, "args": rest, "expect": expected }).to_string()
    }
}
