//! The relations of courses that are known, by their keys.

use std::sync::{PoisonError, RwLock};

use relief::Relation;

/// All that were put down since the program began.
static KNOWN: RwLock<Vec<&'static Relation>> = RwLock::new(Vec::new());

/// The relation of a course with a key.
pub(super) fn put_down_as(key: &str) -> Option<&'static Relation> {
    let known = KNOWN.read().unwrap_or_else(PoisonError::into_inner);
    known.iter().find(|relation| relation.key == key).copied()
}

/// Puts a relation down.
pub(super) fn add(relation: &'static Relation) {
    KNOWN.write().unwrap_or_else(PoisonError::into_inner).push(relation);
}

/// The relation with a key: one of the core, or one that was read.
pub(crate) fn find(key: &str) -> Option<&'static Relation> {
    relief::find(key).or_else(|| put_down_as(key))
}
