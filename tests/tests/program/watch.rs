//! The preview: a real server, real files, a real window.

use std::fs;
use std::net::SocketAddr;

use course::{Code, Memory};
use pages::Words;
use pages::site::{GIT_IGNORE_NAME, MARKER_NAME};
use seatwork_tests::{Scratch, Window, top};
use watch::{Port, Preview, Settings};

const LESSON: &str = "course/en/lessons/numbers.md";
const FORMS: &str = "course/en/lessons/forms.md";
const PAGE: &str = "/site/en/lessons/numbers.html";

/// A small course in a scratch folder, with a preview of it.
struct Previewed {
    scratch: Scratch,
    preview: Preview,
}

impl Previewed {
    fn of(scratch: Scratch) -> Self {
        let (folder, words) = (scratch.path("course"), words());
        let (read, with, mut memory) = (folder.clone(), words.clone(), Memory::default());
        let settings = Settings {
            folder,
            words,
            port: Port::This(0),
            check: Box::new(move || course::read_again(&read, &with, &mut memory)),
            tell: Box::new(|_| {}),
        };
        Self { scratch, preview: Preview::start(settings).expect("preview") }
    }

    fn window(&self) -> Window {
        Window::open(&self.preview.address())
    }

    /// Saves a file as most editors do: beside it, and renamed.
    fn save(&self, file: &str, text: &str) {
        let beside = self.scratch.path("beside");
        fs::write(&beside, text).expect("file");
        fs::rename(beside, self.scratch.path(file)).expect("saved");
    }

    fn lesson(&self) -> String {
        fs::read_to_string(self.scratch.path(LESSON)).expect("lesson")
    }
}

fn words() -> Words {
    Words::of("en").expect("words")
}

fn small_course() -> Scratch {
    let scratch = Scratch::new();
    scratch.copy(&top().join("tests/browser/course"), "course");
    scratch
}

#[test]
fn the_pages_are_those_that_are_published() {
    let previewed = Previewed::of(small_course());
    compare(&previewed, &previewed.window(), "from the start");
}

fn course_with_files() -> Scratch {
    let scratch = Scratch::new();
    scratch.copy(&top().join("tests/browser/stick"), "course");
    scratch
}

#[test]
fn files_to_hand_out_are_those_that_are_published() {
    let previewed = Previewed::of(course_with_files());
    compare(&previewed, &previewed.window(), "from the start");
}

/// A film is played from where its viewer wants: a browser asks for pieces of it.
#[test]
fn a_piece_of_a_film_is_given_alone() {
    let previewed = Previewed::of(course_with_files());
    let window = previewed.window();
    let film = fs::read(previewed.scratch.path("course/en/files/pop.webm")).expect("film");
    let address = previewed.preview.address();
    let host = address.trim_start_matches("http://").trim_end_matches('/');
    let ask = |host: &str| {
        window.ask(&format!("GET /site/en/files/pop.webm HTTP/1.1\r\nHost: {host}\r\nRange: bytes=100-199"))
    };
    let answer = ask(host);
    assert_eq!((answer.status, answer.body.as_slice()), (206, &film[100..200]));
    assert!(answer.head.contains(&format!("content-range: bytes 100-199/{}", film.len())), "{}", answer.head);
    assert!(answer.head.contains("content-type: video/webm"), "{}", answer.head);
    assert_ne!(ask("elsewhere.example").status, 206, "files are guarded as pages are");
}

/// Asks for every file of the site, and compares it with what `publish` writes.
fn compare(previewed: &Previewed, window: &Window, when: &str) {
    let published = previewed.scratch.publish();
    assert!(published.status.success(), "{when}: {}", String::from_utf8_lossy(&published.stderr));
    let site = previewed.scratch.files("site");
    assert!(site.len() > 40, "{} files", site.len());
    for (name, bytes) in site.iter().filter(|(name, _)| ![MARKER_NAME, GIT_IGNORE_NAME].contains(&name.as_str())) {
        assert!(window.get(&format!("/site/{name}")).body == *bytes, "{name}, {when}");
    }
}

