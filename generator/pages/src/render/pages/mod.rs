//! The pages of a site. Each kind has a file, named as its template is.

mod coverage;
mod coverage_relations;
mod coverage_terms;
mod index;
mod lesson;
mod practising;
mod progress;
mod recipe;
mod relations;
mod tables;
mod term;
mod terms;

use super::kind::PageKind;

/// Every kind of page, in the order of the sheets. Sheets within a sheet follow the one that lists them.
pub(super) const PAGES: [&PageKind; 12] = [
    &index::KIND,
    &lesson::KIND,
    &practising::KIND,
    &recipe::KIND,
    &progress::KIND,
    &terms::KIND,
    &term::KIND,
    &relations::KIND,
    &tables::KIND,
    // Last, because it is for instructors.
    &coverage::KIND,
    &coverage_terms::KIND,
    &coverage_relations::KIND,
];
