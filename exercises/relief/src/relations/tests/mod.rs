//! A walk over the registry, for what the compiler cannot check.

mod draws;
mod faults;
mod rows;

use super::*;
use crate::relation::Status;
use crate::system::System;

#[test]
fn ids_are_unique_and_snake_case() {
    let relations: Vec<_> = relations().map(|relation| relation.id).collect();
    for mut ids in [relations, crate::tables::tables().map(|table| table.id).collect()] {
        assert!(ids.iter().all(|id| id.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'_')));
        let count = ids.len();
        ids.sort_unstable();
        ids.dedup();
        assert_eq!(ids.len(), count);
    }
}

#[test]
fn every_source_says_where_it_comes_from() {
    for relation in relations() {
        for source in System::BOTH.map(|system| &relation.forms.of(system).source) {
            let named = !source.document.is_empty();
            assert!(named || source.status != Status::Read, "{}", relation.id);
            let remembered = source.document.contains("from memory");
            assert_eq!(remembered, source.status == Status::Partly, "{}", relation.id);
        }
        for input in relation.inputs {
            assert!(input.default.as_ref().is_none_or(|default| !default.source.is_empty()), "{}", input.name);
        }
    }
}