/// What is known of the lessons that did not change must be what a fresh reading gives, whatever else changed.
#[test]
fn after_every_sort_of_change_the_pages_are_those_that_are_published() {
    const SHOWS: &str = "\n```shown\nA seat.\n```\n\n```file\nlesson: forms\n```\n\n```file\nterm: seat\n```\n";
    let previewed = Previewed::of(small_course());
    let mut window = previewed.window();
    for (what, file, from, to) in [
        ("files are shown", LESSON, "", SHOWS),
        ("the text of another lesson", FORMS, "A [seat](term:seat) seals.", "A [seat](term:seat) seals well."),
        ("the head of a lesson that is shown", FORMS, "title: \"", "title: \"New "),
        ("a definition", "course/en/terms/seat.md", "on which the disc seals", "on which the disc rests and seals"),
        ("the text of a term", "course/en/terms/seat.md", "It is lapped.", "It is lapped by hand."),
        ("a further wording", "course/en/terms/seat.md", "term: seat", "term: seat\nalso: [disc]"),
        ("the title of a recipe", "course/en/recipes/rounded.md", "title: ", "title: New "),
        ("the decimal mark", "course/course.yaml", "decimal_mark: \".\"", "decimal_mark: \",\""),
        ("the order of the lessons", "course/course.yaml", "  - forms\n  - numbers", "  - numbers\n  - forms"),
        ("the lesson again", LESSON, "```shown\nA seat.\n```\n", ""),
    ] {
        let text = fs::read_to_string(previewed.scratch.path(file)).expect(file);
        let changed = if from.is_empty() { text.clone() + to } else { text.replacen(from, to, 1) };
        assert_ne!(text, changed, "{what}");
        previewed.save(file, &changed);
        window.hear();
        compare(&previewed, &window, what);
    }
}

#[test]
fn a_change_is_shown_and_a_window_hears_of_it() {
    let previewed = Previewed::of(small_course());
    let (mut one, mut other) = (previewed.window(), previewed.window());
    let text = previewed.lesson();
    previewed.save(LESSON, &format!("{text}\nThe gag is out before the test begins.\n"));
    assert_eq!(one.hear(), other.hear());
    assert!(one.get(PAGE).text().contains("The gag is out before the test begins."));
    // Written in its place, too.
    fs::write(previewed.scratch.path(LESSON), text).expect("lesson");
    one.hear();
    assert!(!one.get(PAGE).text().contains("The gag is out"));
}

#[test]
fn a_new_lesson_and_one_taken_away_are_followed() {
    let previewed = Previewed::of(small_course());
    let mut window = previewed.window();
    let course = fs::read_to_string(previewed.scratch.path("course/course.yaml")).expect("course");
    let lesson = previewed.lesson().replace("id: numbers", "id: gags").replace("id: work_numbers", "id: work_gags");
    previewed.save("course/en/lessons/gags.md", &lesson);
    window.hear_of(Code::LessonNotInOrder.id());
    previewed.save("course/course.yaml", &course.replace("- numbers", "- numbers\n  - gags"));
    window.hear_of("/site/en/lessons/gags.html");
    assert_eq!(window.get("/site/en/lessons/gags.html").status, 200);
    previewed.save("course/course.yaml", &course);
    fs::remove_file(previewed.scratch.path("course/en/lessons/gags.md")).expect("removed");
    while window.get("/site/en/lessons/gags.html").status != 404 {
        window.hear();
    }
}

#[test]
fn a_fault_is_told_with_its_place_while_the_last_good_site_stays() {
    let previewed = Previewed::of(small_course());
    let mut window = previewed.window();
    let (before, text) = (window.get(PAGE).body, previewed.lesson());
    let line = text.lines().count() + 2;
    previewed.save(LESSON, &format!("{text}\nA [seat](term:saet).\n"));
    window.hear();
    let frame = window.get("/");
    let place = format!("{}/en/lessons/numbers.md:{line}:10", previewed.scratch.path("course").display());
    let words = words();
    for said in [&place, "<mark>term:saet</mark>", Code::TermUnknown.id(), words.get("watch.one_fault")] {
        assert!(frame.text().contains(said), "{said} in {}", frame.text());
    }
    assert!(frame.text().contains(words.get("watch.still")));
    assert!(window.get(PAGE).body == before);
    previewed.save(LESSON, &text);
    window.hear();
    assert!(!window.get("/").text().contains(Code::TermUnknown.id()));
}

#[test]
fn a_course_with_faults_from_the_start_is_shown_once_they_are_mended() {
    let scratch = small_course();
    let text = fs::read_to_string(scratch.path(LESSON)).expect("lesson");
    scratch.write(LESSON, text.replace("format: 1", "format: 7"));
    let previewed = Previewed::of(scratch);
    let mut window = previewed.window();
    assert!(window.get("/").text().contains(Code::FormatUnknown.id()));
    let note = window.get(PAGE);
    assert_eq!(note.status, 503);
    assert!(note.text().contains(words().get("watch.no_site")));
    previewed.save(LESSON, &text);
    window.hear();
    assert_eq!(window.get(PAGE).status, 200);
}

