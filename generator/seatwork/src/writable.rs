//! Names to write to. Windows cannot hold them all, and what it says of those does not help.

use std::path::{Component, Path, PathBuf};

use clap::builder::{PathBufValueParser, TypedValueParser};
use course::is_device_name;

/// Reads a folder or file to write.
pub(crate) fn writable() -> impl TypedValueParser<Value = PathBuf> {
    PathBufValueParser::new().try_map(|path| match windows_refuses(&path) {
        Some(name) if cfg!(windows) => Err(format!(
            "Windows cannot hold the name {name}. Choose one without < > : \" | ? *, without a full stop or space at its \
             end, and other than the names of devices, such as con, nul or aux"
        )),
        _ => Ok(path),
    })
}

/// The part of a path that no folder or file on Windows can have as its name.
fn windows_refuses(path: &Path) -> Option<String> {
    let mut names = path.components().filter_map(|part| match part {
        Component::Normal(name) => Some(name.to_string_lossy().into_owned()),
        _ => None,
    });
    names.find(|name| is_refused(name))
}

/// Common practice, from the naming rules of Windows as remembered.
fn is_refused(name: &str) -> bool {
    let kept = |next: char| next.is_control() || "<>:\"|?*".contains(next);
    name.chars().any(kept) || name.ends_with(['.', ' ']) || is_device_name(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_that_windows_cannot_hold_are_found_in_any_part() {
        for (path, name) in
            [("con", "con"), ("a/NUL.txt/b", "NUL.txt"), ("what?", "what?"), ("a./b", "a."), ("a b /c", "a b ")]
        {
            assert_eq!(windows_refuses(path.as_ref()).as_deref(), Some(name), "{path}");
        }
    }

    #[test]
    fn names_that_windows_holds_are_left_alone() {
        for path in
            ["my-course", "../Überström/a b", "./x", "..", "console", "/media/stick/安全弁", "a.b", "100 % & more"]
        {
            assert_eq!(windows_refuses(path.as_ref()), None, "{path}");
        }
    }
}
