//! The files of a course: found, told apart by their folder, and read as text.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};

use faults::Code;
use walkdir::{DirEntry, WalkDir};

use crate::fault::{COURSE_FILE, Fault, Place};
use crate::handouts;
use crate::marks::MARKS;
use crate::pictures::is_picture;

/// The largest file that is read (bytes): far above any lesson or drawing, far below what would fill the memory.
pub(crate) const MOST_BYTES: u64 = 2_000_000;

/// The deepest that folders nest: `en/lessons/images/x/y.png`.
const MOST_DEPTH: usize = 6;

/// The longest path of a file in a course or a site, in characters, counted from its folder. Windows programs refuse paths
/// above 260 in many places (from memory); this leaves more than half of them for the folder that it is copied to.
pub const LONGEST_PATH: usize = 120;

/// Names that some systems keep for devices, whatever comes after the first dot.
const DEVICES: [&str; 6] = ["con", "prn", "aux", "nul", "conin$", "conout$"];

/// What systems leave in folders, in small letters: no part of a course.
const LEFT_BEHIND: [&str; 3] = ["thumbs.db", "desktop.ini", "icon\r"];

/// Names of folders below a language, and of the folder for pictures.
const FOLDERS: [&str; 6] = ["lessons", "terms", "recipes", "relations", "pictures", "files"];
const IMAGES: &str = "images";

/// What a file is, by its folder.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Sort {
    /// A lesson.
    Lesson,
    /// A term.
    Term,
    /// A recipe.
    Recipe,
    /// A picture with areas.
    Picture,
    /// A relation of the course's own.
    Relation,
    /// The file of a picture.
    Image,
    /// A document, sound or film to hand out.
    Handout,
    /// Captions of a film.
    Captions,
}

/// One file of the course.
#[derive(Clone, Debug)]
pub(crate) struct Found {
    /// Relative to the folder of the course, with `/`.
    pub(crate) file: String,
    /// What it is.
    pub(crate) sort: Sort,
    /// Where it is.
    pub(crate) path: PathBuf,
}

/// Finds every file of a course below its language folder, in the order of their names.
pub(crate) fn find(dir: &Path, languages: &[String], faults: &mut Vec<Fault>) -> (Vec<Found>, bool) {
    let mut walk = Walk { languages, faults, names: BTreeMap::new(), found: Vec::new(), unreadable: false };
    let mut entries = WalkDir::new(dir).min_depth(1).max_depth(MOST_DEPTH).sort_by_file_name().into_iter();
    while let Some(entry) = entries.next() {
        match entry {
            Ok(entry) => {
                if walk.look(dir, &entry).is_none() && entry.file_type().is_dir() {
                    entries.skip_current_dir();
                }
            }
            Err(error) => walk.unreadable(dir, &error),
        }
    }
    (walk.found, walk.unreadable)
}

struct Walk<'a> {
    languages: &'a [String],
    faults: &'a mut Vec<Fault>,
    /// Lower-case path of each entry, and the path as it is.
    names: BTreeMap<String, String>,
    found: Vec<Found>,
    unreadable: bool,
}

