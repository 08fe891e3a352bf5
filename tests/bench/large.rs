//! What a large course takes: the time of ten thousand lessons beside that of a thousand, the most memory that either
//! holds, and the time to publish again what has not changed.
//!
//! By hand, with the command built for release: `cargo build --release -p seatwork`, then
//! `cargo bench -p seatwork-tests --bench large`. Each publish is a run of the command of its own, with a memory of its
//! own, so that nothing is left over from the one before; what is told is the median of three.

#[path = "publish/course.rs"]
mod course;

use std::fs;
use std::path::Path;
use std::process::{Child, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use course::Kind;
use seatwork_tests::Scratch;

const ROUNDS: usize = 3;
/// At most so many times as long for ten times as much.
const LONGER: f64 = 11.0;
/// The most memory, in megabytes.
const MEMORY: f64 = 1000.0;
/// What has not changed takes at most this share of the first time.
const AGAIN: f64 = 0.5;

fn main() {
    let [small, large] = [course::LESSONS, 10 * course::LESSONS].map(measure);
    let ratio = large.first / small.first;
    println!("ten times as many lessons: {ratio:.1} times as long, at most {LONGER}: {}", held(ratio <= LONGER));
}

/// What one course took.
struct Taken {
    /// To publish it for the first time (seconds).
    first: f64,
}

/// Publishes a course of so many lessons, and again.
fn measure(lessons: usize) -> Taken {
    let scratch = Scratch::new();
    fs::create_dir(scratch.path("course")).expect("folder");
    course::make(&scratch.path("course"), Kind::Prose, lessons);
    let (mut first, mut again, mut memory) = (Vec::new(), Vec::new(), 0.0_f64);
    for round in 0..ROUNDS {
        let site = scratch.path(&format!("site-{round}"));
        let (time, most) = publish(&scratch, &site, round);
        first.push(time);
        memory = memory.max(most);
        again.push(publish(&scratch, &site, round).0);
        fs::remove_dir_all(&site).expect("removed");
    }
    let (first, again) = (median(first), median(again));
    let share = again / first;
    println!(
        "{lessons} lessons: {first:.2} s, most memory {memory:.0} MB, at most {MEMORY}: {}",
        held(memory <= MEMORY)
    );
    println!("  again without a change: {again:.2} s, {share:.2} of it, at most {AGAIN}: {}", held(share <= AGAIN));
    Taken { first }
}

/// Runs the command; gives the seconds and the most memory it held (megabytes), as the system tells while it runs.
fn publish(scratch: &Scratch, site: &Path, round: usize) -> (f64, f64) {
    let mut command = seatwork_tests::command();
    command.env("SEATWORK_CACHE", scratch.path(&format!("cache-{round}")));
    command.arg("publish").arg("--course").arg(scratch.path("course")).arg("--to").arg(site).stdout(Stdio::null());
    let start = Instant::now();
    let mut running = command.spawn().expect("command");
    let mut most = 0.0_f64;
    let status = loop {
        most = most.max(memory(&running));
        match running.try_wait().expect("command") {
            Some(status) => break status,
            None => thread::sleep(Duration::from_millis(2)),
        }
    };
    assert!(status.success(), "{status}");
    (start.elapsed().as_secs_f64(), most)
}

/// The most memory that a process has held so far (megabytes); nothing where the system does not tell.
fn memory(running: &Child) -> f64 {
    let status = fs::read_to_string(format!("/proc/{}/status", running.id())).unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let kilobytes = line.and_then(|line| line.trim().trim_end_matches(" kB").parse::<f64>().ok());
    kilobytes.unwrap_or_default() / 1000.0
}

fn median(mut times: Vec<f64>) -> f64 {
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}

fn held(is: bool) -> &'static str {
    if is { "held" } else { "NOT HELD" }
}
