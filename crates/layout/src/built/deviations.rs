//! In what may an instrument differ from its plan?

use units::Length;

/// How far an instrument's parts, as they were made and put together, lie from the plan: made minus planned, all zero by default.
///
/// Any value is fine as data; what cannot be strung is told by [`built`](super::built()). A list that is shorter than what it is
/// of leaves the rest as planned.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Deviations {
    /// How far the zero fret lies above its place because the neck is set against the box at another angle: the neck turns
    /// about the top edge of the box's neck end. Positive brings the neck forward and so raises the action.
    pub neck_set: Length,
    /// Of the height of the zero fret's crown.
    pub zero_fret_height: Length,
    /// How much deeper than planned the neck is bowed under the strings, half way between zero fret and saddle line.
    pub bow: Length,
    /// Of each fret, in the order of the frets.
    pub frets: Vec<FretDeviation>,
    /// Of the saddle's height over the lid, square to the lid; positive up.
    pub saddle_height: AcrossSaddle,
    /// Of the saddle's place along the lid; positive toward the tail.
    pub saddle_place: AcrossSaddle,
    /// Of the height of the string holes over the lid; positive up.
    pub tail_height: Length,
    /// Of the place of the string holes along the lid, wherever the saddle stands; positive away from it.
    pub tail_distance: Length,
    /// Of each string's diameter, bass to treble; core and wrap in proportion.
    pub string_diameters: Vec<Length>,
}

/// How far one fret lies from its plan.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FretDeviation {
    /// Of its crown's height, under all strings alike.
    pub height: Length,
    /// Of its place along the neck; positive toward the saddle.
    pub place: Length,
}

/// A deviation of the saddle that changes evenly across the strings. A single string meets the mean of the two.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct AcrossSaddle {
    /// Under the bass string.
    pub bass: Length,
    /// Under the treble string.
    pub treble: Length,
}

impl AcrossSaddle {
    /// The same under all strings.
    #[must_use]
    pub const fn even(deviation: Length) -> Self {
        Self { bass: deviation, treble: deviation }
    }

    /// What it is at a share of the way from the bass string to the treble string.
    #[must_use]
    pub fn at(&self, share: f64) -> Length {
        self.bass * (1.0 - share) + self.treble * share
    }
}

impl Deviations {
    /// How much deeper than planned the neck is bowed at `x`: a parabola between zero fret and saddle line.
    #[must_use]
    pub fn bow_at(&self, x: Length, scale_length: Length) -> Length {
        let share = x / scale_length;
        self.bow * (4.0 * share * (1.0 - share))
    }

    /// Of the fret at an index.
    #[must_use]
    pub fn fret(&self, index: usize) -> FretDeviation {
        self.frets.get(index).copied().unwrap_or_default()
    }

    /// Of the diameter of the string at an index, from the bass.
    #[must_use]
    pub fn string_diameter(&self, index: usize) -> Length {
        self.string_diameters.get(index).copied().unwrap_or_default()
    }
}
