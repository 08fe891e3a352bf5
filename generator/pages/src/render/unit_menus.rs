//! The menus of units that calculators offer.

use std::collections::BTreeMap;

use problems::System;
use problems::display::{unit_text, usual_unit};
use relief::{Form, Kind, Relation, units};
use serde::Serialize;

/// The menu of units of a kind.
#[derive(Serialize)]
struct Menu {
    units: Vec<String>,
    /// The usual unit of each system, to which an empty field turns.
    us: Option<String>,
    si: Option<String>,
}

/// The menus of units by kind, for every kind that a relation takes or gives.
pub(super) fn menus(own: &[&'static Relation]) -> serde_json::Value {
    let inputs = relief::relations().flat_map(|relation| relation.inputs).filter_map(|input| match &input.form {
        Form::Quantity(kind, _) => Some(*kind),
        Form::Choice(_) => None,
    });
    let kinds =
        inputs.chain(own.iter().flat_map(|relation| kinds_of(relation))).chain(relief::relations().map(Relation::kind));
    let all: BTreeMap<_, _> = kinds.map(|kind| (kind.id(), menu(kind))).collect();
    serde_json::json!(all)
}

/// The kinds that a relation takes and gives.
fn kinds_of(relation: &'static Relation) -> impl Iterator<Item = Kind> {
    relation.inputs.iter().filter_map(relief::Input::kind).chain([relation.kind()])
}

fn menu(kind: Kind) -> Menu {
    let usual = |system| usual_unit(kind, system).map(|unit| unit_text(unit, 2.0));
    Menu {
        units: units::for_kind(kind).map(|unit| unit_text(unit, 2.0)).collect(),
        us: usual(System::Us),
        si: usual(System::Si),
    }
}
