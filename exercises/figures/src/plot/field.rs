//! Where the plot is on its sheet.

use relief::Typed;

use super::extents::{FIRST_LINE, LINE, RIGHT, RISE};
use super::lifts;
use super::trace::Trace;
use crate::scale::Scale;
use crate::svg::Point;

/// Where the plot is: both scales, and the corner where they meet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Field {
    /// Pressure (pascal) along the sheet.
    pub(super) pressure: Scale,
    /// Lift (metre) up the sheet.
    pub(super) lift: Scale,
}

impl Field {
    /// The plot for a trace, with room for its numbers.
    pub(super) fn new(trace: &Trace) -> Self {
        let marks = [trace.set, trace.mawp].into_iter().flatten();
        let rows = marks.clone().count();
        let highest = marks.fold(trace.full_open.si(), |highest, mark| highest.max(mark.si()));
        let span = highest - trace.reseat.si();
        let ceiling = FIRST_LINE + LINE * f64::from(u32::try_from(rows).unwrap_or(0)) + 34.0;
        let lift = Scale { from: (0.0, ceiling + RISE), to: (trace.full_lift.si(), ceiling) };
        let left = lifts::room_for_lifts(trace, &lift);
        let low = (trace.reseat.si() - 0.27 * span, left);
        Self { pressure: Scale { from: low, to: (highest + 0.17 * span, RIGHT) }, lift }
    }

    /// The height of the pressure axis.
    pub(super) fn floor(&self) -> f64 {
        self.lift.from.1
    }

    /// The place of a pressure and a lift.
    pub(super) fn point(&self, pressure: impl Typed, lift: impl Typed) -> Point {
        Point::new(self.pressure.place(pressure.si()), self.lift.place(lift.si()))
    }
}
