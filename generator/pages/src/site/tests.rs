//! The writer as a whole, both ways of exchanging.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

use tempfile::TempDir;

use super::exchange::{Exchange, ExchangeFolders, JOURNAL_STEPS, at_once};
use super::places::Places;
use super::{GIT_IGNORE_NAME, GIT_IGNORE_TEXT, MARKER_NAME, MARKER_TEXT, SiteError, SiteWriter, Written};

const WAYS: [ExchangeFolders; 2] = [at_once, unsupported];

fn unsupported(_one: &Path, _other: &Path) -> io::Result<Exchange> {
    Ok(Exchange::Unsupported)
}

/// A scratch folder and a target in it.
fn scratch() -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let target = folder.path().join("site");
    (folder, target)
}

fn never() {
    panic!("nobody else builds here");
}

fn build(target: &Path, exchange: ExchangeFolders, files: &[(&str, &str)]) -> Result<Written, SiteError> {
    let writer = SiteWriter::begin_with(target, &never, exchange)?;
    for (name, text) in files {
        writer.file(name, text.as_bytes())?;
    }
    writer.finish()
}

/// All files under a folder, by relative name.
fn read(folder: &Path) -> BTreeMap<String, String> {
    let mut files = BTreeMap::new();
    let mut folders = vec![folder.to_path_buf()];
    while let Some(next) = folders.pop() {
        for entry in fs::read_dir(next).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else {
                let name = path.strip_prefix(folder).unwrap().to_str().unwrap().replace('\\', "/");
                files.insert(name, fs::read_to_string(&path).unwrap());
            }
        }
    }
    files
}

/// What a site of these files holds.
fn site(files: &[(&str, &str)]) -> BTreeMap<String, String> {
    let mut names: Vec<_> = files.iter().map(|(name, _)| *name).chain([MARKER_NAME, GIT_IGNORE_NAME]).collect();
    names.sort_by_key(|name| name.to_lowercase());
    let marker = format!("{MARKER_TEXT}{}\n", names.join("\n"));
    let own = [(MARKER_NAME, marker.as_str()), (GIT_IGNORE_NAME, GIT_IGNORE_TEXT)];
    own.iter().chain(files).map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect()
}

/// The names in the folder that holds the target.
fn beside(target: &Path) -> Vec<String> {
    let entries = fs::read_dir(target.parent().unwrap()).unwrap();
    let mut names: Vec<_> = entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

const OLD: [(&str, &str); 3] = [("index.html", "old"), ("en/lessons/gone.html", "old"), ("z/a.js", "same")];
const NEW: [(&str, &str); 3] = [("index.html", "new"), ("en/terms/index.html", "new"), ("z/a.js", "same")];

#[test]
fn a_site_is_written_and_replaced_and_nothing_is_left_beside_it() {
    for exchange in WAYS {
        let (_scratch, target) = scratch();
        let written = build(&target, exchange, &OLD).unwrap();
        let bytes = site(&OLD).values().map(|text| text.len() as u64).sum();
        assert_eq!(written, Written { files: 5, bytes });
        assert_eq!(read(&target), site(&OLD));
        build(&target, exchange, &NEW).unwrap();
        assert_eq!(read(&target), site(&NEW));
        assert_eq!(beside(&target), ["site"]);
    }
}

#[test]
fn folders_above_the_target_are_made() {
    let (_scratch, target) = scratch();
    let deep = target.join("en").join("course");
    build(&deep, at_once, &NEW).unwrap();
    assert_eq!(read(&deep), site(&NEW));
}

#[test]
fn an_unfinished_site_leaves_no_trace() {
    for exchange in WAYS {
        let (_scratch, target) = scratch();
        build(&target, exchange, &OLD).unwrap();
        let writer = SiteWriter::begin_with(&target, &never, exchange).unwrap();
        writer.file("index.html", b"new").unwrap();
        drop(writer);
        assert_eq!(read(&target), site(&OLD));
        assert_eq!(beside(&target), ["site"]);
    }
}

#[test]
fn a_site_that_lacks_a_file_is_not_finished() {
    let (_scratch, target) = scratch();
    let writer = SiteWriter::begin(&target, &never).unwrap();
    assert!(matches!(writer.file("../x", b""), Err(SiteError::BadName { .. })));
    assert!(matches!(writer.finish(), Err(SiteError::Incomplete { .. })));
    assert_eq!(beside(&target), Vec::<String>::new());
}

#[test]
fn the_writers_own_files_cannot_be_replaced() {
    for name in [MARKER_NAME, GIT_IGNORE_NAME] {
        let (_scratch, target) = scratch();
        let writer = SiteWriter::begin(&target, &never).unwrap();
        assert!(matches!(writer.file(name, b""), Err(SiteError::RepeatedName { .. })));
    }
}

#[test]
fn an_empty_or_a_freshly_checked_out_folder_is_used() {
    for git_ignore in [None, Some(GIT_IGNORE_TEXT), Some("*\r\n!.gitignore\r\n")] {
        let (_scratch, target) = scratch();
        fs::create_dir(&target).unwrap();
        if let Some(text) = git_ignore {
            fs::write(target.join(GIT_IGNORE_NAME), text).unwrap();
        }
        build(&target, at_once, &NEW).unwrap();
        assert_eq!(read(&target), site(&NEW));
    }
}

#[test]
fn a_folder_that_is_not_ours_is_left_alone() {
    let cases = [("notes.txt", "mine"), (GIT_IGNORE_NAME, "*.o\n"), (MARKER_NAME, "format: 2\n"), ("a/b", "mine")];
    for exchange in WAYS {
        for case in cases {
            let (_scratch, target) = scratch();
            let path = target.join(case.0);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, case.1).unwrap();
            assert!(matches!(build(&target, exchange, &NEW), Err(SiteError::NotOurs { .. })));
            assert_eq!(read(&target).len(), 1);
            assert_eq!(beside(&target), ["site"]);
        }
    }
}

