//! The command: start a course, publish a course, watch it while it is written, prove its recipes, work a relation, draw
//! a problem.

mod caches;
mod draw;
mod faults;
mod guide;
mod lay;
mod options;
mod out;
mod plain;
mod progress;
mod proof;
mod publish;
mod samples;
mod schema;
mod start;
mod status;
mod unchanged;
mod watch;
mod work;

use clap::{CommandFactory, Parser};
use options::{Command, Options};
use status::{End, Status};

fn main() -> Status {
    let options = Options::parse();
    let Some(words) = pages::Words::of("en") else { return Status::Unreadable };
    let end = match &options.command {
        Command::Start(options) => start::run(options, &words),
        Command::Publish(options) => publish::run(options, &words),
        Command::Guide { to } => guide::run(to, &words),
        Command::Watch(options) => watch::run(options, &words),
        Command::Proof(options) => proof::run(options, &words),
        Command::Work(options) => work::run(options, &words),
        Command::Draw(options) => draw::run(options, &words),
        Command::Schema(options) => schema::run(options, &words),
        Command::Completions { shell } => {
            clap_complete::generate(*shell, &mut Options::command(), "seatwork", &mut std::io::stdout());
            Ok(Status::Done)
        }
    };
    end.unwrap_or_else(|End { status, message }| {
        if !message.is_empty() {
            eprintln!("{message}");
        }
        status
    })
}
