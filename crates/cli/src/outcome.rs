//! How does a command end?

use std::io::{self, Write};
use std::process::ExitCode;

/// How a command ended; the worst of several documents counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Outcome {
    /// Everything holds.
    Holds,
    /// It was made or checked, and a finding fails.
    Fails,
    /// The document or the call is wrong.
    Refused,
    /// The machine failed.
    Broken,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        Self::from(match outcome {
            Outcome::Holds => 0,
            Outcome::Fails => 1,
            Outcome::Refused => 2,
            Outcome::Broken => 3,
        })
    }
}

/// A fault that ends a command, told on standard error. A reader who has gone away is no fault.
pub(crate) fn told(fault: anyhow::Error) -> Outcome {
    if fault.downcast_ref::<io::Error>().is_some_and(|fault| fault.kind() == io::ErrorKind::BrokenPipe) {
        return Outcome::Holds;
    }
    eprintln!("boxneck: {fault:#}");
    Outcome::Broken
}

/// Writes a result to standard output.
pub(crate) fn say(text: &str) -> anyhow::Result<()> {
    let mut out = io::stdout().lock();
    out.write_all(text.as_bytes())?;
    out.flush()?;
    Ok(())
}

/// Says on standard error why a call is refused.
pub(crate) fn refuse(why: &str) -> Outcome {
    eprintln!("boxneck: {why}");
    Outcome::Refused
}
