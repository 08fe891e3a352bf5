//! What a course may say, what is refused or warned of in it, and what its pages say of it.
//! `cargo test -p seatwork-tests --test courses MODULE` runs one module.

// What is wrong in a course, one fault a folder, and hostile texts in every field.
mod bad_content;
mod hostile_course;
mod mistakes;
mod warned_content;

// What is made of a course and agrees with its source.
mod coverage;
mod tables;

// Words, documents and what a change touches, held against the code.
mod changed;
mod documents;
mod fault_codes;
mod guide;
mod guide_faults;
mod layers;
mod words;
