//! Addresses of files in a course, as texts write them: from the folder of their own file.

/// The path in the course that an address leads to; `None` where it leaves the course.
pub(crate) fn in_course(file: &str, address: &str) -> Option<String> {
    let folder = file.rsplit_once('/').map_or("", |(folder, _)| folder);
    let absolute = address.starts_with(['/', '\\']) || address.contains(':');
    (!absolute).then(|| join(folder, address)).flatten()
}

/// A relative address from a folder; `None` where it leaves the course.
fn join(folder: &str, address: &str) -> Option<String> {
    let mut parts: Vec<_> = folder.split('/').filter(|part| !part.is_empty()).collect();
    for part in address.split(['/', '\\']) {
        match part {
            "" | "." => (),
            ".." => {
                parts.pop()?;
            }
            part => parts.push(part),
        }
    }
    Some(parts.join("/"))
}

#[cfg(test)]
mod tests {
    use super::join;

    #[test]
    fn addresses_stay_in_the_course() {
        assert_eq!(join("en/lessons", "images/a.png").as_deref(), Some("en/lessons/images/a.png"));
        assert_eq!(join("en/lessons", "../images/./a.png").as_deref(), Some("en/images/a.png"));
        assert_eq!(join("en/lessons", r"..\images\a.png").as_deref(), Some("en/images/a.png"));
        assert_eq!(join("en/lessons", "../../../a.png"), None);
        assert_eq!(join("en/lessons", r"..\..\..\a.png"), None);
    }
}
