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
    keep_out(&options.to, dir, words)?;
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
    if !course.warnings.list.is_empty() {
        let keys = ["command.one_warning_left", "command.warnings_left"];
        crate::say!("{}", faults::counted(keys, &course.warnings, words));
    }
    Ok(done)
}

/// Refuses a target inside the course: what is written there would be read as a part of it.
fn keep_out(to: &Path, course: &Path, words: &Words) -> Result<(), End> {
    let whole = |path: &Path| path.canonicalize().or_else(|_| std::path::absolute(path));
    // The target may be about to be made.
    let above = to.ancestors().find(|path| path.exists()).unwrap_or(Path::new("."));
    let (Ok(above), Ok(folder)) = (whole(above), whole(course)) else { return Ok(()) };
    if !course.is_dir() || !above.starts_with(folder) {
        return Ok(());
    }
    let (to, course) = (to.display().to_string(), course.display().to_string());
    Err(End::new(Status::WrongUse, words.fill("command.inside_course", &[("to", &to), ("course", &course)])))
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
