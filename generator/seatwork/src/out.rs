//! What the command prints. Where its reader stops reading (`seatwork work --list | head`), it ends in silence.

use std::fmt::Arguments;
use std::io::{ErrorKind, Write};

/// Prints a line. Use it as [`say!`](say).
pub(crate) fn line(text: Arguments) {
    match writeln!(std::io::stdout(), "{text}") {
        Err(error) if error.kind() == ErrorKind::BrokenPipe => std::process::exit(0),
        // A full disk behind `> file` must not look like success.
        Err(error) => {
            eprintln!("{error}");
            std::process::exit(3);
        }
        Ok(()) => {}
    }
}

/// Prints a line to the standard output.
macro_rules! say {
    ($($text:tt)*) => {
        $crate::out::line(format_args!($($text)*))
    };
}

pub(crate) use say;
