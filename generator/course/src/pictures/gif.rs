//! GIF: blocks, as the specification of 1990 (version 89a) lays them out. Comments and texts are left out; of the
//! applications' own blocks, the one that says how often a picture moves is kept.

use super::bytes::{Bytes, Damaged};
use super::shape::Clean;

const PICTURE: u8 = 0x2c;
const EXTENSION: u8 = 0x21;
const END: u8 = 0x3b;
const CONTROL: u8 = 0xf9;
const APPLICATION: u8 = 0xff;

/// A picture without all that it can be shown without.
pub(super) fn clean(bytes: &[u8]) -> Result<Clean, Damaged> {
    let mut rest = Bytes(bytes);
    let mut out = rest.take(13)?.to_vec();
    let mut sides = Bytes(&out[6..10]);
    let size = (sides.short_le()?, sides.short_le()?);
    out.extend(rest.take(colours(out[10]))?);
    let mut pictures = 0;
    loop {
        match rest.byte()? {
            PICTURE => picture(&mut rest, &mut out, size)?,
            EXTENSION => {
                extension(&mut rest, &mut out)?;
                continue;
            }
            END if pictures > 0 => break,
            _ => return Err(Damaged),
        }
        pictures += 1;
    }
    out.push(END);
    Ok(Clean::new(out, size, None))
}

/// The bytes of a table of colours, where flags say that there is one.
fn colours(flags: u8) -> usize {
    if flags & 0x80 == 0 { 0 } else { 3 << ((flags & 7) + 1) }
}

/// A picture within the screen that the head declares.
fn picture(rest: &mut Bytes, out: &mut Vec<u8>, (width, height): (usize, usize)) -> Result<(), Damaged> {
    let head = rest.take(9)?;
    let mut place = Bytes(head);
    let (left, top) = (place.short_le()?, place.short_le()?);
    if left + place.short_le()? > width || top + place.short_le()? > height {
        return Err(Damaged);
    }
    out.push(PICTURE);
    out.extend(head);
    out.extend(rest.take(colours(head[8]))?);
    out.push(rest.byte()?);
    out.extend(blocks(rest)?);
    Ok(())
}

fn extension(rest: &mut Bytes, out: &mut Vec<u8>) -> Result<(), Damaged> {
    let label = rest.byte()?;
    let content = blocks(rest)?;
    if label == CONTROL || (label == APPLICATION && content.get(1..12) == Some(b"NETSCAPE2.0")) {
        out.extend([EXTENSION, label]);
        out.extend(content);
    }
    Ok(())
}

/// Blocks, each after its length, up to the empty one.
fn blocks<'b>(rest: &mut Bytes<'b>) -> Result<&'b [u8], Damaged> {
    let all = rest.0;
    loop {
        match rest.byte()? {
            0 => break,
            length => rest.take(usize::from(length))?,
        };
    }
    Ok(&all[..all.len() - rest.0.len()])
}
