//! What can hurt somebody?

/// The usual cautions, once and plainly; the README says the same.
pub(crate) const CAUTIONS: [&str; 6] = [
    "Strings under tension cut and can put out an eye. Wear eye protection when you tighten or cut them, slacken before you \
     cut, and keep your face out of their line. Do not tune a string beyond what it is made for.",
    "Ends of strings and of wire frets are sharp: clip, file and tuck them.",
    "Dust of wood, metal and solid-surface material harms lungs: extract it and wear a respirator that is rated for it.",
    "Routers, saws and drills take fingers. Follow the machine's manual, hold small parts with clamps and not by hand.",
    "An amplifier on the mains can kill. Use a tested one; leave mains wiring to a licensed electrician and to your local code.",
    "Calculated loads are estimates for a hobby instrument, with their assumptions beside them; nobody has certified them.",
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_readme_says_the_same() {
        let readme = include_str!("../../../../README.md");
        let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        let readme = words(readme);
        for caution in CAUTIONS {
            assert!(readme.contains(&words(caution)), "the README says: {caution}");
        }
    }
}
