//! Every figure as its users get it: well-formed, alike each time, its ids its own, and nothing asked for but what is
//! declared.

use std::cell::RefCell;
use std::collections::BTreeSet;

use figures::{FIGURES, Figure, FigureError, Measure, Parameters, VALVE_PARTS, find};
use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};
use relief::{Kind, units};

/// Parameters with which a figure can be drawn, all of them given.
fn complete(figure: &Figure) -> Parameters {
    let number = |name: &str| match name {
        "reseat" => 95.0,
        "opening" | "set" => 100.0,
        "mawp" | "highest" => 104.0,
        "full_open" => 110.0,
        "full_lift" => 0.25,
        other => panic!("no number for the parameter {other}"),
    };
    let mut given = Parameters::new();
    for parameter in figure.parameters {
        let unit = units::find(if parameter.kind == Kind::Length { "in" } else { "psig" }).expect("a unit");
        given.insert(parameter.name.to_owned(), Measure::new(number(parameter.name), unit, parameter.kind));
    }
    given
}

fn draw(figure: &Figure, prefix: &str) -> String {
    figure.draw(&complete(figure), &|key: &str| format!("<{key}> & {{value}}"), prefix).expect(figure.id)
}

/// Every element of a drawing; fails where it is not well-formed.
fn elements(svg: &str) -> Vec<BytesStart<'static>> {
    let mut reader = Reader::from_str(svg);
    let (mut found, mut depth) = (Vec::new(), 0);
    loop {
        match reader.read_event().expect("well-formed") {
            Event::Start(element) => {
                depth += 1;
                found.push(element.into_owned());
            }
            Event::End(_) => depth -= 1,
            Event::Empty(element) => found.push(element.into_owned()),
            Event::Eof => break,
            _ => {}
        }
    }
    assert_eq!(depth, 0);
    found
}

fn attributes(element: &BytesStart) -> Vec<(String, String)> {
    let attributes = element.attributes().map(|found| found.expect("an attribute"));
    attributes.map(|one| (one.key.0.to_owned(), one.value.into_owned())).collect()
}

fn values(svg: &str, name: &str) -> Vec<String> {
    let all = elements(svg);
    all.iter().flat_map(attributes).filter(|(key, _)| key == name).map(|(_, value)| value).collect()
}

#[test]
fn every_figure_is_well_formed_and_holds_nothing_that_a_strict_page_refuses() {
    for figure in FIGURES {
        let svg = draw(figure, "f1");
        for element in elements(&svg) {
            assert!(!matches!(element.name().0, "script" | "style" | "foreignObject" | "image" | "a"));
            for (name, value) in attributes(&element) {
                assert!(name != "style" && !name.starts_with("on"), "{name}");
                assert!(!value.contains("http") || name == "xmlns", "{value}");
            }
        }
    }
}

#[test]
fn every_figure_has_a_name_and_a_description() {
    for figure in FIGURES {
        let svg = draw(figure, "f1");
        let all = elements(&svg);
        let outer = attributes(&all[0]);
        let of = |name: &str| outer.iter().find(|(key, _)| key == name).map(|(_, value)| value.as_str());
        assert_eq!((of("role"), of("aria-labelledby")), (Some("img"), Some("f1-t f1-d")));
        assert!(of("viewBox").is_some());
        let named: Vec<_> =
            all[1..3].iter().map(|element| (element.name().0.to_owned(), attributes(element))).collect();
        let id = |value: &str| vec![("id".to_owned(), value.to_owned())];
        assert_eq!(named, [("title".to_owned(), id("f1-t")), ("desc".to_owned(), id("f1-d"))]);
    }
}

#[test]
fn figures_on_one_page_share_no_id() {
    let mut ids = Vec::new();
    for figure in FIGURES {
        for prefix in ["a", "b"] {
            let svg = draw(figure, &format!("{prefix}-{}", figure.id));
            assert!(!svg.contains("url("), "a reference to an id would need the prefix too");
            ids.extend(values(&svg, "id"));
        }
    }
    assert_eq!(ids.len(), 4 * FIGURES.len(), "a title and a description each");
    assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len());
}

