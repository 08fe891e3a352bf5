//! How long it takes from saving a lesson until a window of the preview has the page with the change, for a course of a
//! hundred lessons with all recipes of the repository; and until Chromium, with that lesson open, has drawn it.
//!
//! By hand: `cargo build --release -p seatwork`, then `cargo bench -p seatwork-tests --bench watch`, with another number of
//! rounds behind `--`. Chromium needs Node and the packages of `tests/browser`, which `tests/run browser` takes.

#[path = "publish/course.rs"]
#[expect(dead_code, reason = "the benchmark of publish, which has the course in common, uses the rest")]
mod course;

use std::fs;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::Instant;

use seatwork_tests::{Scratch, Window, command, top};

use course::Kind;

const LESSONS: usize = 100;
/// At most so long (milliseconds).
const GOAL: f64 = 500.0;

fn main() {
    let rounds = std::env::args().find_map(|argument| argument.parse().ok()).unwrap_or(15);
    for kind in [Kind::Prose, Kind::Numbers] {
        let scratch = Scratch::new();
        let folder = scratch.path("course");
        fs::create_dir(&folder).expect("folder");
        course::make(&folder, kind, LESSONS);
        copy_recipes(&folder);
        let running = Running::of(&folder);
        println!("{LESSONS} lessons, {kind}, from saved");
        let mut window = Window::open(&running.address);
        report("to had", (0..rounds).map(|round| change(&scratch, &mut window, round)).collect());
        report("to drawn by Chromium", in_chromium(&running.address, &folder, rounds));
    }
}

/// Tells the median of some times (milliseconds), with the least and the greatest.
fn report(what: &str, mut times: Vec<f64>) {
    times.sort_by(f64::total_cmp);
    let (median, least, most) = (times[times.len() / 2], times[0], times[times.len() - 1]);
    let held = if median <= GOAL { "held" } else { "NOT HELD" };
    println!("  {what}: {median:.0} ms ({least:.0} .. {most:.0}); at most {GOAL}: {held}");
}

fn in_chromium(address: &str, folder: &Path, rounds: usize) -> Vec<f64> {
    let mut node = Command::new("node");
    node.arg(top().join("tests/bench/watch.mjs")).arg(address).arg(folder).arg(rounds.to_string()).arg(course::id(7));
    let output = node.stderr(Stdio::inherit()).output().expect("node");
    assert!(output.status.success(), "the browser failed");
    let text = String::from_utf8(output.stdout).expect("text");
    text.split_whitespace().map(|time| time.parse().expect("milliseconds")).collect()
}

fn copy_recipes(folder: &Path) {
    for entry in fs::read_dir(top().join("content/en/recipes")).expect("recipes") {
        let path = entry.expect("recipe").path();
        course::copy(&path, &folder.join("en/recipes").join(path.file_name().expect("name")));
    }
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

impl Drop for Running {
    fn drop(&mut self) {
        // It may have ended by itself.
        drop(self.command.kill());
        drop(self.command.wait());
    }
}

fn change(scratch: &Scratch, window: &mut Window, round: usize) -> f64 {
    let id = course::id(round % LESSONS);
    let file = scratch.path(&format!("course/en/lessons/{id}.md"));
    let line = format!("Change number {round} stands at the end.");
    let text = format!("{}\n{line}\n", fs::read_to_string(&file).expect("lesson"));
    fs::write(scratch.path("beside"), text).expect("file");
    let start = Instant::now();
    fs::rename(scratch.path("beside"), file).expect("saved");
    window.hear();
    let page = window.get(&format!("/site/en/lessons/{id}.html"));
    let time = start.elapsed().as_secs_f64() * 1e3;
    assert!(page.text().contains(&line));
    time
}