#[test]
fn a_site_that_holds_files_of_somebody_is_left_alone() {
    for exchange in WAYS {
        let (_scratch, target) = scratch();
        build(&target, exchange, &OLD).unwrap();
        for name in ["photos/rv3.jpg", "en/lessons/mine.pdf", ".htaccess"] {
            let path = target.join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(&path, "mine").unwrap();
            let error = build(&target, exchange, &NEW).unwrap_err();
            assert!(matches!(&error, SiteError::Added { first, more: 0, .. } if first == name), "{error}");
            assert_eq!(fs::read_to_string(&path).unwrap(), "mine");
            fs::remove_file(path).unwrap();
        }
        // What systems leave in folders by themselves is nobody's.
        fs::write(target.join("en/Thumbs.db"), "").unwrap();
        fs::write(target.join(".DS_Store"), "").unwrap();
        build(&target, exchange, &NEW).unwrap();
        assert_eq!(read(&target), site(&NEW));
    }
}

#[test]
fn a_site_of_before_its_files_were_listed_is_replaced() {
    let (_scratch, target) = scratch();
    build(&target, at_once, &OLD).unwrap();
    fs::write(target.join(MARKER_NAME), "format: 1\r\n").unwrap();
    build(&target, at_once, &NEW).unwrap();
    assert_eq!(read(&target), site(&NEW));
}

#[test]
fn a_target_that_stops_being_ours_during_the_build_is_left_alone() {
    for exchange in WAYS {
        let (_scratch, target) = scratch();
        let writer = SiteWriter::begin_with(&target, &never, exchange).unwrap();
        fs::create_dir(&target).unwrap();
        fs::write(target.join("notes.txt"), "mine").unwrap();
        assert!(matches!(writer.finish(), Err(SiteError::NotOurs { .. })));
        assert_eq!(read(&target).len(), 1);
        assert_eq!(beside(&target), ["site"]);
    }
}

#[test]
fn a_work_folder_that_is_not_ours_is_left_alone() {
    let (_scratch, target) = scratch();
    let mine = target.with_file_name(".site-work").join("next");
    fs::create_dir_all(&mine).unwrap();
    fs::write(mine.join("notes.txt"), "mine").unwrap();
    assert!(matches!(build(&target, at_once, &NEW), Err(SiteError::NotOurs { .. })));
    assert_eq!(read(&mine).len(), 1);
}

#[test]
fn a_file_at_the_target_is_refused() {
    let (_scratch, target) = scratch();
    fs::write(&target, "mine").unwrap();
    assert!(matches!(build(&target, at_once, &NEW), Err(SiteError::NotAFolder { .. })));
    assert_eq!(beside(&target), ["site"]);
}

