//! PNG: chunks, as the third edition (W3C, 2025) lays them out. Kept are those that a picture is decoded from, its colours,
//! its movement, and its orientation.

use super::bytes::{Bytes, Damaged};
use super::exif;
use super::shape::Clean;

const KEPT: [&[u8; 4]; 15] = [
    b"PLTE", b"tRNS", b"IDAT", b"IEND", b"gAMA", b"cHRM", b"sRGB", b"iCCP", b"cICP", b"sBIT", b"bKGD", b"pHYs",
    b"acTL", b"fcTL", b"fdAT",
];

/// A colour profile is packed, so that a few bytes can be as many as a phone has.
const MOST_PROFILE: usize = 16_384;

/// A picture without all that it can be shown without.
pub(super) fn clean(bytes: &[u8]) -> Result<Clean, Damaged> {
    let mut rest = Bytes(bytes);
    let mut out = rest.take(8)?.to_vec();
    let (name, head) = chunk(&mut rest)?;
    let size = size(name, head)?;
    write(&mut out, name, head);
    let orientation = orientation(rest)?;
    if let Some(orientation) = orientation {
        write(&mut out, b"eXIf", &exif::block(orientation));
    }
    copy(&mut rest, &mut out)?;
    Ok(Clean::new(out, size, orientation))
}

/// Copies the chunks that are kept, up to the end; there must be a picture in them.
fn copy(rest: &mut Bytes, out: &mut Vec<u8>) -> Result<(), Damaged> {
    let mut has_picture = false;
    loop {
        let (name, content) = chunk(rest)?;
        let fits = name != b"iCCP" || content.len() <= MOST_PROFILE;
        if KEPT.contains(&name) && fits {
            write(out, name, content);
        }
        has_picture |= name == b"IDAT";
        if name == b"IEND" {
            return if has_picture { Ok(()) } else { Err(Damaged) };
        }
    }
}

/// The next chunk, whose sum must be right.
fn chunk<'b>(rest: &mut Bytes<'b>) -> Result<(&'b [u8; 4], &'b [u8]), Damaged> {
    let length = rest.long()?;
    let name: &[u8; 4] = rest.take(4)?.try_into().map_err(|_| Damaged)?;
    let content = rest.take(length)?;
    if rest.array()? != sum(&[name, content]) { Err(Damaged) } else { Ok((name, content)) }
}

fn size(name: &[u8; 4], head: &[u8]) -> Result<(usize, usize), Damaged> {
    let mut sides = Bytes(head);
    let (width, height) = (sides.long()?, sides.long()?);
    let is_head = name == b"IHDR" && head.len() == 13 && width > 0 && height > 0;
    if is_head { Ok((width, height)) } else { Err(Damaged) }
}

fn orientation(mut rest: Bytes) -> Result<Option<u8>, Damaged> {
    loop {
        match chunk(&mut rest)? {
            (b"eXIf", content) => return Ok(exif::orientation(content)),
            (b"IEND", _) => return Ok(None),
            _ => (),
        }
    }
}

fn write(out: &mut Vec<u8>, name: &[u8; 4], content: &[u8]) {
    out.extend(u32::try_from(content.len()).unwrap_or(u32::MAX).to_be_bytes());
    out.extend(name);
    out.extend(content);
    out.extend(sum(&[name, content]));
}

/// The sum of a chunk: the cyclic redundancy check of ISO 3309, a bit at a time.
pub(super) fn sum(parts: &[&[u8]]) -> [u8; 4] {
    let bit = |sum: u32, _| if sum & 1 == 1 { (sum >> 1) ^ 0xedb8_8320 } else { sum >> 1 };
    let byte = |sum: u32, byte: &u8| (0..8).fold(sum ^ u32::from(*byte), bit);
    let sum = parts.iter().flat_map(|part| part.iter()).fold(u32::MAX, byte);
    (!sum).to_be_bytes()
}
