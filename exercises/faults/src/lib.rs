//! What can be wrong with a course: the codes of all faults, and a fault with its place and the values of its message.
//!
//! Every crate that checks something makes a [`Fault`] with a place of its own kind: the bytes of a formula, the path to a
//! value of a recipe, the seed of a draw, the bytes of a file. A crate that knows more puts it in its own place with
//! [`Fault::map`]. The sentences are not here: [`Fault::message`] takes them from [`Words`].

mod code;
mod fault;
mod message;
mod nearest;

pub use code::Code;
pub use fault::{Fault, Values};
pub use message::{Message, Words};
pub use nearest::{nearest, nearest_first};
