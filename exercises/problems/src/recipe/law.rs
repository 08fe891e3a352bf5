//! The laws that the worked steps of a recipe show.

use relief::System;
use serde::Serialize;

use crate::stored::stored_fields;
use crate::template::Template;

/// The law of a relation, as the worked steps show it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Law {
    /// The relation.
    #[serde(serialize_with = "crate::stored::relation::serialize")]
    pub relation: &'static relief::Relation,
    /// The system whose form it is; none where one form serves both.
    #[serde(serialize_with = "crate::stored::some_system::serialize")]
    pub form: Option<System>,
    /// Its title.
    pub title: String,
    /// The law in MathML, in symbols.
    pub symbols: String,
    /// The law in MathML, with a hole for each input.
    pub numbers: Template,
}

stored_fields!(Law { relation, form, title, symbols, numbers });
