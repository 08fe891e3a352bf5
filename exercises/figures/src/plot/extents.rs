//! The measures of the sheet that the plot is on.

/// Width of the sheet.
pub(super) const WIDTH: f64 = 420.0;
/// Nothing is written closer to the edge than this.
pub(super) const MARGIN: f64 = 4.0;
/// Where the plot ends on the right.
pub(super) const RIGHT: f64 = WIDTH - 10.0;
/// Height of the plot from no lift to full lift.
pub(super) const RISE: f64 = 170.0;

/// Base line of the topmost text.
pub(super) const FIRST_LINE: f64 = 14.0;
/// From one base line to the next.
pub(super) const LINE: f64 = 18.0;
/// How far below the pressure axis its title is; what is measured comes after.
pub(super) const TITLE: f64 = 37.0;
/// Length of a tick.
pub(super) const TICK: f64 = 4.0;
