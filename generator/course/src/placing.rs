//! Where a figure stands, as an author may say.

/// Where a figure stands on a sheet that has room beside its text. On a narrow sheet every figure stands below its paragraph.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Placing {
    /// Below its paragraph, as wide as the text and the column beside it.
    Wide,
    /// In the column beside its paragraph.
    Beside,
    /// Below its paragraph, half as wide as the text or less.
    Small,
}

impl Placing {
    /// Every place.
    pub(crate) const ALL: [Self; 3] = [Self::Wide, Self::Beside, Self::Small];

    /// The place as authors write it, and as styles have it.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Wide => "wide",
            Self::Beside => "beside",
            Self::Small => "small",
        }
    }

    /// The place that is written so.
    pub(crate) fn find(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|placing| placing.id() == id)
    }
}
