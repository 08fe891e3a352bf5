//! Published cases, read from `tests/published/*.txt`.

use std::fs;
use std::path::Path;

/// One case: a formula and what is printed for it, a number or the name of a choice.
#[derive(Clone, Debug)]
pub struct Case {
    /// Where the value comes from.
    pub source: String,
    /// The file and line of the formula.
    pub place: String,
    /// The formula.
    pub formula: String,
    /// The unit of the value; empty for a bare number and for a choice.
    pub unit: String,
    /// The value as printed.
    pub printed: String,
    /// Whether the source rounds between steps, so that half a percent is allowed.
    pub worked: bool,
}

impl Case {
    /// Whether a choice is printed and not a number.
    #[must_use]
    pub fn is_choice(&self) -> bool {
        self.printed.starts_with(|first: char| first.is_ascii_alphabetic())
    }

    /// The value.
    ///
    /// # Panics
    /// Where the file does not hold a number there.
    #[must_use]
    pub fn value(&self) -> f64 {
        self.printed.parse().unwrap_or_else(|_| panic!("{}: no number: {}", self.place, self.printed))
    }

    /// How far a result may be from it: half a unit of the last printed digit, or half a percent.
    #[must_use]
    pub fn tolerance(&self) -> f64 {
        let value = self.value();
        let places = self.printed.split_once('.').map_or(0, |(_, places)| places.len());
        let digit = format!("0.5e-{places}").parse().unwrap_or(0.0);
        let printed = if self.printed.contains('.') { digit } else { value.abs() * 1e-9 };
        let printed = f64::max(printed, f64::EPSILON);
        if self.worked { value.abs() * 0.005 } else { printed * 1.000_001 }
    }
}

/// Every case in a folder, in the order of its files.
///
/// # Panics
/// Where a file cannot be read or is not in the form that its head describes.
#[must_use]
pub fn cases(folder: &Path) -> Vec<Case> {
    let mut files: Vec<_> = fs::read_dir(folder).expect("folder").map(|entry| entry.expect("entry").path()).collect();
    files.sort();
    files.iter().flat_map(|file| read(file)).collect()
}

fn read(file: &Path) -> Vec<Case> {
    let text = fs::read_to_string(file).expect("text");
    let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let (mut all, mut source, mut worked, mut formula) = (Vec::new(), String::new(), false, None::<(String, String)>);
    for (index, line) in text.lines().enumerate().filter(|(_, line)| !line.trim().is_empty() && !line.starts_with('#'))
    {
        let place = format!("{name}:{}", index + 1);
        if let Some(text) = line.strip_prefix("source: ") {
            text.clone_into(&mut source);
        } else if line == "printed" || line == "worked" {
            worked = line == "worked";
        } else if let Some(value) = line.strip_prefix("= ") {
            let (formula, place) = formula.take().unwrap_or_else(|| panic!("{place}: a value without a formula"));
            let (formula, unit) = formula_and_unit(&formula);
            let case = Case {
                source: source.clone(),
                place,
                formula: formula.into(),
                unit: unit.into(),
                printed: value.into(),
                worked,
            };
            all.push(case);
        } else {
            formula = Some((line.to_owned(), place));
        }
    }
    all
}

/// Splits `… in psi`. What follows an inch within the parentheses of a call is not a unit.
fn formula_and_unit(line: &str) -> (&str, &str) {
    let whole = |(formula, _): &(&str, &str)| formula.matches('(').count() == formula.matches(')').count();
    line.rsplit_once(" in ").filter(whole).unwrap_or((line, ""))
}
