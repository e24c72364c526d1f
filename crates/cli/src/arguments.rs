//! What can be asked of the program?

use std::path::PathBuf;

use boxneck::batch::Shard;
use boxneck::units::{Length, LengthUnit};
use clap::{Args, Parser, Subcommand, ValueEnum};

/// From one document that describes a stick-neck box guitar to the files that cut and print its parts.
#[derive(Debug, Parser)]
#[command(name = "boxneck", version, about, after_help = EXIT_STATUS)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    pub(crate) command: Command,
}

const EXIT_STATUS: &str = "Exit status: 0 everything holds; 1 made or checked, but a finding fails; 2 the document or \
the call is wrong; 3 the machine failed (disk full, no permission).";

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Write a commented document to begin from; never overwrites
    New(New),
    /// Say where everything goes and what does not fit
    Check(Check),
    /// Check, then write all the files
    Make(Box<Make>),
    /// Make a whole class: one instrument a row of a roster
    Batch(Box<Batch>),
    /// Search the plans around a document, and rank them
    #[command(after_help = measures_help())]
    Explore(Explore),
    /// Say what to tap, shim and move on an instrument that is built and strung, from what was measured on it
    Setup(Setup),
    /// Print the document's JSON Schema, for editors
    Schema,
    /// Print completions for a shell
    Completions(Completions),
    /// Print the manual page
    Man,
}

#[derive(Debug, Args)]
pub(crate) struct New {
    /// The document to write
    pub(crate) file: PathBuf,
    /// Which instrument to begin from: three-string, four-string or one-string
    #[arg(long, value_name = "NAME", default_value = "three-string")]
    pub(crate) start: String,
}

#[derive(Debug, Args)]
pub(crate) struct Check {
    /// The documents
    #[arg(required = true, value_name = "FILE")]
    pub(crate) files: Vec<PathBuf>,
    /// A page for people, or one JSON object a line for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    /// The share of instruments of one plan that are to be free of buzz, above 0 to 1
    #[arg(long, value_name = "SHARE", default_value_t = 0.95, value_parser = share)]
    pub(crate) free_of_buzz: f64,
    /// Say how instruments of the plan differ that are made as well as the document says, and which dimension to take most
    /// care with: counted on N of them, 2000 where no number is given
    #[arg(
        long,
        value_name = "N",
        num_args = 0..=1,
        require_equals = true,
        default_missing_value = "2000",
        value_parser = clap::value_parser!(u32).range(2..=1_000_000)
    )]
    pub(crate) tolerances: Option<u32>,
    /// Write a mended copy of each document beside it, as NAME.mended.toml: every change that cures a check and breaks none;
    /// comments and layout stay
    #[arg(long)]
    pub(crate) mend: bool,
    /// Write the mended document over the original
    #[arg(long, requires = "mend")]
    pub(crate) in_place: bool,
    /// List every formula that was used, with its source, after the page
    #[arg(long)]
    pub(crate) explain: bool,
}

/// A share above 0, up to and including 1.
fn share(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(share) if share > 0.0 && share <= 1.0 => Ok(share),
        _ => Err(format!("expected a share above 0 and at most 1, found {text}; 0.95 works")),
    }
}

/// A length above nothing; a bare number is millimetres.
fn positive(text: &str) -> Result<Length, String> {
    match Length::parse(text, LengthUnit::Millimetre) {
        Ok(length) if length > Length::ZERO => Ok(length),
        Ok(_) => Err(format!("expected a length above 0 mm, found {text}")),
        Err(fault) => Err(fault.to_string()),
    }
}

#[derive(Debug, Args)]
pub(crate) struct Make {
    /// The documents
    #[arg(required = true, value_name = "FILE")]
    pub(crate) files: Vec<PathBuf>,
    /// The folder in which each instrument gets a folder of its own
    #[arg(short, long, value_name = "DIR", default_value = "outputs")]
    pub(crate) output: PathBuf,
    #[command(flatten)]
    pub(crate) making: Making,
    /// A line for people, or one JSON object a line for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
}

