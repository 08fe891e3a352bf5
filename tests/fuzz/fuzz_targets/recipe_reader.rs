#![no_main]

use hostile::{MOST, peak};
use peak_alloc::PeakAlloc;

#[global_allocator]
static MEMORY: PeakAlloc = PeakAlloc;

libfuzzer_sys::fuzz_target!(|text: &str| {
    let most = peak(&MEMORY, || hostile::recipe_reader(text));
    assert!(most <= MOST, "{most} bytes in use at once");
});
