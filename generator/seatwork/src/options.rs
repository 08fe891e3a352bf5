//! What can be typed, with its help.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use clap::builder::{PossibleValue, StringValueParser, TypedValueParser};
use clap::{Args, Parser, Subcommand, ValueEnum};
use pages::Words;
use problems::System;

use crate::course_folder::{course_folder, holds_course};
use crate::status::End;
use crate::writable::writable;

/// Turns an instructor's Markdown and YAML into a training site on pressure relief valves.
#[derive(Debug, Parser)]
#[command(
    version,
    max_term_width = 100,
    after_help = "\
Exit status: 0 done, 1 the content has faults, 2 wrong use, 3 could not read or write."
)]
pub(crate) struct Options {
    #[command(subcommand)]
    pub(crate) command: Command,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Write a small complete course to change
    #[command(after_help = "\
Examples:
  seatwork start my-course
  seatwork start my-course --yes

It asks before it writes into a folder that is not empty. Where nobody can be asked, it writes nothing without --yes.")]
    Start(StartOptions),
    /// Check the course and write it as a site that opens from a folder
    #[command(after_help = "\
Examples:
  seatwork publish
  seatwork publish my-course --to /media/stick/valves")]
    Publish(PublishOptions),
    /// Write the author's guide: how to make lessons, terms and recipes of your own
    #[command(after_help = "\
Examples:
  seatwork guide
  seatwork guide /media/stick/guide")]
    Guide {
        /// The folder of the guide's site; what was there is replaced whole
        #[arg(value_name = "DIR", default_value = "guide", value_parser = writable())]
        to: PathBuf,
    },
    /// Show the course in a browser while it is written, and again whenever a file of it changes
    #[command(after_help = "\
Examples:
  seatwork watch
  seatwork watch my-course --port 8080

The preview is served to this machine alone, and ends with Ctrl-C.")]
    Watch(WatchOptions),
    /// Check the course, draw every recipe over many seeds and report what they give; write no site
    #[command(after_help = "\
Examples:
  seatwork proof
  seatwork proof spring_rate_for_rise --seeds 20000
  seatwork proof my-course --json

What was proven is remembered in the user's folder for caches, or in the one that SEATWORK_CACHE names.")]
    Proof(ProofOptions),
    /// Work a relation with numbers of your own
    #[command(after_help = "\
Examples:
  seatwork work --list
  seatwork work opening_accumulation
  seatwork work opening_accumulation full_open='110 psig' opening='100 psig'
  seatwork work spring_rate wire='14 mm' mean_coil='84 mm' active=6 shear='81370 MPa' --in N/mm")]
    Work(WorkOptions),
    /// Draw the problem that a seed gives, or a page of samples for the instructor
    #[command(after_help = "\
Examples:
  seatwork draw spring_rate_for_rise --seed 48213
  seatwork draw spring_rate_for_rise --seed 48213 --units si --answers
  seatwork draw my_recipe my-course --samples 12")]
    Draw(DrawOptions),
    /// Write a sheet of problems for paper, and its key in a file of its own
    #[command(after_help = "\
Examples:
  seatwork sheet spring_rate_for_rise seat_force --seed 7 --problems 6
  seatwork sheet --objective work_blowdown --seed 7 --units si
  seatwork sheet --numbers 'spring_rate_for_rise 48213 · seat_force 10001 · us'

With no recipe and no objective, all recipes of the course are taken in turn. The last line gives the key of a sheet that
was printed before, also by a page of the site: its numbers are at its foot. Such sheets are for practice: whoever has the
course and the program can make the key.")]
    Sheet(SheetOptions),
    /// Write what editors need to complete and check course.yaml and the front matter of lessons, terms and recipes
    #[command(after_help = "\
Examples:
  seatwork schema
  seatwork schema my-course

Editors that check YAML find the schema of a file by a comment in its first line:
  # yaml-language-server: $schema=.schema/course.schema.json")]
    Schema(SchemaOptions),
    /// Print what completes commands, options and relations in a shell
    #[command(after_help = "\
Example:
  seatwork completions bash > ~/.local/share/bash-completion/completions/seatwork")]
    Completions {
        /// The shell
        shell: clap_complete::Shell,
    },
}

#[derive(Debug, Args)]
pub(crate) struct StartOptions {
    /// The folder of the new course
    #[arg(value_name = "DIR", value_parser = writable())]
    pub(crate) dir: PathBuf,
    /// Say yes ahead: write into a folder that is not empty, and replace the files that differ
    #[arg(long)]
    pub(crate) yes: bool,
}

#[derive(Debug, Args)]
pub(crate) struct SchemaOptions {
    /// The folder of the course, whose folder .schema is written, or another folder for the schemas
    #[arg(value_name = "DIR", value_parser = writable())]
    pub(crate) dir: Option<PathBuf>,
    /// Say yes ahead: replace files of the same names, even those that are not schemas of seatwork
    #[arg(long)]
    pub(crate) yes: bool,
}

