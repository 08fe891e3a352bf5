//! `publish`: check, prove, render, write.

use pages::{PublishError, Words, publish};

use crate::options::PublishOptions;
use crate::progress::Progress;
use crate::status::{End, Ended, Status};
use crate::{faults, proof};

pub(crate) fn run(options: &PublishOptions, words: &Words) -> Ended {
    let dir = &options.course.course;
    let course = faults::read_course(dir, words)?;
    proof::prove_course(&course, dir, options.afresh.afresh, words)?;
    let progress = Progress::new(words.get("command.progress.writing"));
    let waits = || eprintln!("{}", words.get("command.waits"));
    let written = publish(&course, words, &options.to, &waits, &|count, of| progress.done(count, of));
    drop(progress);
    let written = written.map_err(|error| end(&error, words))?;
    let opens = options.to.join("index.html").display().to_string();
    crate::say!("{}", words.fill("command.published", &[("files", &written.files.to_string()), ("opens", &opens)]));
    Ok(Status::Done)
}

fn end(error: &PublishError, words: &Words) -> End {
    match error {
        PublishError::Engine => End::new(Status::Unreadable, words.get("command.engine")),
        PublishError::Render(error) => End::new(Status::Faults, error.to_string()),
        PublishError::Site(error) => End::new(Status::Unreadable, error.to_string()),
    }
}
