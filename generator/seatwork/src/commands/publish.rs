//! `publish`: check, prove, render, write.

use std::path::Path;

use course::Faults;
use pages::Words;

use crate::course_folder::{as_typed, beside};
use crate::fault_report;
use crate::options::PublishOptions;
use crate::out::say;
use crate::proving::prove_course;
use crate::status::{End, Ended, Status};
use crate::unchanged::Published;
use crate::write_site::{tell, write_site};

pub(crate) fn run(options: &PublishOptions, words: &Words) -> Ended {
    let dir = &options.course.folder(words)?;
    let to = &options.to.clone().unwrap_or_else(|| beside(dir, "site"));
    keep_out(to, dir, words)?;
    let before = Published::look(dir, to);
    let standing = if options.force.force { None } else { before.still_stands() };
    if let Some(files) = standing {
        tell("command.unchanged", files, to, words);
        return Ok(Status::Done);
    }
    let course = fault_report::read_course(dir, words)?;
    prove_course(&course, options.force.force, words).map_err(|found| fault_report::end(dir, &found, words))?;
    let done = write_site(&course, to, words)?;
    before.keep();
    tell_warnings(&course.warnings, dir, words);
    Ok(done)
}

fn tell_warnings(warnings: &Faults, dir: &Path, words: &Words) {
    let count = warnings.list.len();
    if count > 0 {
        let key = if count == 1 { "command.one_warning_left" } else { "command.warnings_left" };
        say!("{}", words.fill(key, &[("count", &count.to_string()), ("course", &as_typed(dir, words))]));
    }
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