impl Walk<'_> {
    /// Notes an entry; `None` where a folder need not be gone into.
    fn look(&mut self, dir: &Path, entry: &DirEntry) -> Option<()> {
        if is_left_behind(&entry.file_name().to_string_lossy()) {
            return None;
        }
        let file = relative(dir, entry.path());
        if entry.path_is_symlink() {
            return self.refuse(Code::CourseSymlink, &file);
        }
        self.name(&file, &entry.file_name().to_string_lossy())?;
        match (entry.file_type().is_dir(), entry.file_type().is_file()) {
            (true, _) => self.folder(&file, entry.path()),
            (_, true) => self.file(file, entry.path()),
            _ => self.refuse(Code::CourseUnexpectedFile, &file),
        }
    }

    fn refuse(&mut self, code: Code, file: &str) -> Option<()> {
        let name = file.rsplit('/').next().unwrap_or(file);
        self.faults.push(Fault::at(code, Place::whole(file)).with("file", file).with("name", name));
        None
    }

    fn refuse_kind(&mut self, file: &str) -> Option<()> {
        let fault = Fault::at(Code::FileKind, Place::whole(file)).with("file", file);
        self.faults.push(fault.with("known", handouts::endings()));
        None
    }

    /// Refuses a name that does not work everywhere, with one that does.
    fn unportable(&mut self, file: &str, name: &str) -> Option<()> {
        let fault = Fault::at(Code::CourseUnportableName, Place::whole(file)).with("file", file).with("name", name);
        let meant = portable(name).filter(|meant| is_portable(meant) && !is_device_name(meant));
        let meant = meant.map(|meant| format!("{}{meant}", &file[..file.len() - name.len()]));
        self.faults.push(meant.into_iter().fold(fault, |fault, meant| fault.with("nearest", meant)));
        None
    }

    fn name(&mut self, file: &str, name: &str) -> Option<()> {
        if !is_portable(name) {
            return self.unportable(file, name);
        }
        if is_device_name(name) {
            return self.refuse(Code::CourseReservedName, file);
        }
        if file.len() > LONGEST_PATH {
            let fault = Fault::at(Code::CoursePathTooLong, Place::whole(file)).with("file", file);
            self.faults.push(fault.with("length", file.len()).with("most", LONGEST_PATH));
            return None;
        }
        if let Some(other) = self.names.insert(file.to_lowercase(), file.to_owned()) {
            let fault = Fault::at(Code::CourseNamesDifferByCase, Place::whole(file));
            self.faults.push(fault.with("file", file).with("other", other));
        }
        Some(())
    }

    /// Goes into a folder of the course. One that is a course of its own is left alone.
    fn folder(&mut self, file: &str, path: &Path) -> Option<()> {
        let parts: Vec<_> = file.split('/').collect();
        let language = self.languages.iter().any(|known| known == parts[0]);
        let fits = match parts.as_slice() {
            [top] => *top == IMAGES || language,
            [_, folder] if FOLDERS.contains(folder) => language,
            _ => parts.contains(&IMAGES),
        };
        match fits {
            true => Some(()),
            false if path.join(COURSE_FILE).is_file() => None,
            false => self.refuse(Code::CourseUnexpectedFolder, file),
        }
    }

    fn file(&mut self, file: String, path: &Path) -> Option<()> {
        if file == COURSE_FILE {
            return Some(());
        }
        let parts: Vec<_> = file.split('/').collect();
        let name = parts.last().copied().unwrap_or_default();
        let extension = name.rsplit_once('.').map_or("", |(_, extension)| extension);
        let sort = match parts.as_slice() {
            [folders @ .., _] if folders.contains(&IMAGES) && is_picture(name) => Sort::Image,
            [folders @ .., _] if folders.contains(&IMAGES) => return self.refuse(Code::ImageKind, &file),
            [_, "lessons", _] if extension == "md" => Sort::Lesson,
            [_, "terms", _] if extension == "md" => Sort::Term,
            [_, "recipes", _] if extension == "md" => Sort::Recipe,
            [_, "files", _] if extension == "vtt" => Sort::Captions,
            [_, "files", _] if handouts::by_ending(name).is_some() => Sort::Handout,
            [_, "files", _] => return self.refuse_kind(&file),
            [_, "pictures", _] if extension == "md" => Sort::Picture,
            [_, "relations", _] if extension == "md" => Sort::Relation,
            _ => return self.refuse(Code::CourseUnexpectedFile, &file),
        };
        self.found.push(Found { file, sort, path: path.to_owned() });
        Some(())
    }

    fn unreadable(&mut self, dir: &Path, error: &walkdir::Error) {
        let file = error.path().map_or(String::new(), |path| relative(dir, path));
        let reason = error.io_error().map_or_else(|| error.to_string(), ToString::to_string);
        self.faults
            .push(Fault::at(Code::CourseUnreadable, Place::whole(&file)).with("file", file).with("reason", reason));
        self.unreadable = true;
    }
}

