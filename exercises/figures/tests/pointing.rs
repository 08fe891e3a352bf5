//! Each part of the section can be pointed at where it is drawn: what lies on top there belongs to it.

use std::collections::BTreeMap;

use figures::{Parameters, VALVE_PARTS, find};
use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};

/// What can be hit: the part it belongs to, if any, and its outline as polygons.
type Target = (Option<String>, Vec<Vec<[f64; 2]>>);

fn attribute(element: &BytesStart, name: &str) -> Option<String> {
    let found = element.attributes().map(|one| one.expect("an attribute")).find(|one| one.key.0 == name);
    found.map(|one| one.value.into_owned())
}

/// Everything with a fill, from back to front.
fn targets() -> Vec<Target> {
    let figure = find("relief_valve_section").expect("in the registry");
    let svg = figure.draw(&Parameters::new(), &|key: &str| key.to_owned(), "f").expect("drawable");
    let mut reader = Reader::from_str(&svg);
    let (mut groups, mut found) = (Vec::new(), Vec::new());
    loop {
        match reader.read_event().expect("well-formed") {
            Event::Start(element) => groups.push(attribute(&element, "data-part")),
            Event::End(_) => drop(groups.pop()),
            Event::Empty(element) => {
                let class = attribute(&element, "class").unwrap_or_default();
                let passed = ["fig-past", "fig-leader", "fig-dot", "fig-arrow"].iter().any(|name| class.contains(name));
                let filled = ["fig-cut", "fig-whole", "fig-ground", "fig-filled", "fig-ring", "fig-hit"];
                if !passed && filled.iter().any(|name| class.contains(name)) {
                    let part = groups.iter().rev().flatten().next().cloned();
                    found.push((part, shapes(&element)));
                }
            }
            Event::Eof => return found,
            _ => {}
        }
    }
}

fn shapes(element: &BytesStart) -> Vec<Vec<[f64; 2]>> {
    let number = |name: &str| attribute(element, name).and_then(|value| value.parse::<f64>().ok());
    match (attribute(element, "d"), number("cx"), number("cy"), number("r")) {
        (Some(data), ..) => polygons(&data),
        (None, Some(x), Some(y), Some(r)) => vec![disc([x, y], r)],
        other => panic!("neither path nor circle: {other:?}"),
    }
}

fn disc(centre: [f64; 2], radius: f64) -> Vec<[f64; 2]> {
    let corner = |step: u8| {
        let angle = f64::from(step) * core::f64::consts::TAU / 32.0;
        [centre[0] + radius * libm::cos(angle), centre[1] + radius * libm::sin(angle)]
    };
    (0..32).map(corner).collect()
}

/// The polygons of relative path data; a curve counts as its chord.
fn polygons(data: &str) -> Vec<Vec<[f64; 2]>> {
    let (mut all, mut at, mut start) = (Vec::<Vec<[f64; 2]>>::new(), [0.0, 0.0], [0.0, 0.0]);
    for piece in data.split_inclusive(|next: char| "mlhvqazc".contains(next)).collect::<Vec<_>>().windows(2) {
        let command = piece[0].chars().last().expect("a command");
        let numbers = numbers(piece[1].trim_end_matches(|next: char| "mlhvqazc".contains(next)));
        let way = match (command, numbers.as_slice()) {
            ('h', [x]) => [*x, 0.0],
            ('v', [y]) => [0.0, *y],
            ('m' | 'l' | 'q' | 'a' | 'c', [.., x, y]) => [*x, *y],
            ('z', _) => [start[0] - at[0], start[1] - at[1]],
            other => panic!("not understood: {other:?}"),
        };
        let from = at;
        at = [at[0] + way[0], at[1] + way[1]];
        match command {
            'm' => {
                start = at;
                all.push(vec![at]);
            }
            'a' => {
                let middle = [f64::midpoint(from[0], at[0]), f64::midpoint(from[1], at[1])];
                all.push(disc(middle, (at[0] - from[0]).abs() / 2.0));
            }
            _ => all.last_mut().expect("begun").push(at),
        }
    }
    all
}

fn numbers(text: &str) -> Vec<f64> {
    let spaced = text.replace('-', " -");
    spaced.split_whitespace().map(|number| number.parse().expect(text)).collect()
}

fn inside(polygon: &[[f64; 2]], point: [f64; 2]) -> bool {
    let next = polygon.iter().cycle().skip(1);
    let crossed = polygon.iter().zip(next).filter(|(from, to)| {
        (from[1] <= point[1]) != (to[1] <= point[1])
            && point[0] < from[0] + (point[1] - from[1]) / (to[1] - from[1]) * (to[0] - from[0])
    });
    crossed.count() % 2 == 1
}

fn hit(targets: &[Target], point: [f64; 2]) -> Option<&str> {
    let on_top = targets.iter().rev().find(|(_, shapes)| shapes.iter().any(|shape| inside(shape, point)));
    on_top.and_then(|(part, _)| part.as_deref())
}

/// Places of the drawing between the columns of balloons, four units apart: the square units in which each part is hit.
fn areas() -> BTreeMap<String, u32> {
    let targets = targets();
    let mut areas = BTreeMap::new();
    for y in (0_u16..690).step_by(4) {
        for x in (40_u16..380).step_by(4) {
            if let Some(part) = hit(&targets, [f64::from(x) + 0.47, f64::from(y) + 0.47]) {
                *areas.entry(part.to_owned()).or_default() += 16;
            }
        }
    }
    areas
}

#[test]
fn every_part_offers_room_to_a_pointer() {
    let areas = areas();
    for part in VALVE_PARTS {
        let area = areas.get(part.id).copied().unwrap_or(0);
        assert!(area >= 160, "{} offers {area} square units: {areas:?}", part.id);
    }
}

#[test]
fn what_the_eye_sees_is_what_is_hit() {
    let targets = targets();
    // On the right of the axis at 178, above the inlet face at 668; the seal wire is on the left.
    let seen = [
        ("spindle", 0.0, 400.0),
        ("spindle", 8.0, 615.0),
        ("spring", 30.0, 400.0),
        ("nozzle", 35.0, 84.0),
        ("seat", 26.0, 157.0),
        ("disc", 10.0, 166.0),
        ("disc_holder", 40.0, 165.0),
        ("guide", 26.0, 222.0),
        ("cap", 41.0, 600.0),
        ("lock_nut", 25.0, 569.0),
        ("adjusting_screw", 13.0, 543.0),
        ("bonnet", 55.0, 400.0),
        ("upper_washer", 35.0, 494.0),
        ("lower_washer", 35.0, 302.0),
        ("body", 68.0, 12.0),
        ("seal_wire", -74.0, 510.0),
    ];
    for (part, out, up) in seen {
        assert_eq!(hit(&targets, [178.0 + out, 668.0 - up]), Some(part), "{out} from the axis, {up} up");
    }
    for (number, part) in VALVE_PARTS.iter().enumerate() {
        let balloons = (0_u16..690)
            .filter(|y| [18.0, 402.0].iter().any(|x| hit(&targets, [*x, f64::from(*y) + 0.5]) == Some(part.id)));
        assert!(balloons.count() >= 30, "the balloon of {number}");
    }
}
