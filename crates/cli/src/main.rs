//! The `boxneck` program: thin commands over the library's front door.
//!
//! This crate is the only one that prints or exits. Results go to standard output, everything else to standard error.
//! Exit status: 0 everything holds; 1 made or checked, but a finding fails; 2 the document or the call is wrong; 3 the
//! machine failed.
#![expect(clippy::print_stderr, reason = "this is the crate that talks")]

mod arguments;
mod batch;
mod check;
mod diagnostics;
mod explore;
mod make;
mod making;
mod mend;
mod new;
mod outcome;
mod reference;
mod setup;

use std::process::ExitCode;

use clap::Parser;

use arguments::{Arguments, Command};
use outcome::Outcome;

fn main() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(fault) => {
            // Help and version are results, and a closed pipe is no fault of theirs.
            let _ = fault.print();
            return if fault.use_stderr() { Outcome::Refused } else { Outcome::Holds }.into();
        }
    };
    let outcome = match arguments.command {
        Command::New(call) => new::run(&call),
        Command::Check(call) => check::run(&call),
        Command::Make(call) => make::run(&call),
        Command::Setup(call) => setup::run(&call),
        Command::Batch(call) => batch::run(&call),
        Command::Explore(call) => explore::run(&call),
        Command::Schema => reference::schema(),
        Command::Completions(call) => reference::completions(&call),
        Command::Man => reference::manual(),
    };
    outcome.unwrap_or_else(outcome::told).into()
}