fn relative(dir: &Path, path: &Path) -> String {
    let parts = path.strip_prefix(dir).unwrap_or(path).components();
    parts.map(|part| part.as_os_str().to_string_lossy()).collect::<Vec<_>>().join("/")
}

/// Whether a name is of something that systems and editors leave behind: hidden files, thumbnails, copies of what is edited.
fn is_left_behind(name: &str) -> bool {
    let of_an_editor = name.starts_with('#') && name.ends_with('#');
    name.starts_with('.') || name.ends_with('~') || of_an_editor || is_of_systems(name)
}

/// Whether a name is of something that a system puts into folders by itself.
#[must_use]
pub fn is_of_systems(name: &str) -> bool {
    name == ".DS_Store" || name.starts_with("._") || LEFT_BEHIND.contains(&name.to_ascii_lowercase().as_str())
}

/// Whether a name can be written, copied and linked to on every system. Accents are refused because some systems store
/// `é` as one character and some as two, so that a name no longer is what refers to it.
pub(crate) fn is_portable(name: &str) -> bool {
    let fits = |byte: u8| byte.is_ascii_alphanumeric() || matches!(byte, b'.' | b'_' | b'-');
    name.bytes().all(fits) && !name.ends_with('.') && name.len() <= 100
}

/// A name as it works everywhere; `None` where hardly a letter of it is left.
fn portable(name: &str) -> Option<String> {
    let (stem, ending) = name.rsplit_once('.')?;
    let words = stem.split(|next: char| !(next.is_ascii_alphanumeric() || next == '-')).filter(|word| !word.is_empty());
    let plain = words.collect::<Vec<_>>().join("_");
    (plain.len() * 2 > stem.len()).then(|| format!("{plain}.{ending}"))
}

/// Whether a name is kept for a device on some systems, whatever ending follows and whatever the letters' case; also as an
/// id that becomes a file name (from memory of the naming rules of Windows).
#[must_use]
pub fn is_device_name(name: &str) -> bool {
    let stem = name.split('.').next().unwrap_or_default().trim_end().to_ascii_lowercase();
    let numbered = stem.strip_prefix("com").or_else(|| stem.strip_prefix("lpt"));
    let mut digits = numbered.unwrap_or_default().chars();
    let numbered = matches!((digits.next(), digits.next()), (Some('0'..='9' | '¹' | '²' | '³'), None));
    numbered || DEVICES.contains(&stem.as_str())
}

/// Why a file has no text.
pub(crate) enum NoText {
    /// It could not be opened or read.
    Unreadable(Box<Fault>),
    /// It could, and what it holds is refused; with the text as far as there is one.
    Refused(Box<Fault>, Option<String>),
}

/// The name of the first refused character of a text: an escape or an entity can bring one past the reading of the file.
pub(crate) fn refused_character(text: &str) -> Option<String> {
    text.chars().find(|next| is_refused(*next)).map(named)
}

fn named(next: char) -> String {
    format!("U+{:04X}", u32::from(next))
}

/// Reads a file as text, without a byte order mark.
pub(crate) fn text(found: &Path, file: &str) -> Result<String, NoText> {
    let bytes = bytes(found, file)?;
    let mut text = String::from_utf8(bytes).map_err(|error| not_utf8(file, &error))?;
    if text.starts_with('\u{feff}') {
        text.drain(..'\u{feff}'.len_utf8());
    }
    // Without leaving at the first hit, the look is many bytes wide and costs next to nothing.
    if !text.bytes().fold(false, |found, byte| found | may_be_refused(byte)) {
        return Ok(text);
    }
    match text.char_indices().find(|(_, next)| is_refused(*next)) {
        None => Ok(text),
        Some((at, next)) => {
            let fault = Fault::at(Code::CourseControlCharacter, Place::new(file, at..at + next.len_utf8()));
            let fault = fault.with("character", named(next));
            Err(NoText::Refused(Box::new(fault), Some(text)))
        }
    }
}

