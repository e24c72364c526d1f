//! Which faults can a document have, and what is each called?
//!
//! A code is never renumbered and never used for another meaning; one that is given up stays unused. S001 to S023 are
//! faults of a single key, S031 onward of keys that contradict one another, S071 onward warnings and notes.

/// The stable name of a kind of fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub enum Code {
    /// S001: the document is not UTF-8 text.
    NotText,
    /// S002: the document, a list, a table or a text is larger than its limit.
    TooLarge,
    /// S003: tables and lists stand too deep within one another.
    TooDeep,
    /// S004: the document is not TOML.
    Syntax,
    /// S005: a key is given twice.
    DuplicateKey,
    /// S006: a key that does not exist.
    UnknownKey,
    /// S007: a key that exists, but in another section.
    WrongSection,
    /// S008: a value of the wrong kind, as a date where a size should be.
    WrongKind,
    /// S009: a unit that does not measure this, or no unit where one is needed.
    WrongUnit,
    /// S010: a value that cannot be read as what it should be.
    Unreadable,
    /// S011: a value beyond the limits of its key.
    OutOfRange,
    /// S012: a number that is not a number, infinite, or too large to be held.
    NotFinite,
    /// S013: a word that is not among the choices.
    UnknownChoice,
    /// S014: a material that stands in no table.
    UnknownName,
    /// S015: a key without which its section means nothing.
    MissingKey,
    /// S016: a list with too few or too many items.
    ItemCount,
    /// S017: a name that no folder can be called after.
    UnusableName,
    /// S018: a list of semitones that falls or repeats.
    PatternOrder,
    /// S019: more frets than the list of semitones has.
    TooManyFrets,
    /// S020: a hole with two sizes, or with none.
    HoleSize,
    /// S021: an override that leads nowhere.
    BadOverride,
    /// S022: a file that the document names is not beside it, or cannot be read.
    UnusableFile,
    /// S023: what a file holds is not an outline that can be used here.
    BadOutline,
    /// S031: the saddle line lies beyond the neck end of the box.
    SaddleOffBox,
    /// S032: the box begins before the zero fret.
    BoxBeforeNut,
    /// S033: the headstock is thicker than the plank that it is cut from.
    HeadstockThickerThanNeck,
    /// S034: the rounded edges take more than the neck has.
    EdgeRadiusTooLarge,
    /// S035: the walls leave no room between them.
    WallsFillBox,
    /// S036: the lid leaves no room under it.
    LidFillsBox,
    /// S037: the core of a wound string is not thinner than the string.
    CoreNotInside,
    /// S038: the wire of the frets lies wholly in its groove.
    WireUnderSurface,
    /// S039: the counterbore for the ball end is not wider than the bore for the string.
    BallSlipsThrough,
    /// S040: strings through the stick's end, where there is no such end.
    NothingToStringThrough,
    /// S041: strings through the stick, with their holes above it.
    HolesAboveLid,
    /// S042: the slot of the zero fret goes through the neck.
    SlotThroughNeck,
    /// S043: the fretboard's radius is smaller than half its width.
    BoardTooRound,
    /// S044: the strings and their margins are wider than the nut.
    NoRoomAtNut,
    /// S045: the strings lie wider at the saddle than the box.
    SpreadWiderThanBox,
    /// S046: nothing is left of the tongue under the lid.
    NoTongueLeft,
    /// S047: the neck goes through the bottom of the box.
    NeckDeeperThanBox,
    /// S048: the heel is not deeper than the neck.
    HeelInsideNeck,
    /// S049: the neck is wider than the box.
    NeckWiderThanBox,
    /// S050: the printed layer is thicker than the nozzle is wide.
    LayerThickerThanNozzle,
    /// S051: strings through an overhang that is too short for their bores.
    NoOverhang,
    /// S052: the neck is wider than the edge by which a drawn headstock is joined to it.
    NeckWiderThanJoint,
    /// S071: a key that has no effect beside another.
    NoEffect,
    /// S072: a wound string whose wrap is not given.
    AssumedWrap,
}

