//! What the tests share: the built command, scratch folders, published cases, broken courses, a window on a preview.

mod bad_case;
pub mod changes;
mod families;
mod published;
mod scratch;
mod window;

pub use bad_case::{BadCase, whole_course};
pub use families::families;
pub use published::{Case, cases};
pub use scratch::{Scratch, command, top};
pub use window::{Answer, Window};
