//! What a camera wrote about a picture, of which only the orientation stays. The layout is that of TIFF 6.0 (1992),
//! section 2, in which Exif is written; the tag is "Orientation", 274.

use super::bytes::{Bytes, Damaged};

const ORIENTATION: usize = 274;

/// The orientation in a block of Exif, from 2 to 8; `None` where there is none, or it says what is so anyway.
pub(super) fn orientation(block: &[u8]) -> Option<u8> {
    directory(block).ok().flatten().filter(|found| (2..=8).contains(found))
}

fn directory(block: &[u8]) -> Result<Option<u8>, Damaged> {
    let mut head = Bytes(block);
    let order = match head.take(4)? {
        b"MM\0*" => Order::HighFirst,
        b"II*\0" => Order::LowFirst,
        _ => return Ok(None),
    };
    let start = order.long(&mut head)?;
    let mut entries = Bytes(block.get(start..).ok_or(Damaged)?);
    for _ in 0..order.short(&mut entries)? {
        let mut entry = Bytes(entries.take(12)?);
        if order.short(&mut entry)? == ORIENTATION {
            entry.take(6)?;
            return Ok(u8::try_from(order.short(&mut entry)?).ok());
        }
    }
    Ok(None)
}

/// How numbers are written in a block.
#[derive(Clone, Copy)]
enum Order {
    HighFirst,
    LowFirst,
}

impl Order {
    fn short(self, bytes: &mut Bytes) -> Result<usize, Damaged> {
        match self {
            Self::HighFirst => bytes.short(),
            Self::LowFirst => bytes.short_le(),
        }
    }

    fn long(self, bytes: &mut Bytes) -> Result<usize, Damaged> {
        match self {
            Self::HighFirst => bytes.long(),
            Self::LowFirst => bytes.long_le(),
        }
    }
}

/// A block of Exif that holds an orientation and nothing else.
pub(super) fn block(orientation: u8) -> [u8; 26] {
    let mut block = *b"MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\0\0\0\0\0\0\0";
    block[19] = orientation;
    block
}

/// Whether a picture is shown lying on its side, so that its width is its height.
pub(super) fn is_turned(orientation: Option<u8>) -> bool {
    orientation.is_some_and(|orientation| orientation >= 5)
}
