//! Pressures that are right but measured from the wrong zero.

use relief::relations::pressures::STANDARD_ATMOSPHERE;
use relief::{Kind, Quantity};

use super::slip::Slip;

/// The slip of a pressure that is right but measured from the wrong zero.
pub(crate) fn reference(right: Quantity, si: f64, tolerance: f64) -> Option<Slip> {
    reference_slip(right).filter(|(_, value)| (si - value).abs() <= tolerance).map(|(slip, _)| slip)
}

pub(super) fn reference_slip(right: Quantity) -> Option<(Slip, f64)> {
    match right.kind {
        Kind::Absolute => Some((Slip::GaugeForAbsolute, right.si - STANDARD_ATMOSPHERE)),
        Kind::Gauge => Some((Slip::AbsoluteForGauge, right.si + STANDARD_ATMOSPHERE)),
        _ => None,
    }
}
