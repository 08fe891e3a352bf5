//! The command as it is typed: what it prints, and how it ends.

use std::net::TcpListener;
use std::process::Output;

use course::Code;
use seatwork_tests::{command, top};
use serde_json::Value;

fn run(arguments: &[&str]) -> Output {
    command().current_dir(top()).args(arguments).output().expect("command")
}

fn json(arguments: &[&str]) -> Value {
    let output = run(arguments);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).expect("JSON")
}

fn fails(arguments: &[&str], status: i32, says: &str) {
    let output = run(arguments);
    let said = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(status), "{said}");
    assert!(said.contains(says), "{said}");
    assert!(output.stdout.is_empty());
}

#[test]
fn a_relation_is_worked_in_the_unit_asked_for() {
    let worked =
        json(&["work", "opening_accumulation", "full_open=110 psig", "opening=100 psig", "--in", "kPa", "--json"]);
    assert_eq!(worked["relation"], "opening_accumulation");
    assert_eq!(worked["unit"], "kPa");
    assert!((worked["value"].as_f64().expect("number") - 68.947_572_931_68).abs() < 1e-9);
    assert_eq!(worked["shown"], "68.95\u{a0}kPa");
    assert_eq!(worked["source"], "common practice, no source");
}

#[test]
fn a_result_is_in_the_system_of_the_units_that_were_typed() {
    let unit = |full: &str, opening: &str, more: &[&str]| {
        let inputs = [format!("full_open={full}"), format!("opening={opening}")];
        let mut words = vec!["work", "opening_accumulation", &inputs[0], &inputs[1], "--json"];
        words.extend(more);
        json(&words)["unit"].clone()
    };
    assert_eq!(unit("7.7 barg", "7 barg", &[]), "bar");
    assert_eq!(unit("7.7 barg", "7 barg", &["--units", "us"]), "psi");
    // Of both systems: SI decides.
    assert_eq!(unit("110 psig", "7 barg", &[]), "bar");
    assert_eq!(unit("110", "100", &[]), "psi");
}

#[test]
fn a_limit_is_shown_on_its_safe_side() {
    let worked = json(&["work", "allowed_accumulation_over_mawp", "mawp=123.45 psig", "case=several", "--json"]);
    assert_eq!(worked["shown"], "19.75\u{a0}psi");
    assert!((worked["value"].as_f64().expect("number") - 19.752).abs() < 1e-9);
}

#[test]
fn a_second_output_is_told_too() {
    let worked = json(&["work", "standard_orifice", "area=4.93 in2", "--json"]);
    assert_eq!(worked["shown"], "6.38\u{a0}in²");
    assert_eq!(worked["also"]["choice"], "P");
    let output = run(&["work", "set_tolerance", "set=150 psig", "code=vessel"]);
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(
        text.contains("set_tolerance.low = 145.5\u{a0}psig") && text.contains("set_tolerance.high = 154.5\u{a0}psig"),
        "{text}"
    );
}

#[test]
fn a_preview_that_cannot_be_says_why() {
    let held = TcpListener::bind("127.0.0.1:0").expect("port");
    let port = held.local_addr().expect("address").port().to_string();
    fails(&["watch", "--port", &port], 3, &format!("Port {port} is in use"));
    fails(&["watch", "--course", "target/no-such-course"], 3, Code::CourseFolderMissing.id());
}

#[test]
fn shells_complete_relations() {
    let output = run(&["completions", "bash"]);
    assert!(relief::relations().all(|relation| String::from_utf8_lossy(&output.stdout).contains(relation.id)));
}

#[test]
fn every_relation_is_listed() {
    let list = json(&["work", "--list", "--json"]);
    assert_eq!(list.as_array().map(Vec::len), Some(relief::relations().count()));
    let output = run(&["work", "--list"]);
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(relief::relations().all(|relation| text.contains(relation.id)));
}

#[test]
fn wrong_use_says_what_to_type() {
    fails(&["work", "opening"], 2, "seatwork work --list");
    fails(&["work", "blowdown", "set=100 psig", "reseat=110 psig"], 2, "reseat must not be above set");
    fails(&["work", "blowdown", "set=100 psia", "reseat=90 psig"], 2, "psig");
    fails(&["work", "blowdown", "set=100 psig"], 2, "reseat is missing");
    fails(&["work", "blowdown", "set=many", "reseat=90 psig"], 2, "many is not a number");
    fails(&["work", "blowdown", "set=1,234 psig", "reseat=90 psig"], 2, "1234 psig or 1.234 psig");
    fails(&["work", "blowdown", "set=0 psig", "reseat=0 psig"], 2, "above 0 psig");
    fails(&["work", "bore_area", "bore=2 in", "--in", "psi"], 2, "in²");
    fails(&["work", "bore_area", "2 in"], 2, "name=value");
    fails(&["draw", "no_such", "--seed", "1"], 2, "spring_rate_for_rise");
    fails(&["publish", "--cuorse", "content"], 2, "--course");
}

#[test]
fn a_course_that_cannot_be_read_is_not_a_course_with_faults() {
    fails(&["proof", "--course", "no/such/folder"], 3, "no/such/folder");
}

#[test]
fn a_problem_is_drawn_as_data() {
    let drawn = json(&["draw", "spring_rate_for_rise", "--seed", "48213", "--units", "us", "--answers", "--json"]);
    let given = |name: &str| {
        drawn["givens"]
            .as_array()
            .and_then(|all| all.iter().find(|given| given["name"] == name))
            .cloned()
            .unwrap_or_default()
    };
    assert_eq!(given("opening")["unit"], "psig");
    assert!(given("opening")["value"].is_number());
    assert!(!drawn["statement"].as_str().expect("text").contains('<'));
    assert_eq!(drawn["parts"][0]["form"], "number");
    assert_eq!(drawn["answers"].as_array().map(Vec::len), drawn["parts"].as_array().map(Vec::len));
    let again = json(&["draw", "spring_rate_for_rise", "--seed", "48213", "--units", "us", "--json"]);
    assert_eq!(again["statement"], drawn["statement"]);
    assert!(again.get("answers").is_none());
}

#[test]
fn a_problem_is_drawn_by_the_title_of_its_recipe_too() {
    let by = |recipe: &str| run(&["draw", recipe, "--seed", "7"]).stdout;
    assert_eq!(by("How far over the MAWP is allowed?"), by("allowed_over_mawp"));
    assert!(!by("allowed_over_mawp").is_empty());
}

#[test]
fn help_has_examples() {
    for name in ["start", "schema", "publish", "watch", "guide", "proof", "work", "draw"] {
        let output = run(&[name, "--help"]);
        assert!(String::from_utf8_lossy(&output.stdout).contains(&format!("seatwork {name}")), "{name}");
    }
}

#[test]
fn proof_draws_every_recipe_and_writes_nothing() {
    let proven = json(&["proof", "--seeds", "300", "--json"]);
    for recipe in proven["recipes"].as_array().expect("list") {
        for system in recipe["systems"].as_array().expect("list") {
            assert_eq!(system["draws"], 300, "{recipe}");
        }
    }
}
