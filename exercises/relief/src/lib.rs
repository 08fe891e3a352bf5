//! The calculation core: quantities with kinds, the unit table, and the registry of relations.
//!
//! A [`Quantity`] is a number in SI units with a [`Kind`]. A kind is more than a dimension: gauge pressure, absolute
//! pressure and pressure difference share one dimension and are three kinds.
//!
//! ```
//! use relief::{Argument, Kind, find, units};
//!
//! let psig = units::find("psig").expect("in the unit table");
//! let answer = find("opening_accumulation").expect("in the registry").evaluate(&[
//!     ("full_open", Argument::Quantity(psig.quantity(110.0, Kind::Gauge))),
//!     ("opening", Argument::Quantity(psig.quantity(100.0, Kind::Gauge))),
//! ])?;
//! assert_eq!(answer.first().kind, Kind::Difference);
//! assert!((psig.value(answer.first()) - 10.0).abs() < 1e-12);
//! # Ok::<(), relief::RelationError>(())
//! ```

mod compare;
mod dimension;
mod exact;
mod factors;
mod kind;
mod law_units;
pub mod limits;
mod quantity;
mod relation;
pub mod relations;
mod shown;
mod system;
pub mod tables;
mod texts;
pub mod units;

pub use dimension::Dimension;
pub use exact::{Exact, ExactError, Style, nearest};
pub use kind::Kind;
pub use law_units::{is_bare, law_unit, result_unit};
pub use quantity::{
    Absolute, Area, CountRate, Density, Difference, Expansion, Force, Gauge, HeatFlow, KinematicViscosity, Length,
    MassFlow, MolarMass, Number, Quantity, Ratio, SpecificHeat, SpringRate, Stress, Temperature, Turns, Typed,
    Viscosity, VolumeFlow,
};
pub use relation::{
    Argument, Arguments, Bound, Default, Form, Forms, Formulas, Gives, Input, MOST_INPUTS, Output, Outputs, Printed,
    Range, Relation, RelationError, Role, Run, SafeSide, Source, Status, Step, Units,
};
pub use relations::{FAMILIES, Family, find, relations};
pub use shown::{Rounding, round_to_figures, shown};
pub use system::{Manner, System};
pub use tables::{TABLES, Table};
