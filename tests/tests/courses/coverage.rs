//! The sheets of coverage: what they say of a course, with its gaps in words.

use std::fs;

use course::Code;
use seatwork_tests::{BadCase, Scratch, whole_course};

/// The sheets published from the course without a fault, with a case of `tests/warned-content` or nothing over it.
fn sheets(case: Option<Code>, change: impl FnOnce(&Scratch)) -> [String; 3] {
    let scratch = case.map_or_else(whole_course, |case| BadCase::named(case.id()).broken());
    change(&scratch);
    let output = scratch.publish();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    ["index", "terms", "relations"]
        .map(|name| fs::read_to_string(scratch.path(&format!("site/en/coverage/{name}.html"))).expect("sheet"))
}

/// The row of a table whose head says this, as text without tags.
fn row(sheet: &str, head: &str) -> String {
    let rows = sheet.split("<tr>").skip(1).map(|row| row.split("</tr>").next().unwrap_or_default());
    let texts = rows.map(|row| {
        let parts = row.replace("</td>", " | ").replace("</th>", " | ");
        let text: String = parts.split('<').map(|part| part.split_once('>').map_or(part, |(_, text)| text)).collect();
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    });
    let mut found: Vec<_> = texts.filter(|text| text.starts_with(head)).collect();
    assert_eq!(found.len(), 1, "{head}: {found:?}");
    found.remove(0)
}

#[test]
fn every_objective_tells_its_problems_with_level_form_and_place() {
    let [objectives, terms, relations] = sheets(None, |_| ());
    assert!(objectives.contains("Objectives that nothing practises: 0."));
    let problem = "The force under the closed disc a number · on sheet 2";
    assert_eq!(
        row(&objectives, "Work out the force"),
        format!("Work out the force on the disc. | {problem} | none– | none– | 2 · Parts |")
    );
    assert_eq!(row(&objectives, "2 · Parts"), "2 · Parts First to explain: disc, seat |");
    assert_eq!(row(&terms, "seat"), "seat | first |");
    assert_eq!(row(&relations, "Force at opening"), "Force at opening | The force under the closed disc |");
    assert!(row(&relations, "Blowdown in percent").ends_with("△ in no problem |"));
}

#[test]
fn what_nothing_practises_and_no_sheet_uses_is_a_gap_in_words() {
    let [objectives, ..] = sheets(Some(Code::ObjectiveUnpractised), |_| ());
    assert!(objectives.contains("Objectives that nothing practises: 1."));
    assert_eq!(row(&objectives, "Tell the seat"), "Tell the seat from the disc. | ▲ Gap. Nothing practises this. |");
    let [_, terms, _] = sheets(Some(Code::TermUnexplained), |_| ());
    assert_eq!(row(&terms, "lift"), "lift | ▲ Gap. No sheet uses this term. |");
}

#[test]
fn a_problem_that_no_lesson_shows_stands_on_the_practice_pages_alone() {
    let [objectives, ..] = sheets(Some(Code::LessonPractisesAhead), |_| ());
    let practice = "The name of the ring choose one · on the practice pages alone";
    assert_eq!(
        row(&objectives, "Name the seat"),
        format!("Name the seat. | {practice} | none– | none– | △ on the practice pages alone |")
    );
    // Shown by both lessons, taught by the second.
    assert!(row(&objectives, "Work out the force").ends_with("| 2 · First, 3 · Parts |"));
}

/// Puts a course with 38 lessons that all use the same terms into a scratch folder.
fn many_lessons(scratch: &Scratch) {
    let lesson = fs::read_to_string(scratch.path("course/en/lessons/parts.md")).expect("lesson");
    let mut order = "parts".to_owned();
    for number in 3..40 {
        let text = lesson.replace("id: parts", &format!("id: parts{number}"));
        let text = text.replace("id: work_seat_force", &format!("id: objective{number}"));
        scratch.write(&format!("course/en/lessons/parts{number}.md"), text.replace("title: Parts", "title: More"));
        order += &format!(", parts{number}");
    }
    let course = fs::read_to_string(scratch.path("course/course.yaml")).expect("course");
    scratch.write("course/course.yaml", course.replace("[parts]", &format!("[{order}]")));
}

#[test]
fn terms_stand_in_a_list_where_there_are_too_many_sheets_for_a_grid() {
    let [_, terms, _] = sheets(None, many_lessons);
    let later: Vec<_> = (3..40).map(|number| number.to_string()).collect();
    assert_eq!(row(&terms, "seat"), format!("seat | 2 · Parts | {} |", later.join(", ")));
}

#[test]
fn the_sheet_of_a_term_lists_so_many_lessons_and_leads_to_the_rest() {
    let scratch = whole_course();
    many_lessons(&scratch);
    assert!(scratch.publish().status.success());
    let sheet = fs::read_to_string(scratch.path("site/en/terms/seat.html")).expect("sheet");
    assert_eq!(sheet.matches("href=\"../lessons/").count(), 24);
    assert!(sheet.contains("<a href=\"../../en/coverage/terms.html#seat\">and 14 more</a>"), "{sheet}");
}
