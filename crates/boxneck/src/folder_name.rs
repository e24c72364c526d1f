//! Under which name does an instrument's folder stand on any disk?

/// The longest folder name. Larger meets limits of file systems; smaller cuts names that differ late.
const LONGEST: usize = 60;

/// Names that some systems keep for devices, whatever their ending.
const RESERVED: [&str; 24] = [
    "con", "prn", "aux", "nul", "com0", "com1", "com2", "com3", "com4", "com5", "com6", "com7", "com8",
    "com9", "lpt0", "lpt1", "lpt2", "lpt3", "lpt4", "lpt5", "lpt6", "lpt7", "lpt8", "lpt9",
];

/// A folder name for an instrument: lower-case ASCII letters, digits and single dashes, never empty, never a path.
///
/// ```
/// assert_eq!(boxneck::folder_name("Porch three-string"), "porch-three-string", "spaces become dashes");
/// assert_eq!(boxneck::folder_name("../../etc"), "etc", "a name cannot leave its folder");
/// assert_eq!(boxneck::folder_name("琵琶"), "instrument", "what has no letters that every disk knows gets a plain name");
/// ```
#[must_use]
pub fn folder_name(name: &str) -> String {
    let mut folder = String::new();
    for letter in name.chars() {
        if letter.is_ascii_alphanumeric() {
            folder.push(letter.to_ascii_lowercase());
        } else if !folder.is_empty() && !folder.ends_with('-') {
            folder.push('-');
        }
        if folder.len() == LONGEST {
            break;
        }
    }
    let folder = folder.trim_end_matches('-');
    match folder {
        "" => "instrument".into(),
        reserved if RESERVED.contains(&reserved) => format!("instrument-{reserved}"),
        sound => sound.into(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(name: &str, expected: &str) {
        assert_eq!(folder_name(name), expected, "the folder of {name:?}");
    }

    #[test]
    fn no_name_is_a_path_a_device_or_empty() {
        check("", "instrument");
        check("...", "instrument");
        check("/absolute/path", "absolute-path");
        check("C:\\temp", "c-temp");
        check("NUL", "instrument-nul");
        check("  Two   spaces ", "two-spaces");
        check("Anna's uke\u{0}", "anna-s-uke");
    }

    #[test]
    fn long_names_are_cut() {
        check(&"a".repeat(10_000), &"a".repeat(LONGEST));
    }
}
