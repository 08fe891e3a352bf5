//! The command: start a course, publish a course, watch it while it is written, prove its recipes, work a relation, draw
//! a problem.

mod caches;
mod commands;
mod console;
mod course_folder;
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
mod writable;
mod write_plan;
mod write_site;

use clap::Parser;
use options::Options;
use pages::Words;
use status::{End, Status};

fn main() -> Status {
    let Some(words) = Words::of("en") else { return Status::Unreadable };
    let status = ended(&words);
    console::keep_open(&words);
    status
}

fn ended(words: &Words) -> Status {
    if std::env::args_os().len() == 1 && console::closes_with_us() {
        out::say!("{}", words.get("command.window.typed"));
        return Status::WrongUse;
    }
    match Options::try_parse() {
        Ok(options) => done(&options, words),
        Err(error) => said(&error),
    }
}

fn done(options: &Options, words: &Words) -> Status {
    commands::run(&options.command, words).unwrap_or_else(|End { status, message }| {
        if !message.is_empty() {
            eprintln!("{message}");
        }
        status
    })
}

/// Help and the version are what was asked for; all else is wrong use.
fn said(error: &clap::Error) -> Status {
    // As the parser's own way out does, which has nobody left to tell either.
    let _ = error.print();
    if error.use_stderr() { Status::WrongUse } else { Status::Done }
}
