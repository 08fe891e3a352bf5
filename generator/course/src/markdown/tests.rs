//! Texts into HTML and faults, one rule a test.

use std::collections::BTreeMap;

use faults::Code;
use imagesize::ImageSize;
use problems::recipe::raw::Entries;
use problems::template::Piece;

use super::*;
use crate::course::Block;
use crate::files::Sort;
use crate::placing::Placing;
use crate::quantities::Finder;
use crate::scenario::{NONE, Scenario};
use crate::yaml::Yaml;

fn references() -> References<'static> {
    let entry = |id: &str, wordings: &[&str]| Entry {
        id: id.to_owned(),
        wordings: wordings.iter().map(|&wording| wording.to_owned()).collect(),
        definition: format!("What {id} is."),
    };
    let names = |names: &[&str]| names.iter().map(|&name| name.to_owned()).collect();
    References {
        language: "en".to_owned(),
        decimal_mark: '.',
        terms: Terms::new(&[entry("seat", &["seat"]), entry("full_lift", &["full lift"])], "en"),
        lessons: names(&["parts", "lift"]),
        recipes: names(&["seat_force"]),
        handouts: BTreeMap::new(),
        captions: BTreeMap::new(),
        relations: Vec::new(),
        images: [("en/images/cap.png".to_owned(), Some(ImageSize { width: 40, height: 30 }))].into(),
        signals: SIGNALS.map(|word| format!("{word}!")),
        math: Math::new(),
        files: vec![Whole {
            sort: Sort::Recipe,
            id: "seat_force",
            file: "en/recipes/b.md",
            text: "---\r\nid: seat_force\r\n",
        }],
        finder: Finder::new(&crate::quantities::EnglishWords),
    }
}

fn rendered(mode: Mode, body: &str) -> (Page, Vec<(Code, String)>) {
    let source = format!("---\nid: é\n---\n{body}");
    let base = source.len() - body.len();
    let mut faults = Vec::new();
    let references = references();
    let scenario = Yaml::new("", "scenario: { opening: 100 psig, rise: 10 psi, bore: 1 1/2 in }", 0);
    let raw = scenario.read::<Entries<Entries<String>>>(&mut faults).expect("scenario").0.remove(0).1;
    let scenario = Scenario::read(&scenario, &raw, &references, &mut faults);
    let text = Text { file: "en/lessons/a.md", source: &source, base, mode, own_term: None, scenario: &scenario };
    let page = render(&references, text, &mut faults);
    let marked = |fault: &Fault| source[fault.place.span.clone()].to_owned();
    let told = faults.iter().map(|fault| (fault.code, marked(fault))).collect();
    (page, told)
}

fn html(body: &str) -> String {
    let (page, faults) = rendered(Mode::Lesson, body);
    assert_eq!(faults, [], "{body}");
    page.into_html().trim().to_owned()
}

fn fault(body: &str) -> (Code, String) {
    let (_, mut faults) = rendered(Mode::Lesson, body);
    assert_eq!(faults.len(), 1, "{body}: {faults:?}");
    faults.remove(0)
}

#[track_caller]
fn refused(body: &str, code: Code, marked: &str) {
    assert_eq!(fault(body), (fault(body).0, marked.to_owned()), "{body}");
    assert_eq!(fault(body).0, code, "{body}");
}

const SEAT: &str = "<a class=\"term\" href=\"../../en/terms/index.html#seat\" data-definition=\"What seat is.\">";

#[test]
fn the_first_mention_of_a_term_is_linked_and_no_other() {
    assert_eq!(html("A seat and two seats."), format!("<p>A {SEAT}seat</a> and two seats.</p>"));
    assert_eq!(html("At full\nlift."), html("At full lift."));
    assert!(html("At full\nlift.").contains(">full lift</a>"));
    assert_eq!(
        html("[A seat](https://a.example) on `seat`, a seat"),
        format!("<p><a href=\"https://a.example\">A seat</a> on <code>seat</code>, a {SEAT}seat</a></p>")
    );
    assert_eq!(html("## The seat"), "<h2 id=\"the-seat\">The seat</h2>");
    let (page, _) = rendered(Mode::Lesson, "[here](term:seat) and the seat");
    assert_eq!(page.terms, ["seat"]);
    assert_eq!(page.words, 4);
    assert_eq!(page.into_html().matches("<a ").count(), 1);
}

