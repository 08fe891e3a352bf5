//! Numbers that are asked for: what they are, and how typed ones are judged.

mod asked;
pub(crate) mod check;
mod judge;
pub(crate) mod latitude;
mod window;

pub(crate) use asked::slack;
pub use asked::{AlsoRight, Limit, Mistake, Number, Tolerance, UsualRange};
pub(crate) use judge::{mark, mark_one_of};
pub(crate) use latitude::Open;
pub(crate) use window::Window;
