//! The forms of question, one file each. To add one, add its file and its line in the list below.
//!
//! What a learner answers crosses as text: places in the author's list, which do not change with the order shown; numbers
//! as they are typed.

mod common;
mod figure;
mod form;
pub(crate) mod keys;
mod options;

use serde::Serialize;
use serde::de::MapAccess;

use form::AnswerForm;
use keys::{PartKeys, ReadKeys, SharedKeys};

use crate::facts::{DrawError, Facts, NumberAt, PartOf};
use crate::formula::NameKind;
use crate::proof::found::Found;
use crate::recipe::checking::{Check, Path, Step};
use crate::review::Reviewed;
use crate::seed::Seed;
use crate::stored::{Stored, Unfit, case, stored_fields};
use crate::verdict::{Marked, Typed};
use crate::views::{AnswerView, FigureView, Outline};

pub use keys::SaidText;

/// One thing that is asked.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Ask {
    /// The name of the part.
    pub id: String,
    /// What the learner reads beside the field.
    pub label: String,
    /// What form the answer has.
    pub form: Form,
}

stored_fields!(Ask { id, label, form });

/// What is to be filled in for a part.
#[derive(Debug, Serialize)]
#[serde(transparent)]
pub struct FormView(View);

/// Makes of the list of forms all that goes through every one of them.
macro_rules! forms {
    ($($module:ident: $form:ident,)*) => {
        /// The form of an answer.
        #[derive(Clone, Debug, PartialEq, Serialize)]
        #[serde(rename_all = "snake_case")]
        pub enum Form {
            $(#[doc = concat!("The form of `forms/", stringify!($module), ".rs`.")] $form($form),)*
        }

        /// What is right in a part of a drawn problem, always beside the form that it was drawn for.
        #[derive(Debug)]
        pub(crate) enum Drawn<'r> {
            $($form(&'r $form, <$form as AnswerForm>::Answer),)*
        }

        #[derive(Debug, Serialize)]
        #[serde(untagged)]
        enum View {
            $($form(<$form as AnswerForm>::View),)*
        }

        /// The keys that belong to one form alone, for all forms.
        #[derive(Debug, Default)]
        pub(crate) struct OwnKeys {
            $($module: <$form as AnswerForm>::Keys,)*
        }

        /// The names of all forms, each with the keys that belong to it beside those of every part.
        pub(crate) const FORMS: &[(&str, &[&str])] = &[$(($form::NAME, $form::KEYS)),*];

        /// All keys that a part may have beside those of every part.
        pub(crate) fn keys_of_parts() -> impl Iterator<Item = &'static str> {
            let own: &[&[&str]] = &[$(<$form as AnswerForm>::Keys::NAMES),*];
            SharedKeys::NAMES.iter().chain(own.iter().copied().flatten()).copied()
        }

        impl ReadKeys for OwnKeys {
            const NAMES: &'static [&'static str] = &[];

            fn read<'de, M: MapAccess<'de>>(&mut self, key: &str, map: &mut M) -> Result<bool, M::Error> {
                Ok($(self.$module.read(key, map)?)||*)
            }

            fn given(&self) -> Vec<&'static str> {
                let mut all = Vec::new();
                $(all.extend(self.$module.given());)*
                all
            }
        }

        /// What the schemas of all forms' own keys say of them.
        #[cfg(feature = "schema")]
        pub(crate) fn schemas_of_keys(generator: &mut schemars::SchemaGenerator) -> Vec<schemars::Schema> {
            use schemars::JsonSchema;
            vec![SharedKeys::json_schema(generator), $(<$form as AnswerForm>::Keys::json_schema(generator)),*]
        }

        /// The keys that a form needs, and how many entries its lists have.
        #[cfg(feature = "schema")]
        pub(crate) fn needs(form: &str) -> (&'static [&'static str], serde_json::Value) {
            match form {
                $($form::NAME => ($form::NEEDED, $form::counts()),)*
                _ => (&[], serde_json::Value::Null),
            }
        }

        impl Form {
            /// Checks a part of a form by its name; `None` where a fault leaves nothing of it, or no form has the name.
            pub(crate) fn check(form: &str, keys: PartKeys<OwnKeys>, path: &Path, check: &mut Check) -> Option<Self> {
                let PartKeys { id, shared, own } = keys;
                match form {
                    $($form::NAME => $form::check(PartKeys { id, shared, own: &own.$module }, path, check).map(Self::$form),)*
                    _ => None,
                }
            }

            /// The texts that learners read, which must say something.
            pub(crate) fn texts<'k>(PartKeys { id, shared, own }: PartKeys<'k, OwnKeys>) -> Vec<SaidText<'k>> {
                let mut all = Vec::new();
                $(all.extend($form::texts(PartKeys { id, shared, own: &own.$module }));)*
                all
            }

            /// The names of the mistakes that a part of a form explains.
            pub(crate) fn mistakes<'k>(form: &str, keys: PartKeys<'k, OwnKeys>) -> Vec<&'k str> {
                let PartKeys { id, shared, own } = keys;
                match form {
                    $($form::NAME => $form::mistakes(PartKeys { id, shared, own: &own.$module }),)*
                    _ => Vec::new(),
                }
            }

            /// The name in recipes.
            #[must_use]
            pub fn id(&self) -> &'static str {
                match self { $(Self::$form(_) => $form::NAME,)* }
            }

            /// Whether some answer is unsafe: beyond a limit, or a choice that can hurt somebody.
            #[must_use]
            pub fn names_danger(&self) -> bool {
                match self { $(Self::$form(form) => form.names_danger(),)* }
            }

            /// What the name of the part is to the formulas after it.
            pub(crate) fn name_kind(&self) -> NameKind {
                match self { $(Self::$form(form) => form.name_kind(),)* }
            }

            /// The keys of the words that its answers and workings need.
            pub(crate) fn words(&self) -> Vec<&'static str> {
                match self { $(Self::$form(form) => form.words(),)* }
            }

            fn path(&self, name: &str) -> Vec<Step> {
                match self { $(Self::$form(form) => form.path(name),)* }
            }

            fn numbers<'f>(&'f self, id: &'f str, label: &'f str) -> Vec<NumberAt<'f>> {
                match self { $(Self::$form(form) => form.numbers(id, label),)* }
            }

            /// What can be right, each by its name and with whether that depends on what is drawn.
            pub(crate) fn choices(&self) -> Vec<(String, bool)> {
                match self { $(Self::$form(form) => form.choices(),)* }
            }

            /// Draws what is right.
            pub(crate) fn draw<'r>(&'r self, id: &str, seed: &Seed, facts: &mut Facts) -> Result<Drawn<'r>, DrawError> {
                match self { $(Self::$form(form) => form.draw(id, seed, facts).map(|right| Drawn::$form(form, right)),)* }
            }
        }

        impl Drawn<'_> {
            /// Marks what was typed; with whether it fails the whole question.
            pub(crate) fn mark(&self, part: PartOf, answers: &Typed) -> (Marked, bool) {
                match self {
                    $(Self::$form(form, right) => {
                        let marked = form.mark(right, part, answers);
                        let fails = form.fails(&marked);
                        (marked, fails)
                    })*
                }
            }

            /// What is to be filled in.
            pub(crate) fn view(&self, part: PartOf, ids: &str) -> FormView {
                FormView(match self { $(Self::$form(form, right) => View::$form(form.view(right, part, ids)),)* })
            }

            /// The right answer, as the learner reads it: HTML.
            pub(crate) fn shown(&self, part: PartOf) -> String {
                match self { $(Self::$form(form, right) => form.shown(right, part),)* }
            }

            /// The right answers of its cells, where the part has several fields.
            pub(crate) fn cells(&self, part: PartOf) -> Vec<AnswerView> {
                match self { $(Self::$form(form, right) => form.cells(right, part),)* }
            }

            /// What could be typed for the right answer.
            pub(crate) fn exact(&self, part: PartOf) -> String {
                match self { $(Self::$form(form, right) => form.exact(right, part),)* }
            }

            /// What its author sees of it besides.
            pub(crate) fn review(&self, part: PartOf) -> Reviewed {
                match self { $(Self::$form(form, right) => form.review(right, part),)* }
            }

            /// Whether a draw can be marked fairly and told apart.
            pub(crate) fn prove(&self, part: PartOf) -> Result<(), Found> {
                match self { $(Self::$form(form, right) => form.prove(right, part),)* }
            }

            /// Counts which of the choices are right.
            pub(crate) fn count(&self, counts: &mut [u64]) {
                match self { $(Self::$form(form, right) => form.count(right, counts),)* }
            }
        }

        impl FormView {
            /// What is to be filled in, as lines for a terminal.
            #[must_use]
            pub fn outline(&self) -> Vec<Outline<'_>> {
                match &self.0 { $(View::$form(view) => $form::outline(view),)* }
            }

            /// The plot that a part is read off.
            pub(crate) fn figure(&mut self) -> Option<&mut FigureView> {
                match &mut self.0 { $(View::$form(view) => $form::figure(view),)* }
            }
        }

        impl Stored for Form {
            #[inline]
            fn read(tree: serde_json::Value) -> Result<Self, Unfit> {
                let (name, inside) = case(tree)?;
                match name.as_str() {
                    $($form::NAME => Stored::read(inside).map(Self::$form),)*
                    _ => Err(Unfit("form")),
                }
            }
        }
    };
}

