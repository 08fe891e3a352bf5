//! A course as small as a course can be, in two editions that differ in text, in files and in folders.

use std::fs;
use std::path::Path;

/// Which edition.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Edition {
    /// The site that is there.
    Old,
    /// The site that is to replace it.
    New,
}

/// Writes a course.
pub(crate) fn make(folder: &Path, edition: Edition) {
    let (lessons, lesson) = match edition {
        Edition::Old => ("[parts]", "The spring holds the disc on its seat."),
        Edition::New => ("[parts, lift]", "The spring presses the disc onto its seat."),
    };
    write(folder, "course.yaml", &COURSE.replace("LESSONS", lessons));
    write(folder, "en/lessons/parts.md", &PARTS.replace("LESSON", lesson));
    if edition == Edition::New {
        write(folder, "en/lessons/lift.md", LIFT);
    }
    write(folder, "en/terms/opening_accumulation.md", TERM);
    write(folder, "en/recipes/rise_to_full_lift.md", RECIPE);
}

fn write(folder: &Path, name: &str, text: &str) {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().expect("a folder around the file")).expect("the folder is made");
    fs::write(path, text).expect("the file is written");
}

const COURSE: &str = r#"format: 1
course_id: tarn_hollow_small
title: Relief valves in short
owner: Tarn Hollow training site
languages: [en]
units: us
decimal_mark: "."
safety: "The manufacturer's instructions, the local code and licensed people decide."
lessons: LESSONS
"#;

const PARTS: &str = r#"---
format: 1
id: parts
title: The parts
summary: What holds the valve shut.
objectives:
  - id: find_rise
    text: Work out the rise from opening to full lift
---
## The spring

LESSON See [opening accumulation](term:opening_accumulation).

```practice
recipe: rise_to_full_lift
```
"#;

const LIFT: &str = r#"---
format: 1
id: lift
title: The lift
summary: How far the disc rises.
objectives:
  - id: name_lift
    text: Say what the lift is
---
## The disc rises

The lift is how far the disc has risen from its seat. Its [parts](lesson:parts) came before.
"#;

const TERM: &str = r#"---
format: 1
id: opening_accumulation
term: opening accumulation
also: []
confused_with: []
definition: "The rise in pressure from the opening of the valve to its full lift."
source: "common practice, no source"
---
It is a difference of two gauge pressures.
"#;

const RECIPE: &str = r#"---
format: 1
id: rise_to_full_lift
title: Rise to full lift
objectives: [find_rise]
level: 1
draw:
  opening: { us: "60 psig .. 300 psig by 5 psi", si: "4 barg .. 20 barg by 0.5 bar" }
  share: { choose: ["10 %", "15 %", "20 %"] }
ask:
  - id: rise
    label: "Opening accumulation"
    answer: "opening_accumulation(full_open: opening + opening * share, opening: opening)"
    unit: { us: psi, si: bar }
    within: "1 %"
---
## Question
A relief valve opens at {opening} and is at full lift when the pressure has risen by {share} of that. What is its
opening accumulation?
## Start
Take the share of the opening pressure.
## Working
{steps: rise}
"#;
