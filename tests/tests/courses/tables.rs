//! The reference tables of a published site: page and CSV file say the same, and say what the core says.

use std::collections::BTreeMap;
use std::fs;
use std::sync::LazyLock;

use relief::tables::{Content, tables};
use relief::{Argument, Kind, Manner, Quantity, System, Table, units};
use seatwork_tests::{Case, Scratch, cases, top};

/// A site published once.
static SITE: LazyLock<Scratch> = LazyLock::new(|| {
    let scratch = Scratch::new();
    scratch.copy(&top().join("content"), "course");
    assert!(scratch.publish().status.success());
    scratch
});

fn file(name: &str) -> String {
    fs::read_to_string(SITE.path(&format!("site/en/{name}"))).unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// The headings and rows of a CSV file.
fn csv(id: &str) -> (Vec<String>, Vec<Vec<String>>) {
    let text = file(&format!("tables/{id}.csv"));
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let own = |record: &csv::StringRecord| record.iter().map(str::to_owned).collect::<Vec<_>>();
    let head = own(reader.headers().expect("headings"));
    (head, reader.records().map(|record| own(&record.expect("record"))).collect())
}

/// The rows of a CSV file by the heading of each cell.
fn named(id: &str) -> Vec<BTreeMap<String, String>> {
    let (head, rows) = csv(id);
    rows.into_iter().map(|row| head.iter().cloned().zip(row).collect()).collect()
}

/// The part of a page with a table.
fn section(table: &Table) -> String {
    let holds = |family: &&relief::tables::TableFamily| family.tables.iter().any(|own| own.id == table.id);
    let family = relief::TABLES.iter().find(holds).expect("family");
    let page = file(&format!("tables/{}.html", family.id));
    assert!(page.len() < 60_000, "{}: {} bytes", family.id, page.len());
    let start = page.find(&format!("id=\"{}\"", table.id)).unwrap_or_else(|| panic!("{} is on no page", table.id));
    page[start..].split("</section>").next().unwrap_or_default().to_owned()
}

/// The cells of the rows of a table on its page; a heading over several rows comes before the cells of each.
fn page_rows(section: &str) -> Vec<Vec<String>> {
    let mut rows = Vec::new();
    for body in section.split("<tbody>").skip(1) {
        let mut group = Vec::new();
        for row in body.split("<tr").skip(1) {
            let tags = row.split('<').filter_map(|part| part.split_once('>'));
            let cells = tags.filter(|(tag, _)| tag.starts_with("td") || tag.starts_with("th"));
            let cells: Vec<_> = cells.map(|(_, text)| plain(text)).collect();
            if row.starts_with(" class=\"table-group\"") {
                group = cells;
            } else {
                rows.push(group.iter().cloned().chain(cells).collect());
            }
        }
    }
    rows
}

/// What a cell of a page says, written as in a file.
fn plain(cell: &str) -> String {
    let text = cell.replace("&amp;", "&").replace("&#x27;", "'").replace("&quot;", "\"").replace('\u{2212}', "-");
    if text == "–" { String::new() } else { text }
}

/// Symbols of units are printed on a page and typed in a file.
fn same(page: &str, file: &str) -> bool {
    let unit = |text: &str| units::find(text).map(|unit| unit.symbol);
    page == file || unit(page).is_some() && unit(page) == unit(file)
}

#[test]
fn every_table_has_the_same_rows_on_its_page_and_in_its_file() {
    for table in tables() {
        let (head, rows) = csv(table.id);
        let shown = page_rows(&section(table));
        assert_eq!(rows.len(), table.rows().len(), "{}", table.id);
        assert_eq!(shown.len(), rows.len(), "{}", table.id);
        let own = table.columns().len();
        assert_eq!(head.len(), own + 2, "{}", table.id);
        for (shown, row) in shown.iter().zip(&rows) {
            let cells = shown.iter().zip(row).take(own);
            assert_eq!(cells.clone().count(), own, "{}: {shown:?}", table.id);
            assert!(cells.clone().all(|(page, file)| same(page, file)), "{}: {shown:?} {row:?}", table.id);
        }
    }
}

#[test]
fn every_row_says_its_source_and_status_in_the_file_and_on_the_page() {
    let words = pages::Words::of("en").expect("words");
    for table in tables() {
        let section = section(table);
        for (row, own) in named(table.id).iter().zip(table.rows()) {
            assert_eq!(row["source"], own.document, "{}", table.id);
            assert_eq!(row["status"], words.get(&format!("status.{}", own.status.id())), "{}", table.id);
            assert!(plain(&section).contains(&row["source"]) && section.contains(&row["status"]), "{}", table.id);
        }
    }
}

#[test]
fn no_cell_is_taken_for_a_formula() {
    for table in tables() {
        let (head, rows) = csv(table.id);
        for cell in rows.iter().chain([&head]).flatten() {
            let harmless = !cell.starts_with(['=', '+', '-', '@', '\'']) || cell.parse::<f64>().is_ok();
            assert!(harmless, "{}: {cell}", table.id);
        }
    }
}

#[test]
fn a_table_and_the_relations_that_use_it_lead_to_each_other() {
    for table in tables() {
        let section = section(table);
        assert!(section.contains(&format!("href=\"{}.csv\"", table.id)), "{}", table.id);
        for id in table.relations {
            let family = relief::FAMILIES.iter().find(|family| family.relations.iter().any(|own| own.id == *id));
            let family = family.expect("family").id;
            assert!(section.contains(&format!("href=\"../relations/{family}.html#{id}\"")), "{}: {id}", table.id);
            let page = file(&format!("relations/{family}.html"));
            assert!(page.contains(&format!(".html#{}\"", table.id)), "{id}: {}", table.id);
        }
    }
}

/// Every choice of a code, and every limit that a relation rounds to a safe side by rows, can be looked up.
#[test]
fn what_the_core_holds_in_rows_is_shown() {
    let limits = [
        relief::limits::SET_TOLERANCES,
        relief::limits::BLOWDOWN_LIMITS,
        relief::limits::ALLOWED_ACCUMULATIONS,
        relief::limits::MAXIMUM_SETS,
        relief::limits::RESETS,
    ];
    for rows in limits {
        let shows = |table: &Table| matches!(&table.content, Content::Limits(own) if format!("{:?}", own.rows) == format!("{rows:?}"));
        assert!(tables().any(shows), "{}", rows[0].name);
    }
    let count = |id: &str| csv(id).1.len();
    assert_eq!(count("orifice"), relief::relations::orifice::ORIFICES.len());
    assert_eq!(count("bubble_limit"), relief::relations::bench::BUBBLES.len());
    assert_eq!(count("gauge_grade"), relief::relations::bench::GAUGE_GRADES.len());
    assert_eq!(count("unit"), units::UNITS.len());
}

#[test]
fn a_file_stays_what_it_was() {
    insta::assert_snapshot!(file("tables/set_tolerance.csv").replace("\r\n", "\n"));
}

/// A number in a row.
fn number(row: &BTreeMap<String, String>, heading: &str) -> f64 {
    row[heading].parse().unwrap_or_else(|_| panic!("{heading}: {:?}", row[heading]))
}

/// The published cases whose formula begins so, with what is between there and the end.
fn published<'c>(all: &'c [Case], before: &'c str, after: &'c str) -> impl Iterator<Item = (&'c str, f64)> {
    all.iter().filter_map(move |case| {
        let given = case.formula.strip_prefix(before)?.strip_suffix(after)?;
        Some((given, (!case.is_choice()).then(|| case.value())?))
    })
}

