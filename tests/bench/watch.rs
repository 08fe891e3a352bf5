//! How long it takes from saving a lesson until a window of the preview has the bytes of its page, for courses of a thousand
//! lessons; and until Chromium, with that lesson open, has drawn it.
//!
//! By hand: `cargo build --release -p seatwork`, then `cargo bench -p seatwork-tests --bench watch`, with another number of
//! rounds behind `--`. Chromium needs Node and the packages of `tests/browser`, which `tests/run browser` takes; without
//! them it is left out.

#[path = "publish/course.rs"]
mod course;
#[path = "publish/repeated.rs"]
mod repeated;

use std::fs;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::Instant;

use seatwork_tests::{Scratch, Window, command, top};

use course::Kind;

/// How often the ten lessons of the course in the repository are taken.
const TIMES: usize = 100;
/// At most so long (milliseconds).
const GOAL: f64 = 500.0;

fn main() {
    let rounds = std::env::args().find_map(|argument| argument.parse().ok()).unwrap_or(15);
    measure("those of the course, a hundred times", rounds, |scratch| repeated::make(scratch, "course", TIMES));
    for kind in [Kind::Prose, Kind::Numbers] {
        measure(&kind.to_string(), rounds, |scratch| made(scratch, kind));
    }
}

/// Measures a course, which `make` writes; it gives the ids of the lessons.
fn measure(what: &str, rounds: usize, make: impl Fn(&Scratch) -> Vec<String>) {
    let scratch = Scratch::new();
    let lessons = make(&scratch);
    let start = Instant::now();
    let running = Running::of(&scratch.path("course"));
    println!("{} lessons, {what}: {:.0} ms until the first page is served", lessons.len(), ms(start));
    let mut window = Window::open(&running.address);
    // Not the same lesson twice running, and not its neighbour.
    let lesson = |round: usize| lessons[round * 37 % lessons.len()].as_str();
    let before = running.processor_time();
    let times = (0..rounds).map(|round| change(&scratch, &mut window, lesson(round), round)).collect();
    report("from saved to served", times);
    if let (Some(before), Some(after)) = (before, running.processor_time()) {
        let each = (after - before) / f64::from(u32::try_from(rounds).unwrap_or(1));
        println!(
            "    of processor time {each:.0} ms a change, which counts where the machine is busy with other things"
        );
    }
    if top().join("tests/browser/node_modules").is_dir() {
        report("to drawn by Chromium", in_chromium(&running.address, &scratch.path("course"), rounds, lesson(0)));
    } else {
        println!("  to drawn by Chromium: not measured, because tests/browser has no packages");
    }
}

/// A made course of a thousand lessons.
fn made(scratch: &Scratch, kind: Kind) -> Vec<String> {
    let folder = scratch.path("course");
    fs::create_dir(&folder).expect("folder");
    course::make(&folder, kind, course::LESSONS);
    for entry in fs::read_dir(top().join("content/en/recipes")).expect("recipes") {
        let path = entry.expect("recipe").path();
        course::copy(&path, &folder.join("en/recipes").join(path.file_name().expect("name")));
    }
    (0..course::LESSONS).map(course::id).collect()
}

/// Since a moment (milliseconds).
fn ms(since: Instant) -> f64 {
    since.elapsed().as_secs_f64() * 1e3
}

/// Tells the median of some times (milliseconds), with the least and the greatest.
fn report(what: &str, mut times: Vec<f64>) {
    times.sort_by(f64::total_cmp);
    let (median, least, most) = (times[times.len() / 2], times[0], times[times.len() - 1]);
    let held = if median <= GOAL { "held" } else { "NOT HELD" };
    println!("  {what}: {median:.0} ms ({least:.0} .. {most:.0}); at most {GOAL}: {held}");
}

fn in_chromium(address: &str, folder: &Path, rounds: usize, lesson: &str) -> Vec<f64> {
    let mut node = Command::new("node");
    node.arg(top().join("tests/bench/watch.mjs")).arg(address).arg(folder).arg(rounds.to_string()).arg(lesson);
    let output = node.stderr(Stdio::inherit()).output().expect("node");
    assert!(output.status.success(), "the browser failed");
    let text = String::from_utf8(output.stdout).expect("text");
    text.split_whitespace().map(|time| time.parse().expect("milliseconds")).collect()
}

/// The command at work; ended with the benchmark.
struct Running {
    command: Child,
    address: String,
}

impl Running {
    fn of(folder: &Path) -> Self {
        let mut command = command();
        command.args(["watch", "--port", "0", "--course"]).arg(folder).stdout(Stdio::piped());
        let mut command = command.spawn().expect("command");
        let mut lines = BufReader::new(command.stdout.take().expect("output")).lines().map(|line| line.expect("line"));
        let address = lines.find_map(|line| Some(line.split(' ').find(|word| word.starts_with("http://"))?.to_owned()));
        // What it says later must find somebody who reads.
        thread::spawn(move || lines.for_each(drop));
        Self { command, address: address.expect("address") }
    }
}

impl Running {
    /// The processor time that it has taken so far (milliseconds), where the system says so.
    fn processor_time(&self) -> Option<f64> {
        let stat = fs::read_to_string(format!("/proc/{}/stat", self.command.id())).ok()?;
        // After the name in brackets, the 12th and 13th field: the time in the program and in the system, in hundredths of a
        // second.
        let (_, fields) = stat.rsplit_once(')')?;
        let ticks: f64 = fields.split_whitespace().skip(11).take(2).filter_map(|field| field.parse::<f64>().ok()).sum();
        Some(ticks * 10.0)
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        // It may have ended by itself.
        drop(self.command.kill());
        drop(self.command.wait());
    }
}

/// Saves a lesson with another line, as most editors do; gives the time until its page has the line (milliseconds).
fn change(scratch: &Scratch, window: &mut Window, lesson: &str, round: usize) -> f64 {
    let file = scratch.path(&format!("course/en/lessons/{lesson}.md"));
    let line = format!("Change number {round} is at the end.");
    let text = format!("{}\n{line}\n", fs::read_to_string(&file).expect("lesson"));
    fs::write(scratch.path("beside"), text).expect("file");
    let start = Instant::now();
    fs::rename(scratch.path("beside"), file).expect("saved");
    window.hear();
    let page = window.get(&format!("/site/en/lessons/{lesson}.html"));
    let time = ms(start);
    assert!(page.text().contains(&line));
    time
}
