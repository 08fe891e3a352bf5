//! Captions, which are files of their own: each string as the words of a cue, in its times, and in a note.

use pages::LazySite;
use seatwork_tests::{Scratch, top};

use super::Trial;
use super::texts::hostile_texts;

const CAPTIONS: &str = "en/files/pop.vtt";

/// How many tags the page of the film has with these captions; `None` where they are refused, in their own file.
fn tags(trial: &Trial, scratch: &Scratch, captions: &str) -> Option<usize> {
    scratch.write(&format!("course/{CAPTIONS}"), captions);
    match trial.read(scratch) {
        Ok(course) => {
            let site = LazySite::new(course, trial.words.clone()).expect("site");
            let page = site.file("en/lessons/files.html").expect("page").expect("page");
            Some(page.iter().filter(|byte| **byte == b'<').count())
        }
        Err(faults) => {
            for fault in &faults.list {
                trial.is_told(fault);
                assert_eq!(fault.place.file, CAPTIONS, "{captions:?}: {fault:?}");
            }
            None
        }
    }
}

#[test]
fn every_string_in_captions_is_refused_in_its_place_or_shown_as_text() {
    let (trial, scratch) = (Trial::new(), Scratch::new());
    scratch.copy(&top().join("tests/browser/stick"), "course");
    let cue = |note: &str, to: &str, words: &str| format!("WEBVTT\n\nNOTE {note}\n\n00:00.000 --> {to}\n{words}\n");
    let plain = tags(&trial, &scratch, &cue("by hand", "00:01.000", "It opens."));
    assert!(plain.is_some());
    let mut taken = 0;
    for string in hostile_texts() {
        for captions in [cue(&string, "00:01.000", "x"), cue("x", &string, "x"), cue("x", "00:01.000", &string)] {
            let found = tags(&trial, &scratch, &captions);
            assert!(found.is_none() || found == plain, "{captions:?}");
            taken += usize::from(found.is_some());
        }
    }
    assert!(taken > 20, "{taken}");
}
