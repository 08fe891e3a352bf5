//! JPEG: segments, as ITU-T T.81 (1992), annex B, lays them out. Kept are those that a picture is decoded from, its colour
//! profile, and its orientation.

use super::bytes::{Bytes, Damaged};
use super::exif;
use super::shape::Clean;

const END: u8 = 0xd9;
const SCAN: u8 = 0xda;
const EXIF: &[u8] = b"Exif\0\0";

/// A picture without all that it can be shown without.
pub(super) fn clean(bytes: &[u8]) -> Result<Clean, Damaged> {
    let mut rest = Bytes(bytes.get(2..).ok_or(Damaged)?);
    let mut jpeg = Jpeg { out: b"\xff\xd8".to_vec(), size: None, orientation: None };
    loop {
        match marker(&mut rest)? {
            END => break,
            SCAN if jpeg.size.is_none() => return Err(Damaged),
            mark => jpeg.segment(mark, &mut rest)?,
        }
    }
    jpeg.out.extend([0xff, END]);
    Ok(Clean::new(jpeg.out, jpeg.size.ok_or(Damaged)?, jpeg.orientation))
}

/// The next marker. Any number of fill bytes may come before it.
fn marker(rest: &mut Bytes) -> Result<u8, Damaged> {
    if rest.byte()? != 0xff {
        return Err(Damaged);
    }
    loop {
        match rest.byte()? {
            0xff => (),
            mark => return Ok(mark),
        }
    }
}

struct Jpeg {
    out: Vec<u8>,
    size: Option<(usize, usize)>,
    orientation: Option<u8>,
}

impl Jpeg {
    fn segment(&mut self, mark: u8, rest: &mut Bytes) -> Result<(), Damaged> {
        let length = rest.short()?.checked_sub(2).ok_or(Damaged)?;
        let content = rest.take(length)?;
        match mark {
            0xe1 => self.exif(content),
            0xc0..=0xc3 | 0xc5..=0xc7 | 0xc9..=0xcb | 0xcd..=0xcf => self.frame(mark, content)?,
            SCAN => {
                self.keep(mark, content);
                self.out.extend(scan(rest)?);
            }
            _ if is_kept(mark, content) => self.keep(mark, shown(mark, content)),
            _ => (),
        }
        Ok(())
    }

    fn keep(&mut self, mark: u8, content: &[u8]) {
        let length = u16::try_from(content.len() + 2).unwrap_or(u16::MAX);
        self.out.extend([0xff, mark]);
        self.out.extend(length.to_be_bytes());
        self.out.extend(content);
    }

    /// The head of the picture itself: its height and width come after the precision. A height of zero is said later.
    fn frame(&mut self, mark: u8, content: &[u8]) -> Result<(), Damaged> {
        let mut head = Bytes(content.get(1..).ok_or(Damaged)?);
        let (height, width) = (head.short()?, head.short()?);
        if self.size.is_some() || width == 0 || height == 0 {
            return Err(Damaged);
        }
        self.size = Some((width, height));
        self.keep(mark, content);
        Ok(())
    }

    /// The orientation, in a block of our own.
    fn exif(&mut self, content: &[u8]) {
        let found = content.strip_prefix(EXIF).and_then(exif::orientation);
        if let (Some(orientation), None) = (found, self.orientation) {
            self.orientation = found;
            self.keep(0xe1, &[EXIF, &exif::block(orientation)].concat());
        }
    }
}

/// Whether a segment is needed to show a picture: tables, intervals, and of the application segments the resolution, the
/// colour profile and what says how colours are coded.
fn is_kept(mark: u8, content: &[u8]) -> bool {
    match mark {
        0xc4 | 0xcc | 0xdb..=0xdd => true,
        0xe0 => content.len() >= 14 && content.starts_with(b"JFIF\0"),
        0xe2 => content.starts_with(b"ICC_PROFILE\0"),
        0xee => content.len() >= 12 && content.starts_with(b"Adobe"),
        _ => false,
    }
}

/// What is kept of a segment: of the application segments, not what was hung onto them, such as a thumbnail.
fn shown(mark: u8, content: &[u8]) -> &[u8] {
    match mark {
        0xe0 => b"JFIF\0\x01\x01\0\0\x01\0\x01\0\0",
        0xee => &content[..12],
        _ => content,
    }
}

/// The coded picture up to the next marker that does not belong to it.
fn scan<'b>(rest: &mut Bytes<'b>) -> Result<&'b [u8], Damaged> {
    let belongs = |next: u8| matches!(next, 0 | 0xd0..=0xd7);
    let pairs = rest.0.windows(2);
    let end = pairs.into_iter().position(|pair| pair[0] == 0xff && pair[1] != 0xff && !belongs(pair[1]));
    rest.take(end.ok_or(Damaged)?)
}
