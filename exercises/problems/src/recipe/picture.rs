//! A picture of the author's own, as recipes ask for its areas.

/// A picture with areas that can be pointed at.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// The name by which recipes mean it.
    pub id: String,
    /// How it is drawn, with its areas.
    pub drawn: figures::Picture,
    /// What is said of each area where a recipe says nothing else.
    pub reasons: Vec<Option<String>>,
    /// Where it comes from.
    pub source: String,
}
