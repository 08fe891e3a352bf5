//! The rows of the registry are sound, and a row that is broken is found out.

use std::collections::BTreeSet;

use super::faults::faults;
use crate::quantity::{Area, Force, Gauge, Ratio, Typed};
use crate::relation::{Outputs, Range, Relation, RelationError, Role, Run, Source, Status};
use crate::relations::relations;
use crate::relations::rows::{gauge, mechanics, one, opens, output, quantity, relation, same};

const SOURCE: Source = Source { document: "", status: Status::Derived };

#[test]
fn every_row_is_sound() {
    let mut errors = BTreeSet::new();
    for relation in relations() {
        let (faults, given) = faults(relation);
        assert!(faults.is_empty(), "{}: {faults:?}", relation.id);
        errors.extend(given);
    }
    // All that a relation can refuse came up, so that its names were looked at.
    let all = ["critical", "factor_needed", "nothing_left", "order", "out_of_range", "subcritical", "too_large"];
    assert!(all.iter().all(|error| errors.contains(error)), "{errors:?}");
}

const SHARE: Relation = relation! {
    id: "share",
    inputs: { part: gauge("a"), whole: opens("b").is(Role::Whole) },
    outputs: &[output::<Ratio>("share", "s")],
    forms: same(r"#share = \frac{#part - #whole}{#whole}", SOURCE),
    run: one((part - whole) / whole),
};

const PRESS: Relation = relation! {
    id: "press",
    inputs: { pressure: gauge("p"), area: quantity::<Area>("A", Range::positive(1.0)) },
    outputs: &[output::<Force>("force", "F")],
    forms: mechanics("#force = #pressure #area", SOURCE),
    run: one(pressure * area),
};

/// Rows that are broken in one way, each with what is said of it.
const BROKEN: &[(&str, Relation)] = &[
    ("law with unknown #hole", Relation { forms: same("#share = #part - #whole - #hole", SOURCE), ..SHARE }),
    ("law without #part", Relation { forms: same("#share = #whole", SOURCE), ..SHARE }),
    (
        "whole makes no difference",
        relation! {
            id: "share",
            inputs: { part: gauge("a"), whole: opens("b").is(Role::Whole) },
            outputs: &[output::<Ratio>("share", "s")],
            forms: same("#share = #part - #whole", SOURCE),
            run: {
                let _ = whole;
                one(Ratio::from_si(part.si()))
            },
        },
    ),
    ("what share gives", Relation { run: Run::Native(|_| one(Gauge::from_si(1.0))), ..SHARE }),
    (
        "an output too many",
        Relation { run: Run::Native(|_| Ok(Outputs::Named(Ratio::from_si(1.0).quantity(), "within"))), ..SHARE },
    ),
    (
        "error of unknown hole",
        Relation { run: Run::Native(|_| Err(RelationError::NothingLeft { input: "hole" })), ..SHARE },
    ),
    (
        "error with unknown Some(\"hole\")",
        Relation { run: Run::Native(|_| Err(RelationError::Subcritical { instead: "hole" })), ..SHARE },
    ),
    (
        "share of another whole",
        Relation { inputs: &[gauge("a").is(Role::Whole).named("part"), opens("b").named("whole")], ..SHARE },
    ),
    ("whole of a share", Relation { inputs: &[gauge("a").named("part"), opens("b").named("whole")], ..SHARE }),
    ("part twice", Relation { inputs: &[gauge("a").named("part"), opens("b").is(Role::Whole).named("part")], ..SHARE }),
    (
        "usual value of whole",
        Relation {
            inputs: &[gauge("a").named("part"), opens("b").is(Role::Whole).usually(-1.0, "nowhere").named("whole")],
            ..SHARE
        },
    ),
    ("no unit for gauge", Relation { forms: same("#force = #pressure #area", SOURCE), ..PRESS }),
    (
        "kind of a bore",
        Relation { inputs: &[gauge("p").is(Role::Bore).named("pressure"), gauge("A").named("area")], ..PRESS },
    ),
];

#[test]
fn a_row_that_is_broken_is_found_out() {
    for sound in [&SHARE, &PRESS] {
        assert_eq!(faults(sound).0, BTreeSet::new(), "{}", sound.id);
    }
    for (fault, row) in BROKEN {
        let (found, _) = faults(row);
        assert!(found.contains(*fault), "{fault}: {found:?}");
    }
}