#[test]
fn a_term_is_not_linked_in_its_own_text() {
    let references = references();
    let text = Text {
        file: "a",
        source: "The seat at full lift.",
        base: 0,
        mode: Mode::Term,
        own_term: Some("seat"),
        scenario: &NONE,
    };
    let page = render(&references, text, &mut Vec::new());
    assert_eq!(page.terms, ["full_lift"]);
}

#[test]
fn links_lead_to_pages_of_the_site() {
    assert!(html("[x](lesson:lift)").contains("href=\"../../en/lessons/lift.html\""));
    assert!(html("[x](lesson:lift#how)").contains("href=\"../../en/lessons/lift.html#how\""));
    assert!(html("[x](relation:bore_area)").contains("href=\"../../en/relations/spring.html#bore_area\""));
    assert!(html("<a@b.example>").contains("href=\"mailto:a@b.example\""));
    let (page, _) = rendered(Mode::Lesson, "[x](#how) [y](lesson:lift#then)");
    let anchors: Vec<_> = page.anchors.iter().map(|used| (used.lesson.as_deref(), used.anchor.as_str())).collect();
    assert_eq!(anchors, [(None, "how"), (Some("lift"), "then")]);
}

#[test]
fn other_addresses_are_refused() {
    for address in [
        "javascript:alert(1)",
        "JAVASCRIPT:x",
        "data:text/html,x",
        "file:///etc/x",
        "//a.example/x",
        "/en/x.html",
        "lift.html",
        "http://a.example",
        "vbscript:x",
        "https:",
        "mailto:",
    ] {
        refused(&format!("[x]({address})"), Code::LinkAddressRefused, address);
    }
    refused("[x](term:sea)", Code::TermUnknown, "term:sea");
    refused("[x](lesson:lifts)", Code::LessonUnknown, "lesson:lifts");
    refused("[x](relation:bore)", Code::RelationUnknown, "relation:bore");
    refused("[](term:seat)", Code::LinkWithoutText, "[](term:seat)");
    refused("see [the cap] (x) and [cap](term:full lift) here", Code::LinkBroken, "](term:full lift)");
}

#[test]
fn html_is_refused() {
    refused("a <b>bold</b> word", Code::MarkdownRawHtml, "<b>");
    refused("<script>\nalert(1)\n</script>\n\nText", Code::MarkdownRawHtml, "<script>\nalert(1)\n</script>");
    refused("<!-- note -->", Code::MarkdownRawHtml, "<!-- note -->");
    assert_eq!(html("1 < 2 & \\<b>"), "<p>1 &lt; 2 &amp; &lt;b&gt;</p>");
}

#[test]
fn pictures_need_words_and_stay_in_the_course() {
    assert_eq!(
        html("See ![The *cap*](../images/cap.png)"),
        "<p>See <img src=\"../../en/images/cap.png\" alt=\"The cap\" width=\"40\" height=\"30\" /></p>"
    );
    let (page, faults) = rendered(Mode::Lesson, "![The cap](../images/cap.png#small)");
    let [Block::Picture(picture)] = page.blocks.as_slice() else { panic!("{:?}", page.blocks) };
    assert_eq!((picture.size, picture.placing, faults), (Some((40, 30)), Some(Placing::Small), Vec::new()));
    refused("![](../images/cap.png)", Code::ImageWithoutAlternative, "![](../images/cap.png)");
    refused("![Cap](../images/cup.png)", Code::ImageMissing, "../images/cup.png");
    refused("![Cap](../images/Cap.PNG)", Code::ImageMissing, "../images/Cap.PNG");
    // As one system stores an accent, and as another does; and as an address writes a space.
    for name in ["sch\u{fc}tz.png", "schu\u{308}tz.png", "my%20cap.png"] {
        refused(&format!("![Cap](../images/{name})"), Code::CourseUnportableName, &format!("../images/{name}"));
    }
    assert!(html("See ![Cap](..\\images\\cap.png)").contains("src=\"../../en/images/cap.png\""));
    for address in [
        "../../../x.png",
        "/x.png",
        "https://a.example/x.png",
        "data:image/png;base64,AA",
        "C:\\x.png",
        "C:x.png",
        "\\x.png",
    ] {
        refused(&format!("![Cap]({address})"), Code::ImageLeavesCourse, address);
    }
}

