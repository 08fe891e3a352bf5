//! `sheet`: problems on paper, and their key in a file of its own.

mod choice;
mod line;

use std::fs;
use std::path::{Path, PathBuf};

use course::Course;
use pages::{Numbered, PAPER_MARK, Paper, Words, paper};
use problems::System;

use crate::fault_report;
use crate::marked_file::is_free;
use crate::options::SheetOptions;
use crate::out::say;
use crate::status::{End, Ended, Status};

pub(crate) fn run(options: &SheetOptions, words: &Words) -> Ended {
    let course = fault_report::read_course(&options.course.folder(None, words)?, words)?;
    let asked = options.units.map(System::from);
    let (problems, stated) = problems(&course, options, asked.unwrap_or(course.units), words)?;
    let system = asked.or(stated).unwrap_or(course.units);
    let files = files(options);
    files.iter().try_for_each(|file| free(file, words))?;
    let title = options.title.as_deref();
    let made = paper(&course, &problems, words, Paper { title, system });
    let made = made.map_err(|error| End::new(Status::Faults, error.to_string()))?;
    for (file, html) in files.iter().zip(made) {
        fs::write(file, html).map_err(|error| unwritable(file, &error, words))?;
    }
    let [sheet, key] = files.map(|file| file.display().to_string());
    let count = problems.len().to_string();
    say!("{}", words.fill("command.sheet.written", &[("sheet", &sheet), ("key", &key), ("count", &count)]));
    Ok(Status::Done)
}

/// The problems of the sheet, and the system of units that a line of numbers states.
fn problems<'c>(
    course: &'c Course,
    options: &SheetOptions,
    system: System,
    words: &Words,
) -> Result<(Vec<Numbered<'c>>, Option<System>), End> {
    match options.seed {
        Some(seed) => Ok((choice::choose(course, options, seed, system, words)?, None)),
        None => line::read(course, &options.numbers.join(" "), words),
    }
}

/// The files of the sheet and of its key.
fn files(options: &SheetOptions) -> [PathBuf; 2] {
    let named = || options.seed.map_or_else(|| "sheet.html".to_owned(), |seed| format!("sheet-{seed}.html"));
    let sheet = options.to.clone().unwrap_or_else(|| PathBuf::from(named()));
    let stem = sheet.file_stem().unwrap_or_default().to_string_lossy();
    let ending = sheet.extension().map_or(String::new(), |ending| format!(".{}", ending.to_string_lossy()));
    let key = sheet.with_file_name(format!("{stem}-key{ending}"));
    [sheet, key]
}

fn free(file: &Path, words: &Words) -> Result<(), End> {
    match is_free(file, PAPER_MARK) {
        Ok(true) => Ok(()),
        Ok(false) => {
            let values = [("file", file.display().to_string())];
            let values = values.each_ref().map(|(name, value)| (*name, value.as_str()));
            Err(End::new(Status::Unreadable, words.fill("command.sheet.not_ours", &values)))
        }
        Err(error) => Err(unwritable(file, &error, words)),
    }
}

fn unwritable(file: &Path, error: &std::io::Error, words: &Words) -> End {
    let values = [("file", &*file.display().to_string()), ("error", &error.to_string())];
    End::new(Status::Unreadable, words.fill("command.sheet.unwritable", &values))
}
