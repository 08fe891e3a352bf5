//! The versions of the formats, and what they allow.

/// The version of the compiled form that this core writes and reads. It is open until graded work can be issued from it.
pub const FORMAT: u32 = 3;

/// The version of the rules by which answers are marked. 3 brought the printed forms of both systems.
pub const RULES: u32 = 3;

/// The newest version of the format in which authors write recipes.
pub const WRITTEN_FORMAT: u32 = 1;

/// How hard a recipe can be.
pub(crate) const LEVELS: core::ops::RangeInclusive<u8> = 1..=3;

/// The longest compiled form that is read, in bytes: many times what the longest of any course takes. Its tree holds up to
/// a hundred times as much in memory.
pub(crate) const LONGEST: usize = 200_000;
