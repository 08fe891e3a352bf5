//! `course.yaml`, of which a course has one: each string in each of its fields in a course of its own, and small courses
//! that have between them all that it takes, for the browser.

use std::fs;

use course::Code;
use seatwork_tests::Scratch;

use super::originals::{Slot, Way};
use super::texts::quoted;
use super::together::{Fields, SEVERAL, Shown, gallery, joined};
use super::{Trial, left, publish, write_logo};

/// Where the small courses are left.
pub(crate) const SMALL: &str = "heads";

/// The one field that takes only names.
const NAME: &str = "course_id";

impl Trial {
    /// A course without problems, in which `course.yaml` is soon read.
    fn small(&self) -> Scratch {
        let scratch = Scratch::new();
        write_logo(&scratch);
        for lesson in self.originals[0].named_lessons() {
            let (file, text) = gallery(&lesson, &[]);
            scratch.write(&format!("course/{file}"), text);
        }
        scratch
    }

    /// The code with which each string is refused in a slot of `course.yaml`, or nothing where it is taken.
    pub(crate) fn try_head(&self, slot: &Slot, way: Way) -> Vec<Option<Code>> {
        let scratch = self.small();
        self.strings.iter().map(|string| self.refused(&scratch, slot, string, way)).collect()
    }

    fn refused(&self, scratch: &Scratch, slot: &Slot, string: &str, way: Way) -> Option<Code> {
        let text = self.originals[0].written(&[(slot, string)], way);
        scratch.write("course/course.yaml", &text);
        let faults = self.read(scratch).err()?;
        faults.list.iter().for_each(|fault| self.is_told(fault));
        let Slot::Value(path) = slot else { panic!("{slot:?}") };
        let here = |line: &str| line.starts_with(&path[0]) || line.contains(&quoted(string));
        let in_place = faults.list.iter().find(|fault| {
            let place = &fault.place;
            let line = text[..place.span.start.min(text.len())].matches('\n').count();
            place.file == "course.yaml" && (way == Way::Bare || text.lines().nth(line).is_some_and(here))
        });
        Some(in_place.unwrap_or_else(|| panic!("{slot:?}: {string:?}: {:?}", faults.list)).code)
    }

    /// Publishes the small courses; gives what their covers must show, and how many strings are in them.
    pub(crate) fn heads(&self, fields: &Fields) -> (Vec<Shown>, usize) {
        fs::remove_dir_all(left(SMALL)).ok();
        let head = &self.originals[0];
        let of_head = || fields.iter().filter(|((folder, _), field)| folder.is_empty() && !field.takes.is_empty());
        let names = &of_head().find(|((_, name), _)| name == NAME).expect("names").1.takes;
        let scratch = self.small();
        // A date takes a blank, and nothing else that could be put together.
        let is_open = |slot: &Slot| self.refused(&scratch, slot, &joined(&[], 0), Way::Quoted).is_none();
        let open: Vec<_> = of_head()
            .filter(|((_, name), field)| name != NAME && is_open(&field.slot))
            .map(|(_, field)| field)
            .collect();
        let (mut all, mut count) = (Vec::new(), 0);
        for (number, start) in (0..self.strings.len()).step_by(SEVERAL).enumerate() {
            let range = start..start + SEVERAL;
            let fit = |takes: &[usize]| {
                let fit = takes.iter().filter(|index| range.contains(index));
                fit.map(|index| self.strings[*index].as_str()).collect::<Vec<_>>()
            };
            let texts: Vec<_> = open.iter().map(|field| (&field.slot, fit(&field.takes))).collect();
            let name = self.strings[names[number % names.len()]].as_str();
            let written: Vec<_> = texts.iter().map(|(slot, texts)| (*slot, joined(texts, number))).collect();
            let slot = Slot::Value(vec![NAME.to_owned()]);
            let filled = written.iter().map(|(slot, text)| (*slot, text.as_str())).chain([(&slot, name)]);
            scratch.write("course/course.yaml", head.written(&filled.collect::<Vec<_>>(), Way::Quoted));
            let course = self.read(&scratch).expect("each of them alone is taken");
            publish(self, &course, &format!("{SMALL}/{number}"));
            count += texts.iter().map(|(_, texts)| texts.len()).sum::<usize>() + 1;
            all.push(Shown::of(format!("{SMALL}/{number}/index.html"), texts.into_iter().flat_map(|(_, texts)| texts)));
        }
        (all, count)
    }
}
