//! The folder of the course, where none is named: it is found from wherever a command is typed.

use std::path::{Path, PathBuf};
use std::{env, fs};

use pages::Words;

use crate::status::{End, Status};

/// The file that makes a folder a course.
const COURSE_FILE: &str = "course.yaml";

/// Where a course is looked for that is nowhere else.
const USUAL: &str = "content";

/// The folder that was named; else the one that somebody stands in, or a folder above it; else the course below it.
///
/// # Errors
/// Several folders below hold a course, and none is called `content`.
pub(crate) fn course_folder(named: Option<&Path>, words: &Words) -> Result<PathBuf, End> {
    if let Some(named) = named {
        return Ok(named.to_owned());
    }
    if let Some(around) = around() {
        return Ok(around);
    }
    match below().as_slice() {
        [one] => Ok(one.clone()),
        several if several.len() > 1 && !holds_course(Path::new(USUAL)) => {
            let names = several.iter().map(|folder| folder.display().to_string()).collect::<Vec<_>>().join(", ");
            Err(End::new(Status::WrongUse, words.fill("command.which_course", &[("folders", &names)])))
        }
        _ => Ok(PathBuf::from(USUAL)),
    }
}

/// Whether a folder is one of a course.
pub(crate) fn holds_course(folder: &Path) -> bool {
    folder.join(COURSE_FILE).is_file()
}

/// The folder that is stood in, or the next one above it that holds a course.
fn around() -> Option<PathBuf> {
    let here = env::current_dir().ok()?;
    let steps = here.ancestors().position(holds_course)?;
    Some(if steps == 0 { PathBuf::from(".") } else { [".."].iter().cycle().take(steps).collect() })
}

/// The folders within the one stood in that hold a course, by their names.
fn below() -> Vec<PathBuf> {
    let entries = fs::read_dir(".").into_iter().flatten().flatten();
    let mut found: Vec<_> =
        entries.map(|entry| PathBuf::from(entry.file_name())).filter(|at| holds_course(at)).collect();
    found.sort();
    found
}

/// Where something is written that is named nowhere: here, or beside the course where that is stood in, since only the
/// course may be in its folder.
pub(crate) fn beside(course: &Path, name: &str) -> PathBuf {
    match course == Path::new(".") {
        true => Path::new("..").join(name),
        false if course.ends_with("..") => course.join("..").join(name),
        false => PathBuf::from(name),
    }
}

/// What a command needs beside its other words to mean this course.
pub(crate) fn as_typed(course: &Path, words: &Words) -> String {
    let found = course_folder(None, words).is_ok_and(|found| found == course);
    if found { String::new() } else { format!(" --course {}", shell(&course.display().to_string())) }
}

/// A path as it is typed: in quotes where it has a space.
fn shell(path: &str) -> String {
    if path.contains(' ') { format!("\"{path}\"") } else { path.to_owned() }
}
