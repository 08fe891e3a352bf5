//! `publish`: check, prove, render, write.

use std::path::Path;

use course::Faults;
use pages::Words;

use crate::fault_report;
use crate::options::PublishOptions;
use crate::out::say;
use crate::proving::prove_course;
use crate::status::{End, Ended, Status};
use crate::unchanged::Published;
use crate::write_site::{tell, write_site};

pub(crate) fn run(options: &PublishOptions, words: &Words) -> Ended {
    let dir = &options.course.course;
    keep_out(&options.to, dir, words)?;
    let before = Published::look(dir, &options.to);
    let standing = if options.force.force { None } else { before.still_stands() };
    if let Some(files) = standing {
        tell("command.unchanged", files, &options.to, words);
        return Ok(Status::Done);
    }
    let course = fault_report::read_course(dir, words)?;
    prove_course(&course, options.force.force, words).map_err(|found| fault_report::end(dir, &found, words))?;
    let done = write_site(&course, &options.to, words)?;
    before.keep();
    tell_warnings(&course.warnings, words);
    Ok(done)
}

fn tell_warnings(warnings: &Faults, words: &Words) {
    if !warnings.list.is_empty() {
        let keys = ["command.one_warning_left", "command.warnings_left"];
        say!("{}", fault_report::counted(keys, warnings, words));
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
