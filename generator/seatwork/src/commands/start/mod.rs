//! `start`: a small complete course to change.

mod course;

use std::fs;
use std::path::{Path, PathBuf};

use pages::Words;

use crate::options::StartOptions;
use crate::out::say;
use crate::schema_files::{FOLDER, schema_files};
use crate::status::{Ended, Status};
use crate::write_plan::{Plan, Right};

/// How many samples the page of them has.
const SAMPLES: &str = "6";

pub(crate) fn run(options: &StartOptions, words: &Words) -> Ended {
    let dir = &options.dir;
    let items: Vec<_> = course::items().chain(schema_files(&format!("{FOLDER}/"))).collect();
    let plan = Plan::look(dir, &items, words)?;
    if plan.is_empty() {
        say!("{}", words.fill("command.start.nothing", &[("dir", &dir.display().to_string())]));
    } else {
        if !is_empty(dir) {
            plan.agree(Right::of(options.yes), words)?;
        }
        plan.write(words)?;
        tell_written(plan.len(), dir, words);
    }
    tell_next(dir, words);
    Ok(Status::Done)
}

fn tell_written(count: usize, dir: &Path, words: &Words) {
    let values = [("count", count.to_string()), ("dir", dir.display().to_string())];
    say!("{}", words.fill("command.start.written", &values.each_ref().map(|(name, value)| (*name, value.as_str()))));
}

/// Whether nothing is in a folder, or no folder is there.
fn is_empty(dir: &Path) -> bool {
    fs::read_dir(dir).is_ok_and(|mut entries| entries.next().is_none()) || !dir.exists()
}

/// The next three commands, ready to type.
fn tell_next(dir: &Path, words: &Words) {
    let site = site_of(dir);
    let [course, to] = [dir, &site].map(typed);
    let values = [("course", course.as_str()), ("site", &to), ("recipe", course::SAMPLED), ("count", SAMPLES)];
    say!("{}", words.get("command.start.next"));
    for key in ["command.start.proof", "command.start.publish", "command.start.draw"] {
        say!("  {}", words.fill(key, &values));
    }
    let opens = site.join("index.html").display().to_string();
    say!("{}", words.fill("command.start.then", &[("opens", &opens), ("dir", &dir.display().to_string())]));
}

/// A folder for the site beside that of the course: within it, the site would be taken for a part of the course.
fn site_of(dir: &Path) -> PathBuf {
    let named = |name: &std::ffi::OsStr| {
        let mut name = name.to_owned();
        name.push("-site");
        name
    };
    match dir.file_name() {
        Some(name) => dir.with_file_name(named(name)),
        // `.` and `..` have a name only where they lead.
        None => {
            let whole = fs::canonicalize(dir).unwrap_or_default();
            dir.join("..").join(whole.file_name().map_or_else(|| "site".into(), named))
        }
    }
}

/// A path as it is typed in a shell.
fn typed(path: &Path) -> String {
    let text = path.display().to_string();
    let plain = |next: char| next.is_ascii_alphanumeric() || "/\\:._-".contains(next);
    if text.chars().all(plain) {
        return text;
    }
    if cfg!(windows) { format!("\"{text}\"") } else { format!("'{}'", text.replace('\'', r"'\''")) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_site_stands_beside_the_course() {
        assert_eq!(site_of("a/first".as_ref()), Path::new("a/first-site"));
        assert_eq!(site_of("first/".as_ref()), Path::new("first-site"));
        let here = site_of(".".as_ref());
        assert!(here.starts_with("./..") && here.to_string_lossy().ends_with("-site"), "{here:?}");
    }

    #[cfg(unix)]
    #[test]
    fn paths_are_quoted_where_a_shell_needs_it() {
        assert_eq!(typed("a/b-c_1.d".as_ref()), "a/b-c_1.d");
        assert_eq!(typed("my course".as_ref()), "'my course'");
        assert_eq!(typed("it's".as_ref()), r"'it'\''s'");
    }
}
