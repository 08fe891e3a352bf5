//! `publish`: check, prove, render, write.

use std::path::Path;

use course::Course;
use pages::{PublishError, Words, publish};

use crate::options::PublishOptions;
use crate::progress::Progress;
use crate::status::{End, Ended, Status};
use crate::unchanged::Published;
use crate::{faults, proof};

pub(crate) fn run(options: &PublishOptions, words: &Words) -> Ended {
    let dir = &options.course.course;
    let before = Published::look(dir, &options.to);
    let standing = if options.afresh.afresh { None } else { before.still_stands() };
    if let Some(files) = standing {
        tell("command.unchanged", files, &options.to, words);
        return Ok(Status::Done);
    }
    let course = faults::read_course(dir, words)?;
    proof::prove_course(&course, options.afresh.afresh, words).map_err(|found| faults::end(dir, &found, words))?;
    let done = write(&course, &options.to, words)?;
    before.keep();
    Ok(done)
}

/// Writes the site of a course, and says where it opens.
pub(crate) fn write(course: &Course, to: &Path, words: &Words) -> Ended {
    let progress = Progress::new(words.get("command.progress.writing"));
    let waits = || eprintln!("{}", words.get("command.waits"));
    let written = publish(course, words, to, &waits, &|count, of| progress.done(count, of));
    drop(progress);
    let written = written.map_err(|error| end(&error, words))?;
    tell("command.published", written.files, to, words);
    Ok(Status::Done)
}

fn tell(key: &str, files: usize, to: &Path, words: &Words) {
    let opens = to.join("index.html").display().to_string();
    crate::say!("{}", words.fill(key, &[("files", &files.to_string()), ("opens", &opens)]));
}

fn end(error: &PublishError, words: &Words) -> End {
    match error {
        PublishError::Engine => End::new(Status::Unreadable, words.get("command.engine")),
        PublishError::Render(error) => End::new(Status::Faults, error.to_string()),
        PublishError::Site(error) => End::new(Status::Unreadable, error.to_string()),
    }
}
