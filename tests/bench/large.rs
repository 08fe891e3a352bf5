//! What publishing takes beside cmark, a program that turns Markdown into HTML and does nothing else, on the same text:
//! the course's own lessons a hundred times over, of which one was changed. Then a thousand times over, for how time and
//! memory grow; and the course itself with everything proven afresh.
//!
//! By hand, with the command built for release: `cargo build --release -p seatwork`, then
//! `cargo bench -p seatwork-tests --bench large`, with another number of rounds behind `--` where five are not wanted.
//! Everything is done in memory where there is a folder for that. All that is compared runs in turn, each as a program of
//! its own, and what is told are ratios of medians. Beside the time that passed is the time of all processors
//! together, which says more on a machine that does other work too.

#[path = "large/lessons.rs"]
mod lessons;
#[path = "large/runs.rs"]
mod runs;

use std::path::{Path, PathBuf};
use std::process::Command;

use lessons::Lessons;
use runs::{Medians, Run};
use seatwork_tests::{Scratch, command, top};

/// A folder in memory, where the system has one.
const IN_MEMORY: &str = "/dev/shm";

/// The lessons of the course, a hundred times over.
const MANY: usize = 100;
/// A lesson was changed, and the proof is remembered: at most so many times as long as cmark.
const CHANGED: f64 = 3.0;
/// The course itself, proven afresh: at most so many times as long as cmark takes for it a hundred times over.
const AFRESH: f64 = 1.5;
/// At most so many times as long for ten times as many lessons.
const LONGER: f64 = 11.0;
/// The most memory (megabytes).
const MEMORY: f64 = 1000.0;
/// What has not changed takes at most this share of the time of what has.
const AGAIN: f64 = 0.5;

fn main() {
    let rounds = std::env::args().find_map(|argument| argument.parse().ok()).unwrap_or(5);
    let folder = Path::new(IN_MEMORY);
    let folder = if folder.is_dir() { folder.to_owned() } else { std::env::temp_dir() };
    println!("in {}, {rounds} rounds in turn; medians", folder.display());
    let many = beside_cmark(&folder, rounds);
    let most = Publishing::new(&folder, 10 * MANY).changed(rounds.min(3));
    println!("{} lessons: {most}", 10 * MANY * lessons::COURSE);
    held("memory", most.memory, MEMORY, "MB");
    beside("ten times as many lessons", [&most, &many], LONGER, "times as long");
}

/// Compares with cmark; gives what the lessons a hundred times over took.
fn beside_cmark(folder: &Path, rounds: usize) -> Medians {
    let many = Publishing::new(folder, MANY);
    let (mut cmark, mut changed, mut again, mut afresh) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    for round in 0..rounds {
        cmark.extend(many.cmark());
        changed.push(many.publish_changed(round));
        again.push(many.publish());
        afresh.push(many.publish_course_afresh());
    }
    let [changed, again, afresh] = [changed, again, afresh].map(Medians::of);
    println!("{} lessons, one changed: {changed}", MANY * lessons::COURSE);
    println!("the same without a change: {again}");
    println!("the course, proven afresh: {afresh}");
    held("without a change", again.seconds / changed.seconds, AGAIN, "of it");
    if cmark.len() < rounds {
        println!("cmark is not installed: nothing to compare with");
        return changed;
    }
    let cmark = Medians::of(cmark);
    println!("cmark, {} lessons: {cmark}", MANY * lessons::COURSE);
    for (what, took, most) in [("one lesson changed", &changed, CHANGED), ("proven afresh", &afresh, AFRESH)] {
        beside(what, [took, &cmark], most, "times cmark");
    }
    changed
}

/// Tells what took how many times as long as what, and whether that is within its limit.
fn beside(what: &str, [one, other]: [&Medians; 2], most: f64, unit: &str) {
    held(what, one.seconds / other.seconds, most, unit);
    println!("  by the time of processors {:.2}", one.processors / other.processors);
}

/// Tells whether a number is within its limit.
fn held(what: &str, found: f64, most: f64, unit: &str) {
    let held = if found <= most { "held" } else { "NOT HELD" };
    println!("{what}: {found:.2} {unit}, at most {most}: {held}");
}

/// The lessons of the course a number of times over, and their site.
struct Publishing {
    scratch: Scratch,
    lessons: Lessons,
    site: PathBuf,
}

impl Publishing {
    /// Makes the course, and publishes it once, so that its proof is remembered.
    fn new(folder: &Path, times: usize) -> Self {
        let scratch = Scratch::within(folder);
        let lessons = Lessons::make(&scratch.path("course"), times);
        let publishing = Self { site: scratch.path("site"), scratch, lessons };
        publishing.publish();
        publishing
    }

    /// Publishes so often with another lesson text each time.
    fn changed(&self, rounds: usize) -> Medians {
        Medians::of((0..rounds).map(|round| self.publish_changed(round)).collect())
    }

    fn publish_changed(&self, round: usize) -> Run {
        self.lessons.change(round);
        self.publish()
    }

    fn publish(&self) -> Run {
        Run::of(self.seatwork(&self.scratch.path("course"), &self.site))
    }

    fn publish_course_afresh(&self) -> Run {
        let mut command = self.seatwork(&top().join("content"), &self.scratch.path("own-site"));
        command.arg("--afresh");
        Run::of(command)
    }

    /// The command, with a memory of its own.
    fn seatwork(&self, course: &Path, site: &Path) -> Command {
        let mut command = command();
        command.env("SEATWORK_CACHE", self.scratch.path("cache"));
        command.arg("publish").arg("--course").arg(course).arg("--to").arg(site);
        command
    }

    /// The texts of all lessons in one run of cmark; `None` where it is not installed.
    fn cmark(&self) -> Option<Run> {
        let mut command = Command::new("cmark");
        command.args(self.lessons.files());
        Run::try_of(command)
    }
}
