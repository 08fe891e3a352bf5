//! A build that is killed never leaves half a site.
//!
//! The command is killed before each of its system calls that change a file, one run for each. Every time, what is
//! at the target must be the whole old site or the whole new one, byte for byte, and the next build must work.
#![cfg(target_os = "linux")]

mod course;
mod strace;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Mutex;
use std::thread;

use course::Edition;
use strace::{Exchange, Point};

/// The files of a site, by relative name.
type Site = BTreeMap<PathBuf, Vec<u8>>;

/// A course in two editions and the sites they give.
struct Trial {
    scratch: tempfile::TempDir,
    old: Site,
    new: Site,
}

/// What was found at the target after the kills.
#[derive(Debug, Default, PartialEq)]
struct Found {
    old: usize,
    new: usize,
    nothing: usize,
}

impl Trial {
    fn new() -> Self {
        let scratch = tempfile::tempdir().expect("a scratch folder");
        let mut trial = Self { scratch, old: Site::new(), new: Site::new() };
        for edition in [Edition::Old, Edition::New] {
            course::make(&trial.course(edition), edition);
        }
        trial.old = trial.build("old", Edition::Old);
        trial.new = trial.build("new", Edition::New);
        let differing = trial.old.iter().filter(|(name, text)| trial.new.get(*name) != Some(*text)).count();
        assert!(differing > 0 && trial.old != trial.new, "the two editions must differ");
        trial
    }

    fn course(&self, edition: Edition) -> PathBuf {
        self.scratch.path().join(format!("course-{edition:?}"))
    }

    /// A target alone in a folder of its own.
    fn target(&self, name: &str) -> PathBuf {
        self.scratch.path().join(name).join("site")
    }

    fn publish(&self, edition: Edition, target: &Path) -> Command {
        let mut command = seatwork_tests::command();
        command.arg("publish").arg("--course").arg(self.course(edition)).arg("--to").arg(target);
        command
    }

    fn build(&self, name: &str, edition: Edition) -> Site {
        let target = self.target(name);
        succeed(&mut self.publish(edition, &target));
        read(&target).expect("a site")
    }

    /// Kills a build of the new edition at every point that is chosen, beginning each time from `before`.
    fn kill_everywhere(&self, before: Option<&Site>, exchange: Exchange) -> Found {
        let target = self.target("recorded");
        reset(&target, before);
        let log = self.scratch.path().join("log");
        let points = strace::record(&self.publish(Edition::New, &target), exchange, &log);
        assert!(points.len() > 2 * self.new.len(), "each file is opened and written: {points:?}");
        let chosen = strace::some(&points);
        let next = Mutex::new(chosen.iter());
        let found = Mutex::new(Found::default());
        thread::scope(|scope| {
            for worker in 0..thread::available_parallelism().map_or(1, usize::from) {
                let target = self.target(&format!("{worker:08}"));
                let (next, found) = (&next, &found);
                scope.spawn(move || {
                    // A panic elsewhere ends this worker as well.
                    while let Some(point) = next.lock().ok().and_then(|mut next| next.next()) {
                        let site = self.kill_at(point, before, exchange, &target);
                        let mut found = found.lock().expect("no worker has failed");
                        if site.is_none() {
                            found.nothing += 1;
                        } else if site.as_ref() == before {
                            found.old += 1;
                        } else {
                            assert!(site.as_ref() == Some(&self.new), "half a site after a kill at {point:?}");
                            found.new += 1;
                        }
                    }
                });
            }
        });
        found.into_inner().expect("no worker has failed")
    }

    /// Kills one build, gives what is at the target, and makes sure that the next build works.
    fn kill_at(&self, point: &Point, before: Option<&Site>, exchange: Exchange, target: &Path) -> Option<Site> {
        reset(target, before);
        strace::kill(&self.publish(Edition::New, target), exchange, point);
        let site = read(target);
        succeed(&mut self.publish(Edition::New, target));
        assert!(read(target).as_ref() == Some(&self.new), "the next build after a kill at {point:?}");
        assert_eq!(beside(target), ["site"], "left beside the site after a kill at {point:?}");
        site
    }
}

/// Runs a command that must end well.
fn succeed(command: &mut Command) {
    let output = command.output().expect("the command runs");
    assert!(output.status.success(), "{command:?}: {}", String::from_utf8_lossy(&output.stderr));
}

/// All files under a folder; nothing if there is no folder.
fn read(folder: &Path) -> Option<Site> {
    let mut site = Site::new();
    let mut folders = vec![folder.to_path_buf()];
    while let Some(next) = folders.pop() {
        for entry in fs::read_dir(&next).ok()? {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
            } else {
                let name = path.strip_prefix(folder).expect("a file inside").to_path_buf();
                site.insert(name, fs::read(&path).expect("a file that can be read"));
            }
        }
    }
    Some(site)
}

/// Clears the folder around a target and puts a site there, or none.
fn reset(target: &Path, site: Option<&Site>) {
    let around = target.parent().expect("a folder around the target");
    if around.exists() {
        fs::remove_dir_all(around).expect("the folder goes");
    }
    fs::create_dir_all(around).expect("the folder is made");
    for (name, text) in site.into_iter().flatten() {
        let path = target.join(name);
        fs::create_dir_all(path.parent().expect("a folder around the file")).expect("the folder is made");
        fs::write(path, text).expect("the file is written");
    }
}

/// The names in the folder around a target.
fn beside(target: &Path) -> Vec<String> {
    let entries = fs::read_dir(target.parent().expect("a folder around the target")).expect("a folder");
    entries.map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned()).collect()
}

#[test]
fn a_killed_build_leaves_a_whole_site() {
    if !strace::is_here() {
        return;
    }
    let trial = Trial::new();

    let found = trial.kill_everywhere(Some(&trial.old), Exchange::AtOnce);
    assert!(found.old > 0 && found.new > 0, "killed before and after the exchange: {found:?}");
    assert_eq!(found.nothing, 0, "the site is never missing: {found:?}");

    // Without the exchange there is one moment without a site: after the old one has moved out. The build after a kill
    // there works, as it does after all others.
    let found = trial.kill_everywhere(Some(&trial.old), Exchange::Refused);
    assert!(found.old > 0 && found.new > 0, "killed before and after the exchange: {found:?}");
    assert_eq!(found.nothing, 1, "killed between the two moves: {found:?}");

    let found = trial.kill_everywhere(None, Exchange::AtOnce);
    assert!(found.nothing > 0 && found.new > 0, "killed before and after the first site stands: {found:?}");
}

#[test]
fn builds_at_the_same_time_all_end_well() {
    let trial = Trial::new();
    let target = trial.target("shared");
    thread::scope(|scope| {
        for edition in [Edition::Old, Edition::New, Edition::Old, Edition::New] {
            let (trial, target) = (&trial, &target);
            scope.spawn(move || succeed(&mut trial.publish(edition, target)));
        }
    });
    let site = read(&target).expect("a site");
    assert!(site == trial.old || site == trial.new, "a mixture of two sites");
    assert_eq!(beside(&target), ["site"]);
}
