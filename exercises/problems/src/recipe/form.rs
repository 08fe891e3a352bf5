//! What is asked, in every form.

use relief::units::Unit;
use relief::{Exact, Kind};
use serde::{Deserialize, Serialize};

use super::Pair;
use crate::display::{self, Mark};
use crate::formula::{Condition, Node};
use crate::stored;
use crate::template::Template;

/// One thing that is asked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ask {
    /// The name of the part.
    pub id: String,
    /// What stands beside the field.
    pub label: String,
    /// What form the answer has.
    pub form: Form,
}

/// The form of an answer.
#[expect(clippy::large_enum_variant, reason = "most parts are numbers, and a recipe has few")]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Form {
    /// A number with a unit, worked out or read off a plot.
    Number(NumberAsk),
    /// One of several options.
    OneOf(ChoiceAsk),
    /// Any number of several options.
    SeveralOf(ChoiceAsk),
    /// Items to put in order.
    InOrder(OrderAsk),
    /// Items to match with their partners.
    Match(PairsAsk),
    /// A part to point at in a figure.
    PointAt(PointAsk),
    /// Whether a statement is true, and why.
    TrueOrFalse(TruthAsk),
}

/// A number with a unit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct NumberAsk {
    /// The right answer.
    pub answer: Node,
    /// The unit that it is asked in.
    pub unit: Pair<UnitRef>,
    /// The kind of the answer.
    #[serde(with = "stored::kind")]
    pub kind: Kind,
    /// How far from the right answer still counts.
    pub within: Pair<Tolerance>,
    /// Which side is unsafe, where the answer is a limit.
    pub limit: Option<Limit>,
    /// Whether an answer on the unsafe side fails the whole question.
    #[serde(default)]
    pub unsafe_fails: bool,
    /// How the answer has to be rounded, where that is asked.
    #[serde(default)]
    pub round: Option<RoundTo>,
    /// Between which values such a number usually lies, in the unit asked for.
    #[serde(default)]
    pub believable: Option<Pair<Believable>>,
    /// The answers that named mistakes give.
    pub mistakes: Vec<Mistake>,
    /// The plot that the number is read off.
    #[serde(default)]
    pub plot: Option<Plot>,
}

/// A unit that may be missing: the answer is then a bare number.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct UnitRef(#[serde(with = "stored::some_unit")] pub Option<&'static Unit>);

/// How far from the right answer still counts.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Tolerance {
    /// A share of the right answer.
    Share(#[serde(with = "stored::exact")] Exact),
    /// So much in the unit that is asked for.
    Amount(#[serde(with = "stored::exact")] Exact),
}

/// Which side of a limit is unsafe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Limit {
    /// Above it.
    Upper,
    /// Below it.
    Lower,
}

/// How an answer has to be rounded.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct RoundTo {
    /// To which numbers.
    pub to: Pair<Grid>,
    /// Which way.
    pub side: Side,
}

/// The numbers that an answer is rounded to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Grid {
    /// Those with so many significant figures.
    Figures(u8),
    /// The multiples of a step in the unit asked for.
    Step {
        /// The step.
        #[serde(with = "stored::exact")]
        step: Exact,
        /// How the step is written.
        #[serde(with = "stored::style")]
        style: relief::Style,
    },
}

/// Which way an answer is rounded. The safe side is `Up` or `Down` by the time a recipe is compiled, and is marked as
/// safe so that the learner is told no more than that.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// To the nearest.
    Nearest,
    /// To the next one up.
    Up,
    /// To the next one down.
    Down,
    /// Away from the unsafe side of the limit.
    Safe,
}

impl Limit {
    /// The name in recipes.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Upper => "upper",
            Self::Lower => "lower",
        }
    }

    /// Both of them.
    pub const BOTH: [Self; 2] = [Self::Upper, Self::Lower];
}

impl Side {
    /// The name in recipes and words.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Nearest => "nearest",
            Self::Up => "up",
            Self::Down => "down",
            Self::Safe => "safe",
        }
    }

    /// All of them.
    pub const ALL: [Self; 4] = [Self::Nearest, Self::Up, Self::Down, Self::Safe];
}

/// Between which values a number usually lies, in the unit asked for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Believable {
    /// The least.
    #[serde(with = "stored::exact")]
    pub low: Exact,
    /// The greatest.
    #[serde(with = "stored::exact")]
    pub high: Exact,
    /// How both are written.
    #[serde(with = "stored::style")]
    pub style: relief::Style,
}

impl Believable {
    /// Both ends as a learner reads them.
    #[must_use]
    pub fn texts(&self, unit: Option<&'static Unit>, mark: Mark) -> [String; 2] {
        [self.low, self.high].map(|end| display::number(end, self.style, unit, mark))
    }
}

/// An answer that a named mistake gives.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Mistake {
    /// The name.
    pub name: String,
    /// The formula that the mistake amounts to.
    pub answer: Node,
    /// What the learner is told.
    pub message: Template,
}

/// A plot drawn from what was drawn.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Plot {
    /// The figure.
    pub figure: String,
    /// What it is drawn from.
    pub with: Vec<(String, Node)>,
    /// Its words, by key.
    pub words: Vec<(String, String)>,
}

/// Options to choose from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ChoiceAsk {
    /// The options, in the author's order.
    pub options: Vec<Choice>,
    /// Whether they stay in that order.
    pub keep_order: bool,
    /// The unit in which options that are computed are shown.
    #[serde(default)]
    pub unit: Option<Pair<UnitRef>>,
}

/// One option.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Choice {
    /// What it says; nothing where it is computed.
    pub say: Template,
    /// What it is computed from.
    #[serde(default)]
    pub value: Option<Node>,
    /// When it is right; never where there is none.
    pub right: Option<Condition>,
    /// Why it is right or wrong.
    pub why: Option<Template>,
}

/// Items to put in order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct OrderAsk {
    /// The items; in the right order, where nothing else gives it.
    pub items: Vec<Item>,
    /// Whether the items go by their values from the greatest to the least.
    pub highest_first: bool,
}

/// An item to put in order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Item {
    /// What it says.
    pub say: Template,
    /// The value that gives its place.
    pub by: Option<Node>,
    /// Why it has its place.
    pub why: Option<Template>,
}

/// Items to match with their partners.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PairsAsk {
    /// The items, each with its partner.
    pub pairs: Vec<Pairing>,
    /// Partners that go with nothing.
    pub spare: Vec<Template>,
}

/// An item and its partner.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Pairing {
    /// The item.
    pub item: Template,
    /// What goes with it.
    pub with: Template,
    /// Why.
    pub why: Option<Template>,
}

/// A part to point at.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PointAsk {
    /// The numbered parts of the drawing, in the order of their numbers.
    pub parts: Vec<Part>,
    /// What is said of a part that has no words of its own.
    pub otherwise: Option<Template>,
    /// The drawing as SVG. It is the same in every problem, so that it is drawn once.
    pub drawing: String,
}

/// A part of a figure.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Part {
    /// The name in the figure.
    pub id: String,
    /// Its number there.
    pub number: u8,
    /// What it is called.
    pub name: String,
    /// When it is right; never where there is none.
    pub right: Option<Condition>,
    /// Why it is right or wrong.
    pub why: Option<Template>,
}

/// Whether a statement is true, and why.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TruthAsk {
    /// The statement.
    pub statement: Template,
    /// When it is true; never where there is none.
    pub right: Option<Condition>,
    /// The reasons to choose from.
    pub reasons: Vec<Choice>,
}
