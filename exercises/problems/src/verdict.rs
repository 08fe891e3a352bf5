//! What marking finds.

use crate::slips::Slip;

/// What a learner answered, by the names of the parts.
pub type Typed = [(String, String)];

/// What was typed under a name; nothing where it was left out.
pub(crate) fn typed<'a>(answers: &'a Typed, id: &str) -> &'a str {
    answers.iter().find(|(known, _)| known == id).map_or("", |(_, typed)| typed)
}

/// What marking found.
#[derive(Clone, Debug, PartialEq)]
pub enum Verdict {
    /// Right.
    Right,
    /// The number asked for, with another unit.
    WrongUnit,
    /// The number asked for, but not rounded as it was asked for.
    Rounding,
    /// What the right method gives from the learner's own earlier answer.
    Carried,
    /// Partly right: some of several options, of an order, of pairs.
    Partly,
    /// A unit that measures something else.
    WrongKind,
    /// What a named mistake gives.
    Mistake(String),
    /// What a common slip gives.
    Slip(Slip),
    /// On the unsafe side of a limit, or a choice that can hurt somebody.
    Unsafe,
    /// None of these.
    Wrong,
    /// An option that is not right.
    WrongOption,
    /// Options that earn nothing together.
    WrongChoices,
    /// An order that earns nothing.
    WrongSequence,
    /// Pairs that earn nothing.
    WrongPairs,
    /// A part that is not right.
    WrongPart,
    /// True for false, or false for true.
    WrongTruth,
    /// Rightly true or false, and not for this reason.
    WrongReason,
    /// A number where none was measured.
    NoReading,
    /// Said not to be measured, where it was.
    WasRead,
    /// Rightly not measured, and not for this reason.
    OtherReason,
    /// Could be two numbers.
    Ambiguous,
    /// No number with a unit; or no answer in the form that is asked for.
    Unreadable,
    /// Nothing, or not all of it.
    Blank,
}

impl Verdict {
    /// The code under which words for this verdict are kept.
    #[must_use]
    pub fn id(&self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::WrongUnit => "wrong_unit",
            Self::Rounding => "rounding",
            Self::Carried => "carried",
            Self::Partly => "partly",
            Self::WrongKind => "wrong_kind",
            Self::Mistake(_) => "mistake",
            Self::Slip(_) => "slip",
            Self::Unsafe => "unsafe",
            Self::Wrong => "wrong",
            Self::WrongOption => "wrong_option",
            Self::WrongChoices => "wrong_choices",
            Self::WrongSequence => "wrong_sequence",
            Self::WrongPairs => "wrong_pairs",
            Self::WrongPart => "wrong_part",
            Self::WrongTruth => "wrong_truth",
            Self::WrongReason => "wrong_reason",
            Self::NoReading => "no_reading",
            Self::WasRead => "was_read",
            Self::OtherReason => "other_reason",
            Self::Ambiguous => "ambiguous",
            Self::Unreadable => "unreadable",
            Self::Blank => "blank",
        }
    }

    /// The credit, in percent; for [`Verdict::Partly`] see [`Marked::credit`].
    fn credit(&self) -> u8 {
        match self {
            Self::Right => 100,
            Self::WrongUnit | Self::Rounding | Self::Carried | Self::OtherReason => 50,
            _ => 0,
        }
    }
}

/// A marked answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Marked {
    /// What was found.
    pub verdict: Verdict,
    /// The credit, in percent.
    pub credit: u8,
    /// What the recipe says of it, as HTML.
    pub html: Option<String>,
    /// What the recipe says of each piece of it, as HTML.
    pub told: Vec<String>,
    /// What a message needs to know, by name.
    pub values: Vec<(&'static str, String)>,
    /// How the answer was taken: `taken_as_gauge`, `taken_as_absolute`, `unit_assumed`; and what is to be said besides:
    /// `unsafe_side`, `unusual`, `near`.
    pub notes: Vec<&'static str>,
    /// The two readings of an ambiguous answer.
    pub readings: Vec<String>,
    /// What was found of each of its cells, by name, where the part has several fields.
    pub cells: Vec<(String, Marked)>,
}

impl Marked {
    pub(crate) fn new(verdict: Verdict) -> Self {
        Self {
            credit: verdict.credit(),
            verdict,
            html: None,
            told: Vec::new(),
            values: Vec::new(),
            notes: Vec::new(),
            readings: Vec::new(),
            cells: Vec::new(),
        }
    }

    /// Partly right, or the given verdict where nothing is earned.
    pub(crate) fn partly(credit: u8, otherwise: Verdict) -> Self {
        // Full credit is for what is all right.
        let credit = credit.min(99);
        Self { credit, ..Self::new(if credit > 0 { Verdict::Partly } else { otherwise }) }
    }

    /// What the cells of a part are together. Their credit is the mean.
    pub(crate) fn of_cells(cells: Vec<(String, Self)>) -> Self {
        let all = |among: &[Verdict]| cells.iter().all(|(_, cell)| among.contains(&cell.verdict));
        let sum: usize = cells.iter().map(|(_, cell)| usize::from(cell.credit)).sum();
        let mean = u8::try_from(sum / cells.len().max(1)).unwrap_or(0);
        let verdict = if cells.iter().any(|(_, cell)| cell.is_unsafe()) {
            Verdict::Unsafe
        } else if all(&[Verdict::Right]) {
            Verdict::Right
        } else if all(&[Verdict::Blank]) {
            Verdict::Blank
        } else if all(&[Verdict::Blank, Verdict::Unreadable, Verdict::Ambiguous]) {
            Verdict::Unreadable
        } else if mean > 0 {
            Verdict::Partly
        } else {
            Verdict::Wrong
        };
        Self { credit: mean, cells, ..Self::new(verdict) }
    }

    pub(crate) fn with(mut self, name: &'static str, value: impl Into<String>) -> Self {
        self.values.push((name, value.into()));
        self
    }

    /// With several counts.
    pub(crate) fn counted<const N: usize>(self, counts: [(&'static str, usize); N]) -> Self {
        counts.into_iter().fold(self, |marked, (name, count)| marked.with(name, count.to_string()))
    }

    /// Whether the answer can hurt somebody: beyond a limit, or a choice.
    pub(crate) fn is_unsafe(&self) -> bool {
        self.verdict == Verdict::Unsafe || self.notes.contains(&"unsafe_side")
    }
}
