//! Documents that must agree with the code.

use std::fs;
use std::path::{Path, PathBuf};

use seatwork_tests::top;

#[test]
fn the_readme_opens_with_the_job_and_its_two_commands_exist() {
    let readme = fs::read_to_string(top().join("README.md")).expect("README");
    let mut paragraphs = readme.split("\n\n").skip(1);
    assert!(paragraphs.next().is_some_and(|job| job.len() > 300 && !job.starts_with(['#', '!', '`'])));
    assert!(paragraphs.next().is_some_and(|picture| picture.starts_with("![")));
    assert!(readme.contains("cargo run --release -- publish") && top().join("tests/run").exists());
    let picture = readme.split("](").nth(1).and_then(|rest| rest.split(')').next()).expect("picture");
    assert!(top().join(picture).exists(), "{picture}");
}

/// The guide and the READMEs.
fn documents() -> Vec<PathBuf> {
    let crates = ["exercises", "generator"].map(|folder| fs::read_dir(top().join(folder)).expect("folder"));
    let readmes = crates.into_iter().flatten().map(|entry| entry.expect("entry").path().join("README.md"));
    ["README.md", "DEVELOPERS.md"].map(|name| top().join(name)).into_iter().chain(readmes).collect()
}

/// A document without its examples.
fn prose(file: &Path) -> String {
    let text = fs::read_to_string(file).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
    text.split("```").step_by(2).collect()
}

/// What is written as code in a text.
fn named(prose: &str) -> impl Iterator<Item = &str> {
    prose.split('`').skip(1).step_by(2)
}

#[test]
fn every_file_that_the_guide_and_the_readmes_name_is_there() {
    let mut found = 0;
    for document in documents() {
        let prose = prose(&document);
        let folder = document.parent().expect("folder");
        let is_path = |name: &&str| {
            let begins = ["exercises/", "generator/", "theme/", "content/", "tests/"];
            begins.iter().any(|begin| name.starts_with(begin)) && !name.contains(['*', ' ', '<'])
        };
        let named = named(&prose).filter(is_path).map(|name| top().join(name));
        let links = prose.split("](").skip(1).filter_map(|rest| rest.split(')').next()?.split('#').next());
        let links = links.filter(|link| !link.is_empty() && !link.contains(':')).map(|link| folder.join(link));
        for path in named.chain(links) {
            found += 1;
            assert!(path.exists(), "{} names {}", document.display(), path.display());
        }
    }
    assert!(found > 100, "{found} names");
}

#[test]
fn the_readme_of_a_crate_says_what_each_of_its_modules_does() {
    for document in documents() {
        let source = document.with_file_name("src");
        let root = ["lib.rs", "main.rs"].map(|name| source.join(name)).into_iter().find(|file| file.exists());
        let Some(root) = root else { continue };
        let (root, prose) = (fs::read_to_string(root).expect("source"), prose(&document));
        let words: Vec<_> =
            named(&prose).flat_map(|name| name.split(|sign: char| !(sign == '_' || sign.is_alphanumeric()))).collect();
        let modules = root.lines().filter_map(|line| line.strip_suffix(';')?.split_once("mod ").map(|(_, name)| name));
        let missing: Vec<_> = modules.filter(|module| !words.contains(&module.trim_start_matches("r#"))).collect();
        assert!(missing.is_empty(), "{} leaves out {missing:?}", document.display());
    }
}
