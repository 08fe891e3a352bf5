//! The wrong zero of a pressure or of a temperature.

use relief::relations::pressures::STANDARD_ATMOSPHERE;
use relief::{Input, Kind, Quantity};

use super::finding::Finding;
use super::reference::reference_slip;
use super::slip::Slip;
use super::values::unit_of;
use super::work::{Work, nothing};
use crate::formula::{Call, Node};

impl Work<'_> {
    /// At the end, and within the formula.
    pub(super) fn zeros(&self, finding: &mut Finding) {
        if let Some((slip, si)) = reference_slip(self.right) {
            finding.candidate(slip, Some(si), nothing);
        }
        self.everywhere(finding, Slip::GaugeForAbsolute, &nothing, &|node| self.gauge_for_absolute(node));
        self.everywhere(finding, Slip::AbsoluteForGauge, &nothing, &|node| self.absolute_for_gauge(node));
        self.everywhere(finding, Slip::TemperatureZero, &nothing, &|node| self.temperature_zero(node));
    }

    fn gauge_for_absolute(&self, node: &Node) -> Option<Quantity> {
        let si = match node {
            Node::Name(_) => self.of_kind(node, Kind::Absolute)?.si - STANDARD_ATMOSPHERE,
            Node::Call(call) => self.gauge_made_absolute(call)?.si,
            _ => return None,
        };
        Some(Quantity::new(si, Kind::Absolute))
    }

    /// The gauge pressure that a relation makes an absolute one of.
    fn gauge_made_absolute(&self, call: &Call) -> Option<Quantity> {
        let is_gauge = |(input, _): &(&Input, &Node)| input.kind() == Some(Kind::Gauge);
        let (_, gauge) = call.given().find(is_gauge).filter(|_| call.gives() == Some(Kind::Absolute))?;
        self.value(gauge)
    }

    fn absolute_for_gauge(&self, node: &Node) -> Option<Quantity> {
        let Node::Name(_) = node else { return None };
        let value = self.of_kind(node, Kind::Gauge)?;
        Some(Quantity::new(value.si + STANDARD_ATMOSPHERE, Kind::Gauge))
    }

    /// The number of an everyday scale, which counts degrees from its own zero.
    fn temperature_zero(&self, node: &Node) -> Option<Quantity> {
        let (Node::Name(_) | Node::Quantity { .. }) = node else { return None };
        let value = self.of_kind(node, Kind::Temperature)?;
        let unit = unit_of(self.facts, node, value)?;
        Some(Quantity::new(unit.value(value) * unit.factor(), value.kind))
    }

    fn of_kind(&self, node: &Node, kind: Kind) -> Option<Quantity> {
        self.value(node).filter(|value| value.kind == kind)
    }
}