/// Every code with its text and its meaning, in the order of the texts.
pub const CODES: &[(Code, &str, &str)] = &[
    (Code::NotText, "S001", "the document is not UTF-8 text"),
    (Code::TooLarge, "S002", "the document, a list, a table or a text is larger than its limit"),
    (Code::TooDeep, "S003", "tables and lists stand too deep within one another"),
    (Code::Syntax, "S004", "the document is not TOML"),
    (Code::DuplicateKey, "S005", "a key is given twice"),
    (Code::UnknownKey, "S006", "a key that does not exist"),
    (Code::WrongSection, "S007", "a key that exists, but in another section"),
    (Code::WrongKind, "S008", "a value of the wrong kind, as a date where a size should be"),
    (Code::WrongUnit, "S009", "a unit that does not measure this, or no unit where one is needed"),
    (Code::Unreadable, "S010", "a value that cannot be read as what it should be"),
    (Code::OutOfRange, "S011", "a value beyond the limits of its key"),
    (Code::NotFinite, "S012", "a number that is not a number, infinite, or too large to be held"),
    (Code::UnknownChoice, "S013", "a word that is not among the choices"),
    (Code::UnknownName, "S014", "a material that stands in no table"),
    (Code::MissingKey, "S015", "a key without which its section means nothing"),
    (Code::ItemCount, "S016", "a list with too few or too many items"),
    (Code::UnusableName, "S017", "a name that no folder can be called after"),
    (Code::PatternOrder, "S018", "a list of semitones that falls or repeats"),
    (Code::TooManyFrets, "S019", "more frets than the list of semitones has"),
    (Code::HoleSize, "S020", "a hole with two sizes, or with none"),
    (Code::BadOverride, "S021", "an override that leads nowhere"),
    (Code::UnusableFile, "S022", "a file that the document names is not beside it, or cannot be read"),
    (Code::BadOutline, "S023", "what a file holds is not an outline that can be used here"),
    (Code::SaddleOffBox, "S031", "the saddle line lies beyond the neck end of the box"),
    (Code::BoxBeforeNut, "S032", "the box begins before the zero fret"),
    (Code::HeadstockThickerThanNeck, "S033", "the headstock is thicker than the plank that it is cut from"),
    (Code::EdgeRadiusTooLarge, "S034", "the rounded edges take more than the neck has"),
    (Code::WallsFillBox, "S035", "the walls leave no room between them"),
    (Code::LidFillsBox, "S036", "the lid leaves no room under it"),
    (Code::CoreNotInside, "S037", "the core of a wound string is not thinner than the string"),
    (Code::WireUnderSurface, "S038", "the wire of the frets lies wholly in its groove"),
    (
        Code::BallSlipsThrough,
        "S039",
        "the counterbore for the ball end is not wider than the bore for the string",
    ),
    (Code::NothingToStringThrough, "S040", "strings through the stick's end, where there is no such end"),
    (Code::HolesAboveLid, "S041", "strings through the stick, with their holes above it"),
    (Code::SlotThroughNeck, "S042", "the slot of the zero fret goes through the neck"),
    (Code::BoardTooRound, "S043", "the fretboard's radius is smaller than half its width"),
    (Code::NoRoomAtNut, "S044", "the strings and their margins are wider than the nut"),
    (Code::SpreadWiderThanBox, "S045", "the strings lie wider at the saddle than the box"),
    (Code::NoTongueLeft, "S046", "nothing is left of the tongue under the lid"),
    (Code::NeckDeeperThanBox, "S047", "the neck goes through the bottom of the box"),
    (Code::HeelInsideNeck, "S048", "the heel is not deeper than the neck"),
    (Code::NeckWiderThanBox, "S049", "the neck is wider than the box"),
    (Code::LayerThickerThanNozzle, "S050", "the printed layer is thicker than the nozzle is wide"),
    (Code::NoOverhang, "S051", "strings through an overhang that is too short for their bores"),
    (
        Code::NeckWiderThanJoint,
        "S052",
        "the neck is wider than the edge by which a drawn headstock is joined to it",
    ),
    (Code::NoEffect, "S071", "a key that has no effect beside another"),
    (Code::AssumedWrap, "S072", "a wound string whose wrap is not given"),
];

impl Code {
    /// The code as printed: "S011".
    #[must_use]
    pub fn text(self) -> &'static str {
        self.row().1
    }

    /// What it means, in one line.
    #[must_use]
    pub fn meaning(self) -> &'static str {
        self.row().2
    }

    /// Whether it is a fault of a single key, whatever the others say.
    #[must_use]
    pub fn is_of_single_key(self) -> bool {
        self <= Self::BadOverride
    }

    /// Its row in [`CODES`], which lists the codes in the order in which they are declared.
    fn row(self) -> &'static (Self, &'static str, &'static str) {
        &CODES[self as usize]
    }
}

impl std::fmt::Display for Code {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        formatter.write_str(self.text())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_code_is_listed_once_in_order() {
        for (index, (code, text, meaning)) in CODES.iter().enumerate() {
            assert_eq!(*code as usize, index, "{text} stands in the place of its declaration");
            assert!(
                !meaning.is_empty() && meaning.chars().next().is_some_and(char::is_lowercase),
                "{text} has a meaning"
            );
        }
        assert!(CODES.is_sorted_by(|a, b| a.1 < b.1), "texts rise, so none is used twice");
        assert_eq!(
            CODES.last().map(|row| row.0),
            Some(Code::AssumedWrap),
            "the last declared code is listed"
        );
    }
}
