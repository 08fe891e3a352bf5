//! The decimal mark that a course is printed with.

/// The decimal mark of a course.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DecimalMark {
    /// `4.75`
    Point,
    /// `4,75`
    Comma,
}

impl DecimalMark {
    /// Both of them.
    pub const BOTH: [Self; 2] = [Self::Point, Self::Comma];

    /// The mark written as `.` or `,`.
    #[must_use]
    pub fn find(text: &str) -> Option<Self> {
        Self::BOTH.into_iter().find(|mark| text.chars().eq([mark.sign()]))
    }

    /// The mark that is this character; a point for any other.
    #[must_use]
    pub fn of(sign: char) -> Self {
        if sign == ',' { Self::Comma } else { Self::Point }
    }

    /// The character.
    #[must_use]
    pub fn sign(self) -> char {
        match self {
            Self::Point => '.',
            Self::Comma => ',',
        }
    }

    /// A number written with a point and a hyphen, as it is printed.
    #[must_use]
    pub fn print(self, number: &str) -> String {
        let number = number.replace('-', "\u{2212}");
        if self == Self::Comma { number.replace('.', ",") } else { number }
    }

    /// Markup with points in the numbers of its text, as it is printed. Tags stay as they are.
    #[must_use]
    pub fn print_in(self, markup: String) -> String {
        if self == Self::Point {
            return markup;
        }
        let (mut in_tag, mut before) = (false, ' ');
        let mut after = markup.chars();
        let print = |next: char| {
            after.next();
            in_tag = next == '<' || in_tag && next != '>';
            let in_number =
                || before.is_ascii_digit() && after.clone().next().is_some_and(|next| next.is_ascii_digit());
            let is_mark = next == '.' && !in_tag && in_number();
            before = next;
            if is_mark { ',' } else { next }
        };
        markup.chars().map(print).collect()
    }
}
