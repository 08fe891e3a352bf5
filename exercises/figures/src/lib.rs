//! Figures as SVG: a relief valve in section, lift against pressure, and traces on graph paper to read values off, drawn
//! from the numbers of the calculation core.
//!
//! A figure is a pure function of its parameters, of the words it is given and of a prefix for its ids. It writes
//! geometry as attributes and leaves the look to classes, since the pages forbid style attributes; it holds no
//! sentences.
//!
//! ```
//! use figures::{Measure, Parameters, find};
//! use relief::{Kind, units};
//!
//! let psig = units::find("psig").expect("in the unit table");
//! let inch = units::find("in").expect("in the unit table");
//! let mut given = Parameters::new();
//! for (name, value) in [("reseat", 95.0), ("opening", 100.0), ("full_open", 110.0)] {
//!     given.insert(name.to_owned(), Measure::new(value, psig, Kind::Gauge));
//! }
//! given.insert("full_lift".to_owned(), Measure::new(0.25, inch, Kind::Length));
//!
//! let figure = find("lift_against_pressure").expect("in the registry");
//! let svg = figure.draw(&given, &|key: &str| key.to_owned(), "fig-1")?;
//! assert!(svg.starts_with("<svg "));
//! # Ok::<(), figures::FigureError>(())
//! ```

mod arrow;
mod error;
mod graph;
mod measure;
mod path;
mod picture;
mod plot;
mod registry;
mod scale;
mod svg;
mod text;
mod valve;

pub use error::FigureError;
pub use graph::Readings;
pub use measure::{Label, Measure, Parameter, Parameters};
pub use picture::{Area, Picture, Shape};
pub use registry::{FIGURES, Figure, PLOTS, find, plot as find_plot};
pub use valve::{Part, VALVE_PARTS};
