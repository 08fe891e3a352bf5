#![no_main]

use hostile::{Counting, MOST, peak};

#[global_allocator]
static MEMORY: Counting = Counting;

libfuzzer_sys::fuzz_target!(|text: &str| {
    let most = peak(|| hostile::answer_reader(text));
    assert!(most <= MOST, "{most} bytes in use at once");
});
