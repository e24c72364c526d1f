//! How does a solid become a STEP file that other modellers open as one named part in millimetres?
//!
//! The entities are written by the kernel that made the solid, after AP214 (`AUTOMOTIVE_DESIGN`); the header and the
//! product's name are ours, because the kernel's header is malformed and nameless.

use std::fmt::Write;

use truck_modeling::Solid;
use truck_stepio::out::StepModel;

use crate::ExportFault;

/// How a solid is written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepOptions {
    /// The time that the file says it was made, by ISO 8601.
    pub time_stamp: String,
    /// What the file's description says.
    pub description: String,
}

impl Default for StepOptions {
    /// A fixed time, so that the same solid gives the same bytes.
    fn default() -> Self {
        Self { time_stamp: "2000-01-01T00:00:00".into(), description: "solid model".into() }
    }
}

/// A solid as the text of a STEP file, in ASCII.
///
/// - **Shape**: one product of one solid; `name` becomes the product's, the solid's and the file's name.
/// - **Units**: millimetres and radians, declared.
/// - **Frame**: the solid's own.
/// - **Errors**: [`ExportFault::UnwritableSolid`] without a boundary, or with a curve that the format lacks.
pub fn write(name: &str, solid: &Solid, options: &StepOptions) -> Result<String, ExportFault> {
    let unwritable = || ExportFault::UnwritableSolid { name: name.into() };
    if solid.boundaries().is_empty() {
        return Err(unwritable());
    }
    let compressed = solid.compress();
    let mut entities = String::new();
    write!(entities, "{}", StepModel::from(&compressed)).map_err(|_| unwritable())?;
    Ok(header(name, options) + "DATA;\n" + &named(&entities, name) + "ENDSEC;\nEND-ISO-10303-21;\n")
}

fn header(name: &str, options: &StepOptions) -> String {
    format!(
        "ISO-10303-21;\nHEADER;\n\
         FILE_DESCRIPTION(({}), '2;1');\n\
         FILE_NAME({}, {}, (''), (''), '', '', '');\n\
         FILE_SCHEMA(('AUTOMOTIVE_DESIGN {{ 1 0 10303 214 1 1 1 1 }}'));\nENDSEC;\n",
        quoted(&options.description),
        quoted(&format!("{name}.step")),
        quoted(&options.time_stamp),
    )
}

/// The entities with the name in the two places that the kernel leaves empty.
fn named(entities: &str, name: &str) -> String {
    let name = quoted(name);
    entities
        .replacen("= PRODUCT('','','',", &format!("= PRODUCT({name},{name},'',"), 1)
        .replacen("= MANIFOLD_SOLID_BREP('',", &format!("= MANIFOLD_SOLID_BREP({name},"), 1)
        .replacen("= BREP_WITH_VOIDS('',", &format!("= BREP_WITH_VOIDS({name},"), 1)
}

/// A string of ISO 10303-21: quotes and backslashes doubled, what is not ASCII as hexadecimal, control characters as
/// spaces.
fn quoted(text: &str) -> String {
    let mut written = String::from("'");
    for character in text.chars() {
        match character {
            '\'' => written.push_str("''"),
            '\\' => written.push_str("\\\\"),
            ' '..='~' => written.push(character),
            _ if character.is_control() => written.push(' '),
            _ => {
                let code = u32::from(character);
                // Writing to a string cannot fail.
                let _ = match code {
                    0..=0xffff => write!(written, "\\X2\\{code:04X}\\X0\\"),
                    _ => write!(written, "\\X4\\{code:08X}\\X0\\"),
                };
            }
        }
    }
    written.push('\'');
    written
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: &str) {
        assert_eq!(quoted(text), expected, "{text:?} as a string of the format");
    }

    #[test]
    fn quotes_cannot_end_the_string() {
        check("it's", "'it''s'");
        check("a\\b", "'a\\\\b'");
    }

    #[test]
    fn other_scripts_are_hexadecimal() {
        check("Größe", "'Gr\\X2\\00F6\\X0\\\\X2\\00DF\\X0\\e'");
        check("\u{1f3b8}", "'\\X4\\0001F3B8\\X0\\'");
        check("a\nb", "'a b'");
    }
}
