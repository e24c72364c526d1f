//! `boxneck new`: a document to begin from.

use std::fs::OpenOptions;
use std::io::{ErrorKind, Write};

use anyhow::Context;
use boxneck::starts;

use crate::arguments::New;
use crate::outcome::{Outcome, refuse};

pub(crate) fn run(call: &New) -> anyhow::Result<Outcome> {
    let Some(start) = starts::named(&call.start) else {
        let known = starts::STARTS.map(|start| format!("  {}: {}", start.name, start.about)).join("\n");
        return Ok(refuse(&format!("there is no start \"{}\"; there are\n{known}", call.start)));
    };
    let file = call.file.display();
    let opened = OpenOptions::new().write(true).create_new(true).open(&call.file);
    let mut document = match opened {
        Err(fault) if fault.kind() == ErrorKind::AlreadyExists => {
            return Ok(refuse(&format!(
                "{file} is there already and is not overwritten; choose another name"
            )));
        }
        opened => opened.with_context(|| format!("cannot write {file}"))?,
    };
    document.write_all(start.text.as_bytes()).with_context(|| format!("cannot write {file}"))?;
    eprintln!("wrote {file}: {}\nnext: boxneck check {file}", start.about);
    Ok(Outcome::Holds)
}
