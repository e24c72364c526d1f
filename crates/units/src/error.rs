//! What was wrong with the way a quantity was written, and how is it written right?
//!
//! Every variant carries what was found and a form that this crate reads, so that a message can offer an edit.

/// Why a text is not a quantity.
///
/// `found` is the text as written, cut after [`LONGEST_SHOWN`] characters; `example` (or the variant's own fields) is a
/// form that parses.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum QuantityError {
    /// Nothing was written, or only spaces.
    #[error("expected {quantity}, as in {example:?}, found nothing")]
    Empty {
        /// The kind of quantity, with its article: "a length".
        quantity: &'static str,
        /// A form that parses.
        example: &'static str,
    },
    /// No number where one is needed.
    #[error("expected {quantity}, as in {example:?}, found {found:?}")]
    NotANumber {
        /// The kind of quantity, with its article.
        quantity: &'static str,
        /// The text as written.
        found: String,
        /// A form that parses.
        example: &'static str,
    },
    /// The number is sound, what follows it is no unit of this quantity.
    #[error("expected {known} after the number, as in {example:?}, found {unit:?}")]
    UnknownUnit {
        /// What stands after the number.
        unit: String,
        /// The units that are known, in words.
        known: &'static str,
        /// The text as written.
        found: String,
        /// A form that parses.
        example: &'static str,
    },
    /// Feet, which nothing on a bench this size is measured in.
    #[error("expected inches or millimetres, found feet in {found:?}; write {example:?} for 1 ft 3 in")]
    Feet {
        /// The text as written.
        found: String,
        /// A form that parses.
        example: &'static str,
    },
    /// A comma or point that may part thousands as well as decimals.
    #[error("a comma in {found:?} may mean a decimal or thousands; write {with_point:?} or {without:?}")]
    UnclearComma {
        /// The text as written.
        found: String,
        /// The number read as a decimal, with a point.
        with_point: String,
        /// The number read as a whole one, without marks.
        without: String,
    },
    /// Thousands marks.
    #[error("expected a number without thousands marks; write {plain:?}, found {found:?}")]
    GroupedDigits {
        /// The text as written.
        found: String,
        /// The same without them.
        plain: String,
    },
    /// More than one point or comma, or a mark with no digits after it.
    #[error("expected one decimal point with digits after it, as in {example:?}, found {found:?}")]
    UnclearPoint {
        /// The text as written.
        found: String,
        /// A form that parses.
        example: &'static str,
    },
    /// A fraction that does not add up to one number.
    #[error("expected one number, whole with a fraction below 1 at most, as in {example:?}, found {found:?}")]
    UnclearFraction {
        /// The text as written.
        found: String,
        /// A form that parses.
        example: &'static str,
    },
    /// A fraction over nothing.
    #[error("expected a denominator above 0, found {found:?}; write it like {example:?}")]
    ZeroDenominator {
        /// The text as written.
        found: String,
        /// A form that parses.
        example: &'static str,
    },
    /// More digits, or a larger exponent, than exact arithmetic in 128 bits holds.
    #[error("expected a number of up to 24 digits, exponent and all, as in {example:?}, found {found:?}")]
    TooManyDigits {
        /// The text as written.
        found: String,
        /// A form that parses.
        example: &'static str,
    },
    /// Neither a note nor a frequency.
    #[error(
        "expected a note with its octave or a frequency, as in \"G2\", \"F#3\", \"Bb3\" or \"98 Hz\", found {found:?}"
    )]
    NotAPitch {
        /// The text as written.
        found: String,
    },
    /// A note without the number that says which of its octaves is meant.
    #[error("expected a note with its octave, as in {example:?}, found {found:?}")]
    MissingOctave {
        /// The text as written.
        found: String,
        /// The same note in an octave that strings have.
        example: String,
    },
    /// A number alone, which may be a frequency or a key on a keyboard.
    #[error("expected a unit after a frequency; write {example:?}, found {found:?}")]
    BareFrequency {
        /// The text as written.
        found: String,
        /// The same number with its unit.
        example: String,
    },
    /// A pitch that no ear takes for a note.
    #[error("expected a pitch between {lowest} Hz and {highest} Hz, octaves 0 to 9, found {found:?}")]
    PitchOutOfRange {
        /// The text as written.
        found: String,
        /// The lowest frequency that is read, in hertz.
        lowest: f64,
        /// The highest frequency that is read, in hertz.
        highest: f64,
    },
    /// Not a wire gauge.
    #[error("expected a wire gauge from 0 to 40, as in \"16 AWG\", found {found:?}")]
    NotAGauge {
        /// The text as written.
        found: String,
    },
    /// Not one of the two units of length.
    #[error("expected \"mm\" or \"in\", found {found:?}")]
    NotALengthUnit {
        /// The text as written.
        found: String,
    },
}

/// How many characters of a faulty text an error repeats; longer drowns the message, shorter cuts real lengths.
pub const LONGEST_SHOWN: usize = 60;

/// The text, cut to what a message can show.
pub(crate) fn shown(text: &str) -> String {
    let mut shown: String = text.chars().take(LONGEST_SHOWN).collect();
    if shown.len() < text.len() {
        shown.push('…');
    }
    shown
}
