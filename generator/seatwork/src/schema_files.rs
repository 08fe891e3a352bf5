//! The schemas as files to write.

use course::{Schema, schemas};

use crate::write_plan::Item;

/// The folder of the schemas within that of a course: what begins with a dot is not part of a course.
pub(crate) const FOLDER: &str = ".schema";

/// The schemas, below a folder that ends in `/` or in the folder that is written to.
pub(crate) fn schema_files(folder: &str) -> Vec<Item> {
    let item = |schema: Schema| Item::new(format!("{folder}{}", schema.name), schema.text).marked(Schema::MARK);
    schemas().into_iter().map(item).collect()
}
