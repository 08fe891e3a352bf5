//! The course that `start` writes, embedded from `theme/start`.

use crate::write_plan::Item;

macro_rules! files {
    ($($path:literal),* $(,)?) => {
        &[$(($path, include_str!(concat!("../../../../../theme/start/", $path)))),*]
    };
}

/// Every file, by its path below the folder of the course.
const FILES: &[(&str, &str)] = files!(
    "course.yaml",
    "en/lessons/valve_on_the_line.md",
    "en/lessons/from_set_to_full_open.md",
    "en/lessons/before_the_screw.md",
    "en/recipes/disc_force.md",
    "en/recipes/first_lift.md",
    "en/recipes/highest_running.md",
    "en/recipes/which_pressure.md",
    "en/terms/blowdown.md",
    "en/terms/disc.md",
    "en/terms/full_open_pressure.md",
    "en/terms/opening_accumulation.md",
    "en/terms/operating_margin.md",
    "en/terms/seat.md",
    "en/terms/set_pressure.md",
);

/// A recipe of that course which shows much in a page of samples.
pub(super) const SAMPLED: &str = "highest_running";

pub(super) fn items() -> impl Iterator<Item = Item> {
    FILES.iter().map(|(path, text)| Item::new(*path, *text))
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;
    use std::fs;
    use std::path::Path;

    use super::*;

    fn collect(folder: &Path, prefix: &str, all: &mut BTreeSet<String>) {
        for entry in fs::read_dir(folder).expect("folder") {
            let entry = entry.expect("entry");
            let name = format!("{prefix}{}", entry.file_name().to_string_lossy());
            if entry.path().is_dir() {
                collect(&entry.path(), &format!("{name}/"), all);
            } else {
                all.insert(name);
            }
        }
    }

    #[test]
    fn the_whole_folder_is_embedded() {
        let mut there = BTreeSet::new();
        collect(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../theme/start"), "", &mut there);
        assert_eq!(there, FILES.iter().map(|(path, _)| (*path).to_owned()).collect());
        assert!(there.contains(&format!("en/recipes/{SAMPLED}.md")));
    }
}
