//! How does a DXF file say anything?
//!
//! In pairs of lines: the number of a *group*, then its value.

use crate::{ImportFault, LARGEST};

/// One pair of lines.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Tag<'t> {
    /// The number of the group.
    pub(crate) group: i32,
    /// Its value.
    pub(crate) value: &'t str,
    /// The line of the value, from 1.
    pub(crate) line: usize,
}

impl Tag<'_> {
    /// The value as a number.
    pub(crate) fn number(&self) -> Result<f64, ImportFault> {
        let number = self.value.parse::<f64>().ok().filter(|number| number.abs() <= LARGEST);
        number.ok_or_else(|| ImportFault::Number { line: self.line, found: shown(self.value) })
    }

    /// The value as a whole number.
    pub(crate) fn whole(&self) -> Result<i64, ImportFault> {
        self.value.parse().map_err(|_| ImportFault::Number { line: self.line, found: shown(self.value) })
    }
}

/// The pairs of a text, up to its end mark.
pub(crate) fn tags(text: &str) -> Result<Vec<Tag<'_>>, ImportFault> {
    let mut lines = text.lines().map(str::trim).enumerate();
    let mut tags = Vec::new();
    while let Some((at, group)) = lines.next() {
        let not_dxf = |line: usize, found: &str| ImportFault::NotDxf { line, found: shown(found) };
        let group = group.parse::<i32>().map_err(|_| not_dxf(at + 1, group))?;
        let (at, value) = lines.next().ok_or_else(|| not_dxf(at + 2, "the end of the file"))?;
        if group == 0 && value == "EOF" {
            return Ok(tags);
        }
        tags.push(Tag { group, value, line: at + 1 });
    }
    Err(ImportFault::NotDxf { line: text.lines().count() + 1, found: "the end of the file".into() })
}

/// At most 40 characters of a line, without control characters.
pub(crate) fn shown(text: &str) -> String {
    if text.is_empty() {
        return "an empty line".into();
    }
    text.chars().take(40).map(|letter| if letter.is_control() { '\u{fffd}' } else { letter }).collect()
}
