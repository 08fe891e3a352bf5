//! What is asked, in every form.

use relief::units::Unit;
use relief::{Exact, Kind};
use serde::Serialize;

use super::Pair;
use crate::display::{self, Mark};
use crate::formula::{Condition, Node, Scope};
use crate::stored::{Stored, Unfit, stored_cases, stored_fields};
use crate::template::Template;

/// One thing that is asked.
#[derive(Clone, Debug, PartialEq, Serialize)]
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
#[derive(Clone, Debug, PartialEq, Serialize)]
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

impl Form {
    /// Whether some answer is unsafe: beyond a limit, or a choice that can hurt somebody.
    #[must_use]
    pub fn names_danger(&self) -> bool {
        let any = |options: &[Choice]| options.iter().any(|option| option.is_unsafe.is_some());
        match self {
            Self::Number(number) => number.limit.is_some(),
            Self::OneOf(choice) | Self::SeveralOf(choice) => any(&choice.options),
            Self::InOrder(order) => order.items.iter().any(|item| item.is_unsafe),
            Self::Match(pairs) => pairs.pairs.iter().any(|pair| pair.is_unsafe),
            Self::PointAt(point) => point.parts.iter().any(|part| part.is_unsafe),
            Self::TrueOrFalse(claim) => claim.unsafe_if.is_some() || any(&claim.reasons),
        }
    }
}

/// A number with a unit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct NumberAsk {
    /// The right answer.
    pub answer: Node,
    /// The unit that it is asked in.
    pub unit: Pair<UnitRef>,
    /// The kind of the answer.
    #[serde(serialize_with = "crate::stored::kind::serialize")]
    pub kind: Kind,
    /// How far from the right answer still counts.
    pub within: Pair<Tolerance>,
    /// Which side is unsafe, where the answer is a limit.
    pub limit: Option<Limit>,
    /// Whether an answer on the unsafe side fails the whole question.
    pub unsafe_fails: bool,
    /// How the answer has to be rounded, where that is asked.
    pub round: Option<RoundTo>,
    /// Between which values such a number usually lies, in the unit asked for.
    pub believable: Option<Pair<Believable>>,
    /// The answers that named mistakes give.
    pub mistakes: Vec<Mistake>,
    /// The plot that the number is read off.
    pub plot: Option<Plot>,
}

/// A unit that may be missing: the answer is then a bare number.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct UnitRef(#[serde(serialize_with = "crate::stored::some_unit::serialize")] pub Option<&'static Unit>);

/// How far from the right answer still counts.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Tolerance {
    /// A share of the right answer.
    Share(#[serde(serialize_with = "crate::stored::exact::serialize")] Exact),
    /// So much in the unit that is asked for.
    Amount(#[serde(serialize_with = "crate::stored::exact::serialize")] Exact),
}

/// Which side of a limit is unsafe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Limit {
    /// Above it.
    Upper,
    /// Below it.
    Lower,
}

/// How an answer has to be rounded.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RoundTo {
    /// To which numbers.
    pub to: Pair<Grid>,
    /// Which way.
    pub side: Side,
}

/// The numbers that an answer is rounded to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Grid {
    /// Those with so many significant figures.
    Figures(u8),
    /// The multiples of a step in the unit asked for.
    Step {
        /// The step.
        #[serde(serialize_with = "crate::stored::exact::serialize")]
        step: Exact,
        /// How the step is written.
        #[serde(serialize_with = "crate::stored::style::serialize")]
        style: relief::Style,
    },
}

/// Which way an answer is rounded. The safe side is `Up` or `Down` by the time a recipe is compiled, and is marked as
/// safe so that the learner is told no more than that.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
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
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Believable {
    /// The least.
    #[serde(serialize_with = "crate::stored::exact::serialize")]
    pub low: Exact,
    /// The greatest.
    #[serde(serialize_with = "crate::stored::exact::serialize")]
    pub high: Exact,
    /// How both are written.
    #[serde(serialize_with = "crate::stored::style::serialize")]
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
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Mistake {
    /// The name.
    pub name: String,
    /// The formula that the mistake amounts to.
    pub answer: Node,
    /// What the learner is told.
    pub message: Template,
}

/// A plot drawn from what was drawn.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Plot {
    /// The figure.
    pub figure: String,
    /// What it is drawn from.
    pub with: Vec<(String, Node)>,
    /// Its words, by key.
    pub words: Vec<(String, String)>,
}

/// Options to choose from.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChoiceAsk {
    /// The options, in the author's order.
    pub options: Vec<Choice>,
    /// Whether they stay in that order.
    pub keep_order: bool,
    /// The unit in which options that are computed are shown.
    pub unit: Option<Pair<UnitRef>>,
}

