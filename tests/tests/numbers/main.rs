//! What the core computes, draws and marks, called as a library: nothing here runs the command or reads a page.
//! `cargo test -p seatwork-tests --test numbers MODULE` runs one module.

// The relations: against print, against another library, against laws that hold whatever the numbers.
mod algebra;
mod laws;
mod laws_sizing;
mod outside;
mod published;
mod trades;

// What is typed, and what is said of it.
mod answers;
mod diagnosis;
mod marking;
mod pocket_calculator;
mod slips;

// The built engine: its size, and the cases that it is held to.
mod engine_size;
mod parity;

// What was drawn and kept stays what it was.
mod kept_forms;
mod value_stability;
