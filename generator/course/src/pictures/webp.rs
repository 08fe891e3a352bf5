//! WebP: chunks in a RIFF container (RFC 9649, 2024). Kept are those that a picture is decoded from, its colour profile and
//! its movement. An orientation is told: some browsers turn such a picture by it and some do not (tried in Chromium 156).

use super::bytes::{Bytes, Damaged};
use super::exif;
use super::shape::Clean;

/// The flags of the extended form, beside which nothing is kept: profile, transparency, movement.
const KEPT_FLAGS: u8 = 0b0011_0010;

type Chunk<'b> = (&'b [u8], &'b [u8]);

/// A picture without all that it can be shown without.
pub(super) fn clean(bytes: &[u8]) -> Result<Clean, Damaged> {
    let chunks = container(bytes)?;
    let size = size(chunks.first().ok_or(Damaged)?)?;
    chunks.iter().try_for_each(|chunk| within(chunk, size))?;
    let picture = chunks.iter().any(|(name, _)| matches!(*name, b"VP8 " | b"VP8L" | b"ANMF"));
    let found = chunks.iter().find(|(name, _)| *name == b"EXIF").map(|(_, content)| *content);
    let orientation = found.map(|block| block.strip_prefix(b"Exif\0\0").unwrap_or(block)).and_then(exif::orientation);
    let mut out = b"WEBP".to_vec();
    chunks.iter().for_each(|chunk| copy(&mut out, chunk));
    let length = u32::try_from(out.len()).map_err(|_| Damaged)?;
    let whole = [b"RIFF".as_slice(), &length.to_le_bytes(), &out].concat();
    if picture { Ok(Clean::new(whole, size, None).turned(orientation)) } else { Err(Damaged) }
}

/// The chunks of the container; what comes after it is left out.
fn container(bytes: &[u8]) -> Result<Vec<Chunk<'_>>, Damaged> {
    let mut rest = Bytes(bytes.get(4..).ok_or(Damaged)?);
    let length = rest.long_le()?;
    let mut inside = Bytes(rest.take(length)?);
    inside.take(4)?;
    chunks(inside)
}

/// Damaged, where a part of the picture is larger than the picture says it is: only what is said is held against the limit.
fn within((name, content): &Chunk, (width, height): (usize, usize)) -> Result<(), Damaged> {
    let inner = match *name {
        b"VP8 " | b"VP8L" => vec![size(&(*name, *content))?],
        b"ANMF" => {
            let parts = chunks(Bytes(content.get(16..).ok_or(Damaged)?))?;
            let pictures = parts.iter().filter(|(name, _)| matches!(*name, b"VP8 " | b"VP8L"));
            pictures.map(size).collect::<Result<_, _>>()?
        }
        _ => Vec::new(),
    };
    if inner.iter().all(|(wide, high)| *wide <= width && *high <= height) { Ok(()) } else { Err(Damaged) }
}

fn chunks(mut inside: Bytes<'_>) -> Result<Vec<Chunk<'_>>, Damaged> {
    let mut chunks = Vec::new();
    while !inside.is_empty() {
        let name = inside.take(4)?;
        let length = inside.long_le()?;
        chunks.push((name, inside.take(length)?));
        inside.take(length % 2)?;
    }
    Ok(chunks)
}

/// The size that the first chunk declares, in the way of each of the three.
fn size((name, content): &Chunk) -> Result<(usize, usize), Damaged> {
    let mut head = Bytes(content);
    match *name {
        b"VP8X" => {
            head.take(4)?;
            Ok((three(&mut head)? + 1, three(&mut head)? + 1))
        }
        b"VP8L" if head.byte()? == 0x2f => {
            let sides = head.long_le()?;
            Ok(((sides & 0x3fff) + 1, (sides >> 14 & 0x3fff) + 1))
        }
        b"VP8 " if head.take(6)?[3..] == *b"\x9d\x01\x2a" => Ok((head.short_le()? & 0x3fff, head.short_le()? & 0x3fff)),
        _ => Err(Damaged),
    }
}

fn three(head: &mut Bytes) -> Result<usize, Damaged> {
    let [low, middle, high] = head.array()?;
    Ok(usize::from(low) | usize::from(middle) << 8 | usize::from(high) << 16)
}

fn copy(out: &mut Vec<u8>, (name, content): &Chunk) {
    match *name {
        b"VP8X" => {
            let mut flags = content.to_vec();
            flags.iter_mut().take(1).for_each(|first| *first &= KEPT_FLAGS);
            write(out, name, &flags);
        }
        b"VP8 " | b"VP8L" | b"ALPH" | b"ICCP" | b"ANIM" | b"ANMF" => write(out, name, content),
        _ => (),
    }
}

fn write(out: &mut Vec<u8>, name: &[u8], content: &[u8]) {
    out.extend(name);
    out.extend(u32::try_from(content.len()).unwrap_or(u32::MAX).to_le_bytes());
    out.extend(content);
    out.extend(&[0][..content.len() % 2]);
}
