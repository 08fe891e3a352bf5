//! The engine is what every page with practice loads first, from a memory stick or over a slow line: its compressed size is
//! held. The contributors' guide says how to find what fills it.

use std::process::Command;

use seatwork_tests::top;

/// At most so many bytes, as `gzip -9n` makes them.
const MOST: usize = 192_000;

#[test]
fn the_kept_engine_is_within_its_size() {
    let engine = top().join("exercises/engine/prebuilt/engine.wasm");
    let packed = Command::new("gzip").args(["-9", "-n", "-c"]).arg(&engine).output().expect("gzip runs");
    assert!(packed.status.success(), "{}", String::from_utf8_lossy(&packed.stderr));
    let bytes = packed.stdout.len();
    println!("{bytes} bytes of {MOST}");
    assert!(bytes > 0 && bytes <= MOST, "the engine has {bytes} bytes compressed, at most {MOST} are allowed");
}
