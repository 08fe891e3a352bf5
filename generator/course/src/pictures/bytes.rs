//! Bytes read from front to back. Whatever is not there is a damaged picture.

/// A picture that ends too early or is not built as its kind is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Damaged;

/// The bytes that are still to be read.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bytes<'b>(pub(super) &'b [u8]);

impl<'b> Bytes<'b> {
    /// The next bytes, so many.
    pub(super) fn take(&mut self, count: usize) -> Result<&'b [u8], Damaged> {
        let (taken, rest) = self.0.split_at_checked(count).ok_or(Damaged)?;
        self.0 = rest;
        Ok(taken)
    }

    /// The next bytes as an array.
    pub(super) fn array<const N: usize>(&mut self) -> Result<[u8; N], Damaged> {
        self.take(N)?.try_into().map_err(|_| Damaged)
    }

    pub(super) fn byte(&mut self) -> Result<u8, Damaged> {
        Ok(self.array::<1>()?[0])
    }

    /// Two bytes, the higher first.
    pub(super) fn short(&mut self) -> Result<usize, Damaged> {
        Ok(usize::from(u16::from_be_bytes(self.array()?)))
    }

    /// Two bytes, the lower first.
    pub(super) fn short_le(&mut self) -> Result<usize, Damaged> {
        Ok(usize::from(u16::from_le_bytes(self.array()?)))
    }

    /// Four bytes, the highest first.
    pub(super) fn long(&mut self) -> Result<usize, Damaged> {
        usize::try_from(u32::from_be_bytes(self.array()?)).map_err(|_| Damaged)
    }

    /// Four bytes, the lowest first.
    pub(super) fn long_le(&mut self) -> Result<usize, Damaged> {
        usize::try_from(u32::from_le_bytes(self.array()?)).map_err(|_| Damaged)
    }

    pub(super) fn is_empty(self) -> bool {
        self.0.is_empty()
    }
}
