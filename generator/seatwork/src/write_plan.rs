//! Files to be written into a folder that may hold others. Nothing that is there is lost unless the user agrees, and no
//! symbolic link is followed out of the folder.

use std::fs::{self, File, Metadata};
use std::io::{self, BufRead, ErrorKind, IsTerminal, Write};
use std::path::{Path, PathBuf};

use pages::Words;

use crate::status::{End, Status};

/// A file to write.
#[derive(Debug)]
pub(crate) struct Item {
    /// Its path below the folder, with `/`.
    path: String,
    text: String,
    /// What a file starts with that an earlier run has written: it may be replaced.
    mark: Option<&'static str>,
}

impl Item {
    pub(crate) fn new(path: impl Into<String>, text: impl Into<String>) -> Self {
        Self { path: path.into(), text: text.into(), mark: None }
    }

    /// An item whose every version starts alike: an earlier one may be replaced unasked.
    pub(crate) fn marked(self, mark: &'static str) -> Self {
        Self { mark: Some(mark), ..self }
    }
}

/// Who may say that files are replaced.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Right {
    /// Yes was said when the command was typed.
    Given,
    /// Somebody has to be asked.
    ToAsk,
}

impl Right {
    pub(crate) fn of(yes: bool) -> Self {
        if yes { Self::Given } else { Self::ToAsk }
    }
}

/// What is in the place of an item.
enum Found {
    Nothing,
    Same,
    /// Another text: that of an earlier run, or of somebody else.
    Other {
        ours: bool,
    },
    /// A symbolic link, a folder in the place of a file, or a file in the place of a folder.
    Blocked(PathBuf),
}

/// What would be written.
#[derive(Debug)]
pub(crate) struct Plan<'a> {
    dir: &'a Path,
    new: Vec<&'a Item>,
    /// Files of an earlier run that have changed since.
    renewed: Vec<&'a Item>,
    replaced: Vec<&'a Item>,
}

impl<'a> Plan<'a> {
    /// Looks at what is there.
    ///
    /// # Errors
    /// What blocks a file, or cannot be read.
    pub(crate) fn look(dir: &'a Path, items: &'a [Item], words: &Words) -> Result<Self, End> {
        let mut plan = Self { dir, new: Vec::new(), renewed: Vec::new(), replaced: Vec::new() };
        for item in items {
            let found = look(dir, item);
            let unreadable = |error| failed("command.write_plan.unreadable", &place(dir, item), &error, words);
            plan.add(item, found.map_err(unreadable)?).map_err(|path| blocked(&path, words))?;
        }
        Ok(plan)
    }

    /// Adds an item to what will be done, unless something is in its way.
    fn add(&mut self, item: &'a Item, found: Found) -> Result<(), PathBuf> {
        match found {
            Found::Nothing => self.new.push(item),
            Found::Same => {}
            Found::Other { ours: true } => self.renewed.push(item),
            Found::Other { ours: false } => self.replaced.push(item),
            Found::Blocked(path) => return Err(path),
        }
        Ok(())
    }

    /// Whether everything is already as it would be written.
    pub(crate) fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// How many files would be written.
    pub(crate) fn len(&self) -> usize {
        self.new.len() + self.renewed.len() + self.replaced.len()
    }

    /// Whether something would be lost.
    pub(crate) fn replaces(&self) -> bool {
        !self.replaced.is_empty()
    }

    /// Lets the plan be agreed to: on a terminal it is shown and asked about; elsewhere yes must have been said ahead.
    ///
    /// # Errors
    /// No yes.
    pub(crate) fn agree(&self, right: Right, words: &Words) -> Result<(), End> {
        if right == Right::Given {
            return Ok(());
        }
        let list = self.list(words);
        let asks = io::stdin().is_terminal() && io::stderr().is_terminal();
        if !asks {
            return Err(End::new(Status::WrongUse, list + words.get("command.write_plan.say_yes")));
        }
        eprint!("{list}{} ", words.get("command.write_plan.ask"));
        if says_yes(words) { Ok(()) } else { Err(End::new(Status::WrongUse, words.get("command.write_plan.left"))) }
    }

