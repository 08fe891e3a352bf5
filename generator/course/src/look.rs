//! The school's own look: its colours, its logo, and who answers for the course, as `course.yaml` says.

use faults::Code;

use crate::colours::{Colour, Ground};
use crate::course::{Images, Imprint};
use crate::fault::Fault;
use crate::raw::RawCourse;
use crate::yaml::{Yaml, key};

/// Checks what `course.yaml` says of the look, but for the logo.
pub(crate) fn check(yaml: &Yaml, raw: &RawCourse, faults: &mut Vec<Fault>) {
    for (name, text) in texts(raw) {
        if text.trim().is_empty() {
            faults.push(Fault::at(Code::TextEmpty, yaml.key_place(&[], name)).with("key", name));
        }
    }
    for (name, text) in [("revision_date", &raw.revision_date), ("review_due", &raw.review_due)] {
        if let Some(text) = text.as_ref().filter(|text| !text.trim().is_empty() && !is_date(text)) {
            faults.push(Fault::at(Code::CourseDate, yaml.place(&[key(name)])).with("found", text));
        }
    }
    for (ground, text) in colours(raw) {
        colour(yaml, ground, text, faults);
    }
}

/// Checks that a colour can be read on its ground.
fn colour(yaml: &Yaml, ground: &Ground, text: &str, faults: &mut Vec<Fault>) {
    let told = |code| Fault::at(code, yaml.place(&[key("colours"), key(ground.name)])).with("found", text);
    match Colour::read(text) {
        None => faults.push(told(Code::CourseColour)),
        Some(colour) if !ground.shows(colour) => {
            let ratio = format!("{:.1}", ground.contrast(colour));
            let fault = told(Code::CourseColourFaint).with("look", ground.name).with("ratio", ratio);
            faults.push(fault.with("nearest", ground.nearest(colour)));
        }
        Some(_) => {}
    }
}

/// Checks that the logo is a picture of the course, of the form that is taken.
pub(crate) fn logo(yaml: &Yaml, raw: Option<&RawCourse>, images: &Images, faults: &mut Vec<Fault>) {
    let Some(file) = raw.and_then(|raw| raw.logo.as_deref()) else { return };
    let known = || images.keys().map(String::as_str).filter(|file| is_logo(file));
    if !known().any(|known| known == file) {
        faults.push(Fault::at(Code::CourseLogo, yaml.place(&[key("logo")])).with("file", file).near(file, known()));
    }
}

fn is_logo(file: &str) -> bool {
    file.rsplit_once('.')
        .is_some_and(|(_, ending)| ["png", "svg"].iter().any(|known| ending.eq_ignore_ascii_case(known)))
}

/// The colours that are given, each with the ground that it stands on.
pub(crate) fn colours(raw: &RawCourse) -> impl Iterator<Item = (&'static Ground, &str)> {
    let given = raw.colours.iter().flat_map(|colours| [&colours.paper, &colours.blueprint]);
    Ground::BOTH.iter().zip(given).map(|(ground, text)| (ground, text.as_str()))
}

/// What the title block says beside whose course it is, in its order.
pub(crate) fn imprint(raw: &RawCourse) -> Vec<Imprint> {
    let said = |(name, text): (&'static str, &str)| Imprint { name, text: text.to_owned() };
    texts(raw).filter(|(name, _)| *name != "revision").map(said).collect()
}

/// The texts of the title block that are given.
fn texts(raw: &RawCourse) -> impl Iterator<Item = (&'static str, &str)> {
    let all = [
        ("revision", &raw.revision),
        ("revision_date", &raw.revision_date),
        ("prepared_by", &raw.prepared_by),
        ("checked_by", &raw.checked_by),
        ("approved_by", &raw.approved_by),
        ("review_due", &raw.review_due),
        ("contact", &raw.contact),
    ];
    all.into_iter().filter_map(|(name, text)| Some((name, text.as_deref()?)))
}

/// Whether a text is a day of the calendar, as ISO 8601 writes it: 2026-03-31.
fn is_date(text: &str) -> bool {
    let parts: Vec<_> = text.split('-').collect();
    let [year, month, day] = parts.as_slice() else { return false };
    let number = |text: &str, length: usize| {
        let fits = text.len() == length && text.bytes().all(|byte| byte.is_ascii_digit());
        fits.then(|| text.parse::<u32>().ok()).flatten()
    };
    match (number(year, 4), number(month, 2), number(day, 2)) {
        (Some(year), Some(month), Some(day)) => (1..=days(year, month)).contains(&day),
        _ => false,
    }
}

/// The days of a month; none where there is no such month.
fn days(year: u32, month: u32) -> u32 {
    let is_leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    match month {
        2 => 28 + u32::from(is_leap),
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::is_date;

    #[test]
    fn dates_are_days_of_the_calendar() {
        for good in ["2026-03-31", "2024-02-29", "2000-02-29"] {
            assert!(is_date(good), "{good}");
        }
        for bad in [
            "2026-02-29",
            "1900-02-29",
            "2026-13-01",
            "2026-00-10",
            "31.3.2026",
            "2026-3-1",
            "2026-04-31",
            "+026-01-01",
        ] {
            assert!(!is_date(bad), "{bad}");
        }
    }
}
