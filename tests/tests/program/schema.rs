//! The schemas for editors: what the reader takes they take, and what has not the right shape they refuse.

use std::fs;
use std::path::{Path, PathBuf};

use course::Code;
use jsonschema::Validator;
use seatwork_tests::{Scratch, command, top};
use serde_json::Value;

/// The schemas, as the command writes them.
struct Schemas([(&'static str, Validator); 4]);

impl Schemas {
    fn new() -> Self {
        let scratch = written();
        let schema = |name: &str| {
            let text = fs::read(scratch.path(&format!("schema/{name}.schema.json"))).expect("schema");
            let schema = serde_json::from_slice(&text).expect("JSON");
            jsonschema::draft202012::meta::validate(&schema).map_err(|error| error.to_string()).expect("a schema");
            jsonschema::draft202012::new(&schema).map_err(|error| error.to_string()).expect("a schema")
        };
        let named = ["course", "lesson", "term", "recipe"].map(|name| (name, schema(name)));
        Self(named)
    }

    /// What is wrong with the files of a course, each with its name.
    fn faults(&self, course: &Path) -> Vec<String> {
        let mut faults = Vec::new();
        for (file, name) in files(course) {
            let validator = &self.0.iter().find(|(known, _)| *known == name).expect("schema").1;
            match value(&file) {
                None => faults.push(format!("{}: no YAML", file.display())),
                Some(value) => {
                    let errors = validator.iter_errors(&value);
                    faults.extend(errors.map(|error| format!("{} {}: {error}", file.display(), error.instance_path())));
                }
            }
        }
        faults
    }
}

fn written() -> Scratch {
    let scratch = Scratch::new();
    let output = command().current_dir(scratch.path("")).args(["schema", "schema"]).output().expect("command");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    scratch
}

/// The files of a course that have a schema, with its name.
fn files(course: &Path) -> Vec<(PathBuf, &'static str)> {
    let mut all = vec![(course.join("course.yaml"), "course")];
    for (folder, name) in [("lessons", "lesson"), ("terms", "term"), ("recipes", "recipe")] {
        let entries = fs::read_dir(course.join("en").join(folder)).into_iter().flatten();
        let paths = entries.map(|entry| entry.expect("entry").path());
        all.extend(paths.filter(|path| path.extension().is_some_and(|kind| kind == "md")).map(|path| (path, name)));
    }
    all.retain(|(path, _)| path.is_file());
    all
}

/// What is in a YAML file, or in the front matter of a Markdown file; nothing where that is not YAML.
fn value(file: &Path) -> Option<Value> {
    let text = String::from_utf8(fs::read(file).ok()?).ok()?;
    if file.extension().is_some_and(|kind| kind == "yaml") {
        return serde_yaml::from_str(&text).ok();
    }
    let matter = text.strip_prefix("---\n")?.split("\n---\n").next()?;
    serde_yaml::from_str(matter).ok()
}

#[test]
fn whatever_publishes_fits() {
    let schemas = Schemas::new();
    for course in ["content", "theme/start", "tests/bad-content/base", "tests/browser/course"] {
        let course = top().join(course);
        assert!(files(&course).len() > 3, "{}", course.display());
        let faults = schemas.faults(&course);
        assert!(faults.is_empty(), "{faults:#?}");
    }
}

/// Folders of bad content whose fault is one of shape; a schema cannot see those of formulas, links and numbers.
const OF_SHAPE: [&str; 21] = [
    Code::CourseDecimalMark.id(),
    Code::CourseIdsDifferByCase.id(),
    Code::CourseLanguages.id(),
    Code::CourseRepeatedLesson.id(),
    Code::IdBadlyWritten.id(),
    Code::RecipeFigureLacks.id(),
    Code::RecipeFigureParameter.id(),
    Code::RecipeForm.id(),
    Code::RecipeItemsCount.id(),
    Code::RecipeKeyMisplaced.id(),
    "recipe-key-misplaced.choice-with-answer",
    Code::RecipeNoFigure.id(),
    Code::RecipeNoStatement.id(),
    Code::RecipeNoTruth.id(),
    Code::RecipeOptionWords.id(),
    Code::RecipeOptionsFew.id(),
    Code::RecipePairsCount.id(),
    Code::RecipeRoundSide.id(),
    Code::YamlMissingKey.id(),
    Code::YamlUnknownKey.id(),
    Code::YamlWrongShape.id(),
];

#[test]
fn what_has_the_wrong_shape_is_refused() {
    let schemas = Schemas::new();
    for name in OF_SHAPE {
        let faults = schemas.faults(&top().join("tests/bad-content").join(name));
        assert!(!faults.is_empty(), "{name}");
        assert!(faults.iter().all(|fault| !fault.contains("no YAML")), "{faults:#?}");
    }
}

#[test]
fn every_key_of_a_schema_is_explained() {
    let scratch = written();
    for (name, bytes) in scratch.files("schema") {
        let schema: Value = serde_json::from_slice(&bytes).expect("JSON");
        let keys = schema["properties"].as_object().expect("keys");
        for (key, value) in
            keys.iter().chain(schema["properties"]["ask"]["items"]["properties"].as_object().into_iter().flatten())
        {
            assert!(value["description"].as_str().is_some_and(|text| !text.is_empty()), "{name}: {key}");
        }
    }
}

#[test]
fn older_schemas_are_replaced_and_other_files_are_not() {
    let scratch = written();
    let whole = scratch.files("schema");
    let again = |words: &[&str]| command().current_dir(scratch.path("")).args(words).output().expect("command");
    scratch.write("schema/term.schema.json", format!("{}\" of old\" }}", course::Schema::MARK));
    assert!(again(&["schema", "schema"]).status.success());
    assert_eq!(scratch.files("schema"), whole);
    scratch.write("schema/term.schema.json", "mine");
    let refused = again(&["schema", "schema"]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&refused.stderr).contains("--yes"));
    assert_eq!(fs::read(scratch.path("schema/term.schema.json")).expect("file"), b"mine");
    assert!(again(&["schema", "schema", "--yes"]).status.success());
    assert_eq!(scratch.files("schema"), whole);
}

/// The first line of the course that `start` writes leads an editor to the schema beside it.
#[test]
fn a_started_course_names_its_schema() {
    let scratch = Scratch::new();
    let output = command().current_dir(scratch.path("")).args(["start", "mine"]).output().expect("command");
    assert!(output.status.success());
    let text = fs::read_to_string(scratch.path("mine/course.yaml")).expect("file");
    let named =
        text.lines().next().and_then(|line| line.strip_prefix("# yaml-language-server: $schema=")).expect("line");
    let schema = fs::read(scratch.path("mine").join(named)).expect("schema");
    let printed = written().files("schema").into_iter().find(|(name, _)| name == "course.schema.json");
    assert_eq!(printed.map(|(_, bytes)| bytes), Some(schema));
    for name in ["lesson", "term", "recipe"] {
        assert!(text.contains(&format!("{name}.schema.json")), "{name}");
    }
}