#[derive(Debug, Args)]
pub(crate) struct Batch {
    /// The roster: CSV with a row a student; its first row names the columns, which are dotted keys of the document, and
    /// student, quantity, note and base
    #[arg(value_name = "ROSTER", required_unless_present = "merge")]
    pub(crate) roster: Option<PathBuf>,
    /// The document that the rows change; a column base names another for its row, by its path from the roster
    #[arg(long, value_name = "FILE")]
    pub(crate) base: Option<PathBuf>,
    /// The folder in which each row gets a folder of its own, and the class one named class
    #[arg(short, long, value_name = "DIR", default_value = "outputs")]
    pub(crate) output: PathBuf,
    /// Make only the first, second, ... of N equal shares, as 2/8, on one of N machines; --merge puts them together
    #[arg(long, value_name = "I/N", conflicts_with = "prune")]
    pub(crate) shard: Option<Shard>,
    /// The boards and sheets that there are, and prices: what is cut from which, and what all of it costs
    #[arg(long, value_name = "FILE", conflicts_with = "shard")]
    pub(crate) stock: Option<PathBuf>,
    /// Put together in -o what the shards of one class made in these folders, which may be -o itself; with the options that
    /// the shards were made with
    #[arg(long, value_name = "DIR", num_args = 1.., conflicts_with_all = ["roster", "base", "shard"])]
    pub(crate) merge: Vec<PathBuf>,
    /// Remove builds of rows that the roster has no more: the files that their manifest lists and nobody changed
    #[arg(long)]
    pub(crate) prune: bool,
    #[command(flatten)]
    pub(crate) making: Making,
    /// A line a row for people, or one JSON object a row for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
}

