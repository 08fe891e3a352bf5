//! Files to hand out: documents, sound and film, which go beside the pages as they are. They are never read whole into memory.

use std::fs::File;
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

use faults::Code;
use sha2::{Digest, Sha256};

use crate::fault::{Fault, Place};
use crate::files::Found;

/// The largest file to hand out (bytes).
pub(crate) const MOST_BYTES: u64 = 200_000_000;

/// How much of a file is looked at to see what it is (bytes).
const BEGINNING: u64 = 64;

/// How much is copied at a time (bytes).
const PIECE: usize = 1 << 18;

/// How a file to hand out is used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Medium {
    /// It is opened on its own.
    Document,
    /// It is listened to.
    Sound,
    /// It is watched.
    Film,
}

/// A form in which a file is handed out.
#[derive(Debug)]
pub(crate) struct Form {
    ending: &'static str,
    /// As learners read it.
    name: &'static str,
    medium: Medium,
    /// Whether a file begins as this form does.
    begins: fn(&[u8]) -> bool,
}

/// The forms, with the first bytes that their standards give: ISO 32000, ISO/IEC 14496-12, RFC 3533, RIFF, EBML (RFC 8794).
const FORMS: [Form; 7] = [
    form("pdf", "PDF", Medium::Document, |bytes| bytes.starts_with(b"%PDF-")),
    form("mp3", "MP3", Medium::Sound, is_mp3),
    form("m4a", "M4A", Medium::Sound, is_boxed),
    form("wav", "WAV", Medium::Sound, |bytes| bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"WAVE")),
    form("ogg", "Ogg", Medium::Sound, |bytes| bytes.starts_with(b"OggS")),
    form("mp4", "MP4", Medium::Film, is_boxed),
    form("webm", "WebM", Medium::Film, |bytes| {
        bytes.starts_with(b"\x1a\x45\xdf\xa3") && bytes.windows(4).any(|four| four == b"webm")
    }),
];

const fn form(ending: &'static str, name: &'static str, medium: Medium, begins: fn(&[u8]) -> bool) -> Form {
    Form { ending, name, medium, begins }
}

/// A tag before the sound, or a frame of layer III (ISO/IEC 11172-3).
fn is_mp3(bytes: &[u8]) -> bool {
    bytes.starts_with(b"ID3") || matches!(bytes, [0xff, second, ..] if second & 0xe6 == 0xe2)
}

fn is_boxed(bytes: &[u8]) -> bool {
    bytes.get(4..8) == Some(b"ftyp")
}

/// The form that a file has by the ending of its name.
pub(crate) fn by_ending(file: &str) -> Option<&'static Form> {
    let (_, ending) = file.rsplit_once('.')?;
    FORMS.iter().find(|form| form.ending.eq_ignore_ascii_case(ending))
}

/// The endings, as messages list them.
pub(crate) fn endings() -> String {
    FORMS.map(|form| form.ending).join(", ")
}

/// A file that texts may hand out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Offer {
    pub(crate) file: String,
    path: PathBuf,
    pub(crate) medium: Medium,
    name: &'static str,
    bytes: u64,
}

impl Offer {
    /// Its form and size, as learners read them: `PDF, 2.4 MB`.
    pub(crate) fn note(&self, decimal_mark: char) -> String {
        format!("{}, {}", self.name, size(self.bytes, decimal_mark))
    }
}

/// A file to hand out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Handout {
    /// Its place in the course and in the site, with `/`.
    pub file: String,
    /// Where it is.
    pub path: PathBuf,
    /// The SHA-256 of what it holds.
    pub digest: [u8; 32],
}

/// Looks at the files that may be handed out. One with a fault is among them, so that its links do not fault too.
pub(crate) fn offers<'f>(found: impl Iterator<Item = &'f Found>, faults: &mut Vec<Fault>) -> Vec<Offer> {
    found.filter_map(|found| offer(found, faults)).collect()
}

