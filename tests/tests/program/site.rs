//! Whole sites: the same bytes from anywhere, the old site untouched by a fault, no folder of someone else replaced.

use std::fs;

use seatwork_tests::{Scratch, command, top};

fn course() -> Scratch {
    let scratch = Scratch::new();
    scratch.copy(&top().join("content"), "course");
    scratch
}

#[test]
fn two_builds_are_the_same_bytes_from_any_folder_locale_and_time_zone() {
    let (one, other) = (course(), course());
    assert!(one.publish().status.success());
    let mut second = command();
    second.current_dir(other.path("course")).env("LC_ALL", "tr_TR.UTF-8").env("TZ", "Pacific/Chatham");
    second.args(["publish", "--course", ".", "--to", "../site"]);
    let output = second.output().expect("command");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let (one, other) = (one.files("site"), other.files("site"));
    assert_eq!(
        one.iter().map(|(name, _)| name).collect::<Vec<_>>(),
        other.iter().map(|(name, _)| name).collect::<Vec<_>>()
    );
    for ((name, one), (_, other)) in one.iter().zip(&other) {
        assert!(one == other, "{name} differs");
    }
}

/// What the command says it did, up to the first colon.
fn said(scratch: &Scratch) -> String {
    let output = scratch.publish();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("text").split(':').next().unwrap_or_default().to_owned()
}

#[test]
fn an_unchanged_course_is_not_published_again_and_any_change_is() {
    const PAGE: &str = "site/en/lessons/parts.html";
    let scratch = course();
    assert_eq!(said(&scratch), "Published");
    let first = scratch.files("site");
    assert_eq!(said(&scratch), "Nothing has changed");
    scratch.write(PAGE, "spoiled");
    assert_eq!(said(&scratch), "Published");
    fs::remove_file(scratch.path(PAGE)).expect("removed");
    assert_eq!(said(&scratch), "Published");
    // What somebody has put into the site is not lost with it.
    scratch.write("site/photos/valve.jpg", "mine");
    let refused = scratch.publish();
    assert_eq!(refused.status.code(), Some(3));
    assert!(String::from_utf8_lossy(&refused.stderr).contains("photos/valve.jpg"));
    fs::remove_dir_all(scratch.path("site/photos")).expect("removed");
    assert!(scratch.files("site") == first);
    let lesson = fs::read_to_string(scratch.path("course/en/lessons/parts.md")).expect("lesson");
    scratch.write("course/en/lessons/parts.md", lesson.replacen("title: \"", "title: \"Once more: ", 1));
    assert_eq!(said(&scratch), "Published");
    assert!(scratch.files("site") != first);
    scratch.write("course/en/terms/broken.md", "---\nformat: 1\n");
    assert_eq!(scratch.publish().status.code(), Some(1));
    let mut afresh = command();
    fs::remove_file(scratch.path("course/en/terms/broken.md")).expect("removed");
    assert_eq!(said(&scratch), "Nothing has changed");
    afresh.args(["publish", "--afresh", "--course"]).arg(scratch.path("course"));
    let output = afresh.arg("--to").arg(scratch.path("site")).output().expect("command");
    assert!(String::from_utf8_lossy(&output.stdout).starts_with("Published:"));
}

/// The most that a page may weigh, in bytes, without the scripts, styles and recipes that pages share.
const HEAVIEST: usize = 60_000;

#[test]
fn no_page_is_heavy() {
    let scratch = course();
    assert_eq!(said(&scratch), "Published");
    let pages = scratch.files("site").into_iter().filter(|(name, _)| name.ends_with(".html"));
    let heavy: Vec<_> = pages.filter(|(_, bytes)| bytes.len() >= HEAVIEST).collect();
    let told: Vec<_> = heavy.iter().map(|(name, bytes)| format!("{name}: {}", bytes.len())).collect();
    assert!(told.is_empty(), "{told:?}");
}

#[test]
fn a_fault_leaves_the_old_site_untouched() {
    let scratch = course();
    assert!(scratch.publish().status.success());
    let before = scratch.files("site");
    scratch.write("course/en/terms/broken.md", "---\nformat: 1\n");
    let output = scratch.publish();
    assert_eq!(output.status.code(), Some(1));
    assert!(output.stdout.is_empty());
    assert!(scratch.files("site") == before);
}

#[test]
fn a_folder_that_is_not_ours_is_never_replaced() {
    let scratch = course();
    scratch.write("site/holiday.txt", "photos");
    let output = scratch.publish();
    assert_eq!(output.status.code(), Some(3));
    assert_eq!(fs::read(scratch.path("site/holiday.txt")).expect("kept"), b"photos");
    assert_eq!(scratch.files("site").len(), 1);
}

#[test]
fn the_site_of_the_repository_ignores_all_but_its_own_mark() {
    let scratch = course();
    assert!(scratch.publish().status.success());
    let kept = fs::read(top().join("site/.gitignore")).expect("kept in git");
    assert_eq!(fs::read(scratch.path("site/.gitignore")).expect("written"), kept);
}

#[test]
fn every_relation_has_its_place_on_a_page_with_law_traps_source_and_calculator() {
    let scratch = course();
    assert!(scratch.publish().status.success());
    for family in relief::FAMILIES {
        let page = fs::read_to_string(scratch.path(&format!("site/en/relations/{}.html", family.id))).expect("page");
        for relation in family.relations {
            let section = page.split(&format!("id=\"{}\"", relation.id)).nth(1).expect(relation.id);
            let section = section.split("class=\"relation\"").next().unwrap_or_default();
            for part in ["<math", "law-words", "class=\"source\"", "class=\"traps\"", "class=\"work\""] {
                assert!(section.contains(part), "{}: {part}", relation.id);
            }
        }
    }
}

#[test]
fn nothing_in_a_page_is_inline_or_from_elsewhere() {
    let scratch = course();
    assert!(scratch.publish().status.success());
    for (name, bytes) in scratch.files("site") {
        let Ok(text) = String::from_utf8(bytes) else { continue };
        if name.ends_with(".html") {
            assert!(!text.contains(" style=") && !text.contains("<style") && !text.contains("javascript:"), "{name}");
            for script in text.split("<script").skip(1) {
                assert!(script.starts_with(" src=") || script.starts_with(" defer src="), "{name}: inline script");
            }
            assert!(!text.contains("src=\"http") && !text.contains("href=\"//"), "{name}");
        }
        if name.ends_with(".css") {
            // The name of a language, which is never asked for.
            let text = text.replace("http://www.w3.org/2000/svg", "");
            assert!(!text.contains("http:") && !text.contains("https:") && !text.contains("@import"), "{name}");
        }
    }
}