/// What is made of each instrument.
#[derive(Debug, Args)]
#[group(id = "making", multiple = true)]
pub(crate) struct Making {
    /// Only these parts, by name, separated by commas; all of them where nothing is said
    #[arg(long, value_name = "PART,...", value_delimiter = ',')]
    pub(crate) only: Vec<String>,
    /// Only these kinds of files, separated by commas: dxf, svg, stl, 3mf, step, csv, picture, glb, view, templates, report; all where nothing is said
    #[arg(long, value_name = "FORMAT,...", value_delimiter = ',')]
    pub(crate) formats: Vec<String>,
    /// The unit of drawings: mm or in
    #[arg(long, value_name = "UNIT", default_value = "mm")]
    pub(crate) unit: String,
    /// The version of DXF drawings: r2000, or r12 for old programs, always in millimetres
    #[arg(long, value_name = "VERSION", default_value = "r2000", value_parser = ["r2000", "r12"])]
    pub(crate) dxf: String,
    /// How arcs of DXF drawings are written: bulges of polylines, separate lines and arcs, or flat short lines
    #[arg(long, value_name = "STYLE", default_value = "bulges", value_parser = ["bulges", "separate", "flat"])]
    pub(crate) arcs: String,
    /// How far flat arcs may deviate from the true curve; 0.01 mm where nothing is said
    #[arg(long, value_name = "LENGTH", value_parser = positive)]
    pub(crate) chord: Option<Length>,
    /// Draw the line that the middle of a bit, or of a kerf, of this width follows; nominal outlines where nothing is said
    #[arg(long, value_name = "LENGTH", value_parser = positive)]
    pub(crate) cut_line: Option<Length>,
    /// Up to so many holding tabs on each outer cut of DXF drawings, on layer TAB; none where nothing is said
    #[arg(long, value_name = "COUNT")]
    pub(crate) tabs: Option<usize>,
    /// How wide each tab is; 6 mm where nothing is said
    #[arg(long, value_name = "LENGTH", requires = "tabs", value_parser = positive)]
    pub(crate) tab_width: Option<Length>,
    /// Engrave each part's name with single strokes, on layer ENGRAVE of DXF drawings
    #[arg(long)]
    pub(crate) labels: bool,
    /// The papers of the templates, separated by commas: a4, letter, plotter (one sheet as large as it takes)
    #[arg(long, value_name = "PAPER,...", value_delimiter = ',', default_value = "a4,letter")]
    pub(crate) paper: Vec<String>,
    /// What the 100 mm marks of printed templates measured, across and up the page, in mm: 99.8,100.1; the templates are
    /// then drawn so that they come out true on that printer
    #[arg(long, value_name = "ACROSS,UP")]
    pub(crate) measured_mark: Option<String>,
    /// Write the files even though a finding fails; they are marked
    #[arg(long)]
    pub(crate) anyway: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Setup {
    /// The document that the instrument was made from
    pub(crate) file: PathBuf,
    /// What was measured on it: TOML with a section a kind, or CSV (a name that ends in .csv) with a row a reading; everything in
    /// it is optional, lists run from bass to treble, string 1 is the treble string and fret 0 the zero fret
    #[arg(long, value_name = "FILE")]
    pub(crate) measured: PathBuf,
    /// Write the same as a page of HTML as well, which needs no network
    #[arg(long, value_name = "FILE")]
    pub(crate) page: Option<PathBuf>,
    /// A page for people, or one JSON object a line for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    /// How surely no string is to buzz when the work is done, above 0 to 1
    #[arg(long, value_name = "SHARE", default_value_t = 0.95, value_parser = share)]
    pub(crate) free_of_buzz: f64,
}

#[derive(Debug, Args)]
pub(crate) struct Explore {
    /// The document
    #[arg(value_name = "FILE", required_unless_present = "list")]
    pub(crate) file: Option<PathBuf>,
    /// A key and what to try of it: heel.reach=10 mm..40 mm:5 mm from one value to another by steps, neck.wood=ash|red oak one of
    /// several; without a step, the one in which people write such a key. Where no key is named, those that move what is asked about
    #[arg(long, value_name = "KEY=A..B[:STEP]")]
    pub(crate) vary: Vec<String>,
    /// What a plan must hold: frets>=15, "drift<=5 cents". That no check fails is always asked, unless a condition on fails says otherwise
    #[arg(long, value_name = "CONDITION")]
    pub(crate) want: Vec<String>,
    /// A measure that is to be as good as can be; several, the first before the second. Without one, the plans that warn least and
    /// change least come first
    #[arg(long, value_name = "MEASURE")]
    pub(crate) best: Vec<String>,
    /// A key, or a whole section, that stays as it is
    #[arg(long, value_name = "KEY")]
    pub(crate) lock: Vec<String>,
    /// The most plans that are worked out; where there are more combinations, a swarm looks for the best
    #[arg(long, value_name = "N", default_value_t = 100_000, value_parser = clap::value_parser!(u32).range(1..=10_000_000))]
    pub(crate) plans: u32,
    /// How many plans are told
    #[arg(long, value_name = "N", default_value_t = 5, value_parser = clap::value_parser!(u8).range(1..=50))]
    pub(crate) tell: u8,
    /// The seed of the swarm
    #[arg(long, value_name = "N", default_value_t = 1)]
    pub(crate) seed: u64,
    /// The share of instruments of one plan that are to be free of buzz, above 0 to 1
    #[arg(long, value_name = "SHARE", default_value_t = 0.95, value_parser = share)]
    pub(crate) free_of_buzz: f64,
    /// The folder in which the plans that are told, a table of all and a page are written, in a folder NAME-plans; nothing is written
    /// where nothing is said
    #[arg(short, long, value_name = "DIR")]
    pub(crate) output: Option<PathBuf>,
    /// A page for people, or one JSON object for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    /// List the measures, and do nothing else
    #[arg(long)]
    pub(crate) list: bool,
}

/// The table of measures.
pub(crate) fn measures_help() -> String {
    let row = |measure: &boxneck::explore::PlanMeasure| {
        let better = match measure.better {
            boxneck::explore::Better::Higher => "higher",
            boxneck::explore::Better::Lower => "lower",
        };
        let deep = if measure.is_deep { "; takes longer" } else { "" };
        let unit = measure.unit.word();
        format!("  {:<15} {:<6} {:<7} {}{deep}\n", measure.name, unit, better, measure.words)
    };
    let rows: String = boxneck::explore::measures().iter().map(row).collect();
    format!("Measures (unit, which way is better, what it is):\n{rows}")
}

#[derive(Debug, Args)]
pub(crate) struct Completions {
    /// The shell
    pub(crate) shell: clap_complete::Shell,
}

/// For whom the results are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Format {
    /// For people.
    Text,
    /// For programs.
    Json,
}
