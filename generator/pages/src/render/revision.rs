//! The revision of a course, which every title block shows.

use course::{Block, Course, FEWEST_FILES, Lesson, on_threads};
use sha2::{Digest, Sha256};

/// Four letters and digits that change with anything in the course.
pub(crate) fn revision(course: &Course) -> String {
    let mut hash = Sha256::new();
    let said = course.imprint.iter().map(|said| &said.text).chain(&course.revision);
    said.chain(course.colours.iter().flatten()).for_each(|text| add(&mut hash, text));
    for text in [&course.title, &course.owner, &course.id, &course.safety] {
        add(&mut hash, text);
    }
    on_threads(&course.lessons, FEWEST_FILES, digest).iter().for_each(|digest| hash.update(digest));
    for text in course.terms.iter().flat_map(|term| [&term.term, &term.definition, &term.body_html]) {
        add(&mut hash, text);
    }
    for recipe in &course.recipes {
        add(&mut hash, &recipe.compiled);
    }
    course.handouts.iter().for_each(|handout| hash.update(handout.digest));
    hash.finalize().iter().take(2).map(|byte| format!("{byte:02x}")).collect()
}

/// The digest of a lesson.
fn digest(lesson: &Lesson) -> [u8; 32] {
    let mut hash = Sha256::new();
    add(&mut hash, &lesson.title);
    add(&mut hash, &lesson.summary);
    each_text(lesson, &mut |text| add(&mut hash, text));
    hash.finalize().into()
}

/// Every text of a lesson.
fn each_text(lesson: &Lesson, add: &mut dyn FnMut(&str)) {
    lesson.each_block(&mut |block| match block {
        Block::Html(text) | Block::Term(text) | Block::Head(text) => add(text),
        Block::Practice(practice) => add(&practice.recipe),
        Block::Work(work) => {
            add(work.relation.id);
            work.given.iter().for_each(|given| add(&given.text));
        }
        Block::Figure(figure) => {
            add(figure.figure.id);
            add(&figure.caption);
            figure.placing.iter().for_each(|placing| add(placing.id()));
        }
        Block::Picture(picture) => {
            add(&picture.html);
            picture.placing.iter().for_each(|placing| add(placing.id()));
        }
        Block::Media(media) => {
            add(&media.title);
            media.cues.iter().for_each(|cue| add(&format!("{} {} {}", cue.from, cue.to, cue.text)));
        }
        Block::Shown(shown) => add(&shown.source),
    });
}

fn add(hash: &mut Sha256, text: &str) {
    hash.update(text.len().to_le_bytes());
    hash.update(text);
}
