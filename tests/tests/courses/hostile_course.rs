//! Every hostile string in every field of a course, each by itself: it is refused with a fault in its place, or the
//! course is whole. What is published of them is left for the browser, in `target/hostile`.

mod captions;
mod heads;
mod known;
mod originals;
mod texts;
mod together;

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

use course::{Code, Course, Fault, Faults};
use known::{NOT_WALKED, known_fields};
use originals::{Original, Slot, Way, originals};
use pages::Words;
use seatwork_tests::{Scratch, top};
use texts::hostile_texts;
use together::{Field, Fields, Together};

/// Files in which values are also tried as they are, without quotes.
const BARE_TOO: [&str; 3] = ["course", "forms", "disc"];

/// The pictures and files of the originals, each with the course that it is in.
const BESIDE: [(&str, &str); 4] = [
    ("tests/hostile/course", "en/lessons/images/square.png"),
    ("tests/hostile/course", "en/files/hiss.wav"),
    ("tests/hostile/course", "en/files/hiss.vtt"),
    ("tests/browser/course", "en/images/board.png"),
];

/// The logo that `course.yaml` names.
fn write_logo(scratch: &Scratch) {
    let logo = fs::read(top().join("tests/browser/course/images/logo.png")).expect("logo");
    scratch.write("course/images/logo.png", logo);
}

/// The course, the strings, and where the course is put together.
struct Trial {
    words: Words,
    originals: Vec<Original>,
    strings: Vec<String>,
}

impl Trial {
    fn new() -> Self {
        Self { words: Words::of("en").expect("words"), originals: originals(), strings: hostile_texts() }
    }

    /// The ids of the lessons that are there anyway.
    fn lessons(&self) -> Vec<String> {
        self.originals.iter().filter(|each| each.folder == "lessons").map(|each| each.name.clone()).collect()
    }

    /// A course of the originals and some files more, with lessons that come after those of the originals.
    fn course(&self, files: &[(String, String)], lessons: &[String]) -> Scratch {
        let scratch = Scratch::new();
        let write = |file: &str, text: &str| scratch.write(&format!("course/{file}"), text);
        write_logo(&scratch);
        for original in &self.originals {
            write(&original.file(&original.name), &original.written(&[], Way::Quoted));
        }
        for (folder, file) in BESIDE {
            scratch.write(&format!("course/{file}"), fs::read(top().join(folder).join(file)).expect(file));
        }
        files.iter().for_each(|(file, text)| write(file, text));
        let lessons: Vec<_> = self.lessons().into_iter().chain(lessons.iter().cloned()).collect();
        write("course.yaml", &self.originals[0].with_lessons(&lessons).written(&[], Way::Quoted));
        scratch
    }

    fn read(&self, scratch: &Scratch) -> Result<Course, Faults> {
        course::read(&scratch.path("course"), &self.words)
    }

    /// Faults a fault that says nothing.
    fn is_told(&self, fault: &Fault) {
        let message = fault.message(&self.words);
        assert!(!fault.is_warning() && !message.title.is_empty() && !message.fix.is_empty());
    }

    /// The code with which each string is refused in a slot, or nothing where it is taken.
    fn try_slot(&self, original: &Original, slot: &Slot, way: Way) -> Vec<Option<Code>> {
        if original.folder.is_empty() { self.try_head(slot, way) } else { self.try_copies(original, slot, way) }
    }

