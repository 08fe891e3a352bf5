//! Pictures of the author's own with areas to point at: each area a shape in per cent of the picture, none over another.

mod grid;
mod shape;

use std::collections::BTreeMap;

use faults::Code;
use figures::Area;
use imagesize::ImageSize;
use problems::recipe::Picture;

use crate::addresses::ROOT;
use crate::course::{AreasFile, NamedArea};
use crate::fault::Fault;
use crate::folder::{Folder, Read};
use crate::ids;
use crate::markdown::in_course;
use crate::raw::{RawArea, RawPicture};
use crate::yaml::{Step, key};
use crate::{check, fault::Place};
use grid::Covered;

/// How many areas a picture has. Fewer are no question; more are no longer told apart on a phone.
const FEWEST: usize = 2;
const MOST: usize = 60;

/// How wide a picture is on a phone of 320 pixels, and the least size of what a finger hits there (pixels; the size is that
/// of WCAG 2.2, 2.5.8).
const ON_A_PHONE: f64 = 236.0;
const FINGER: f64 = 24.0;

/// A picture as recipes ask for it, and as its author wrote it.
pub(crate) struct Checked {
    pub(crate) picture: Picture,
    pub(crate) file: AreasFile,
}

/// The pictures with areas, as far as they are right.
pub(crate) fn pictures(folder: &Folder, faults: &mut Vec<Fault>) -> Vec<Checked> {
    folder.pictures.iter().filter_map(|read| picture(read, folder, faults)).collect()
}

fn picture(read: &Read<RawPicture>, folder: &Folder, faults: &mut Vec<Fault>) -> Option<Checked> {
    let raw = read.raw.as_ref()?;
    let before = faults.len();
    head(read, raw, faults);
    let file = file(read, raw, folder, faults);
    let covered = areas(read, raw, faults);
    overlaps(read, raw, &covered, faults);
    let size = folder.images.get(file.as_ref()?)?.as_ref()?.size;
    if faults.len() > before {
        return None;
    }
    let file = file?;
    let picture = drawn(raw, &file, size, &covered);
    Some(Checked { picture, file: written(raw, file, covered) })
}

fn head(read: &Read<RawPicture>, raw: &RawPicture, faults: &mut Vec<Fault>) {
    check::format(&read.yaml, raw.format, faults);
    for (name, text) in [("title", &raw.title), ("description", &raw.description), ("source", &raw.source)] {
        check::title(&read.yaml, name, text, faults);
    }
    let body = read.source.text[read.body..].trim();
    if let Some(line) = body.lines().next() {
        let start = read.source.text.len() - read.source.text[read.body..].trim_start().len();
        let place = Place::new(&read.source.file, start..start + line.len());
        faults.push(Fault::at(Code::PictureText, place));
    }
    if !(FEWEST..=MOST).contains(&raw.areas.len()) {
        let fault = Fault::at(Code::PictureAreasCount, read.yaml.key_place(&[], "areas"));
        faults.push(fault.with("found", raw.areas.len()).with("least", FEWEST).with("most", MOST));
    }
}

/// The file of the picture, if it is there.
fn file(read: &Read<RawPicture>, raw: &RawPicture, folder: &Folder, faults: &mut Vec<Fault>) -> Option<String> {
    let place = read.yaml.place(&[key("image")]);
    let Some(file) = in_course(&read.source.file, &raw.image) else {
        faults.push(Fault::at(Code::ImageLeavesCourse, place).with("address", &raw.image));
        return None;
    };
    if folder.images.contains_key(&file) {
        return Some(file);
    }
    let known = folder.images.keys().map(String::as_str);
    faults.push(Fault::at(Code::ImageMissing, place).with("file", &file).near(&file, known));
    None
}

/// What each area covers; nothing of one that is at fault.
fn areas(read: &Read<RawPicture>, raw: &RawPicture, faults: &mut Vec<Fault>) -> Vec<Option<Covered>> {
    let at = |index: usize| [key("areas"), Step::Index(index)];
    ids::all(
        raw.areas.iter().enumerate().map(|(index, area)| {
            let path = [at(index).as_slice(), &[key("id")]].concat();
            (area.id.as_str(), move || read.yaml.place(&path))
        }),
        faults,
    );
    let mut covered = Vec::new();
    for (index, area) in raw.areas.iter().enumerate() {
        let path = at(index);
        let name = [("name", &area.name)].into_iter().chain(area.why.iter().map(|why| ("why", why)));
        name.chain(area.also.iter().map(|also| ("also", also)))
            .for_each(|(name, text)| check::said(&read.yaml, &path, name, text, faults));
        let place = || read.yaml.key_place(&path, "id");
        covered.push(shape::read(area, &place, faults).map(Covered::new));
    }
    covered
}

