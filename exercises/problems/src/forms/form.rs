//! What every form of question says of itself.

use super::keys::{PartKeys, ReadKeys, SaidText};
use crate::facts::{DrawError, Facts, NumberAt, PartOf};
use crate::formula::NameKind;
use crate::proof::found::Found;
use crate::recipe::checking::{Check, Path, Step};
use crate::review::Reviewed;
use crate::seed::Seed;
use crate::verdict::{Marked, Typed};
use crate::views::{AnswerView, FigureView, Outline};

/// A form of question, compiled: how it is written, checked, drawn, marked, shown and proven. To add one, see the
/// contributors' guide.
pub(crate) trait AnswerForm: Sized {
    /// The name in recipes.
    const NAME: &'static str;

    /// The keys that belong to it, beside those of every part.
    const KEYS: &'static [&'static str];

    /// The keys without which a part of this form is at fault.
    #[cfg(feature = "schema")]
    const NEEDED: &'static [&'static str];

    /// The keys that no other form has.
    type Keys: ReadKeys;

    /// What is right in a drawn problem, and in which order it is shown.
    type Answer;

    /// What a page, a paper and a terminal are given of it. It names its field script in `form`.
    type View: serde::Serialize + core::fmt::Debug;

    /// How many entries its lists have, as a schema says it.
    #[cfg(feature = "schema")]
    fn counts() -> serde_json::Value {
        serde_json::json!({})
    }

    /// Checks and compiles a part; `None` where a fault leaves nothing of it.
    fn check(keys: PartKeys<Self::Keys>, path: &Path, check: &mut Check) -> Option<Self>;

    /// The texts of a part that learners read, which must say something.
    fn texts<'k>(keys: PartKeys<'k, Self::Keys>) -> Vec<SaidText<'k>>;

    /// The names of the mistakes that a part explains.
    fn mistakes<'k>(_: PartKeys<'k, Self::Keys>) -> Vec<&'k str> {
        Vec::new()
    }

    /// What the name of a part is to the formulas after it.
    fn name_kind(&self) -> NameKind {
        NameKind::Choice(Vec::new())
    }

    /// The numbers that a part asks for, under the names by which they are answered.
    fn numbers<'f>(&'f self, _id: &'f str, _label: &'f str) -> Vec<NumberAt<'f>> {
        Vec::new()
    }

    /// Where in a part the number with a name is written; nothing where it is the part itself.
    fn path(&self, _name: &str) -> Vec<Step> {
        Vec::new()
    }

    /// Whether some answer is unsafe: beyond a limit, or a choice that can hurt somebody.
    fn names_danger(&self) -> bool;

    /// The keys of the words that its answers and workings need.
    fn words(&self) -> Vec<&'static str> {
        Vec::new()
    }

    /// Draws what is right, and takes its numbers into the facts.
    ///
    /// # Errors
    /// [`DrawError`], by its rule.
    fn draw(&self, id: &str, seed: &Seed, facts: &mut Facts) -> Result<Self::Answer, DrawError>;

    /// Marks what was typed.
    fn mark(&self, right: &Self::Answer, part: PartOf, answers: &Typed) -> Marked;

    /// Whether a marked answer fails the whole question.
    fn fails(&self, marked: &Marked) -> bool {
        marked.is_unsafe()
    }

    /// What is to be filled in; ids in its drawings begin with `ids`.
    fn view(&self, right: &Self::Answer, part: PartOf, ids: &str) -> Self::View;

    /// The same as lines for a terminal.
    fn outline(view: &Self::View) -> Vec<Outline<'_>>;

    /// The plot in a view, where the form has one: a plot that several parts are read off is shown once.
    fn figure(_: &mut Self::View) -> Option<&mut FigureView> {
        None
    }

    /// The right answer, as the learner reads it: HTML.
    fn shown(&self, right: &Self::Answer, part: PartOf) -> String;

    /// The right answers of its cells, where a part has several fields that are answered each under a name of its own.
    fn cells(&self, _right: &Self::Answer, _part: PartOf) -> Vec<AnswerView> {
        Vec::new()
    }

    /// What could be typed for the right answer: a number with its unit to full precision, or the text in which a
    /// choice, an order or pairs cross; nothing where its cells are answered.
    fn exact(&self, right: &Self::Answer, part: PartOf) -> String;

    /// What its author sees of it besides.
    fn review(&self, right: &Self::Answer, part: PartOf) -> Reviewed;

    /// Whether a draw can be marked fairly and told apart.
    ///
    /// # Errors
    /// The rule that it breaks.
    fn prove(&self, right: &Self::Answer, part: PartOf) -> Result<(), Found>;

    /// What can be right, each by its name and with whether that depends on what is drawn; nothing where what is right is
    /// no choice among few.
    fn choices(&self) -> Vec<(String, bool)> {
        Vec::new()
    }

    /// Counts which of the choices are right in a draw.
    fn count(&self, _right: &Self::Answer, _counts: &mut [u64]) {}
}
