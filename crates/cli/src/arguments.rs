//! What can be asked of the program?

use std::path::PathBuf;

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
    Make(Make),
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

#[derive(Debug, Args)]
pub(crate) struct Make {
    /// The documents
    #[arg(required = true, value_name = "FILE")]
    pub(crate) files: Vec<PathBuf>,
    /// The folder in which each instrument gets a folder of its own
    #[arg(short, long, value_name = "DIR", default_value = "outputs")]
    pub(crate) output: PathBuf,
    /// Only these parts, by name, separated by commas; all of them where nothing is said
    #[arg(long, value_name = "PART,...", value_delimiter = ',')]
    pub(crate) only: Vec<String>,
    /// Only these kinds of files, separated by commas: dxf, svg, stl, 3mf, step, csv, picture; all where nothing is said
    #[arg(long, value_name = "FORMAT,...", value_delimiter = ',')]
    pub(crate) formats: Vec<String>,
    /// The unit of drawings: mm or in
    #[arg(long, value_name = "UNIT", default_value = "mm")]
    pub(crate) unit: String,
    /// Write the files even though a finding fails; they are marked
    #[arg(long)]
    pub(crate) anyway: bool,
    /// A line for people, or one JSON object a line for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
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
