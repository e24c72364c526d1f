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
/// assert_eq!(boxneck::folder_name("Zoë 琵琶"), "zoe-pi-pa", "other letters become plain ones");
/// ```
#[must_use]
pub fn folder_name(name: &str) -> String {
    let mut folder = String::new();
    // Every letter that is not plain gives at least one that is, or a dash; what is far beyond the cut is not looked at.
    let name: String = name.chars().take(LONGEST * 4).collect();
    for letter in deunicode::deunicode_with_tofu(&name, "-").chars() {
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

/// The same name with a number at its end, cut so that it is no longer than any other.
pub(crate) fn numbered(folder: &str, number: usize) -> String {
    let number = format!("-{number}");
    // A folder's name is ASCII, so that any place in it may be cut.
    let kept = folder[..folder.len().min(LONGEST - number.len())].trim_end_matches('-');
    format!("{kept}{number}")
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
        check("\u{202e}", "instrument");
        check("Łukasz Þór", "lukasz-thor");
    }

    #[test]
    fn long_names_are_cut() {
        check(&"a".repeat(10_000), &"a".repeat(LONGEST));
    }
}
