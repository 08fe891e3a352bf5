//! Finds the system calls at which a command can be killed, and kills it there.

use std::collections::{BTreeMap, BTreeSet};
use std::env;
use std::fs;
use std::os::unix::process::ExitStatusExt;
use std::path::Path;
use std::process::{Command, Stdio};

/// The calls that make, change, move or remove files. Those with `?` do not exist on every processor.
const CALLS: &str = "?open,openat,?openat2,?creat,?mkdir,mkdirat,write,writev,pwrite64,?rename,?renameat,renameat2,\
    ?unlink,unlinkat,?rmdir,?link,linkat,?symlink,symlinkat,truncate,ftruncate,fallocate,?chmod,fchmod,fchmodat,\
    copy_file_range,sendfile,ioctl";

/// Whether the system exchanges two folders in one step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Exchange {
    /// It does.
    AtOnce,
    /// It answers as a filesystem does that cannot.
    Refused,
}

/// Just before a call is used for the `count`th time, counted from one.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Point {
    call: String,
    count: usize,
}

/// Whether strace is here and may be used. Where everything is tested it has to be.
pub(crate) fn is_here() -> bool {
    let works = Command::new("strace").args(["-o", "/dev/null", "true"]).stderr(Stdio::null()).status();
    let works = works.is_ok_and(|status| status.success());
    assert!(works || env::var_os("CI").is_none(), "strace does not work here, and this is where everything is tested");
    if !works {
        eprintln!("SKIPPED: strace is missing or not allowed to trace, so no build was killed");
    }
    works
}

/// Lets a command run to its end and gives every point at which it is about to change a file.
pub(crate) fn record(command: &Command, exchange: Exchange, log: &Path) -> BTreeSet<Point> {
    let mut traced = traced(command, exchange, None, log);
    let output = traced.output().expect("strace runs");
    assert!(output.status.success(), "{traced:?}: {}", String::from_utf8_lossy(&output.stderr));
    let refused = exchange == Exchange::Refused;
    // A refused exchange changes nothing, and strace cannot both refuse and kill.
    let counts = |point: &Point| !(refused && point.call == "renameat2");
    points(&fs::read_to_string(log).expect("the log")).into_iter().filter(counts).collect()
}

/// Of a call that is used many times, as for every file that is staged or removed, how many of the first and of the last
/// uses are tried, and which of those between.
const EACH_END: usize = 8;
const BETWEEN: usize = 6;

/// The points at which a build is killed: all of a call that is used a few times; of one that is used for every file, those
/// at both ends and some between. With `SEATWORK_EVERY_KILL` set, every point there is.
pub(crate) fn some(points: &BTreeSet<Point>) -> Vec<&Point> {
    let mut uses: BTreeMap<&str, usize> = BTreeMap::new();
    points.iter().for_each(|point| *uses.entry(&point.call).or_default() += 1);
    let every = env::var_os("SEATWORK_EVERY_KILL").is_some();
    let mut place: BTreeMap<&str, usize> = BTreeMap::new();
    points
        .iter()
        .filter(|point| {
            let place = place.entry(&point.call).or_default();
            *place += 1;
            let to_end = uses[point.call.as_str()] - *place;
            every || *place <= EACH_END || to_end < EACH_END || place.is_multiple_of(BETWEEN)
        })
        .collect()
}

/// Runs a command and kills it at a point.
pub(crate) fn kill(command: &Command, exchange: Exchange, point: &Point) {
    let mut traced = traced(command, exchange, Some(point), Path::new("/dev/null"));
    let output = traced.output().expect("strace runs");
    assert_eq!(output.status.signal(), Some(9), "{traced:?}: {}", String::from_utf8_lossy(&output.stderr));
}

fn traced(command: &Command, exchange: Exchange, point: Option<&Point>, log: &Path) -> Command {
    let mut traced = Command::new("strace");
    traced.args(["-f", "-qq", "-e", "signal=none", "-e"]).arg(format!("trace={CALLS}")).arg("-o").arg(log);
    if exchange == Exchange::Refused {
        traced.args(["-e", "inject=renameat2:error=EINVAL"]);
    }
    if let Some(Point { call, count }) = point {
        traced.arg("-e").arg(format!("inject={call}:signal=KILL:when={count}"));
    }
    traced.arg("--").arg(command.get_program()).args(command.get_args());
    traced.envs(command.get_envs().filter_map(|(name, value)| Some((name, value?))));
    if let Some(folder) = command.get_current_dir() {
        traced.current_dir(folder);
    }
    traced
}

/// Reads a log with lines such as `123 openat(AT_FDCWD, "a", O_RDONLY) = 3`. strace counts each call by itself, and for
/// each thread.
fn points(log: &str) -> BTreeSet<Point> {
    let mut counts = BTreeMap::new();
    let mut points = BTreeSet::new();
    for line in log.lines() {
        let Some((thread, rest)) = line.split_once(' ') else { continue };
        // The second half of a call that was interrupted begins with `<`, the end of a thread with `+`.
        let Some((call, arguments)) =
            rest.trim_start().split_once('(').filter(|(call, _)| !call.starts_with(['<', '+']))
        else {
            continue;
        };
        let count = counts.entry((thread, call)).or_insert(0);
        *count += 1;
        if changes(call, arguments) {
            points.insert(Point { call: call.to_owned(), count: *count });
        }
    }
    points
}

fn changes(call: &str, arguments: &str) -> bool {
    match call {
        "open" | "openat" | "openat2" => {
            ["O_CREAT", "O_WRONLY", "O_RDWR", "O_TRUNC"].iter().any(|flag| arguments.contains(flag))
        }
        // What is said on the terminal changes no file.
        "write" | "writev" => !arguments.starts_with("1,") && !arguments.starts_with("2,"),
        // Copies a file without reading it.
        "ioctl" => arguments.contains("FICLONE"),
        _ => true,
    }
}

#[test]
fn a_log_is_read() {
    let log = "\
        7 openat(AT_FDCWD, \"a\", O_RDONLY|O_CLOEXEC) = 3\n\
        7 openat(AT_FDCWD, \"b\", O_WRONLY|O_CREAT|O_EXCL, 0666 <unfinished ...>\n\
        8 write(1, \"rename(\", 7) = 7\n\
        7 <... openat resumed>) = 4\n\
        8 write(4, \"x\", 1) = 1\n\
        7 +++ exited with 0 +++\n";
    let point = |call: &str, count| Point { call: call.to_owned(), count };
    assert_eq!(points(log), BTreeSet::from([point("openat", 2), point("write", 2)]));
}
