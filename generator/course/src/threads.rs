//! The same work on many things, on several threads.

use std::num::NonZero;
use std::panic::resume_unwind;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use crate::fault::Fault;

/// The fewest files that are worth a thread.
pub const FEWEST_FILES: usize = 24;

/// Does the same with each thing, on as many threads as the machine has processors and as are worth it, and gives the
/// results in the order of the things. Fewer than two threads' worth of things are done on the thread that asks.
pub fn on_threads<'t, T: Sync, R: Send>(things: &'t [T], worth: usize, work: impl Fn(&'t T) -> R + Sync) -> Vec<R> {
    let threads = thread::available_parallelism().map_or(1, NonZero::get).min(things.len() / worth);
    if threads < 2 {
        return things.iter().map(work).collect();
    }
    // Each thread takes the next thing, so that none waits for one that has the harder half or a busy processor.
    let next = AtomicUsize::new(0);
    let run = || {
        let mut done = Vec::new();
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            let Some(thing) = things.get(index) else { return done };
            done.push((index, work(thing)));
        }
    };
    let mut all: Vec<_> = thread::scope(|scope| {
        let running: Vec<_> = (0..threads).map(|_| scope.spawn(run)).collect();
        running.into_iter().flat_map(|thread| thread.join().unwrap_or_else(|panic| resume_unwind(panic))).collect()
    });
    all.sort_unstable_by_key(|(index, _)| *index);
    all.into_iter().map(|(_, result)| result).collect()
}

/// As [`on_threads`], with room for the faults that the work finds: they come in the order of the things.
pub(crate) fn with_faults<'t, T: Sync, R: Send>(
    things: &'t [T],
    faults: &mut Vec<Fault>,
    work: impl Fn(&'t T, &mut Vec<Fault>) -> R + Sync,
) -> Vec<R> {
    let done = on_threads(things, FEWEST_FILES, |thing| {
        let mut found = Vec::new();
        (work(thing, &mut found), found)
    });
    let result = |(result, found)| {
        faults.extend::<Vec<_>>(found);
        result
    };
    done.into_iter().map(result).collect()
}

#[cfg(test)]
mod tests {
    use super::on_threads;

    #[test]
    fn results_come_in_the_order_of_the_things() {
        for (count, worth) in [(0, 1), (1, 1), (30, 24), (1000, 24), (7, 1)] {
            let things: Vec<usize> = (0..count).collect();
            let twice: Vec<_> = things.iter().map(|thing| thing * 2).collect();
            assert_eq!(on_threads(&things, worth, |thing| thing * 2), twice);
        }
    }
}
