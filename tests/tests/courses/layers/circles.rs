//! Circles in a graph.

use std::collections::{BTreeMap, BTreeSet};

/// What each file needs.
pub(crate) type Needs = BTreeMap<String, BTreeSet<String>>;

/// Every set of two or more files each of which needs, through others, all of them.
pub(crate) fn circles(needs: &Needs) -> Vec<Vec<String>> {
    let reached: BTreeMap<_, _> = needs.keys().map(|file| (file, reach(needs, file))).collect();
    let mut found = BTreeSet::new();
    for (file, reach) in &reached {
        let circle: Vec<_> = reach.iter().filter(|other| reached[*other].contains(*file)).cloned().collect();
        if circle.len() > 1 {
            found.insert(circle);
        }
    }
    found.into_iter().collect()
}

/// All files that a file needs, through others too.
fn reach(needs: &Needs, file: &str) -> BTreeSet<String> {
    let mut reached = BTreeSet::new();
    let mut left = vec![file];
    while let Some(next) = left.pop() {
        for other in &needs[next] {
            if reached.insert(other.clone()) {
                left.push(other);
            }
        }
    }
    reached
}
