//! What an area covers, on a grid of fifths of a per cent: two areas that only touch share no middle of a cell, and an
//! overlap that is thinner than a cell hurts nobody.

use figures::Shape;

use super::shape::{around, holds};

/// Cells along each side of a picture.
const CELLS: u16 = 500;

/// An area with the cells whose middle it covers.
#[derive(Clone, Debug)]
pub(super) struct Covered {
    pub(super) shape: Shape,
    /// Where its number stands: in the middle of the widest piece of its middle row, in per cent.
    pub(super) mark: [f64; 2],
    /// Row and column of each cell, in order.
    cells: Vec<(u16, u16)>,
}

impl Covered {
    pub(super) fn new(shape: Shape) -> Self {
        let [left, top, wide, high] = around(&shape);
        let cells: Vec<_> = span(top, high)
            .flat_map(|row| span(left, wide).map(move |column| (row, column)))
            .filter(|(row, column)| holds(&shape, [middle(*column), middle(*row)]))
            .collect();
        let mark = mark(&cells).unwrap_or([left + wide / 2.0, top + high / 2.0]);
        Self { shape, mark, cells }
    }

    /// Whether both cover some cell.
    pub(super) fn meets(&self, other: &Self) -> bool {
        reach_over(around(&self.shape), around(&other.shape))
            && self.cells.iter().any(|cell| other.cells.binary_search(cell).is_ok())
    }
}

/// Whether the rectangles around two shapes reach over each other.
fn reach_over(one: [f64; 4], other: [f64; 4]) -> bool {
    let along = |axis: usize| one[axis] < other[axis] + other[axis + 2] && other[axis] < one[axis] + one[axis + 2];
    along(0) && along(1)
}

/// The cells that a stretch may reach.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "within the cells of a side")]
fn span(from: f64, size: f64) -> std::ops::Range<u16> {
    let cell = |at: f64| (at / 100.0 * f64::from(CELLS)).clamp(0.0, f64::from(CELLS)) as u16;
    cell(from)..cell(from + size).saturating_add(1).min(CELLS)
}

/// The middle of a cell, in per cent.
fn middle(cell: u16) -> f64 {
    (f64::from(cell) + 0.5) * 100.0 / f64::from(CELLS)
}

/// The middle of the widest piece of the middle row.
fn mark(cells: &[(u16, u16)]) -> Option<[f64; 2]> {
    let (first, last) = (cells.first()?.0, cells.last()?.0);
    let row = u16::midpoint(first, last);
    let columns: Vec<_> = cells.iter().filter(|cell| cell.0 == row).map(|cell| cell.1).collect();
    let pieces = columns.chunk_by(|one, next| next - one == 1);
    let widest = pieces.max_by_key(|piece| piece.len())?;
    Some([f64::midpoint(middle(widest[0]), middle(*widest.last()?)), middle(row)])
}