#[test]
fn signal_panels_start_with_one_of_four_words() {
    let panel = html("> **WARNING** Hot *oil*.\n> Stand clear.");
    assert_eq!(
        panel,
        "<aside class=\"signal signal-warning\" role=\"note\"><p class=\"signal-word\">WARNING!</p><div class=\"signal-text\">\n<p> Hot <em>oil</em>. Stand clear.</p>\n</div></aside>"
    );
    assert!(
        html("> **NOTICE**\n>\n> Text\n>\n> > Quote")
            .ends_with("<p>Text</p>\n<blockquote>\n<p>Quote</p>\n</blockquote>\n</div></aside>")
    );
    assert!(html("> **Warnings** in a text").starts_with("<blockquote>"));
    refused("> **Warning** in a text", Code::SignalWordUnknown, "Warning");
    refused("> **CAUTION:** Hot oil.", Code::SignalWordUnknown, "CAUTION:");
    let with_colon = html("> **WARNING**: Hot *oil*.");
    assert!(with_colon.contains("<div class=\"signal-text\">\n<p>Hot <em>oil</em>.</p>"), "{with_colon}");
    refused("> **IMPORTANT** Text", Code::SignalWordUnknown, "IMPORTANT");
    refused("> **DANGER**", Code::SignalWithoutText, "DANGER");
}

#[test]
fn headings_have_anchors_and_do_not_skip() {
    let (page, faults) = rendered(Mode::Lesson, "## A `b` c\n\n### Main\n\n## A b c\n");
    let anchors: Vec<_> = page.headings.iter().map(|heading| heading.anchor.as_str()).collect();
    assert_eq!((anchors, faults.len()), (vec!["a-b-c", "main-2", "a-b-c-2"], 0));
    refused("# Title", Code::HeadingOfFirstLevel, "# Title");
    refused("### Deep", Code::HeadingSkipsLevel, "### Deep");
}

#[test]
fn formulas_have_words_beside_them() {
    assert!(html("Area $A$.").contains("<math><mi>A</mi></math>"));
    let alone = html("$$A$$\n\nThe area.");
    assert!(
        alone.starts_with("<div class=\"math-wrap\"><math display=\"block\">")
            && alone.ends_with("</div>\n<p>The area.</p>"),
        "{alone}"
    );
    let within = html("The area is\n$$A$$\nof the bore.");
    assert!(
        within.starts_with("<p>The area is </p>\n<div") && within.ends_with("</div>\n<p> of the bore.</p>"),
        "{within}"
    );
    assert!(html("- $$A$$\n\n  is the area").contains("<li><div class=\"math-wrap\">"));
    assert_eq!(html("**The area $$A$$ here**").matches("<p>").count(), 1);
    refused("$$A$$\n\n## Next\n\nText", Code::FormulaWithoutWords, "$$A$$");
    refused("Text\n\n$$A$$", Code::FormulaWithoutWords, "$$A$$");
    refused("Area $A + \\nonsense$.", Code::FormulaUnreadable, "\\nonsense");
}

#[test]
fn numbers_are_worked_out() {
    assert_eq!(
        html("It is {= 3 psi + 1 psi in psi}, {= 2 *\n3}."),
        "<p>It is <span class=\"computed\">4\u{a0}psi</span>, <span class=\"computed\">6</span>.</p>"
    );
    assert_eq!(html("a \\{b} {{C}} { c } {} \\{= x}"), "<p>a {b} {{C}} { c } {} {= x}</p>");
    refused("It is {= 3 psi + 1 in in psi}.", Code::FormulaKind, "3 psi + 1 in");
    refused("It is {= bore_area(bore: bor) in in2}.", Code::FormulaUnknownName, "bor");
    refused("It is &amp; {= 3 psi in mm}.", Code::UnitOfAnotherKind, "mm");
    refused("It is {= 3 psi", Code::ComputedUnclosed, "{= 3 psi");
    refused("It is {= 2*3*4}.", Code::ComputedUnclosed, "{= 2");
}

