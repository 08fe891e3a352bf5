//! The commands. Each has a file, or a folder, with the name of the command.

mod draw;
mod guide;
mod proof;
mod publish;
mod schema;
mod sheet;
mod start;
mod watch;
mod work;

use clap::CommandFactory;
use pages::Words;

use crate::options::{Command, Options};
use crate::status::{Ended, Status};

/// Does what was typed.
pub(crate) fn run(command: &Command, words: &Words) -> Ended {
    match command {
        Command::Start(options) => start::run(options, words),
        Command::Publish(options) => publish::run(options, words),
        Command::Guide { to } => guide::run(to, words),
        Command::Watch(options) => watch::run(options, words),
        Command::Proof(options) => proof::run(options, words),
        Command::Work(options) => work::run(options, words),
        Command::Draw(options) => draw::run(options, words),
        Command::Sheet(options) => sheet::run(options, words),
        Command::Schema(options) => schema::run(options, words),
        Command::Completions { shell } => {
            clap_complete::generate(*shell, &mut Options::command(), "seatwork", &mut std::io::stdout());
            Ok(Status::Done)
        }
    }
}