fn offer(found: &Found, faults: &mut Vec<Fault>) -> Option<Offer> {
    let (file, form) = (&found.file, by_ending(&found.file)?);
    let told = |code| Fault::at(code, Place::whole(file)).with("file", file);
    let (bytes, start) = match beginning(&found.path) {
        Ok(read) => read,
        Err(error) => {
            faults.push(told(Code::CourseUnreadable).with("reason", error.to_string()));
            return None;
        }
    };
    if bytes > MOST_BYTES {
        let fault = told(Code::FileTooLarge).with("size", bytes.div_ceil(1_000_000));
        faults.push(fault.with("most", MOST_BYTES / 1_000_000));
    } else if !(form.begins)(&start) {
        faults.push(told(Code::FileNotWhatItSays).with("kind", form.name));
    }
    Some(Offer { file: file.clone(), path: found.path.clone(), medium: form.medium, name: form.name, bytes })
}

/// The size of a file, and its first bytes.
fn beginning(path: &Path) -> io::Result<(u64, Vec<u8>)> {
    let open = File::open(path)?;
    let size = open.metadata()?.len();
    let mut start = Vec::new();
    open.take(BEGINNING).read_to_end(&mut start)?;
    Ok((size, start))
}

/// Takes a file as it is now, to be handed out.
pub(crate) fn handout(offer: &Offer) -> Result<Handout, Fault> {
    let read = File::open(&offer.path).and_then(|mut open| copy(&mut open, &mut io::sink()));
    match read {
        Ok((digest, _)) => Ok(Handout { file: offer.file.clone(), path: offer.path.clone(), digest }),
        Err(error) => {
            let fault = Fault::at(Code::CourseUnreadable, Place::whole(&offer.file)).with("file", &offer.file);
            Err(fault.with("reason", error.to_string()))
        }
    }
}

/// Copies a file in pieces; gives the SHA-256 and the number of bytes of what was copied.
///
/// # Errors
/// What the system says.
pub fn copy(from: &mut dyn Read, to: &mut dyn Write) -> io::Result<([u8; 32], u64)> {
    let (mut hash, mut bytes, mut piece) = (Sha256::new(), 0, vec![0; PIECE]);
    loop {
        let read = match from.read(&mut piece) {
            Err(error) if error.kind() == io::ErrorKind::Interrupted => continue,
            other => other?,
        };
        let Some(read) = piece.get(..read).filter(|read| !read.is_empty()) else { break };
        hash.update(read);
        to.write_all(read)?;
        bytes += read.len() as u64;
    }
    Ok((hash.finalize().into(), bytes))
}

/// A size as learners read it: in MB with a decimal, a small one in kB.
fn size(bytes: u64, decimal_mark: char) -> String {
    if bytes < 100_000 {
        return format!("{} kB", bytes.div_ceil(1000));
    }
    let tenths = bytes.div_ceil(100_000);
    format!("{}{decimal_mark}{} MB", tenths / 10, tenths % 10)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_known_by_what_it_holds() {
        let holds = |ending: &str, bytes: &[u8]| (by_ending(ending).unwrap().begins)(bytes);
        assert!(holds("a.pdf", b"%PDF-1.7\n") && !holds("a.pdf", b"MZ\x90\0"));
        assert!(holds("a.mp3", b"ID3\x04\0") && holds("a.MP3", b"\xff\xfb\x90") && !holds("a.mp3", b"\xff\xd8\xff"));
        assert!(holds("a.mp4", b"\0\0\0\x20ftypisom") && !holds("a.mp4", b"<html><script>"));
        assert!(holds("a.wav", b"RIFF\0\0\0\0WAVE") && !holds("a.wav", b"RIFF\0\0\0\0WEBP"));
        assert!(
            holds("a.webm", b"\x1a\x45\xdf\xa3\x9f\x42\x82\x84webm") && !holds("a.webm", b"\x1a\x45\xdf\xa3matroska")
        );
        assert!(by_ending("a.exe").is_none() && by_ending("pdf").is_none());
    }

    #[test]
    fn sizes_are_rounded_up() {
        assert_eq!(size(1, '.'), "1 kB");
        assert_eq!(size(99_001, '.'), "100 kB");
        assert_eq!(size(2_310_000, ','), "2,4 MB");
        assert_eq!(size(MOST_BYTES, '.'), "200.0 MB");
    }

    #[test]
    fn a_copy_has_the_digest_of_its_file() {
        let source = vec![7; PIECE + 1];
        let mut copied = Vec::new();
        let (digest, bytes) = copy(&mut source.as_slice(), &mut copied).unwrap();
        assert_eq!((copied.len() as u64, &copied), (bytes, &source));
        assert_eq!(digest, <[u8; 32]>::from(Sha256::digest(&source)));
    }
}
