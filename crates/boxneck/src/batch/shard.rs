//! Which part of a class does one machine make?

use std::fmt;
use std::str::FromStr;

/// One of several equal shares of a class.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Shard {
    number: u32,
    of: u32,
}

/// The most shards of one class: more machines than a roster has rows have nothing to do.
const MOST: u32 = 10_000;

impl Shard {
    /// The share of this number, from 1; `None` where there is no such share.
    #[must_use]
    pub const fn new(number: u32, of: u32) -> Option<Self> {
        if 1 <= number && number <= of && of <= MOST { Some(Self { number, of }) } else { None }
    }

    /// Its number, from 1.
    #[must_use]
    pub const fn number(self) -> u32 {
        self.number
    }

    /// How many there are.
    #[must_use]
    pub const fn of(self) -> u32 {
        self.of
    }

    /// Whether the document of this place, counted from 0 in the order of the roster, is its business. Rows of one document
    /// stay together, so that no machine works out what another does.
    pub(super) const fn has(self, place: usize) -> bool {
        place % self.of as usize == self.number as usize - 1
    }

    /// The folder in which its record waits to be merged.
    pub(super) fn folder(self) -> String {
        format!("shard-{}-of-{}", self.number, self.of)
    }

    /// The shard whose record lies in a folder of this name.
    pub(super) fn of_folder(name: &str) -> Option<Self> {
        let (number, of) = name.strip_prefix("shard-")?.split_once("-of-")?;
        let shard = Self::new(number.parse().ok()?, of.parse().ok()?)?;
        (shard.folder() == name).then_some(shard)
    }
}

/// As it is written in a call: "2/8".
impl fmt::Display for Shard {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{}/{}", self.number, self.of)
    }
}

impl FromStr for Shard {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let shard = text
            .split_once('/')
            .and_then(|(number, of)| Self::new(number.trim().parse().ok()?, of.trim().parse().ok()?));
        shard.ok_or_else(|| {
            format!(
                "expected a shard and how many there are, from 1/1 to {MOST}/{MOST}, found {text}; 2/8 works"
            )
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shards_share_everything_once() {
        for place in 0..100 {
            let shards = (1..=7).filter_map(|number| Shard::new(number, 7));
            assert_eq!(shards.filter(|shard| shard.has(place)).count(), 1, "place {place}");
        }
    }

    #[test]
    fn a_folder_tells_its_shard() {
        let shard: Shard = "2/8".parse().expect("a shard");
        assert_eq!(Shard::of_folder(&shard.folder()), Some(shard), "there and back");
        for name in ["shard-0-of-8", "shard-9-of-8", "shard-02-of-8", "shard-", "anna"] {
            assert_eq!(Shard::of_folder(name), None, "{name}");
        }
    }

    #[test]
    fn a_wrong_shard_says_what_works() {
        for text in ["", "0/4", "5/4", "2", "a/b", "1/99999"] {
            let told = text.parse::<Shard>().expect_err("refused");
            assert!(told.contains("2/8 works"), "{text}: {told}");
        }
    }
}
