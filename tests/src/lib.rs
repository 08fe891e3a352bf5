//! What the tests share: the built command, scratch folders, the published cases, a window on a preview.

mod published;
mod scratch;
mod window;

pub use published::{Case, cases};
pub use scratch::{Scratch, command, top};
pub use window::{Answer, Window};
