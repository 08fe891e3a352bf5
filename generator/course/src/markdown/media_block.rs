//! `media` blocks: sound or film, with its captions.

use faults::Code;

use super::checking::Checking;
use super::inside::Inside;
use super::lines::Lines;
use super::page::Page;
use super::paths::in_course;
use crate::captions::Cue;
use crate::course::{Block, Media};
use crate::handouts::Medium;
use crate::yaml::key;

const KEYS: [&str; 3] = ["file", "title", "captions"];

/// Reads a `media` block.
pub(super) fn block(inside: &Inside, page: &mut Page, checking: &mut Checking) -> Option<Block> {
    inside.refuse_others(&KEYS, checking.faults);
    let title = title(inside, page, checking);
    let cues = inside.get("captions").map(|address| cues(inside, address, page, checking));
    let address = inside.needed("file", checking.faults)?;
    let offers = &checking.references.handouts;
    let found = in_course(checking.text.file, address).and_then(|file| offers.get(&file));
    let Some(offer) = found else {
        checking.tell(missing(inside, "file", address, offers.keys()));
        return None;
    };
    if offer.medium == Medium::Document {
        checking.tell(inside.at_value(Code::MediaNotPlayed, "file").with("file", address));
        return None;
    }
    page.handouts.insert(offer.file.clone());
    page.media += 1;
    Some(Block::Media(Media {
        file: offer.file.clone(),
        medium: offer.medium,
        title: title?,
        note: offer.note(checking.references.decimal_mark),
        cues: cues.unwrap_or_default(),
        // No heading has an anchor with a line under it.
        anchor: format!("media_{}", page.media),
        place: inside.yaml.place(&[key("file")]),
    }))
}

/// What it is called, with its numbers put in.
fn title(inside: &Inside, page: &mut Page, checking: &mut Checking) -> Option<String> {
    let text = inside.needed("title", checking.faults)?;
    let Checking { text: around, references, faults } = checking;
    let mut lines = Lines { references, scenario: around.scenario, page, faults };
    Some(lines.line(text, |range| inside.yaml.place_in(&[key("title")], range)))
}

/// The captions that an address leads to.
fn cues(inside: &Inside, address: &str, page: &mut Page, checking: &mut Checking) -> Vec<Cue> {
    let known = &checking.references.captions;
    let found = in_course(checking.text.file, address).and_then(|file| known.get_key_value(&file));
    match found {
        Some((file, cues)) => {
            page.handouts.insert(file.clone());
            cues.clone()
        }
        None => {
            checking.tell(missing(inside, "captions", address, known.keys()));
            Vec::new()
        }
    }
}

fn missing<'k>(
    inside: &Inside,
    name: &str,
    address: &str,
    known: impl Iterator<Item = &'k String>,
) -> crate::fault::Fault {
    let known: Vec<_> = known.map(|file| file.rsplit('/').next().unwrap_or(file)).collect();
    let found = address.rsplit(['/', '\\']).next().unwrap_or(address);
    inside.at_value(Code::FileMissing, name).with("address", address).near(found, known)
}
