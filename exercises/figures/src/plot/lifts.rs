//! The numbers of the lift axis.

use relief::Typed;

use super::extents::{MARGIN, TICK};
use super::trace::Trace;
use crate::scale::Scale;
use crate::text::{SIZE, width};

/// How many decimal places a number is written with.
fn places(number: &str) -> usize {
    number.split_once('.').map_or(0, |(_, places)| places.len())
}

/// A number with at least so many decimal places, so that the ticks of an axis are written alike.
fn with_places(number: &str, least: usize) -> String {
    let missing = least.saturating_sub(places(number));
    let point = if missing > 0 && !number.contains('.') { "." } else { "" };
    format!("{number}{point}{}", "0".repeat(missing))
}

/// The ticks of the lift axis (metre): round numbers, and the full lift in place of one too near to it.
pub(super) fn lifts(trace: &Trace, lift: &Scale) -> Vec<(f64, String)> {
    let unit = trace.lift_unit;
    let shown = Scale { from: (0.0, lift.from.1), to: (unit.value(trace.full_lift.quantity()), lift.to.1) };
    let full = unit.value(trace.full_lift.quantity());
    let text = trace.lift(trace.full_lift);
    let text = text.split(' ').next().unwrap_or_default();
    let mut ticks = shown.ticks(|_| 2.2 * SIZE);
    let text = with_places(text, ticks.iter().map(|(_, tick)| places(tick)).max().unwrap_or(0));
    ticks.retain(|(value, _)| shown.place(*value) - lift.to.1 > 1.5 * SIZE);
    ticks.push((full, text));
    ticks.into_iter().map(|(value, text)| (unit.quantity(value, relief::Kind::Length).si, text)).collect()
}

/// How far from the edge the lift axis is, so that its numbers have room.
pub(super) fn room_for_lifts(trace: &Trace, lift: &Scale) -> f64 {
    let longest = lifts(trace, lift).iter().map(|(_, text)| width(text)).fold(0.0, f64::max);
    MARGIN + longest + TICK + 4.0
}
