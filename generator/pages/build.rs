//! Works out which sources the engine should have been built from, so that a kept engine that does not match the native
//! core is refused when a site is published; and lists the files of the author's guide, which is carried in the program.

use std::error::Error;
use std::path::{Path, PathBuf};
use std::{env, fs};

fn main() -> Result<(), Box<dyn Error>> {
    let top = Path::new(&env::var("CARGO_MANIFEST_DIR")?).join("../..");
    let kept = top.join("exercises/engine/prebuilt/digest.txt");
    let toolchain = field(&fs::read_to_string(&kept).unwrap_or_default(), "toolchain");
    println!("cargo::rustc-env=SEATWORK_CORE_DIGEST={}", engine_digest::digest(&top, &toolchain)?);
    for folder in engine_digest::folders(&top)? {
        println!("cargo::rerun-if-changed={}", top.join(folder).display());
    }
    for file in [&top.join("Cargo.lock"), &top.join("Cargo.toml"), &kept] {
        println!("cargo::rerun-if-changed={}", file.display());
    }
    guide(&top.join("content/guide").canonicalize()?)
}

/// Writes `guide.rs`: an array of the guide's files, each with its path in the guide and its bytes.
fn guide(folder: &Path) -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut files = Vec::new();
    collect(folder, &mut files)?;
    files.sort();
    let mut list = String::new();
    for file in &files {
        let name: Vec<_> = file.strip_prefix(folder)?.iter().map(|part| part.to_string_lossy()).collect();
        list.push_str(&format!("({:?}, include_bytes!({:?})),\n", name.join("/"), file.display().to_string()));
    }
    fs::write(Path::new(&env::var("OUT_DIR")?).join("guide.rs"), format!("&[\n{list}]\n"))?;
    Ok(())
}

fn collect(folder: &Path, files: &mut Vec<PathBuf>) -> Result<(), Box<dyn Error>> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            collect(&path, files)?;
        } else {
            files.push(path);
        }
    }
    Ok(())
}

fn field(text: &str, name: &str) -> String {
    let line = text.lines().find_map(|line| line.strip_prefix(name));
    line.unwrap_or_default().trim().to_owned()
}
