//! What a recipe has once for each system of units.

use relief::System;
use relief::units::Unit;
use serde::Serialize;

use crate::stored::{Fields, Stored, Unfit};

/// Something for each system of units.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Pair<T> {
    /// In customary units.
    pub us: T,
    /// In SI units.
    pub si: T,
}

impl<T: Stored> Stored for Pair<T> {
    #[inline]
    fn read(tree: serde_json::Value) -> Result<Self, Unfit> {
        let mut fields = Fields::of(tree)?;
        Ok(Self { us: fields.take("us")?, si: fields.take("si")? })
    }
}

impl<T> Pair<T> {
    /// The one for a system.
    pub fn of(&self, system: System) -> &T {
        match system {
            System::Us => &self.us,
            System::Si => &self.si,
        }
    }
}

/// A unit that may be missing: the answer is then a bare number.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct UnitRef(#[serde(serialize_with = "crate::stored::some_unit::serialize")] pub Option<&'static Unit>);

impl Stored for UnitRef {
    #[inline]
    fn read(tree: serde_json::Value) -> Result<Self, Unfit> {
        Stored::read(tree).map(Self)
    }
}
