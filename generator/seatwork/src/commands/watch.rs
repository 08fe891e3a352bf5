//! `watch`: the course in a browser while it is written.

use std::path::{Path, PathBuf};

use course::{Course, Faults, Memory};
use pages::Words;
use watch::{Outcome, Port, Preview, Settings, StartError};

use crate::fault_report;
use crate::options::WatchOptions;
use crate::out::say;
use crate::proving::prove_course;
use crate::status::{End, Ended, Status};

pub(crate) fn run(options: &WatchOptions, words: &Words) -> Ended {
    let folder = &options.course.folder(words)?;
    if !folder.is_dir() {
        // The fault that every command has for it.
        fault_report::read_course(folder, words)?;
    }
    let preview = Preview::start(settings(options, folder, words))
        .map_err(|error| End::new(Status::Unreadable, reason(&error, folder, words)))?;
    say!("{}", words.fill("watch.told.at", &[("address", &preview.address())]));
    preview.until_interrupted().map_err(|error| End::new(Status::Unreadable, error.to_string()))?;
    say!("{}", words.get("watch.told.ended"));
    Ok(Status::Done)
}

fn settings(options: &WatchOptions, folder: &Path, words: &Words) -> Settings {
    Settings {
        folder: folder.to_owned(),
        words: words.clone(),
        port: options.port.map_or(Port::Free, Port::This),
        check: checking(folder.to_owned(), words.clone()),
        tell: telling(folder.to_owned(), words.clone()),
    }
}

/// What `publish` asks of a course. Lessons that did not change are not rendered again, nor recipes drawn.
fn checking(folder: PathBuf, words: Words) -> Box<watch::Check> {
    let mut memory = Memory::default();
    Box::new(move || -> Result<Course, Faults> {
        let course = course::read_again(&folder, &words, &mut memory)?;
        prove_course(&course, false, &words)?;
        Ok(course)
    })
}

fn telling(folder: PathBuf, words: Words) -> Box<watch::Tell> {
    Box::new(move |outcome| match outcome {
        Outcome::Shown(course) => {
            say!("{}", shown(course, &words));
            fault_report::warn(&folder, &course.warnings, &words);
        }
        Outcome::Faults { faults, shown } => eprintln!("{}", faulty(&folder, faults, *shown, &words)),
        Outcome::NotRendered(error) => {
            eprintln!("{}", words.fill("watch.told.not_rendered", &[("reason", &error.to_string())]));
        }
    })
}

fn shown(course: &Course, words: &Words) -> String {
    let [lessons, recipes] = [course.lessons.len(), course.recipes.len()].map(|count| count.to_string());
    words.fill("watch.told.shown", &[("lessons", &lessons), ("recipes", &recipes)])
}

/// The faults in words, and whether an earlier site is still shown.
fn faulty(folder: &Path, faults: &Faults, still: bool, words: &Words) -> String {
    let keys = match still {
        true => ["watch.told.one_fault_still", "watch.told.faults_still"],
        false => ["watch.told.one_fault", "watch.told.faults"],
    };
    fault_report::text(folder, faults, words) + &fault_report::counted(keys, faults, words)
}

/// Why a preview cannot be had, and what to do.
fn reason(error: &StartError, folder: &Path, words: &Words) -> String {
    let folder = folder.display().to_string();
    match error {
        StartError::Engine => words.get("watch.told.engine").to_owned(),
        StartError::PortTaken(port) => words.fill("watch.told.port_taken", &[("port", &port.to_string())]),
        StartError::NoPortFree { first, last } => {
            let [first, last] = [first, last].map(ToString::to_string);
            words.fill("watch.told.ports_taken", &[("port", &first), ("last", &last)])
        }
        StartError::Listen(error) => words.fill("watch.told.no_listen", &[("reason", &error.to_string())]),
        StartError::Changes(error) => {
            words.fill("watch.told.no_changes", &[("folder", &folder), ("reason", &error.to_string())])
        }
        StartError::Template(error) => words.fill("watch.told.not_rendered", &[("reason", &error.to_string())]),
    }
}
