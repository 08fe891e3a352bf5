//! `start`: the course that it writes is whole, and nothing that is there already is lost.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use seatwork_tests::{Scratch, command, top};

type Files = Vec<(String, Vec<u8>)>;

fn start(scratch: &Scratch, arguments: &[&str]) -> Output {
    command().current_dir(scratch.path("")).arg("start").args(arguments).output().expect("command")
}

fn said(output: &Output) -> String {
    format!("{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr))
}

/// A scratch folder in which the course was started, and its files.
fn started() -> (Scratch, Files) {
    let scratch = Scratch::new();
    let output = start(&scratch, &["course"]);
    assert!(output.status.success(), "{}", said(&output));
    let files = scratch.files("course");
    (scratch, files)
}

/// In a folder whose name a shell would take apart, by the shell itself.
#[cfg(unix)]
#[test]
fn the_commands_that_it_prints_work_as_printed() {
    let scratch = Scratch::new();
    let text = said(&start(&scratch, &["my course"]));
    let typed: Vec<_> = text.lines().map(str::trim).filter(|line| line.starts_with("seatwork ")).collect();
    assert_eq!(typed.len(), 3, "{text}");
    let command = command();
    let path = Path::new(command.get_program()).parent().expect("folder");
    for line in &typed {
        let mut shell = Command::new("/bin/sh");
        shell.args(["-c", line]).env("PATH", path).env("SEATWORK_CACHE", scratch.path("cache"));
        let output = shell.current_dir(scratch.path("")).output().expect("shell");
        assert!(output.status.success(), "{line}: {}", said(&output));
    }
    assert!(text.contains("my course-site/index.html") && scratch.path("my course-site/index.html").exists(), "{text}");
}

#[test]
fn what_is_written_is_what_the_repository_keeps() {
    let (_scratch, files) = started();
    let kept = Scratch::new();
    kept.copy(&top().join("theme/start"), "start");
    let kept = kept.files("start");
    assert!(kept.iter().all(|file| files.contains(file)));
    assert!(files.iter().all(|file| kept.contains(file) || file.0.starts_with('.')));
}

#[test]
fn every_file_teaches_its_form() {
    let (_scratch, files) = started();
    for folder in ["lessons", "terms", "recipes"] {
        let comments: usize = files
            .iter()
            .filter(|(name, _)| name.contains(folder))
            .map(|(_, bytes)| String::from_utf8_lossy(bytes).lines().filter(|line| line.starts_with("# ")).count())
            .sum();
        assert!(comments >= 4, "{folder}: {comments} comments");
    }
}

#[test]
fn no_bare_word_stands_for_three_things() {
    for (name, bytes) in started().1 {
        let text = String::from_utf8(bytes).expect("text").to_lowercase();
        for (at, _) in text.match_indices("accumulation") {
            let before = text[..at].trim_end_matches(['_', ' ', '\n', '*']);
            assert!(before.ends_with("opening"), "{name}: {before}");
        }
    }
}

#[test]
fn a_folder_that_is_not_empty_is_refused_without_a_yes() {
    let scratch = Scratch::new();
    scratch.write("course/notes.txt", "mine");
    let output = start(&scratch, &["course"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(output.stdout.is_empty());
    let text = said(&output);
    assert!(text.contains("course is not empty") && text.contains("--yes") && text.contains("course.yaml"), "{text}");
    assert_eq!(scratch.files("course"), [("notes.txt".to_owned(), b"mine".to_vec())]);
}

#[test]
fn a_yes_ahead_replaces_what_differs_and_leaves_the_rest() {
    let (scratch, files) = started();
    scratch.write("course/notes.txt", "mine");
    scratch.write("course/course.yaml", "title: mine");
    fs::remove_file(scratch.path("course/en/terms/seat.md")).expect("removed");
    let refused = start(&scratch, &["course"]);
    let text = said(&refused);
    assert_eq!(refused.status.code(), Some(2), "{text}");
    let (lost, new) = text.split_once("would be new").expect("two lists");
    assert!(lost.contains("course.yaml") && new.contains("en/terms/seat.md"), "{text}");
    assert!(!text.contains("disc.md"), "{text}");
    assert_eq!(fs::read(scratch.path("course/course.yaml")).expect("file"), b"title: mine");
    assert!(start(&scratch, &["course", "--yes"]).status.success());
    let after = scratch.files("course");
    assert!(files.iter().all(|file| after.contains(file)));
    assert_eq!(after.len(), files.len() + 1);
}

#[test]
fn the_same_again_writes_nothing() {
    let (scratch, files) = started();
    let output = start(&scratch, &["course"]);
    assert!(output.status.success() && said(&output).contains("Nothing to write"), "{}", said(&output));
    assert_eq!(scratch.files("course"), files);
}

#[cfg(unix)]
#[test]
fn no_symbolic_link_leads_out() {
    use std::os::unix::fs::symlink;
    for link in ["en", "en/terms", "course.yaml", "en/terms/seat.md"] {
        let scratch = Scratch::new();
        scratch.write("outside/seat.md", "mine");
        let at = scratch.path("course").join(link);
        fs::create_dir_all(at.parent().expect("folder")).expect("folder");
        let target = if link.contains('.') { "outside/seat.md" } else { "outside" };
        symlink(scratch.path(target), &at).expect("link");
        let output = start(&scratch, &["course", "--yes"]);
        assert_eq!(output.status.code(), Some(3), "{link}: {}", said(&output));
        assert!(said(&output).contains("symbolic link"), "{}", said(&output));
        assert_eq!(scratch.files("outside"), [("seat.md".to_owned(), b"mine".to_vec())], "{link}");
    }
}

#[test]
fn what_cannot_become_a_folder_is_told() {
    let scratch = Scratch::new();
    scratch.write("course", "a file");
    let output = start(&scratch, &["course", "--yes"]);
    assert_eq!(output.status.code(), Some(3), "{}", said(&output));
    scratch.write("other/course.yaml/x", "a folder");
    let output = start(&scratch, &["other", "--yes"]);
    assert_eq!(output.status.code(), Some(3), "{}", said(&output));
    assert!(!scratch.path("other/en").exists());
}

/// Runs the command with a terminal as its input and its messages, and types a line when it asks.
#[cfg(unix)]
fn on_a_terminal(scratch: &Scratch, line: &str) -> (Option<i32>, String) {
    use std::io::{Read, Write};
    use std::process::Stdio;

    use rustix::pty::{OpenptFlags, grantpt, openpt, ptsname, unlockpt};

    let master = openpt(OpenptFlags::RDWR | OpenptFlags::NOCTTY).expect("terminal");
    grantpt(&master).expect("terminal");
    unlockpt(&master).expect("terminal");
    let name = ptsname(&master, Vec::new()).expect("terminal").into_string().expect("name");
    let open = || fs::File::options().read(true).write(true).open(&name).expect("terminal");
    let mut command = command();
    command.current_dir(scratch.path("")).args(["start", "course"]);
    command.stdin(open()).stderr(open()).stdout(Stdio::null());
    let mut child = command.spawn().expect("command");
    drop(command);
    let mut master = fs::File::from(master);
    master.write_all(line.as_bytes()).expect("typed");
    let status = child.wait().expect("command");
    let mut seen = Vec::new();
    // Once the other side is closed, the terminal ends with an error.
    let _ = master.read_to_end(&mut seen);
    (status.code(), String::from_utf8_lossy(&seen).into_owned())
}

#[cfg(unix)]
#[test]
fn on_a_terminal_it_asks_and_takes_only_a_plain_yes() {
    for (line, status, replaced) in [("no\n", 2, false), ("\n", 2, false), ("y\n", 2, false), ("yes\n", 0, true)] {
        let scratch = Scratch::new();
        scratch.write("course/course.yaml", "title: mine");
        let (code, seen) = on_a_terminal(&scratch, line);
        assert_eq!(code, Some(status), "{line}: {seen}");
        assert!(seen.contains("would be lost") && seen.contains("Type yes"), "{seen}");
        let now = fs::read(scratch.path("course/course.yaml")).expect("file");
        assert_eq!(now != b"title: mine", replaced, "{line}");
        assert_eq!(scratch.path("course/en").exists(), replaced, "{line}");
    }
}
