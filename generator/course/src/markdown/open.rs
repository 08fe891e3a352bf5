//! The parts of a text, as far as it matters what stands in which.

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
    /// Whether text stands in such a part itself, and not only in the parts of it.
    pub(super) fn holds_text(self) -> bool {
        matches!(self, Self::Paragraph | Self::Heading | Self::TableCell | Self::Item)
    }

    /// Whether it stands within a line of text.
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
