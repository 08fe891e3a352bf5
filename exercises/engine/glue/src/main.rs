//! Writes the built engine: the glue that `wasm-bindgen` makes, the module as text, and the digest of what it was built
//! from. Called by `exercises/engine/rebuild`.
//!
//! `engine-glue MODULE TOP TOOLCHAIN OUT`

use std::error::Error;
use std::path::{Path, PathBuf};
use std::{env, fs};

use base64::Engine as _;

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = env::args().skip(1).collect();
    let [module, top, toolchain, out] = arguments.as_slice() else {
        return Err("usage: engine-glue MODULE TOP TOOLCHAIN OUT".into());
    };
    write(Path::new(module), Path::new(top), toolchain, &PathBuf::from(out))
}

fn write(module: &Path, top: &Path, toolchain: &str, out: &Path) -> Result<(), Box<dyn Error>> {
    let made = out.join("made");
    fs::create_dir_all(&made)?;
    let mut bindgen = wasm_bindgen_cli_support::Bindgen::new();
    bindgen.input_path(module).no_modules(true)?.typescript(false).omit_default_module_path(true);
    bindgen.remove_name_section(true).remove_producers_section(true);
    bindgen.generate(&made)?;
    let bytes = fs::read(made.join("engine_bg.wasm"))?;
    let text = base64::engine::general_purpose::STANDARD.encode(&bytes);
    fs::write(out.join("engine.wasm"), &bytes)?;
    fs::write(out.join("engine-glue.js"), fs::read(made.join("engine.js"))?)?;
    fs::write(out.join("engine-module.js"), format!("window.SEATWORK_ENGINE = \"{text}\";\n"))?;
    let digest = engine_digest::digest(top, toolchain)?;
    fs::write(out.join("digest.txt"), format!("digest {digest}\ntoolchain {toolchain}\n"))?;
    fs::remove_dir_all(made)?;
    Ok(())
}
