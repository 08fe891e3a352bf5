//! How long `publish` takes on a thousand lessons, beside the bare loop that it cannot do without.
//!
//! Both run in this process, on as many threads, in turn; what is told is the ratio of the medians. By hand:
//! `cargo bench -p seatwork-tests --bench publish`, with another number of rounds behind `--` where seven are not wanted.
//! Two courses are made: one of prose, and one whose prose has numbers that the core works out.
//! It is done in the folder for temporary files, and again in memory where there is a folder for that: the disk is most
//! of what both take, and differs most between machines.

#[path = "publish/bare.rs"]
mod bare;
#[path = "publish/course.rs"]
mod course;
#[path = "publish/report.rs"]
mod report;

use std::fs;
use std::path::Path;
use std::time::Instant;

use ::course::{Course, FEWEST_FILES, on_threads};
use pages::Words;
use pages::site::{GIT_IGNORE_NAME, MARKER_NAME, SiteWriter};
use problems::proof::{Effort, prove as prove_recipe};
use seatwork_tests::Scratch;

use bare::Bare;
use course::Kind;
use report::Times;

/// A folder in memory, where the system has one.
const IN_MEMORY: &str = "/dev/shm";

fn main() {
    let rounds = std::env::args().find_map(|argument| argument.parse().ok()).unwrap_or(7);
    let words = Words::of("en").expect("words");
    println!("{} lessons, {rounds} rounds in turn, {} threads; medians in milliseconds", course::LESSONS, threads());
    for folder in [&std::env::temp_dir(), Path::new(IN_MEMORY)].into_iter().filter(|folder| folder.is_dir()) {
        for kind in [Kind::Prose, Kind::Numbers] {
            measure(folder, kind, rounds, &words);
        }
    }
    println!("{}", report::LEFT_OUT);
    report::sizes();
}

/// Makes the course in a folder and times everything there.
fn measure(folder: &Path, kind: Kind, rounds: usize, words: &Words) {
    let scratch = Scratch::within(folder);
    fs::create_dir(scratch.path("course")).expect("folder");
    course::make(&scratch.path("course"), kind, course::LESSONS);
    let mut times = Times::default();
    publish(&scratch, words, &mut times);
    let without_practice = Bare::new(&scratch.path("course"), words);
    let bare = with_practice(&scratch, words);
    check_frames(&scratch, &bare);
    let site = scratch.files("site");
    times = Times { bytes: site.iter().map(|(_, bytes)| bytes.len()).sum(), ..Times::default() };
    for _ in 0..rounds {
        times.bare.push(run_bare(&scratch, &bare));
        publish(&scratch, words, &mut times);
        times.without_practice.push(run_bare(&scratch, &without_practice));
        times.bare_parse.push(timed(|| bare.parse_all()).1);
        times.write.push(write(&scratch.path("copy"), &site));
    }
    times.report(folder, kind);
}

/// The loop with the practice blocks of the pages that were published.
fn with_practice(scratch: &Scratch, words: &Words) -> Bare {
    let mut bare = Bare::new(&scratch.path("course"), words);
    for number in 0..course::RECIPES.len() {
        let page = scratch.path(&format!("site/en/lessons/{}.html", course::id(number)));
        bare.learn(&fs::read_to_string(page).expect("page"));
    }
    bare
}

/// As many as `publish` takes.
fn threads() -> usize {
    std::thread::available_parallelism().map_or(1, usize::from)
}

fn timed<T>(work: impl FnOnce() -> T) -> (T, f64) {
    let start = Instant::now();
    let done = work();
    (done, start.elapsed().as_secs_f64() * 1e3)
}

fn run_bare(scratch: &Scratch, bare: &Bare) -> f64 {
    let to = scratch.path("bare");
    fs::create_dir(&to).expect("folder");
    let ((), time) = timed(|| bare.run(&to, threads()));
    fs::remove_dir_all(&to).expect("removed");
    time
}

/// Everything that the command does between its start and its last line, into the folder of the site before.
fn publish(scratch: &Scratch, words: &Words, times: &mut Times) {
    let start = Instant::now();
    let (course, read) = timed(|| read(&scratch.path("course"), words));
    let ((), prove) = timed(|| prove(&course));
    pages::publish(&course, words, &scratch.path("site"), &|| {}, &|_, _| {}).expect("site");
    drop(course);
    times.publish.push(start.elapsed().as_secs_f64() * 1e3);
    times.read.push(read);
    times.prove.push(prove);
}

fn read(folder: &Path, words: &Words) -> Course {
    ::course::read(folder, words).unwrap_or_else(|faults| panic!("{:#?}", faults.list.first()))
}

fn prove(course: &Course) {
    let proven = on_threads(&course.recipes, 1, |file| prove_recipe(&file.recipe, Effort::QUICK));
    proven.into_iter().for_each(|spreads| drop(spreads.expect("proof")));
}

/// The files of a site again, through the writer alone, over those of the round before.
fn write(to: &Path, site: &[(String, Vec<u8>)]) -> f64 {
    let own = [MARKER_NAME, GIT_IGNORE_NAME];
    let site: Vec<_> = site.iter().filter(|(name, _)| !own.contains(&name.as_str())).collect();
    let (_, time) = timed(|| {
        let writer = SiteWriter::begin(to, &|| {}).expect("writer");
        on_threads(&site, FEWEST_FILES, |(name, bytes)| writer.file(name, bytes).expect("file"));
        writer.finish().expect("site")
    });
    time
}

/// Both fill the same template: the frame around a lesson is as long in one as in the other.
fn check_frames(scratch: &Scratch, bare: &Bare) {
    fs::create_dir(scratch.path("bare")).expect("folder");
    bare.run(&scratch.path("bare"), 1);
    for number in [5, 500] {
        let frame = |folder: &str| {
            let page = scratch.path(&format!("{folder}/{}.html", course::id(number)));
            let page = fs::read_to_string(page).expect("page");
            let (head, rest) = page.split_once("</section>").expect("objectives");
            head.len() + rest.rsplit_once("</article>").expect("article").1.len()
        };
        assert_eq!(frame("site/en/lessons"), frame("bare"), "lesson {number}");
    }
    fs::remove_dir_all(scratch.path("bare")).expect("removed");
}