#[test]
fn numbers_have_at_most_two_decimals() {
    for figure in FIGURES {
        let svg = draw(figure, "f1");
        for name in ["d", "x", "y", "cx", "cy", "r", "width", "height", "viewBox", "font-size"] {
            for value in values(&svg, name) {
                let decimals =
                    value.split('.').skip(1).map(|rest| rest.chars().take_while(char::is_ascii_digit).count());
                assert!(decimals.max().unwrap_or(0) <= 2, "{name}=\"{value}\"");
                assert!(!value.contains("NaN") && !value.contains("inf"), "{name}=\"{value}\"");
            }
        }
    }
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    for figure in FIGURES {
        assert_eq!(draw(figure, "f1"), draw(figure, "f1"));
    }
}

#[test]
fn exactly_the_declared_words_are_asked_for() {
    for figure in FIGURES {
        let asked = RefCell::new(BTreeSet::new());
        let label = |key: &str| {
            asked.borrow_mut().insert(key.to_owned());
            String::new()
        };
        figure.draw(&complete(figure), &label, "f1").expect(figure.id);
        let declared = figure.labels.iter().map(|key| (*key).to_owned()).collect();
        assert_eq!(asked.into_inner(), declared, "{}", figure.id);
    }
}

#[test]
fn balloons_are_the_parts_list() {
    let svg = draw(find("relief_valve_section").unwrap(), "f1");
    let mut reader = Reader::from_str(&svg);
    let (mut balloons, mut part, mut in_number) = (Vec::new(), String::new(), false);
    loop {
        match reader.read_event().unwrap() {
            Event::Start(element) => {
                let attributes = attributes(&element);
                let of = |name: &str| attributes.iter().find(|(key, _)| key == name).map(|(_, value)| value.clone());
                part = of("data-part").unwrap_or(part);
                in_number = element.name().0 == "text";
            }
            Event::Text(text) if in_number => {
                balloons.push((text.to_string(), part.clone()));
                in_number = false;
            }
            Event::Eof => break,
            _ => {}
        }
    }
    let expected: Vec<_> = VALVE_PARTS.iter().map(|part| (part.number.to_string(), part.id.to_owned())).collect();
    assert_eq!(balloons, expected);
    let ids: BTreeSet<_> = VALVE_PARTS.iter().map(|part| part.id).collect();
    assert_eq!(ids.len(), VALVE_PARTS.len());
    let drawn: BTreeSet<_> = values(&svg, "data-part").into_iter().collect();
    assert!(drawn.iter().all(|part| ids.contains(part.as_str())), "{drawn:?}");
}

#[test]
fn parameters_are_checked() {
    let psi = units::find("psi").unwrap();
    let inch = units::find("in").unwrap();
    let plot = find("lift_against_pressure").unwrap();
    let with = |name: &str, measure: Measure| {
        let mut given = complete(plot);
        given.insert(name.to_owned(), measure);
        plot.check(&given)
    };
    assert_eq!(with("opening", Measure::new(100.0, psi, Kind::Gauge)), Ok(()));
    let wrong = |parameter, expected, found| Err(FigureError::WrongKind { parameter, expected, found });
    let difference = Measure::new(100.0, psi, Kind::Difference);
    assert_eq!(with("opening", difference), wrong("opening", Kind::Gauge, Kind::Difference));
    let in_another_unit = Measure { unit: inch, ..Measure::new(100.0, psi, Kind::Gauge) };
    assert_eq!(with("set", in_another_unit), wrong("set", Kind::Gauge, Kind::Length));
    let unknown = with("lift", difference).unwrap_err();
    assert_eq!((unknown.id(), unknown.parameter()), ("unknown_parameter", Some("lift")));
    let mut short = complete(plot);
    short.remove("reseat");
    assert_eq!(plot.check(&short), Err(FigureError::MissingParameter { parameter: "reseat" }));
    short = complete(plot);
    short.remove("mawp");
    assert_eq!(plot.check(&short), Ok(()));
    assert!(find("lift_against_time").is_none());
}

#[test]
fn a_prefix_must_be_able_to_begin_an_id() {
    for figure in FIGURES {
        for prefix in ["", "1", "a b", "a\"", "é", "-a"] {
            let refused = Err(FigureError::UnusablePrefix { prefix: prefix.to_owned() });
            assert_eq!(figure.draw(&complete(figure), &|key: &str| key.to_owned(), prefix), refused);
        }
    }
}