#[test]
fn the_folder_may_be_moved_away_and_put_back() {
    let previewed = Previewed::of(small_course());
    let mut window = previewed.window();
    let (here, away) = (previewed.scratch.path("course"), previewed.scratch.path("away"));
    fs::rename(&here, &away).expect("moved");
    window.hear_of(Code::CourseFolderMissing.id());
    fs::rename(&away, &here).expect("put back");
    window.hear_of(words().get("watch.sound"));
    let text = previewed.lesson();
    previewed.save(LESSON, &format!("{text}\nThe gag is out.\n"));
    window.hear();
    assert!(window.get(PAGE).text().contains("The gag is out."));
}

#[test]
fn nothing_outside_of_the_site_can_be_had() {
    let previewed = Previewed::of(small_course());
    let window = previewed.window();
    for path in [
        "/site/../course/course.yaml",
        "/site/%2e%2e/course/course.yaml",
        "/site/..%2f..%2fetc%2fpasswd",
        "/site//etc/passwd",
        "/site/en/lessons/../../../course/course.yaml",
        "/site/en/lessons/numbers.md",
        "/site/course.yaml",
        "/course/course.yaml",
        "/watch/../Cargo.toml",
        "/watch/preview.html",
        "/samples/us/..%2f..%2fcourse.html",
        "/guide/index.html",
    ] {
        assert_eq!(window.get(path).status, 404, "{path}");
    }
}

#[test]
fn only_this_machine_may_ask_and_only_read() {
    let previewed = Previewed::of(small_course());
    let (window, address) = (previewed.window(), previewed.preview.address());
    let host: SocketAddr = address.trim_start_matches("http://").trim_end_matches('/').parse().expect("address");
    assert!(host.ip().is_loopback());
    for foreign in ["valves.example", "127.0.0.1.valves.example:80", "0.0.0.0"] {
        let answer = window.ask(&format!("GET {PAGE} HTTP/1.1\r\nHost: {foreign}"));
        assert_eq!((answer.status, answer.text()), (403, words().get("watch.foreign")), "{foreign}");
    }
    for method in ["POST", "PUT", "DELETE", "OPTIONS"] {
        let answer = window.ask(&format!("{method} {PAGE} HTTP/1.1\r\nHost: {host}\r\nContent-Length: 0"));
        assert_eq!(answer.status, 405, "{method}");
    }
    let head = window.ask(&format!("HEAD {PAGE} HTTP/1.1\r\nHost: localhost:{}", host.port()));
    assert_eq!((head.status, head.body.len()), (200, 0));
}

#[test]
fn every_answer_keeps_other_sites_out() {
    let previewed = Previewed::of(small_course());
    let window = previewed.window();
    for (path, framed_by) in [("/", "'none'"), (PAGE, "'self'"), ("/site/none.html", "'self'")] {
        let head = window.get(path).head;
        assert!(head.contains(&format!("frame-ancestors {framed_by}")), "{path}: {head}");
        assert!(head.contains("cross-origin-resource-policy: same-origin"), "{path}: {head}");
        assert!(head.contains("cache-control: no-store"), "{path}: {head}");
    }
    let frame = window.get("/");
    assert!(!frame.text().contains("<style") && !frame.text().contains("<script>"));
}

#[test]
fn the_frame_lists_lessons_and_recipes_and_samples_are_drawn() {
    let previewed = Previewed::of(small_course());
    let window = previewed.window();
    let frame = window.get("/");
    let course = course::read(&previewed.scratch.path("course"), &words()).expect("course");
    for lesson in &course.lessons {
        let minutes = lesson.words.div_ceil(watch::WORDS_A_MINUTE);
        let length =
            words().fill("watch.length", &[("words", &lesson.words.to_string()), ("minutes", &minutes.to_string())]);
        assert!(frame.text().contains(&length), "{length}");
        assert!(lesson.objectives.iter().all(|objective| frame.text().contains(&objective.text)));
    }
    for recipe in &course.recipes {
        let href = format!("/samples/si/{}.html", recipe.recipe.id);
        assert!(frame.text().contains(&href));
        assert!(window.get(&href).text().starts_with(pages::SAMPLES_MARK));
    }
}