    fn list(&self, words: &Words) -> String {
        let mut list = words.fill("command.write_plan.not_empty", &[("dir", &self.dir.display().to_string())]) + "\n";
        for (key, items) in [("command.write_plan.replaced", &self.replaced), ("command.write_plan.new", &self.new)] {
            if !items.is_empty() {
                list += &format!("{}\n", words.get(key));
                list.extend(items.iter().map(|item| format!("  {}\n", item.path)));
            }
        }
        list
    }

    /// Writes the files.
    ///
    /// # Errors
    /// A file that cannot be written; those before it stay.
    pub(crate) fn write(&self, words: &Words) -> Result<(), End> {
        let new = self.new.iter().map(|item| (item, write_new(&place(self.dir, item), item)));
        let other = self.renewed.iter().chain(&self.replaced);
        let replaced = other.map(|item| (item, replace(&place(self.dir, item), item)));
        for (item, result) in new.chain(replaced) {
            result.map_err(|error| failed("command.write_plan.unwritable", &place(self.dir, item), &error, words))?;
        }
        Ok(())
    }
}

/// Whether the next line that is typed is a yes.
fn says_yes(words: &Words) -> bool {
    let mut said = String::new();
    let read = io::stdin().lock().read_line(&mut said);
    read.is_ok() && said.trim().eq_ignore_ascii_case(words.get("command.write_plan.yes"))
}

fn blocked(path: &Path, words: &Words) -> End {
    let path = path.display().to_string();
    End::new(Status::Unreadable, words.fill("command.write_plan.blocked", &[("path", &path)]))
}

fn place(dir: &Path, item: &Item) -> PathBuf {
    item.path.split('/').fold(dir.to_owned(), |path, part| path.join(part))
}

/// What is in the place of an item. Only the folder itself may be reached over a symbolic link: the user named it.
fn look(dir: &Path, item: &Item) -> io::Result<Found> {
    if dir.symlink_metadata().is_ok() && !dir.is_dir() {
        return Ok(Found::Blocked(dir.to_owned()));
    }
    let file = place(dir, item);
    let above = file.ancestors().skip(1).take_while(|path| *path != dir).collect::<Vec<_>>();
    let folders = above.into_iter().rev().map(|path| (path, false));
    for (path, is_last) in folders.chain([(file.as_path(), true)]) {
        let fits = |found: &Metadata| if is_last { found.is_file() } else { found.is_dir() };
        match path.symlink_metadata() {
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Found::Nothing),
            Err(error) => return Err(error),
            Ok(found) if !fits(&found) => return Ok(Found::Blocked(path.to_owned())),
            Ok(_) => {}
        }
    }
    Ok(compare(&fs::read(&file)?, item))
}

/// What a file is beside the item in its place.
fn compare(bytes: &[u8], item: &Item) -> Found {
    if bytes == item.text.as_bytes() {
        return Found::Same;
    }
    Found::Other { ours: item.mark.is_some_and(|mark| bytes.starts_with(mark.as_bytes())) }
}

/// Writes where nothing was; what has come there since is left alone.
fn write_new(path: &Path, item: &Item) -> io::Result<()> {
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder)?;
    }
    let mut file = File::options().write(true).create_new(true).open(path)?;
    // Half a file would be taken for somebody's own the next time.
    file.write_all(item.text.as_bytes()).inspect_err(|_| _ = fs::remove_file(path))
}

/// Puts a whole file in the place of another, so that one of the two is there whatever happens.
fn replace(path: &Path, item: &Item) -> io::Result<()> {
    let folder = path.parent().unwrap_or(Path::new("."));
    let mut file = tempfile::NamedTempFile::new_in(folder)?;
    file.write_all(item.text.as_bytes())?;
    file.as_file().set_permissions(path.symlink_metadata()?.permissions())?;
    file.persist(path).map_err(|error| error.error)?;
    Ok(())
}

fn failed(key: &str, path: &Path, error: &io::Error, words: &Words) -> End {
    let (file, error) = (path.display().to_string(), error.to_string());
    End::new(Status::Unreadable, words.fill(key, &[("file", &file), ("error", &error)]))
}
