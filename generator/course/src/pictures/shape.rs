//! What a cleaned picture is.

use imagesize::ImageSize;

use super::exif::is_turned;

/// The most pixels along a side. One byte can declare a picture that fills the memory of a phone.
pub(super) const MOST_SIDE: usize = 4096;

/// A picture as it is published.
#[derive(Debug)]
pub(super) struct Clean {
    /// Its file.
    pub(super) bytes: Vec<u8>,
    /// Its size in pixels, as it is shown.
    pub(super) size: ImageSize,
    /// Whether it would be turned in some browsers alone.
    pub(super) is_doubtful: bool,
}

impl Clean {
    /// A picture of so many pixels, before it is turned as its orientation says.
    pub(super) fn new(bytes: Vec<u8>, (width, height): (usize, usize), orientation: Option<u8>) -> Self {
        let (width, height) = if is_turned(orientation) { (height, width) } else { (width, height) };
        Self { bytes, size: ImageSize { width, height }, is_doubtful: false }
    }

    /// The same with an orientation that only some browsers look at.
    pub(super) fn turned(self, orientation: Option<u8>) -> Self {
        Self { is_doubtful: orientation.is_some(), ..self }
    }
}
