//! The parts of a text that can be open around another part.

/// A part that is open around an event.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Open {
    Paragraph,
    Heading,
    Quote,
    Signal,
    Link,
    /// Emphasis.
    Inline,
    Item,
    Table,
    TableHead,
    TableRow,
    TableCell,
    Note,
    Other,
}

impl Open {
    /// Whether such a part holds text itself, not only in its own parts.
    pub(super) fn holds_text(self) -> bool {
        matches!(self, Self::Paragraph | Self::Heading | Self::TableCell | Self::Item)
    }

    /// Whether it is part of a line of text.
    pub(super) fn is_inline(self) -> bool {
        matches!(self, Self::Inline | Self::Link)
    }

    /// Whether a note in it is a note of what is around it: the head of a table speaks for the table, and one paragraph
    /// for a whole item or panel.
    pub(super) fn cites_around(self, around: Self) -> bool {
        match self {
            Self::Inline | Self::Link | Self::TableCell | Self::TableHead => true,
            Self::Paragraph => matches!(around, Self::Item | Self::Quote | Self::Signal),
            _ => false,
        }
    }
}
