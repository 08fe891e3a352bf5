//! Relations of a course's own: as written, compiled, kept, and drawn as laws.
//!
//! A relation of a course goes through the same type as those of the core, [`relief::Relation`], whose rows live as long as the
//! program. So a compiled one is put down once for its content and never removed: courses that are read again and again, as
//! `watch` does, add one only where its file has changed. What it holds is part of its key, so no course sees another's.

mod check;
mod compile;
mod compiled;
mod latex;
mod order;
pub mod raw;
mod registry;

pub use check::check;
pub use compile::{Author, compile};
pub use compiled::{Own, called, carried, known, learn};
pub use order::{MOST_DEPTH, Order, ordered};
pub(crate) use registry::find;
