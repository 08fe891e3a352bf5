//! Programs that are run to the end, and what they took.

use std::fmt;
use std::fs;
use std::io;
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

/// What one run took.
pub(crate) struct Run {
    seconds: f64,
    processors: f64,
    memory: f64,
}

/// The medians of some runs.
pub(crate) struct Medians {
    /// The time that passed (seconds).
    pub(crate) seconds: f64,
    /// The time of all processors together (seconds); nothing where the system does not tell.
    pub(crate) processors: f64,
    /// The most memory (megabytes): of all runs; nothing where the system does not tell.
    pub(crate) memory: f64,
}

impl Run {
    /// Runs a program, which must be there.
    pub(crate) fn of(command: Command) -> Self {
        Self::try_of(command).expect("program")
    }

    /// Runs a program; `None` if the program does not exist.
    pub(crate) fn try_of(mut command: Command) -> Option<Self> {
        command.stdout(Stdio::null());
        let (before, start) = (processors(), Instant::now());
        let mut running = match command.spawn() {
            Err(error) if error.kind() == io::ErrorKind::NotFound => return None,
            running => running.expect("program"),
        };
        let mut memory = 0.0_f64;
        let status = loop {
            memory = memory.max(most_memory(&running));
            match running.try_wait().expect("program") {
                Some(status) => break status,
                None => thread::sleep(Duration::from_millis(2)),
            }
        };
        assert!(status.success(), "{status}");
        Some(Self { seconds: start.elapsed().as_secs_f64(), processors: processors() - before, memory })
    }
}

/// The most memory that a process has held so far (megabytes).
fn most_memory(running: &Child) -> f64 {
    let status = fs::read_to_string(format!("/proc/{}/status", running.id())).unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let kilobytes = line.and_then(|line| line.trim().trim_end_matches(" kB").parse::<f64>().ok());
    kilobytes.unwrap_or_default() / 1000.0
}

/// The time of processors that the programs took which were run so far (seconds), in the program and in the system.
fn processors() -> f64 {
    /// Ticks of the system's clock in a second, the same on every Linux.
    const TICKS: f64 = 100.0;
    let status = fs::read_to_string("/proc/self/stat").unwrap_or_default();
    // The name, in brackets, may hold anything; the sixteenth and seventeenth fields are those of programs that ended.
    let fields = status.rsplit_once(')').map_or("", |(_, fields)| fields);
    let ticks = fields.split_whitespace().skip(13).take(2).filter_map(|ticks| ticks.parse::<f64>().ok());
    ticks.sum::<f64>() / TICKS
}

impl Medians {
    pub(crate) fn of(runs: Vec<Run>) -> Self {
        Self {
            seconds: median(runs.iter().map(|run| run.seconds)),
            processors: median(runs.iter().map(|run| run.processors)),
            memory: runs.iter().map(|run| run.memory).fold(0.0, f64::max),
        }
    }
}

impl fmt::Display for Medians {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { seconds, processors, memory } = self;
        write!(out, "{seconds:.2} s, of processors {processors:.2} s, at most {memory:.0} MB")
    }
}

fn median(times: impl Iterator<Item = f64>) -> f64 {
    let mut times: Vec<_> = times.collect();
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}
