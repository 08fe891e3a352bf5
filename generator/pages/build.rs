//! Works out which sources the engine should have been built from, so that a kept engine that does not match the native
//! core is refused when a site is published.

use std::error::Error;
use std::path::Path;
use std::{env, fs};

fn main() -> Result<(), Box<dyn Error>> {
    let top = Path::new(&env::var("CARGO_MANIFEST_DIR")?).join("../..");
    let kept = top.join("exercises/engine/prebuilt/digest.txt");
    let toolchain = field(&fs::read_to_string(&kept).unwrap_or_default(), "toolchain");
    println!("cargo::rustc-env=SEATWORK_CORE_DIGEST={}", engine_digest::digest(&top, &toolchain)?);
    for folder in engine_digest::SOURCES {
        println!("cargo::rerun-if-changed={}", top.join("exercises").join(folder).display());
    }
    for file in [&top.join("Cargo.lock"), &top.join("Cargo.toml"), &kept] {
        println!("cargo::rerun-if-changed={}", file.display());
    }
    Ok(())
}

fn field(text: &str, name: &str) -> String {
    let line = text.lines().find_map(|line| line.strip_prefix(name));
    line.unwrap_or_default().trim().to_owned()
}