mod fill_table;
mod in_order;
mod r#match;
mod number;
mod one_of;
mod point_at;
mod read_off;
mod several_of;
mod true_or_false;

pub use crate::number::Number;
pub use fill_table::FillTable;
pub use in_order::InOrder;
pub use r#match::Match;
pub use one_of::OneOf;
pub use point_at::PointAt;
pub use read_off::ReadOff;
pub use several_of::SeveralOf;
pub use true_or_false::TrueOrFalse;

forms! {
    number: Number,
    one_of: OneOf,
    several_of: SeveralOf,
    in_order: InOrder,
    r#match: Match,
    point_at: PointAt,
    read_off: ReadOff,
    true_or_false: TrueOrFalse,
    fill_table: FillTable,
}

impl Ask {
    /// The numbers that the part asks for, under the names by which they are answered.
    pub fn numbers(&self) -> impl Iterator<Item = NumberAt<'_>> {
        self.form.numbers(&self.id, &self.label).into_iter()
    }

    /// The steps from the part to where its author writes what is answered under a name; `None` where nothing of it is.
    #[must_use]
    pub fn path_to(&self, name: &str) -> Option<Vec<Step>> {
        let is_of_it = self.id == name || self.numbers().any(|at| at.id == name);
        is_of_it.then(|| self.form.path(name))
    }
}
