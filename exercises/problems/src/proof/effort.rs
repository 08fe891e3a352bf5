//! How much a proof draws.

/// How much is drawn of a recipe in each system of units.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Effort {
    /// The first seed.
    pub from: u64,
    /// How many seeds are drawn and marked.
    pub seeds: u64,
    /// Among how many draws repeated numbers are looked for.
    pub problems: u64,
}

impl Effort {
    /// Enough to find what is wrong with most draws, in a moment.
    pub const QUICK: Self = Self { from: 1, seeds: 200, problems: 200 };

    /// What a recipe is proven with before it is given to a class.
    #[must_use]
    pub const fn full(seeds: u64) -> Self {
        Self { from: 1, seeds, problems: 10_000 }
    }

    /// The same from another seed on.
    #[must_use]
    pub const fn starting_at(self, from: u64) -> Self {
        Self { from, ..self }
    }
}
