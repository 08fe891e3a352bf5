//! The built engine that goes into a site, and the check that it is the native core's own.

const DIGEST: &str = include_str!("../../../exercises/engine/prebuilt/digest.txt");
const GLUE: &str = include_str!("../../../exercises/engine/prebuilt/engine-glue.js");
const MODULE: &str = include_str!("../../../exercises/engine/prebuilt/engine-module.js");

/// The digest of the sources that this program's own core was built from.
const CORE: &str = env!("SEATWORK_CORE_DIGEST");

/// The files of the engine, by their place in the site.
pub(crate) const FILES: [(&str, &str); 2] = [("scripts/engine-glue.js", GLUE), ("scripts/engine-module.js", MODULE)];

/// The digest of the core that this program computes with: another one may draw, mark or prove differently.
#[must_use]
pub fn core_digest() -> &'static str {
    CORE
}

/// Whether the kept engine was built from the sources of the native core.
#[must_use]
pub fn matches_core() -> bool {
    DIGEST.lines().any(|line| line.strip_prefix("digest ") == Some(CORE))
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_kept_engine_is_the_native_core() {
        assert!(super::matches_core(), "run exercises/engine/rebuild and commit what it makes");
    }
}
