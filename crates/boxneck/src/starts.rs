//! Which documents does a builder begin from?
//!
//! Each is complete and commented, and passes every check; a test says so.

/// A document to begin from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Start {
    /// Its name for `boxneck new --start`.
    pub name: &'static str,
    /// What it is, in one line.
    pub about: &'static str,
    /// The document.
    pub text: &'static str,
}

/// All of them, the usual one first.
pub const STARTS: [Start; 3] = [
    Start {
        name: "three-string",
        about: "three strings, the stick through the box, frets of wrapped copper wire; every key explained",
        text: include_str!("../starts/three-string.toml"),
    },
    Start {
        name: "four-string",
        about: "four strings, a butted neck with heel and fretboard, fret wire",
        text: include_str!("../starts/four-string.toml"),
    },
    Start {
        name: "one-string",
        about: "one string, no heel: an afternoon's first instrument",
        text: include_str!("../starts/one-string.toml"),
    },
];

/// The document of that name.
#[must_use]
pub fn named(name: &str) -> Option<Start> {
    STARTS.into_iter().find(|start| start.name == name)
}
