//! The kinds of pictures, by the endings of their names.

/// A kind of picture that browsers show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// Portable Network Graphics.
    Png,
    /// JPEG, in a file of its own.
    Jpeg,
    /// GIF, still or moving.
    Gif,
    /// WebP, still or moving.
    WebP,
    /// A drawing, of the elements that are allowed.
    Svg,
}

const ENDINGS: [(&str, Kind); 6] = [
    ("png", Kind::Png),
    ("jpg", Kind::Jpeg),
    ("jpeg", Kind::Jpeg),
    ("gif", Kind::Gif),
    ("webp", Kind::WebP),
    ("svg", Kind::Svg),
];

impl Kind {
    /// The kind that the name of a file promises.
    pub(super) fn of(file: &str) -> Option<Self> {
        let ending = file.rsplit_once('.')?.1;
        ENDINGS.iter().find(|(known, _)| ending.eq_ignore_ascii_case(known)).map(|(_, kind)| *kind)
    }

    /// Whether bytes start as such a picture does.
    pub(super) fn starts(self, bytes: &[u8]) -> bool {
        match self {
            Self::Png => bytes.starts_with(b"\x89PNG\r\n\x1a\n"),
            Self::Jpeg => bytes.starts_with(b"\xff\xd8\xff"),
            Self::Gif => bytes.starts_with(b"GIF87a") || bytes.starts_with(b"GIF89a"),
            Self::WebP => bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"WEBP"),
            // A drawing is text, and what is wrong with it is told in its place.
            Self::Svg => !bytes.contains(&0),
        }
    }
}

/// The media type of a picture, by the ending of its name.
pub(crate) fn media_type(file: &str) -> &'static str {
    match Kind::of(file) {
        Some(Kind::Png) => "image/png",
        Some(Kind::Jpeg) => "image/jpeg",
        Some(Kind::Gif) => "image/gif",
        Some(Kind::WebP) => "image/webp",
        Some(Kind::Svg) => "image/svg+xml",
        None => "application/octet-stream",
    }
}

/// Whether a name is of a picture that pages can show.
pub(crate) fn is_picture(name: &str) -> bool {
    Kind::of(name).is_some()
}