#[test]
fn values_of_the_scenario_are_printed_and_worked_with() {
    assert_eq!(html("At {opening}."), "<p>At <span class=\"scenario\">100\u{a0}psig</span>.</p>");
    assert!(
        html("{= opening_accumulation(full_open: opening + rise, opening: opening) in psi}").contains("10\u{a0}psi")
    );
    let (page, faults) = rendered(Mode::Lesson, "At {rise}, not {= 2 * bore_area(bore: bore) in in2}.");
    assert_eq!((page.given.into_iter().collect::<Vec<_>>(), faults.len()), (vec![1, 2], 0));
    refused("At {openning}.", Code::ScenarioUnknown, "{openning}");
    refused("At {= opening + bore in psig}.", Code::FormulaKind, "opening + bore");
    let block = |lines: &str| rendered(Mode::Lesson, &format!("```{lines}\n```"));
    let (page, faults) = block("work\nrelation: bore_area\nbore: bore");
    assert!(faults.is_empty() && matches!(&page.blocks[0], Block::Work(work) if work.given[0].text == "1 1/2 in"));
    let plot = "figure\nshow: lift_against_pressure\nopening: opening\nfull_open: 115 psig\nreseat: 93 psig\nfull_lift: 0.1 in\ncaption: CAPTION";
    let (page, faults) = block(&plot.replace("CAPTION", "\"It opens at {opening}, {= rise in bar} below.\""));
    assert_eq!(faults, []);
    let Block::Figure(figure) = &page.blocks[0] else { panic!("no figure") };
    assert_eq!(figure.caption, "It opens at 100\u{a0}psig, 0.6895\u{a0}bar below.");
    let caption = plot.replace("CAPTION", "It opens at 100 psig.");
    refused(&format!("```{caption}\n```"), Code::NumberUnsourced, "100 psig");
    assert_eq!(block(&plot.replace("CAPTION", "\"{opning}\"")).1, [(Code::ScenarioUnknown, "{opning}".to_owned())]);
}

#[test]
fn numbers_with_a_unit_come_from_somewhere() {
    refused("It opens at 100 psig.", Code::NumberUnsourced, "100 psig");
    refused("It opens at\n**10&nbsp;psi** more.", Code::NumberUnsourced, "10&nbsp;psi");
    refused("- a\n- at 1 \\\n  [psi](term:seat)", Code::NumberUnsourced, "1 \\\n  [psi");
    refused("## The 3 % rule", Code::NumberUnsourced, "3 %");
    refused("| a |\n| --- |\n| 3 mm |", Code::NumberUnsourced, "3 mm");
    refused("> **NOTICE** At 3 mm.", Code::NumberUnsourced, "3 mm");
    refused("![A cap of 3 mm](../images/cap.png)", Code::NumberUnsourced, "3 mm");
    refused("From 10 to {opening}.", Code::NumberUnsourced, "10 to");
    html("{= 3 psi in psi} on 2 to {= 2 * 2} valves.");
    refused("At $p = 10\\,\\text{psi}$.", Code::NumberUnsourced, "$p = 10\\,\\text{psi}$");
    html("`10 psi`, {opening}, {= 3 psi in psi}, $8 \\, F$, 3 valves\n\n    10 psi\n\n```text\n10 psi\n```");
    refused("At &half; turn.", Code::NumberUnsourced, "&half; turn");
    assert_eq!(rendered(Mode::Term, "At 10 psi.").1, []);
    assert_eq!(rendered(Mode::Recipe, "## Question\nAt 10 psi.").1, []);
}