/// Whether a character that is refused may start with this byte: most texts need no closer look.
fn may_be_refused(byte: u8) -> bool {
    matches!(byte, ..0x20 | 0x7f | 0xc2 | 0xe2 | 0xee | 0xef) && !matches!(byte, b'\t' | b'\n' | b'\r')
}

/// Characters that are not text: they would break a page, turn the text after them (a pair of direction marks
/// does for a word what is needed), or are kept for our own marks.
fn is_refused(next: char) -> bool {
    (next.is_control() && !matches!(next, '\t' | '\n' | '\r'))
        || matches!(next, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
        || matches!(next, '\u{feff}' | '\u{fffe}' | '\u{ffff}')
        || MARKS.contains(&next)
}

fn not_utf8(file: &str, error: &std::string::FromUtf8Error) -> NoText {
    let offset = error.utf8_error().valid_up_to();
    let shown = String::from_utf8_lossy(error.as_bytes()).into_owned();
    let offset_without_mark = if shown.starts_with('\u{feff}') { offset.saturating_sub(3) } else { offset };
    let shown = shown.trim_start_matches('\u{feff}').to_owned();
    let place = Place::new(file, offset_without_mark..offset_without_mark + '\u{fffd}'.len_utf8());
    let byte = error.as_bytes().get(offset).copied().unwrap_or_default();
    let fault = Fault::at(Code::CourseNotUtf8, place).with("offset", offset).with("byte", format!("{byte:02X}"));
    NoText::Refused(Box::new(fault), Some(shown))
}

fn bytes(path: &Path, file: &str) -> Result<Vec<u8>, NoText> {
    let unreadable = |error: std::io::Error| {
        let fault = Fault::at(Code::CourseUnreadable, Place::whole(file)).with("file", file);
        NoText::Unreadable(Box::new(fault.with("reason", error.to_string())))
    };
    let open = File::open(path).map_err(unreadable)?;
    let size = open.metadata().map_err(unreadable)?.len();
    let mut bytes = Vec::with_capacity(usize::try_from(size.min(MOST_BYTES) + 1).unwrap_or_default());
    open.take(MOST_BYTES + 1).read_to_end(&mut bytes).map_err(unreadable)?;
    if bytes.len() as u64 > MOST_BYTES || size > MOST_BYTES {
        let fault = Fault::at(Code::CourseFileTooLarge, Place::whole(file)).with("file", file);
        let fault = fault.with("size", size.div_ceil(1_000_000)).with("most", MOST_BYTES / 1_000_000);
        return Err(NoText::Refused(Box::new(fault), None));
    }
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_must_work_on_every_system() {
        for good in ["a.md", "relief_valve.md", "RV-12.png"] {
            assert!(is_portable(good) && !is_device_name(good), "{good}");
        }
        let long = "x".repeat(101);
        let bad = ["a b.md", "a:b", "ventil_\u{e4}.md", "ventil_a\u{308}.md", "x.", "x ", " x", "a\\b", "a?", &long];
        for bad in bad {
            assert!(!is_portable(bad), "{bad}");
        }
        for bad in ["con.md", "NUL", "com1.md", "Lpt9", "aux .md", "nul.tar.gz", "lpt².md", "CONIN$"] {
            assert!(is_device_name(bad), "{bad}");
        }
        for good in ["common.md", "com.md", "com12", "console.md", "auxiliary", "null", "lpt"] {
            assert!(!is_device_name(good), "{good}");
        }
    }

    #[test]
    fn what_systems_leave_behind_is_passed_over() {
        for left in [".DS_Store", "._parts.md", "Thumbs.db", "Desktop.ini", "Icon\r", "parts.md~", ".parts.md.swp"] {
            assert!(is_left_behind(left), "{left}");
        }
        assert!(!is_left_behind("parts.md") && !is_left_behind("icon.png"));
    }
}
