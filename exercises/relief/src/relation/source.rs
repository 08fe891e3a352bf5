//! Where a law or a value comes from, and how well that is known.

/// Where a law or value comes from.
#[derive(Debug)]
pub struct Source {
    /// The document with its edition and clause; empty for common practice.
    pub document: &'static str,
    /// How well it is known.
    pub status: Status,
}

/// How well a source is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// Seen in the text or an excerpt of the document.
    Read,
    /// Some of it seen, the rest remembered: the document says which.
    Partly,
    /// As a library or another text that cites the document has it.
    Cited,
    /// Remembered, not seen.
    Memory,
    /// Common practice in the trade, no source.
    CommonPractice,
    /// Follows from definitions or geometry.
    Derived,
}

impl Status {
    /// All of them.
    pub const ALL: [Self; 6] =
        [Self::Read, Self::Partly, Self::Cited, Self::Memory, Self::CommonPractice, Self::Derived];

    /// The status with an id.
    #[must_use]
    pub fn find(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|status| status.id() == id)
    }

    /// The code under which words for this status are kept.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Read => "read",
            Self::Partly => "partly",
            Self::Cited => "cited",
            Self::Memory => "memory",
            Self::CommonPractice => "common_practice",
            Self::Derived => "derived",
        }
    }
}
