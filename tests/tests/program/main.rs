//! The whole program, as it is run: what each command prints, writes and leaves alone.
//! `cargo test -p seatwork-tests --test program MODULE` runs one module.

// What several of them run the program in.
mod bench;

// Every command, and how it ends.
mod command;
mod course_folder;
mod proof;
mod proof_courses;
mod schema;
mod sheet;
mod start;
mod watch;

// What is published.
mod kill;
mod site;
