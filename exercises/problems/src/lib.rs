//! Recipes compiled, drawn, marked and worked: one core for the command line, the page and the desk.
//!
//! The course of a problem: [`recipe::compile`] checks what an author wrote and gives a [`recipe::Recipe`];
//! [`draw::draw`] makes a [`draw::Problem`] of it for a [`seed::Seed`]; [`mark::mark`] says of a typed answer what is
//! right with it or what went wrong; [`draw::Problem::solution`] works it. [`proof::prove`] does all of that over many
//! seeds before anyone sees the recipe.

pub mod answer;
pub mod decimal_mark;
pub mod display;
pub mod draw;
mod expression;
pub mod facts;
mod fill;
pub mod forms;
pub mod formula;
mod givens;
pub mod html;
pub mod mark;
pub mod number;
pub mod own;
pub mod parity;
pub mod proof;
pub mod recipe;
pub mod review;
pub mod rounding;
pub mod seed;
pub mod slips;
mod stored;
pub mod template;
mod verdict;
pub mod view;
mod views;
pub mod work;
mod working;

pub use decimal_mark::DecimalMark;
pub use recipe::{ReadError, Recipe, System};