#[derive(Debug, Args)]
pub(crate) struct CourseOption {
    /// The folder of the course; where none is named, the folder that you are in, one above it, or the one within it
    #[arg(long, value_name = "DIR")]
    pub(crate) course: Option<PathBuf>,
}

impl CourseOption {
    /// The folder of the course: the one of the option, or the one that was named beside it, or the one that is found.
    ///
    /// # Errors
    /// See [`course_folder`].
    pub(crate) fn folder(&self, beside: Option<&Path>, words: &Words) -> Result<PathBuf, End> {
        course_folder(self.course.as_deref().or(beside), words)
    }
}

/// The folder of the course as the one thing that a command is about.
#[derive(Debug, Args)]
pub(crate) struct FolderArgument {
    /// The folder of the course, as --course
    #[arg(value_name = "DIR", conflicts_with = "course")]
    pub(crate) dir: Option<PathBuf>,
    #[command(flatten)]
    pub(crate) course: CourseOption,
}

impl FolderArgument {
    /// The folder of the course.
    ///
    /// # Errors
    /// See [`course_folder`].
    pub(crate) fn folder(&self, words: &Words) -> Result<PathBuf, End> {
        self.course.folder(self.dir.as_deref(), words)
    }
}

#[derive(Debug, Args)]
pub(crate) struct PublishOptions {
    #[command(flatten)]
    pub(crate) course: FolderArgument,
    /// The folder of the site; what was there is replaced whole. Where none is named, site: here, or beside the course that
    /// you are in
    #[arg(long, value_name = "DIR", value_parser = writable())]
    pub(crate) to: Option<PathBuf>,
    #[command(flatten)]
    pub(crate) force: ForceOption,
}

#[derive(Debug, Args)]
pub(crate) struct WatchOptions {
    #[command(flatten)]
    pub(crate) course: FolderArgument,
    /// The port; with 0, one that the system chooses. Where none is named, the first free one from 7328 on
    #[arg(long, value_name = "N")]
    pub(crate) port: Option<u16>,
}

#[derive(Debug, Args)]
pub(crate) struct ForceOption {
    /// Do everything again, even what has not changed since it was proven or published
    #[arg(long = "afresh")]
    pub(crate) force: bool,
}

/// With how many seeds `proof` draws each recipe, where nothing else is said.
pub(crate) const SEEDS: u64 = 2000;

/// A number of a problem has up to 18 digits.
const FIRST_SEED_AT_MOST: u64 = 999_999_999_000_000_000;

#[derive(Debug, Args)]
pub(crate) struct ProofOptions {
    /// The recipes; all of them where none is named. The folder of the course may stand among them
    #[arg(value_name = "RECIPE")]
    pub(crate) named: Vec<String>,
    #[command(flatten)]
    pub(crate) course: CourseOption,
    /// How many seeds to draw each recipe with, in each system of units
    #[arg(long, value_name = "N", default_value_t = SEEDS, value_parser = clap::value_parser!(u64).range(1..=10_000_000))]
    pub(crate) seeds: u64,
    /// The first seed: another one looks at draws that nobody has looked at
    #[arg(long, value_name = "SEED", default_value_t = 1, value_parser = clap::value_parser!(u64).range(1..=FIRST_SEED_AT_MOST))]
    pub(crate) from: u64,
    /// Print JSON
    #[arg(long)]
    pub(crate) json: bool,
    #[command(flatten)]
    pub(crate) force: ForceOption,
}

impl ProofOptions {
    /// The folder of the course, which may stand among the recipes.
    ///
    /// # Errors
    /// See [`course_folder`].
    pub(crate) fn folder(&self, words: &Words) -> Result<PathBuf, End> {
        let among = self.named.iter().map(Path::new).find(|name| holds_course(name));
        self.course.folder(among, words)
    }

    /// The recipes that were named.
    pub(crate) fn recipes(&self) -> Vec<&String> {
        self.named.iter().filter(|name| !holds_course(Path::new(name))).collect()
    }
}

impl DrawOptions {
    /// The folder of the course, and the recipe, in whichever order they were named.
    ///
    /// # Errors
    /// See [`course_folder`].
    pub(crate) fn folder_and_recipe(&self, words: &Words) -> Result<(PathBuf, String), End> {
        let first = Path::new(&self.recipe);
        let (dir, recipe) = match &self.dir {
            Some(second) if holds_course(first) => (Some(first), second.display().to_string()),
            dir => (dir.as_deref(), self.recipe.clone()),
        };
        Ok((self.course.folder(dir, words)?, recipe))
    }
}

