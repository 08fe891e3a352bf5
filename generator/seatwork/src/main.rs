//! The command: start a course, publish a course, watch it while it is written, prove its recipes, work a relation, draw
//! a problem.

mod caches;
mod commands;
mod fault_report;
mod find_recipe;
mod marked_file;
mod options;
mod out;
mod plain;
mod progress;
mod proving;
mod schema_files;
mod status;
mod unchanged;
mod write_plan;
mod write_site;

use clap::Parser;
use options::Options;
use status::{End, Status};

fn main() -> Status {
    let options = Options::parse();
    let Some(words) = pages::Words::of("en") else { return Status::Unreadable };
    commands::run(&options.command, &words).unwrap_or_else(|End { status, message }| {
        if !message.is_empty() {
            eprintln!("{message}");
        }
        status
    })
}
