//! Pictures: each is what its name says, small enough for a phone, and published without what a camera or a program wrote
//! about itself. Nothing is decoded or encoded again.

mod bytes;
mod exif;
mod gif;
mod jpeg;
mod kind;
mod png;
mod shape;
mod svg;
mod svg_lists;
mod svg_values;
mod webp;

use std::fs::File;
use std::io::{BufReader, Read};
use std::path::Path;

use faults::Code;
use imagesize::ImageSize;

use crate::course::Image;
use crate::fault::{Fault, Place};
use crate::files::NoText;
use bytes::Damaged;
use kind::Kind;
use shape::{Clean, MOST_SIDE};

pub(crate) use kind::{is_picture, media_type};

/// The most bytes of a picture: what a phone on a bad network still loads, and a stick holds hundreds of.
const MOST_BYTES: u64 = 2_000_000;

/// Reads a picture and takes out what is not for the public. What it declares is looked at before any of it is kept.
pub(crate) fn read(path: &Path, file: &str) -> Result<Image, NoText> {
    let unreadable = |error: std::io::Error| {
        let fault = Fault::at(Code::CourseUnreadable, Place::whole(file)).with("file", file);
        NoText::Unreadable(Box::new(fault.with("reason", error.to_string())))
    };
    let open = File::open(path).map_err(unreadable)?;
    let length = open.metadata().map_err(unreadable)?.len();
    if length > MOST_BYTES {
        return Err(heavy(path, file, length));
    }
    let mut bytes = Vec::new();
    open.take(MOST_BYTES + 1).read_to_end(&mut bytes).map_err(unreadable)?;
    cleaned(&bytes, file)
}

/// A picture as it is published, from the bytes of its file.
fn cleaned(bytes: &[u8], file: &str) -> Result<Image, NoText> {
    let Some(kind) = Kind::of(file).filter(|kind| kind.starts(bytes)) else {
        return Err(refused(Code::ImageNotWhatItSays, file, |fault| fault.with("kind", ending(file))));
    };
    let clean = match kind {
        Kind::Svg => svg::clean(bytes, file)?,
        Kind::Png => whole(png::clean(bytes), file)?,
        Kind::Jpeg => whole(jpeg::clean(bytes), file)?,
        Kind::Gif => whole(gif::clean(bytes), file)?,
        Kind::WebP => whole(webp::clean(bytes), file)?,
    };
    let ImageSize { width, height } = clean.size;
    if kind != Kind::Svg && (width.max(height) > MOST_SIDE || width.min(height) == 0) {
        return Err(large(file, clean.size));
    }
    if clean.is_doubtful {
        return Err(refused(Code::ImageTurned, file, |fault| fault));
    }
    Ok(Image { file: file.to_owned(), bytes: clean.bytes, size: clean.size })
}

fn whole(clean: Result<Clean, Damaged>, file: &str) -> Result<Clean, NoText> {
    clean.map_err(|Damaged| refused(Code::ImageDamaged, file, |fault| fault.with("kind", ending(file))))
}

fn ending(file: &str) -> &str {
    file.rsplit('.').next().unwrap_or_default()
}

fn refused(code: Code, file: &str, say: impl FnOnce(Fault) -> Fault) -> NoText {
    NoText::Refused(Box::new(say(Fault::at(code, Place::whole(file)).with("file", file))), None)
}

/// A picture with too many pixels, and the size to make.
fn large(file: &str, size: ImageSize) -> NoText {
    let found = format!("{} \u{d7} {}", size.width, size.height);
    let make = made(size, MOST_SIDE);
    refused(Code::ImageTooManyPixels, file, |fault| {
        fault.with("found", found).with("most", MOST_SIDE).with("make", make)
    })
}

/// A picture with too many bytes, and the size to make, by what its head declares.
fn heavy(path: &Path, file: &str, length: u64) -> NoText {
    let size = File::open(path).ok().and_then(|open| imagesize::reader_size(BufReader::new(open)).ok());
    let size = size.unwrap_or(ImageSize { width: 1600, height: 1600 });
    // The bytes of a picture grow with its area; a fifth less than what is allowed leaves room for another encoder.
    let side = size.width.max(size.height).min(MOST_SIDE) as u64;
    let longest = (side * side * (MOST_BYTES * 4 / 5) / length).isqrt();
    let make = made(size, usize::try_from(longest).unwrap_or(MOST_SIDE));
    let found = format!("{}.{}", length / 1_000_000, length % 1_000_000 / 100_000);
    refused(Code::ImageTooManyBytes, file, |fault| {
        fault.with("found", found).with("most", MOST_BYTES / 1_000_000).with("make", make)
    })
}

/// The size to make of a picture, so that its longer side is at most so long, in whole tens of pixels.
fn made(size: ImageSize, longest: usize) -> String {
    let longer = size.width.max(size.height).max(1);
    let scaled = |side: usize| (side.saturating_mul(longest) / longer / 10 * 10).max(10);
    format!("{} \u{d7} {}", scaled(size.width), scaled(size.height))
}

#[cfg(test)]
mod tests;