#[test]
fn published_orifices_and_bubbles_stand_in_the_tables() {
    let all = cases(&top().join("tests/published"));
    let orifices = named("orifice");
    let mut seen = 0;
    for (inches, _) in published(&all, "standard_orifice(area: ", " in2)") {
        let inches: f64 = inches.parse().expect("number");
        let same = |row: &&BTreeMap<String, String>| (number(row, "effective area (in2)") - inches).abs() < 1e-9;
        let Some(row) = orifices.iter().find(same) else { continue };
        let converted = inches * 645.16;
        assert!((number(row, "effective area (mm2)") - converted).abs() <= converted * 5e-4, "{inches}");
        seen += 1;
    }
    assert!(seen >= 2 * orifices.len(), "{seen}");
    let bubbles = named("bubble_limit");
    let mut seen = 0;
    for (given, limit) in published(&all, "bubble_limit(set: ", " in2, seat: metal)") {
        let (set, area) = given.split_once(" psig, area: ").expect("given");
        let (set, area): (f64, f64) = (set.parse().expect("set"), area.parse().expect("area"));
        let row = bubbles.iter().rev().find(|row| number(row, "set pressure from (psig)") <= set).expect("row");
        let column = if area < 0.3075 { "up to orifice F" } else { "above orifice F" };
        assert!((number(row, &format!("most bubbles, {column} (1/min)")) - limit).abs() < 1e-9, "{given}");
        seen += 1;
    }
    assert!(seen >= bubbles.len(), "{seen}");
}

