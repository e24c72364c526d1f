//! `boxneck schema`, `completions` and `man`: for editors, shells and manual pages.

use clap::CommandFactory;

use crate::arguments::{Arguments, Completions};
use crate::outcome::{Outcome, say};

pub(crate) fn schema() -> anyhow::Result<Outcome> {
    say(&format!("{:#}\n", boxneck::spec::schema()))?;
    Ok(Outcome::Holds)
}

pub(crate) fn completions(call: &Completions) -> anyhow::Result<Outcome> {
    let mut text = Vec::new();
    clap_complete::generate(call.shell, &mut Arguments::command(), "boxneck", &mut text);
    say(&String::from_utf8_lossy(&text))?;
    Ok(Outcome::Holds)
}

pub(crate) fn manual() -> anyhow::Result<Outcome> {
    let mut text = Vec::new();
    clap_mangen::Man::new(Arguments::command()).render(&mut text)?;
    say(&String::from_utf8_lossy(&text))?;
    Ok(Outcome::Holds)
}