#[test]
fn a_target_without_a_name_is_refused() {
    for target in ["/", ".", "..", "a/.."] {
        assert!(matches!(build(Path::new(target), at_once, &NEW), Err(SiteError::NoName { .. })), "{target}");
    }
}

#[test]
fn a_refusal_of_the_system_is_told_with_the_path() {
    let (_scratch, target) = scratch();
    fs::write(&target, "a file where a folder is needed").unwrap();
    let error = build(&target.join("below"), at_once, &NEW).unwrap_err();
    assert!(matches!(&error, SiteError::Io { path, .. } if path.starts_with(&target)), "{error}");
}

#[cfg(unix)]
#[test]
fn a_link_at_the_target_is_refused() {
    let (_scratch, target) = scratch();
    let real = target.with_file_name("real");
    build(&real, at_once, &OLD).unwrap();
    for points_at in [real.as_path(), Path::new("nowhere")] {
        std::os::unix::fs::symlink(points_at, &target).unwrap();
        for spelling in [target.clone(), target.join(""), target.join(".")] {
            assert!(matches!(build(&spelling, at_once, &NEW), Err(SiteError::Symlink { .. })));
        }
        fs::remove_file(&target).unwrap();
    }
    assert_eq!(read(&real), site(&OLD));
}

/// Writes a folder as a build would have left it.
fn leave(folder: &Path, files: &BTreeMap<String, String>) {
    for (name, text) in files {
        let path = folder.join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }
}

/// A target with the old site, and a killed build's work folder with the new one.
fn staged() -> (TempDir, Places) {
    let (folder, target) = scratch();
    let places = Places::of(&target).unwrap();
    leave(&places.target, &site(&OLD));
    leave(&places.next, &site(&NEW));
    fs::write(&places.lock, "").unwrap();
    (folder, places)
}

#[test]
fn half_a_staged_site_is_thrown_away() {
    for exchange in WAYS {
        let (_scratch, places) = staged();
        fs::remove_file(places.next.join("index.html")).unwrap();
        drop(SiteWriter::begin_with(&places.target, &never, exchange).unwrap());
        assert_eq!(read(&places.target), site(&OLD));
        assert_eq!(beside(&places.target), ["site"]);
    }
}

#[test]
fn the_journal_is_taken_up_after_every_step() {
    for steps_done in 0..=JOURNAL_STEPS.len() {
        let (_scratch, places) = staged();
        for step in &JOURNAL_STEPS[..steps_done] {
            step(&places).unwrap();
        }
        let expected = if steps_done < 2 { site(&OLD) } else { site(&NEW) };
        assert_eq!(places.target.exists(), steps_done != 2);
        drop(SiteWriter::begin(&places.target, &never).unwrap());
        assert_eq!(read(&places.target), expected, "after {steps_done} steps");
        assert_eq!(beside(&places.target), ["site"]);
    }
}

/// Every state of the work folder, those a build never leaves included: a whole site that a journal speaks of is
/// never lost while the target is empty, and the next build always works.
#[test]
fn every_state_of_the_work_folder_is_settled() {
    for state in 0..16_u8 {
        let (_scratch, places) = staged();
        let has = |bit: u8| state & (1 << bit) != 0;
        let (target, next, old, journal) = (has(0), has(1), has(2), has(3));
        if old {
            leave(&places.old, &site(&OLD));
        }
        for (wanted, folder) in [(target, &places.target), (next, &places.next)] {
            if !wanted {
                fs::remove_dir_all(folder).unwrap();
            }
        }
        if journal {
            fs::write(&places.journal, "").unwrap();
        }
        drop(SiteWriter::begin(&places.target, &never).unwrap());
        let expected = match (target, journal, next, old) {
            (true, ..) | (false, true, false, true) => Some(site(&OLD)),
            (false, true, true, _) => Some(site(&NEW)),
            _ => None,
        };
        assert_eq!(places.target.exists().then(|| read(&places.target)), expected, "state {state:04b}");
        build(&places.target, unsupported, &NEW).unwrap();
        assert_eq!(read(&places.target), site(&NEW));
        assert_eq!(beside(&places.target), ["site"]);
    }
}

