//! What the tests share: the built command, scratch folders, the published cases.

mod published;
mod scratch;

pub use published::{Case, cases};
pub use scratch::{Scratch, command, top};