/// One option.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Choice {
    /// What it says; nothing where it is computed.
    pub say: Template,
    /// What it is computed from.
    pub value: Option<Node>,
    /// When it is right; never where there is none.
    pub right: Option<Condition>,
    /// Why it is right or wrong.
    pub why: Option<Template>,
    /// When somebody who believes it where it is wrong can be hurt; never where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub is_unsafe: Option<Condition>,
}

impl Choice {
    /// Whether somebody who believes it where it is wrong can be hurt.
    #[must_use]
    pub fn is_unsafe(&self, scope: &Scope) -> bool {
        self.is_unsafe.as_ref().is_some_and(|condition| condition.holds(scope) == Ok(true))
    }
}

/// Items to put in order.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OrderAsk {
    /// The items; in the right order, where nothing else gives it.
    pub items: Vec<Item>,
    /// Whether the items go by their values from the greatest to the least.
    pub highest_first: bool,
}

/// An item to put in order.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Item {
    /// What it says.
    pub say: Template,
    /// The value that gives its place.
    pub by: Option<Node>,
    /// Why it has its place.
    pub why: Option<Template>,
    /// Whether somebody can be hurt where it is done before what must come first.
    #[serde(skip_serializing_if = "is_false")]
    pub is_unsafe: bool,
}

/// Items to match with their partners.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PairsAsk {
    /// The items, each with its partner.
    pub pairs: Vec<Pairing>,
    /// Partners that go with nothing.
    pub spare: Vec<Template>,
}

/// An item and its partner.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Pairing {
    /// The item.
    pub item: Template,
    /// What goes with it.
    pub with: Template,
    /// Why.
    pub why: Option<Template>,
    /// Whether somebody who gives it another partner can be hurt.
    #[serde(skip_serializing_if = "is_false")]
    pub is_unsafe: bool,
}

/// A part to point at.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PointAsk {
    /// The numbered parts of the drawing, in the order of their numbers.
    pub parts: Vec<Part>,
    /// What is said of a part that has no words of its own.
    pub otherwise: Option<Template>,
    /// The drawing as SVG. It is the same in every problem, so that it is drawn once.
    pub drawing: String,
}

/// A part of a figure.
#[derive(Clone, Debug, PartialEq, Serialize)]
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
    /// Whether somebody who believes it where it is wrong can be hurt.
    #[serde(skip_serializing_if = "is_false")]
    pub is_unsafe: bool,
}

/// Whether a statement is true, and why.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TruthAsk {
    /// The statement.
    pub statement: Template,
    /// When it is true; never where there is none.
    pub right: Option<Condition>,
    /// The reasons to choose from.
    pub reasons: Vec<Choice>,
    /// Which answer can hurt somebody who believes it where it is wrong.
    pub unsafe_if: Option<bool>,
}

/// Whether a flag is not set, and so left out of what is written.
#[expect(clippy::trivially_copy_pass_by_ref, reason = "the shape that serde calls")]
fn is_false(flag: &bool) -> bool {
    !flag
}

impl Stored for UnitRef {
    #[inline]
    fn read(tree: serde_json::Value) -> Result<Self, Unfit> {
        Stored::read(tree).map(Self)
    }
}

stored_fields!(Ask { id, label, form });
stored_cases!(Form {
    "number" => Number(number),
    "one_of" => OneOf(choice),
    "several_of" => SeveralOf(choice),
    "in_order" => InOrder(order),
    "match" => Match(pairs),
    "point_at" => PointAt(point),
    "true_or_false" => TrueOrFalse(claim),
});
stored_fields!(NumberAsk { answer, unit, kind, within, limit, unsafe_fails, round, believable, mistakes, plot });
stored_cases!(Tolerance { "share" => Share(share), "amount" => Amount(amount) });
stored_cases!(Limit { "upper" => Upper, "lower" => Lower });
stored_fields!(RoundTo { to, side });
stored_cases!(Grid { "figures" => Figures(figures), "step" => Step { step, style } });
stored_cases!(Side { "nearest" => Nearest, "up" => Up, "down" => Down, "safe" => Safe });
stored_fields!(Believable { low, high, style });
stored_fields!(Mistake { name, answer, message });
stored_fields!(Plot { figure, with, words });
stored_fields!(ChoiceAsk { options, keep_order, unit });
stored_fields!(Choice { say, value, right, why, is_unsafe });
stored_fields!(OrderAsk { items, highest_first });
stored_fields!(Item { say, by, why, is_unsafe });
stored_fields!(PairsAsk { pairs, spare });
stored_fields!(Pairing { item, with, why, is_unsafe });
stored_fields!(PointAsk { parts, otherwise, drawing });
stored_fields!(Part { id, number, name, right, why, is_unsafe });
stored_fields!(TruthAsk { statement, right, reasons, unsafe_if });
