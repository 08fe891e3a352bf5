//! What was timed, and how it is told.

use std::fs;
use std::path::Path;
use std::process::Command;

use seatwork_tests::top;

use crate::course::Kind;

/// At most so much longer than the bare loop.
const GOAL: f64 = 1.5;

/// What is timed, each in milliseconds a round.
#[derive(Default)]
pub(crate) struct Times {
    pub(crate) bare: Vec<f64>,
    pub(crate) bare_parse: Vec<f64>,
    pub(crate) without_practice: Vec<f64>,
    pub(crate) publish: Vec<f64>,
    pub(crate) read: Vec<f64>,
    pub(crate) prove: Vec<f64>,
    pub(crate) write: Vec<f64>,
    /// How large the site is.
    pub(crate) bytes: usize,
}

impl Times {
    /// Tells the medians, with their least and greatest, and the ratio.
    pub(crate) fn report(&self, folder: &Path, kind: Kind) {
        let (bare, publish) = (median(&self.bare), median(&self.publish));
        let [read, prove, write] = [&self.read, &self.prove, &self.write].map(|times| median(times));
        println!("{kind}, in {}, {} MB a site", folder.display(), self.bytes / 1_000_000);
        println!("  bare loop   {bare:7.1}  ({})", spread(&self.bare));
        println!("    of it parsing, on one thread {:.1}", median(&self.bare_parse));
        println!("  publish     {publish:7.1}  ({})", spread(&self.publish));
        let parts =
            [("read, check", read), ("prove", prove), ("render", publish - read - prove - write), ("write", write)];
        for (name, time) in parts {
            println!("    {name:11} {time:5.1}  {:4.1} %", time / publish * 100.0);
        }
        let ratio = publish / bare;
        println!("  ratio       {ratio:7.2}  at most {GOAL}: {}", if ratio <= GOAL { "held" } else { "NOT HELD" });
        let without = median(&self.without_practice);
        println!("  beside a bare loop without practice blocks ({without:.1}): {:.2}", publish / without);
    }
}

/// What each side does not do.
pub(crate) const LEFT_OUT: &str = "\
Left out of both: the start of the program, reading the words of the theme, the terminal.
Left out of the bare loop: finding and reading the files, their front matter, every check, links to terms, numbers that
  are worked out, formulas (they stay LaTeX), drawing problems and making practice blocks (it gets these ready),
  preparing the templates, every other page and file of the site, removing the site before, whole or not at all.
Left out of publish: nothing else. Writing is the same files once more through the writer alone; rendering is the rest.";

fn median(times: &[f64]) -> f64 {
    let mut times = times.to_vec();
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}

fn spread(times: &[f64]) -> String {
    let (low, high) = times.iter().fold((f64::MAX, 0.0), |(low, high), time| (time.min(low), time.max(high)));
    format!("{low:.1} .. {high:.1}")
}

/// Tells how large the kept engine is.
pub(crate) fn sizes() {
    let path = top().join("exercises/engine/prebuilt/engine.wasm");
    let raw = fs::metadata(&path).expect("engine").len();
    let packed = Command::new("gzip").args(["-9", "-c"]).arg(&path).output().map(|out| out.stdout.len());
    let packed = packed.map_or_else(|_| "not known without gzip".to_owned(), |bytes| format!("{bytes} bytes"));
    println!("engine.wasm: {raw} bytes, at most 600000; by gzip -9 {packed}, at most 200000");
}