#[test]
fn a_note_is_the_source_of_the_block_that_it_stands_in() {
    const NOTE: &str = "\n\n[^a]: Of 1 psi, from memory.\n";
    let cited = |body: &str| html(&format!("{body}{NOTE}"));
    let none = |body: &str, marked: &str| refused(&format!("{body}{NOTE}"), Code::NumberUnsourced, marked);
    cited("At 3 psi[^a] and *4 psi*.");
    cited("**At 3 psi[^a]** and 4 psi.");
    cited("- At 3 psi[^a]\n  - and 4 psi");
    cited("- At 3 psi\n\n  and 4 psi.[^a]");
    cited("> **NOTICE** At 3 psi.\n>\n> - 4 psi\n>\n> As known.[^a]");
    cited("| a[^a] | b |\n| --- | --- |\n| 1 psi | 2 psi |\n| 1 psi | 2 psi |");
    cited("| a | b |\n| --- | --- |\n| 1 psi | 2 psi[^a] |");
    none("At 3 psi.\n\nAs known.[^a]", "3 psi");
    none("- At 3 psi\n- As known[^a]", "3 psi");
    none("- At 3 psi\n  - As known[^a]", "3 psi");
    none("At 3 psi:\n\n- as known[^a]", "3 psi");
    none("| a | b |\n| --- | --- |\n| 1 psi[^a] | 2 psi |\n| - | 3 psi |", "3 psi");
    none("> At 3 psi.\n\nAs known.[^a]", "3 psi");
    refused("At 3 psi[^a].\n\n[^a]:\n", Code::NoteWithoutText, "[^a]:");
}

#[test]
fn links_lead_to_one_table_or_to_the_sheet_of_a_family() {
    let links = html("[a](table:limits) [b](table:set_tolerance)");
    for href in ["../../en/tables/limits.html", "../../en/tables/limits.html#set_tolerance"] {
        assert!(links.contains(&format!("<a href=\"{href}\">")), "{links}");
    }
}

#[test]
fn tables_scroll_alone_and_have_scopes() {
    let table = html("| a | b |\n| --- | ---: |\n| [seat](term:seat) | 1 |\n");
    assert_eq!(
        table,
        format!(
            "<div class=\"table-wrap\"><table><thead><tr><th scope=\"col\">a</th><th scope=\"col\" class=\"align-end\">b</th></tr></thead><tbody>\n<tr><td>{SEAT}seat</a></td><td class=\"align-end\">1</td></tr>\n</tbody></table></div>"
        )
    );
}

#[test]
fn notes_are_numbered_by_first_mention() {
    let notes = html("One[^b] two[^a] one[^b]\n\n[^a]: A\n\n[^b]: B");
    assert!(
        notes.contains("<sup class=\"footnote-reference\" id=\"note_1-use\"><a href=\"#note_1\">1</a></sup>"),
        "{notes}"
    );
    assert_eq!(notes.matches("note_1-use").count(), 1);
    assert!(
        notes.contains("id=\"note_2\"><sup class=\"footnote-definition-label\">2</sup><div>\n<p>A</p>\n</div></div>"),
        "{notes}"
    );
    refused("One[^b]", Code::NoteUnknown, "[^b]");
}

fn kind(block: &Block) -> &'static str {
    match block {
        Block::Html(_) => "html",
        Block::Practice(_) => "practice",
        Block::Work(_) => "work",
        Block::Figure(_) => "figure",
        Block::Picture(_) => "picture",
        Block::Media(_) => "media",
        Block::Shown(_) => "shown",
        Block::Term(_) => "term",
        Block::Head(_) => "head",
    }
}

#[test]
fn blocks_cut_the_text() {
    let (page, faults) = rendered(
        Mode::Lesson,
        "Before\n\n```practice\nrecipe: seat_force\n```\n\nAfter\n\n```work\nrelation: bore_area\nbore: 1.5 in\nin: in2\n```\n\n```figure\nshow: relief_valve_section\ncaption: \"Valve\"\n```\n\n```text\ncode\n```\n",
    );
    assert_eq!(faults, []);
    let kinds: Vec<_> = page.blocks.iter().map(kind).collect();
    assert_eq!(kinds, ["html", "practice", "html", "work", "figure", "html"]);
}