/// Killed between the two moves, and then somebody puts a folder of their own at the target.
#[test]
fn a_refusal_keeps_what_a_killed_build_left() {
    let (_scratch, places) = staged();
    for step in &JOURNAL_STEPS[..2] {
        step(&places).unwrap();
    }
    fs::create_dir(&places.target).unwrap();
    fs::write(places.target.join("notes.txt"), "mine").unwrap();
    assert!(matches!(build(&places.target, at_once, &NEW), Err(SiteError::NotOurs { .. })));
    assert_eq!((read(&places.old), read(&places.next)), (site(&OLD), site(&NEW)));
    fs::remove_dir_all(&places.target).unwrap();
    drop(SiteWriter::begin(&places.target, &never).unwrap());
    assert_eq!(read(&places.target), site(&NEW));
}

#[test]
fn an_exchange_that_fails_leaves_the_old_site() {
    let refused: ExchangeFolders = |_, _| Err(io::ErrorKind::PermissionDenied.into());
    // Takes the staged site away, so that the journal's last step fails.
    let robbed: ExchangeFolders = |next, _| fs::remove_dir_all(next).map(|()| Exchange::Unsupported);
    for exchange in [refused, robbed] {
        let (_scratch, target) = scratch();
        build(&target, at_once, &OLD).unwrap();
        assert!(matches!(build(&target, exchange, &NEW), Err(SiteError::Io { .. })));
        assert_eq!(read(&target), site(&OLD));
        assert_eq!(beside(&target), ["site"]);
    }
}

#[test]
fn the_second_of_two_builds_waits_for_the_first() {
    let (_scratch, target) = scratch();
    let first = SiteWriter::begin(&target, &never).unwrap();
    first.file("index.html", b"first").unwrap();
    let (said, heard) = mpsc::channel();
    let second_target = target.clone();
    let second = thread::spawn(move || {
        let second = SiteWriter::begin(&second_target, &|| said.send(()).unwrap()).unwrap();
        let found = read(&second_target);
        second.file("index.html", b"second").unwrap();
        second.finish().unwrap();
        found
    });
    heard.recv_timeout(Duration::from_secs(60)).expect("the second build says that it waits");
    first.finish().unwrap();
    assert_eq!(second.join().unwrap(), site(&[("index.html", "first")]));
    assert!(heard.recv().is_err(), "it says so once");
    assert_eq!(read(&target), site(&[("index.html", "second")]));
    assert_eq!(beside(&target), ["site"]);
}

#[test]
fn many_builds_at_once_all_end_well() {
    let (_scratch, target) = scratch();
    thread::scope(|scope| {
        for exchange in [at_once, unsupported, at_once, unsupported] {
            let target = &target;
            scope.spawn(move || {
                for _ in 0..50 {
                    let writer = SiteWriter::begin_with(target, &|| {}, exchange).unwrap();
                    writer.file("en/index.html", b"a page").unwrap();
                    writer.finish().unwrap();
                }
            });
        }
    });
    assert_eq!(read(&target), site(&[("en/index.html", "a page")]));
    assert_eq!(beside(&target), ["site"]);
}

#[test]
fn a_full_disk_is_told_with_what_to_do() {
    let told =
        |kind: io::ErrorKind| SiteError::Io { path: "site".into(), doing: "write", source: kind.into() }.to_string();
    assert!(told(io::ErrorKind::StorageFull).contains("Make room, or publish to another disk"));
    assert!(!told(io::ErrorKind::PermissionDenied).contains("room"));
}

#[test]
fn a_file_is_copied_in_pieces_and_must_hold_what_was_checked() {
    let (scratch, target) = scratch();
    build(&target, at_once, &OLD).unwrap();
    let film = scratch.path().join("pop.mp4");
    let bytes = b"film".repeat(100_000);
    fs::write(&film, &bytes).unwrap();
    let (digest, _) = course::copy(&mut bytes.as_slice(), &mut io::sink()).unwrap();
    let writer = SiteWriter::begin(&target, &never).unwrap();
    fs::write(&film, b"another").unwrap();
    assert!(matches!(writer.copy("pop.mp4", &film, &digest), Err(SiteError::Changed { .. })));
    assert!(matches!(writer.finish(), Err(SiteError::Incomplete { .. })));
    assert_eq!(read(&target), site(&OLD));
    fs::write(&film, &bytes).unwrap();
    let writer = SiteWriter::begin(&target, &never).unwrap();
    writer.copy("pop.mp4", &film, &digest).unwrap();
    assert!(writer.finish().unwrap().bytes > bytes.len() as u64);
    assert_eq!(fs::read(target.join("pop.mp4")).unwrap(), bytes);
}
