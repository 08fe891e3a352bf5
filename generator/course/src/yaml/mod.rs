//! YAML in a file: read into a type by `serde_yaml`; where that fails, or where a rule needs a place, looked at again as
//! a [`tree`] in which everything has its bytes.

mod causes;
mod explain;
mod places;
mod read;
mod refusal;
mod tree;

pub(crate) use causes::quoted;
pub(crate) use places::{Tree, Yaml, key};
pub(crate) use tree::{Node, Step};
