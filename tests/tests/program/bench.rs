//! A place to run the program in.

use std::process::Output;

use seatwork_tests::{Scratch, command, whole_course};
use serde_json::Value;

/// A scratch folder with the course without a fault, and a memory of its own.
pub(crate) struct Bench(pub(crate) Scratch);

impl Bench {
    pub(crate) fn new() -> Self {
        Self(whole_course())
    }

    pub(crate) fn run(&self, arguments: &[&str]) -> Output {
        let mut command = command();
        command.env("SEATWORK_CACHE", self.0.path("cache")).current_dir(self.0.path(""));
        command.args(arguments).args(["--course", "course"]).output().expect("command")
    }

    pub(crate) fn done(&self, arguments: &[&str]) -> String {
        let output = self.run(arguments);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).expect("text")
    }

    pub(crate) fn fails(&self, arguments: &[&str], status: i32, says: &str) {
        let output = self.run(arguments);
        let said = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(status), "{said}");
        assert!(said.contains(says), "{said}");
    }

    pub(crate) fn json(&self, arguments: &[&str]) -> Value {
        serde_json::from_str(&self.done(arguments)).expect("JSON")
    }
}