    /// The same for a file of which there can be many: each string in a copy of its own, all in one course.
    fn try_copies(&self, original: &Original, slot: &Slot, way: Way) -> Vec<Option<Code>> {
        let copy = |(index, string): (usize, &String)| {
            let name = format!("copy_{index}");
            (original.file(&name), original.copied(&name).written(&[(slot, string)], way))
        };
        let files: Vec<_> = self.strings.iter().enumerate().map(copy).collect();
        let name = |(index, string): (usize, &String)| {
            if slot.is_id() { string.clone() } else { format!("copy_{index}") }
        };
        // An id that is none is refused in its own file; in the list of lessons it would only be told once more.
        let is_word = |id: &String| id.bytes().all(|byte| byte == b'_' || byte.is_ascii_alphanumeric());
        let lessons = self.strings.iter().enumerate().filter(|_| original.folder == "lessons").map(name);
        let lessons: Vec<_> = lessons.filter(is_word).collect();
        let faults = self.read(&self.course(&files, &lessons)).err().unwrap_or_default();
        let mut said = vec![None; self.strings.len()];
        for fault in &faults.list {
            let place = &fault.place;
            match place.file.split("copy_").nth(1).and_then(|rest| rest.strip_suffix(".md")) {
                Some(index) => {
                    self.is_told(fault);
                    said[index.parse::<usize>().expect("a number")] = Some(fault.code);
                }
                // The list of the lessons names them in vain where they cannot be read.
                None => assert!(
                    place.file == "course.yaml" && fault.code == Code::LessonUnknown,
                    "{}: {slot:?}: {fault:?}",
                    original.name
                ),
            }
        }
        said
    }

    /// Tries every field of the files, as one of them has it.
    fn fields(&self) -> Fields {
        let mut fields = Fields::new();
        for original in &self.originals {
            for slot in original.slots() {
                let field = original.field(&slot);
                if fields.contains_key(&field) {
                    continue;
                }
                if BARE_TOO.contains(&original.name.as_str()) && matches!(slot, Slot::Value(_)) {
                    self.try_slot(original, &slot, Way::Bare);
                }
                let said = self.try_slot(original, &slot, Way::Quoted);
                let takes =
                    said.iter().enumerate().filter(|(_, code)| code.is_none()).map(|(index, _)| index).collect();
                fields.insert(field, Field { original: original.name.clone(), slot, takes });
            }
        }
        fields
    }
}

fn left(name: &str) -> PathBuf {
    top().join("target/hostile").join(name)
}

fn publish(trial: &Trial, course: &Course, name: &str) {
    fs::create_dir_all(left("")).expect("folder");
    pages::publish(course, &trial.words, &left(name), &|| (), &|_, _| ()).expect("published");
}

/// A field of the readers' types that no file of the originals has would never be tried.
#[test]
fn every_text_that_the_readers_know_is_walked() {
    let walked: BTreeSet<_> = originals()
        .iter()
        .flat_map(|original| original.slots().into_iter().map(|slot| original.field(&slot)).collect::<Vec<_>>())
        .collect();
    let known = known_fields();
    let excused: BTreeSet<_> =
        NOT_WALKED.iter().map(|(folder, field, _)| ((*folder).to_owned(), (*field).to_owned())).collect();
    let left_out: BTreeSet<_> = known.difference(&walked).cloned().collect();
    assert_eq!(left_out, excused, "put them into a file of tests/hostile/course, so that hostile strings stand there");
    assert!(known.len() > 60, "{} fields", known.len());
}

#[test]
fn every_string_in_every_field_is_refused_in_its_place_or_published_as_text() {
    let trial = Trial::new();
    assert!(trial.strings.len() >= 200, "{} strings", trial.strings.len());
    publish(&trial, &trial.read(&trial.course(&[], &[])).expect("a course without a fault"), "plain");
    let fields = trial.fields();
    let (mut shown, in_heads) = trial.heads(&fields);
    let mut together = Together::of(&trial.originals, &fields, &trial.strings);
    // The files to hand out are read when the course is published.
    let (_folder, course) = loop {
        let files = together.files();
        let folder = trial.course(&files, &together.lessons());
        match trial.read(&folder) {
            Ok(course) => break (folder, course),
            Err(faults) => {
                let files = faults.list.iter().map(|fault| fault.place.file.as_str());
                together.split(&files.collect::<BTreeSet<_>>());
            }
        }
    };
    publish(&trial, &course, "site");
    shown.extend(together.shown());
    fs::write(left("shown.json"), serde_json::to_string(&shown).expect("JSON")).expect("texts for the browser");
    let taken: usize = fields.values().map(|field| field.takes.len()).sum();
    println!(
        "{} strings, {} fields, {} pairs, {taken} published; {} together",
        trial.strings.len(),
        fields.len(),
        fields.len() * trial.strings.len(),
        together.count() + in_heads
    );
}