#[derive(Debug, Args)]
pub(crate) struct WorkOptions {
    /// List the relations with their inputs
    #[arg(long, conflicts_with_all = ["relation", "inputs", "unit"])]
    pub(crate) list: bool,
    /// The relation
    #[arg(required_unless_present = "list", value_parser = RelationName, hide_possible_values = true)]
    pub(crate) relation: Option<String>,
    /// Its inputs, each as name=value with a unit: opening='100 psig'
    #[arg(value_name = "NAME=VALUE", value_parser = name_and_value)]
    pub(crate) inputs: Vec<(String, String)>,
    /// The unit of the result
    #[arg(long = "in", value_name = "UNIT")]
    pub(crate) unit: Option<String>,
    /// The system of units of what is written without one, and of the result; else that of the units written
    #[arg(long, value_enum)]
    pub(crate) units: Option<Units>,
    /// The folder of the course whose own relations can be worked too
    #[arg(long, value_name = "DIR")]
    pub(crate) course: Option<PathBuf>,
    /// Print JSON
    #[arg(long)]
    pub(crate) json: bool,
}

#[derive(Debug, Args)]
pub(crate) struct DrawOptions {
    /// The recipe: its id, or its title in quotes
    pub(crate) recipe: String,
    /// The folder of the course, as --course
    #[arg(value_name = "DIR", conflicts_with = "course")]
    pub(crate) dir: Option<PathBuf>,
    /// The number of the problem, as the page shows it; any other text draws a problem of its own
    #[arg(long, value_name = "N", allow_hyphen_values = true, required_unless_present = "samples")]
    pub(crate) seed: Option<String>,
    /// Write a page with so many problems, their answers, workings and mistakes, for the instructor
    #[arg(long, value_name = "N", conflicts_with_all = ["seed", "answers", "json"], value_parser = clap::value_parser!(u64).range(1..=500))]
    pub(crate) samples: Option<u64>,
    /// The file of that page; samples-RECIPE.html where none is named
    #[arg(long, value_name = "FILE", requires = "samples", value_parser = writable())]
    pub(crate) to: Option<PathBuf>,
    /// The system of units
    #[arg(long, value_enum)]
    pub(crate) units: Option<Units>,
    /// Print the right answers and the working too
    #[arg(long)]
    pub(crate) answers: bool,
    /// Print JSON
    #[arg(long)]
    pub(crate) json: bool,
    #[command(flatten)]
    pub(crate) course: CourseOption,
}

/// The most problems of a sheet.
pub(crate) const MOST_ON_PAPER: u16 = 100;

#[derive(Debug, Args)]
pub(crate) struct SheetOptions {
    /// The recipes, each by its id or by its title in quotes; they take turns
    #[arg(value_name = "RECIPE")]
    pub(crate) recipes: Vec<String>,
    /// An objective, whose recipes take turns; may be given several times
    #[arg(long = "objective", value_name = "ID", conflicts_with = "recipes")]
    pub(crate) objectives: Vec<String>,
    /// The number from which those of all problems follow: the same number gives the same sheet
    #[arg(long, value_name = "N", required_unless_present = "numbers", value_parser = clap::value_parser!(u64).range(1..=FIRST_SEED_AT_MOST))]
    pub(crate) seed: Option<u64>,
    /// How many problems
    #[arg(long, value_name = "N", default_value_t = 10, value_parser = clap::value_parser!(u16).range(1..=i64::from(MOST_ON_PAPER)))]
    pub(crate) problems: u16,
    /// The problems of a sheet that was printed: its line of numbers
    #[arg(long, value_name = "LINE", num_args = 1.., conflicts_with_all = ["recipes", "objectives", "seed", "problems"])]
    pub(crate) numbers: Vec<String>,
    /// What is written at the head of the sheet
    #[arg(long, value_name = "TEXT")]
    pub(crate) title: Option<String>,
    /// The file of the sheet; the key is beside it, with -key in its name
    #[arg(long, value_name = "FILE", value_parser = writable())]
    pub(crate) to: Option<PathBuf>,
    /// The system of units; else that of the line of numbers, or of the course
    #[arg(long, value_enum)]
    pub(crate) units: Option<Units>,
    #[command(flatten)]
    pub(crate) course: CourseOption,
}

/// A system of units, as it is typed.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum Units {
    /// United States customary units
    Us,
    /// SI units
    Si,
}

impl From<Units> for System {
    fn from(units: Units) -> Self {
        match units {
            Units::Us => Self::Us,
            Units::Si => Self::Si,
        }
    }
}

/// Takes any name, so that an unknown one gets the command's own words; shells complete the known ones.
#[derive(Clone, Debug)]
struct RelationName;

impl TypedValueParser for RelationName {
    type Value = String;

    fn parse_ref(
        &self,
        command: &clap::Command,
        argument: Option<&clap::Arg>,
        value: &OsStr,
    ) -> Result<Self::Value, clap::Error> {
        StringValueParser::new().parse_ref(command, argument, value)
    }

    fn possible_values(&self) -> Option<Box<dyn Iterator<Item = PossibleValue> + '_>> {
        Some(Box::new(relief::relations().map(|relation| PossibleValue::new(relation.id))))
    }
}

fn name_and_value(text: &str) -> Result<(String, String), String> {
    match text.split_once('=') {
        Some((name, value)) if !name.trim().is_empty() => Ok((name.trim().to_owned(), value.trim().to_owned())),
        _ => Err("expected name=value, for example opening='100 psig'".to_owned()),
    }
}