/// Faults where two areas cover the same place.
fn overlaps(read: &Read<RawPicture>, raw: &RawPicture, covered: &[Option<Covered>], faults: &mut Vec<Fault>) {
    let place = |index: usize| read.yaml.key_place(&[key("areas"), Step::Index(index)], "id");
    for (index, area) in covered.iter().enumerate() {
        let Some(area) = area else { continue };
        let earlier = covered[..index].iter().enumerate();
        for (other, _) in earlier.filter(|(_, other)| other.as_ref().is_some_and(|other| other.meets(area))) {
            let fault = Fault::at(Code::PictureAreasOverlap, place(index)).with("area", &raw.areas[index].name);
            faults.push(fault.with("other", &raw.areas[other].name).also(place(other), "other_area"));
        }
    }
}

fn drawn(raw: &RawPicture, file: &str, size: ImageSize, covered: &[Option<Covered>]) -> Picture {
    let area = |(raw, covered): (&RawArea, &Option<Covered>)| {
        let Covered { shape, mark, .. } = covered.clone()?;
        Some(Area { id: raw.id.clone(), name: called(raw), shape, mark })
    };
    let sides = [size.width, size.height].map(|side| f64::from(u32::try_from(side).unwrap_or(1)));
    let drawn = figures::Picture {
        address: format!("{ROOT}{file}"),
        size: (sides[0], sides[1]),
        title: raw.title.clone(),
        description: raw.description.clone(),
        areas: raw.areas.iter().zip(covered).filter_map(area).collect(),
    };
    let reasons = raw.areas.iter().map(|area| area.why.clone()).collect();
    Picture { id: raw.id.clone(), drawn, reasons, source: raw.source.clone() }
}

/// What the author wrote.
fn written(raw: &RawPicture, shows: String, covered: Vec<Option<Covered>>) -> AreasFile {
    let area = |(raw, covered): (&RawArea, Option<Covered>)| {
        let RawArea { id, name, also, why, .. } = raw;
        let (id, name, also, why) = (id.clone(), name.clone(), also.clone(), why.clone());
        Some(NamedArea { id, name, also, why, shape: covered?.shape })
    };
    let RawPicture { id, title, description, image, source, .. } = raw;
    let head = [("id", id), ("title", title), ("description", description), ("image", image), ("source", source)];
    AreasFile {
        shows,
        head: head.map(|(key, text)| (key, text.clone())).to_vec(),
        areas: raw.areas.iter().zip(covered).filter_map(area).collect(),
    }
}

/// What an area is called, with its other words.
fn called(area: &RawArea) -> String {
    if area.also.is_empty() { area.name.clone() } else { format!("{} ({})", area.name, area.also.join(", ")) }
}

/// Areas that a finger hardly hits on a phone.
pub(crate) fn small(folder: &Folder, found: &mut Vec<Fault>) {
    let sizes: BTreeMap<_, _> = folder.images.iter().collect();
    for read in &folder.pictures {
        let image = read.raw.as_ref().and_then(|raw| sizes.get(&file(read, raw, folder, &mut Vec::new())?)?.as_ref());
        let (Some(raw), Some(image)) = (&read.raw, image) else { continue };
        #[expect(clippy::cast_precision_loss, reason = "a few thousand pixels")]
        let high = ON_A_PHONE * image.size.height as f64 / image.size.width as f64;
        for (index, area) in raw.areas.iter().enumerate() {
            let place = read.yaml.key_place(&[key("areas"), Step::Index(index)], "id");
            let Some(shape) = shape::read(area, &|| place.clone(), &mut Vec::new()) else { continue };
            let [_, _, wide, tall] = shape::around(&shape);
            let least = (wide * ON_A_PHONE).min(tall * high) / 100.0;
            if least < FINGER {
                let fault = Fault::at(Code::PictureAreaSmall, place).with("area", &area.name);
                found.push(fault.with("found", least.floor()).with("least", FINGER));
            }
        }
    }
}

#[cfg(test)]
mod tests;