/// The only block of a page, which must be one of shown source: its source and the kinds of what it becomes.
fn shown(page: &Page) -> (&str, Vec<&'static str>) {
    let [Block::Shown(shown)] = page.blocks.as_slice() else { panic!("{:?}", page.blocks) };
    (&shown.source, shown.becomes.iter().map(kind).collect())
}

#[test]
fn source_stands_beside_what_it_becomes() {
    let (page, faults) =
        rendered(Mode::Lesson, "````shown\r\n## The *cap*\r\n\r\n```practice\r\nrecipe: seat_force\r\n```\r\n````\r\n");
    assert_eq!(faults, []);
    assert_eq!(shown(&page), ("## The *cap*\n\n```practice\nrecipe: seat_force\n```\n", vec!["html", "practice"]));
    assert_eq!(page.headings[0].text, "The cap");
    let (page, faults) = rendered(Mode::Lesson, "```file\nrecipe: seat_force\n```\n");
    assert_eq!((shown(&page), faults), (("---\nid: seat_force\n", vec!["practice"]), vec![]));
}

#[test]
fn a_shown_piece_has_terms_and_notes_of_its_own() {
    let (page, faults) =
        rendered(Mode::Lesson, "A seat.[^a]\n\n[^a]: One.\n\n```shown\nA seat.[^a]\n\n[^a]: Two.\n```\n\nA seat.");
    assert_eq!(faults, []);
    assert_eq!(page.terms, ["seat"]);
    let [Block::Html(before), Block::Shown(within), Block::Html(after)] = page.blocks.as_slice() else { panic!() };
    let [Block::Html(within)] = within.becomes.as_slice() else { panic!() };
    assert!(before.contains(SEAT) && within.contains(SEAT) && !after.contains(SEAT), "{before}{within}{after}");
    assert!(before.contains("id=\"note_1\"") && within.contains("id=\"note_2\""), "{before}{within}");
}

#[test]
fn shown_source_is_checked_in_its_place() {
    refused("é\n\n```shown\né <b>\n```", Code::MarkdownRawHtml, "<b>");
    refused("~~~shown\n```practice\nrecipe: seat_forse\n```\n~~~", Code::RecipeUnknown, "seat_forse");
    refused("````shown\n$$a = b$$\n````\n\nWords for it.", Code::FormulaWithoutWords, "$$a = b$$");
    refused("```shown\nA[^b]\n```\n\n[^b]: Note", Code::NoteUnknown, "[^b]");
    refused("```shown\n\n```", Code::TextEmpty, "```shown");
    refused("````shown\n```shown\na\n```\n````", Code::BlockNotHere, "```shown");
    refused("```file\nrecipe: seat_forse\n```", Code::RecipeUnknown, "seat_forse");
    refused("```file\nterm: seat\n```", Code::TermUnknown, "seat");
    refused("```file\nrecipe: seat_force\nlesson: parts\n```", Code::BlockFileNamesOne, "recipe");
    refused("```file\nrecipe: seat_force\nrelation: a\n```", Code::YamlUnknownKey, "relation");
}

