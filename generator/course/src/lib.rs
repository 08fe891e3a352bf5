//! Reads a course and checks it: everything that an instructor edits, and every rule that it must keep.
//!
//! The order is `folder -> read (with places) -> check (all faults collected) -> Course`. What is in a [`Course`] is
//! valid. A [`Fault`] has a [`Code`], a place and values; the sentences for it are words of the theme.
//!
//! ```no_run
//! struct NoWords;
//! impl course::Words for NoWords {
//!     fn text(&self, _key: &str) -> Option<String> {
//!         None
//!     }
//! }
//!
//! match course::read("content".as_ref(), &NoWords) {
//!     Ok(course) => println!("{} lessons", course.lessons.len()),
//!     Err(faults) => println!("{} faults", faults.list.len()),
//! }
//! ```

pub mod addresses;
mod areas;
mod assemble;
mod captions;
mod check;
mod colours;
mod consequences;
mod course;
mod coverage;
mod document;
mod fault;
mod files;
mod folder;
mod front;
mod fronts;
mod handouts;
mod hints;
mod ids;
mod lexicon;
mod look;
mod markdown;
mod marks;
mod memory;
mod pictures;
mod placing;
mod progress;
mod quantities;
mod raw;
mod read;
mod reading;
mod recipe;
mod relation;
mod rendering;
mod scenario;
mod schema;
mod suppress;
mod threads;
mod traps;
mod warn;
mod yaml;

pub use captions::Cue;
pub use course::{
    AreasFile, Block, Course, Figure, Given, Heading, Image, Imprint, Lesson, Logo, Media, NamedArea, Objective,
    OwnRelation, Picture, Practice, RecipeFile, Shown, Term, Work,
};
pub use coverage::Coverage;
pub use fault::{Fault, Faults, Place};
pub use faults::{Code, Message, Words};
pub use files::{LONGEST_PATH, is_device_name, is_of_systems};
pub use handouts::{Handout, Medium, copy};
pub use lexicon::ThemeLexicon;
pub use marks::PLACEHOLDER;
pub use memory::Memory;
pub use placing::Placing;
pub use progress::Told;
pub use read::{read, read_again, read_telling};
pub use recipe::front_matter as recipe_front_matter;
pub use schema::{Schema, schemas};
pub use threads::{FEWEST_FILES, on_threads};
