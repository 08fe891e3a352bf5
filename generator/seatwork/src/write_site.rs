//! The site of a course written, with its progress.

use std::path::Path;

use course::Course;
use pages::{PublishError, Words, publish};

use crate::out::say;
use crate::progress::Progress;
use crate::status::{End, Ended, Status};

/// Writes the site of a course, and says where it opens.
pub(crate) fn write_site(course: &Course, to: &Path, words: &Words) -> Ended {
    let progress = Progress::new(words.get("command.progress.writing"));
    let waits = || eprintln!("{}", words.get("command.waits"));
    let written = publish(course, words, to, &waits, &|count, of| progress.done(count, of));
    drop(progress);
    let written = written.map_err(|error| end(&error, words))?;
    tell("command.published", written.files, to, words);
    Ok(Status::Done)
}

/// Says how many files the site has and where it opens.
pub(crate) fn tell(key: &str, files: usize, to: &Path, words: &Words) {
    let opens = to.join("index.html").display().to_string();
    say!("{}", words.fill(key, &[("files", &files.to_string()), ("opens", &opens)]));
}

fn end(error: &PublishError, words: &Words) -> End {
    match error {
        PublishError::Engine => End::new(Status::Unreadable, words.get("command.engine")),
        PublishError::Render(error) => End::new(Status::Faults, error.to_string()),
        PublishError::Site(error) => End::new(Status::Unreadable, error.to_string()),
    }
}
