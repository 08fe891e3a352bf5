//! One fault a folder: what the command says of it, that it leaves the old site alone, and what mends it.
//!
//! Each folder of `tests/bad-content` lies over `base`, a course without a fault, and brings one fault into it. The name
//! of the folder is the code of the fault, and after a dot what is special about it. Its file `make` says what is better
//! made than kept, its file `mend` what an author would change; `tests/src/changes.rs` says how. The guide shows both.

use std::process::Output;

use course::Code;
use seatwork_tests::{BadCase, Scratch, whole_course};

#[test]
fn every_bad_course_is_refused_in_words_and_can_be_mended() {
    let whole = whole_course();
    published(&whole.publish(), "base");
    let cases = BadCase::all();
    assert!(cases.len() > 50, "only {} cases", cases.len());
    course::on_threads(&cases, 1, |case| {
        let broken = case.broken();
        broken.copy(&whole.path("site"), "site");
        refused(case, &broken);
        case.mend(&broken);
        published(&broken.publish(), &case.name);
    });
}

fn published(output: &Output, name: &str) {
    assert!(output.status.success(), "{name}: {}", String::from_utf8_lossy(&output.stderr));
}

fn refused(case: &BadCase, scratch: &Scratch) {
    let (name, code) = (&case.name, case.code());
    let before = scratch.files("site");
    let output = scratch.publish();
    let said = String::from_utf8(output.stderr).expect("text");
    let said = said.replace(&scratch.path("").display().to_string(), "");
    assert_eq!(output.status.code(), Some(1), "{name}: {said}");
    let (all, of_this_code) = (said.matches("error[").count(), said.matches(&format!("error[{code}]")).count());
    // Proof tells a fault once for each system of units.
    assert!(of_this_code == all && (all == 1 || code.id().starts_with("proof-") && all == 2), "{name}: {said}");
    assert_eq!(scratch.files("site"), before, "{name}");
    insta::with_settings!({ omit_expression => true, prepend_module_to_snapshot => false }, {
        insta::assert_snapshot!(format!("bad_content__{name}"), said);
    });
}

#[test]
fn every_code_has_a_case_or_the_reason_why_none_can_be() {
    let words = pages::Words::of("en").expect("words");
    let cases = BadCase::all();
    let reason = |code: Code| words.all().any(|(key, _)| key == format!("faults.{code}.no_case"));
    for code in Code::FAULTS {
        let case = cases.iter().any(|case| case.code() == *code);
        assert!(case != reason(*code), "{code}: a folder in tests/bad-content, or the reason under no_case");
    }
}
