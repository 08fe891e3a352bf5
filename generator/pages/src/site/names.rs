//! The names files may have in a site, so that one built on any system can be copied to any other.

use std::collections::{BTreeMap, BTreeSet};

use course::{LONGEST_PATH, is_device_name};

use super::error::{NameFault, SiteError};

/// The names used so far.
#[derive(Debug, Default)]
pub(super) struct Names {
    /// Folders as written. Most files go into one that is known, and then no name above needs another look.
    folders: BTreeSet<String>,
    /// Files and folders in small letters, each with the name as written.
    taken: BTreeMap<String, String>,
}

impl Names {
    /// Takes a name; gives the folders in it that are new, outermost first.
    pub(super) fn claim<'name>(&mut self, relative: &'name str) -> Result<Vec<&'name str>, SiteError> {
        check(relative).map_err(|why| SiteError::BadName { name: relative.to_owned(), why })?;
        let mut folders = Vec::new();
        let mut rest = relative;
        while let Some((folder, _)) = rest.rsplit_once('/') {
            if self.folders.contains(folder) {
                break;
            }
            folders.push(folder);
            rest = folder;
        }
        folders.reverse();
        for folder in &folders {
            self.take(folder)?;
            self.folders.insert((*folder).to_owned());
        }
        self.take(relative)?;
        Ok(folders)
    }

    /// The files, in order.
    pub(super) fn files(&self) -> impl Iterator<Item = &str> {
        self.taken.values().map(String::as_str).filter(|name| !self.folders.contains(*name))
    }

    fn take(&mut self, name: &str) -> Result<(), SiteError> {
        match self.taken.insert(name.to_ascii_lowercase(), name.to_owned()) {
            None => Ok(()),
            Some(earlier) => Err(SiteError::RepeatedName { name: name.to_owned(), earlier }),
        }
    }
}

fn check(relative: &str) -> Result<(), NameFault> {
    if relative.starts_with(['/', '\\']) {
        return Err(NameFault::Absolute);
    }
    if relative.len() > LONGEST_PATH {
        return Err(NameFault::Length);
    }
    relative.split('/').try_for_each(check_part)
}

fn check_part(part: &str) -> Result<(), NameFault> {
    if part.is_empty() {
        return Err(NameFault::Empty);
    }
    if part == "." || part == ".." {
        return Err(NameFault::Dots);
    }
    if let Some(character) = part.chars().find(|character| is_kept(*character)) {
        return Err(NameFault::Character(character));
    }
    if part.ends_with(['.', ' ']) {
        return Err(NameFault::Ending);
    }
    if is_device_name(part) { Err(NameFault::Device) } else { Ok(()) }
}

/// Characters that Windows keeps for itself (common practice, from its naming rules as remembered), and those that some
/// systems store in another form than written, so that a link no longer leads to its file: all with accents.
fn is_kept(character: char) -> bool {
    !character.is_ascii()
        || character.is_control()
        || matches!(character, '<' | '>' | ':' | '"' | '\\' | '|' | '?' | '*')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_good_name_gives_its_new_folders_once() {
        let mut names = Names::default();
        assert_eq!(names.claim("en/lessons/lift.html").unwrap(), ["en", "en/lessons"]);
        assert_eq!(names.claim("en/lessons/parts.html").unwrap(), Vec::<&str>::new());
        assert_eq!(names.claim("en/terms/index.html").unwrap(), ["en/terms"]);
        assert_eq!(names.claim("index.html").unwrap(), Vec::<&str>::new());
        assert_eq!(names.claim("en/images/key 2.png").unwrap(), ["en/images"]);
    }

    #[test]
    fn bad_names_are_refused_with_the_reason() {
        let long = "x/".repeat(60) + "x";
        let cases = [
            ("", NameFault::Empty),
            ("a//b", NameFault::Empty),
            ("a/", NameFault::Empty),
            ("/a", NameFault::Absolute),
            ("\\\\host\\a", NameFault::Absolute),
            ("..", NameFault::Dots),
            ("a/../b", NameFault::Dots),
            ("./a", NameFault::Dots),
            ("c:/a", NameFault::Character(':')),
            ("a\\b", NameFault::Character('\\')),
            ("a\0b", NameFault::Character('\0')),
            ("what?.html", NameFault::Character('?')),
            ("schl\u{fc}ssel.png", NameFault::Character('\u{fc}')),
            ("schlu\u{308}ssel.png", NameFault::Character('\u{308}')),
            ("a./b", NameFault::Ending),
            ("a /b", NameFault::Ending),
            ("a/CON", NameFault::Device),
            ("nul.tar.gz", NameFault::Device),
            ("aux .txt/b", NameFault::Device),
            ("Com1.html", NameFault::Device),
            (long.as_str(), NameFault::Length),
        ];
        for (name, expected) in cases {
            match Names::default().claim(name) {
                Err(SiteError::BadName { why, .. }) => assert_eq!(why, expected, "{name}"),
                other => panic!("{name}: {other:?}"),
            }
        }
    }

    #[test]
    fn names_near_those_of_devices_are_fine() {
        for name in ["console.html", "com.html", "com10.html", "lpt/x", "null", "a/auxiliary", ".con"] {
            assert!(Names::default().claim(name).is_ok(), "{name}");
        }
    }

    #[test]
    fn a_name_is_used_once_whatever_its_capitals() {
        for (first, second) in [
            ("a.html", "a.html"),
            ("a.html", "A.html"),
            ("en/a.html", "EN/b.html"),
            ("a", "a/b"),
            ("a/b", "a"),
            ("a/b", "A"),
        ] {
            let mut names = Names::default();
            names.claim(first).unwrap();
            assert!(matches!(names.claim(second), Err(SiteError::RepeatedName { .. })), "{first} and {second}");
        }
    }
}