#[test]
fn blocks_are_checked_in_their_place() {
    refused("```practice\nrecipe: seat_forse\n```", Code::RecipeUnknown, "seat_forse");
    refused("```practice\nrecipes: seat_force\nrecipe: seat_force\n```", Code::YamlUnknownKey, "recipes");
    refused("```practice\n```", Code::YamlMissingKey, "");
    refused("```practice", Code::YamlMissingKey, "");
    refused("```work\n\n```\n", Code::YamlMissingKey, "");
    refused("```practise\nrecipe: seat_force\n```", Code::BlockUnknown, "```practise");
    refused("- ```practice\n  recipe: seat_force\n  ```", Code::BlockNotHere, "```practice");
    refused("```work\nrelation: bore_are\n```", Code::RelationUnknown, "bore_are");
    refused("```work\nrelation: bore_area\nboer: 1 in\n```", Code::WorkUnknownInput, "boer");
    refused("```work\nrelation: bore_area\n```", Code::WorkMissingInput, "bore_area");
    refused("```work\nrelation: bore_area\nbore: 1 psi\n```", Code::WorkWrongKind, "1 psi");
    refused("```work\r\nrelation: bore_area\r\nbore: 1 furlong\r\n```", Code::WorkUnknownUnit, "1 furlong");
    refused("```work\nrelation: bore_area\nbore: 1 in\nin: psi\n```", Code::UnitOfAnotherKind, "psi");
    refused("```work\nrelation: bore_area\nbore: -1 in\n```", Code::WorkOutOfRange, "-1 in");
    refused("```figure\nshow: relief_valve\ncaption: a\n```", Code::FigureUnknown, "relief_valve");
    refused("```figure\nshow: relief_valve_section\n```", Code::YamlMissingKey, "show");
    refused("```figure\nshow: relief_valve_section\ncaption: a\nset: 1 psig\n```", Code::YamlUnknownKey, "set");
    let plot = "```figure\nshow: lift_against_pressure\nopening: 100 psig\nfull_open: FULL\nreseat: 93 psig\nfull_lift: 0.1 in\ncaption: a\n```";
    refused(&plot.replace("FULL", "99 psig"), Code::FigureOutOfOrder, "100 psig");
    refused(&plot.replace("FULL", "115 in"), Code::FormulaResultKind, "115 in");
    refused(&plot.replace("FULL", ".nan"), Code::YamlNotFinite, ".nan");
    refused(
        "```figure\nshow: lift_against_pressure\nopening: 1 psig\nopening: 2 psig\ncaption: a\n```",
        Code::YamlRepeatedKey,
        "opening",
    );
}

#[test]
fn recipes_have_sections_with_holes() {
    let (page, faults) = rendered(
        Mode::Recipe,
        "## Question\nThe **{seat}** at the seat.\n\n## Mistake: a_b\nNo.\n\n## Working\nOne.\n\n{steps: rate}\n\nTwo.\n",
    );
    assert_eq!(faults, []);
    let titles: Vec<_> = page.sections.iter().map(|section| section.title.as_str()).collect();
    assert_eq!(titles, ["Question", "Mistake: a_b", "Working"]);
    let piece = |html: &str| Piece::Html(html.to_owned());
    assert_eq!(
        page.sections[0].template.0,
        [piece("<p>The <strong>"), Piece::Hole("seat".to_owned()), piece("</strong> at the seat.</p>")]
    );
    assert_eq!(
        page.sections[2].template.0,
        [piece("<p>One.</p>\n"), Piece::Steps("rate".to_owned()), piece("\n<p>Two.</p>")]
    );
}

#[test]
fn recipes_refuse_what_has_no_place_in_them() {
    let fault = |body: &str| rendered(Mode::Recipe, body).1;
    let one = |code, marked: &str| vec![(code, marked.to_owned())];
    assert_eq!(fault("Text\n\n## Question\nText"), one(Code::RecipeTextBeforeSection, "Text"));
    assert_eq!(fault("## Question\nA {seat } b"), one(Code::RecipeHoleUnreadable, "{seat }"));
    assert_eq!(fault("## Question\nA {steps: rate} b"), one(Code::RecipeStepsNotAlone, "{steps: rate}"));
    assert_eq!(fault("## Question\n### More\nText"), one(Code::HeadingNotHere, "### More"));
    assert_eq!(fault("## Question\n```practice\nrecipe: seat_force\n```"), one(Code::BlockNotHere, "```practice"));
}

#[test]
fn no_text_brings_the_walk_down() {
    let bodies = [
        "> ".repeat(3_000),
        "- ".repeat(3_000),
        "*".repeat(3_000),
        "[".repeat(3_000),
        "{= ".repeat(500),
        "`".repeat(999),
        "$".repeat(999),
        "![".repeat(500),
        "> **".to_owned(),
        "```work".to_owned(),
        "```work\n\u{e9}".to_owned(),
        "| a |\n|-|".to_owned(),
        "[^a]: [^a]".to_owned(),
        "{=}".to_owned(),
        "{= in }".to_owned(),
        "é{= é in é}".to_owned(),
        "## ".to_owned(),
    ];
    for body in bodies {
        for mode in [Mode::Lesson, Mode::Term, Mode::Recipe] {
            rendered(mode, &body);
        }
    }
}