/// What a row of a table of limits allows above a pressure, read as its page says: the greater of share and pressure.
fn most(row: &BTreeMap<String, String>, heading: &str, unit: &str, pressure: f64) -> f64 {
    let cell = |unit: &str| row.get(&format!("{heading} ({unit})")).and_then(|cell| cell.parse::<f64>().ok());
    (cell("%").unwrap_or(0.0) / 100.0 * pressure).max(cell(unit).unwrap_or(0.0))
}

#[test]
fn a_limit_read_from_its_file_is_what_the_relation_gives() {
    let words = pages::Words::of("en").expect("words");
    for (code, set) in
        ["vessel", "boiler"].iter().flat_map(|code| [30.0, 70.0, 71.0, 300.0, 301.0, 1500.0].map(|set| (*code, set)))
    {
        let rows = named("set_tolerance");
        let holds = |row: &&BTreeMap<String, String>| {
            let end = row["set pressure up to (psig)"].parse::<f64>().unwrap_or(f64::INFINITY);
            row["code"] == words.get(&format!("choices.{code}")) && set <= end
        };
        let row = rows.iter().find(holds).expect("row");
        let psig = units::find("psig").expect("unit");
        let given = Argument::Quantity(psig.quantity(set, Kind::Gauge));
        let relation = relief::find("set_tolerance").expect("relation");
        let high =
            relation.evaluate_in(&[("set", given), ("code", Argument::Choice(code))], Manner::unrounded(System::Us));
        let high = high.expect("value").get(1);
        let Some(Argument::Quantity(high)) = high else { panic!("no upper limit") };
        let read = set + most(row, "above the set pressure", "psi", set);
        assert!((psig.value(high) - read).abs() < 1e-9 * set, "{code} {set}: {read}");
    }
}

#[test]
fn a_factor_read_from_its_file_converts_as_the_core_does() {
    for row in named("unit") {
        let unit = units::find(&row["unit"]).expect("unit");
        let kind = unit.usual_kind();
        let zero = row["zero of the scale, in SI"].parse().unwrap_or(0.0);
        let read = 3.0 * number(&row, "factor to the SI unit") + zero;
        let Quantity { si, .. } = unit.quantity(3.0, kind);
        assert!((read - si).abs() <= si.abs() * 1e-9, "{}: {read} {si}", unit.symbol);
        if let Some(base) = units::find(&row["SI unit"]) {
            assert!((base.factor() - 1.0).abs() < f64::EPSILON && base.measures(kind), "{}", unit.symbol);
        }
    }
}
