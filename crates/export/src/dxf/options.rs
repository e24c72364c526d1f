//! What may be chosen about a DXF file?

use geometry::Preflight;
use units::{ChordTolerance, Length, LengthUnit};

use crate::ExportFault;

/// How a drawing is written.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct DxfOptions {
    /// The unit of every number in the file; names of layers stay in millimetres. R12 knows millimetres only.
    pub unit: LengthUnit,
    /// What the machine that reads the file can take.
    pub style: DxfStyle,
    /// What the drawing must hold to before it is written, as drawn and as flattened.
    pub preflight: Preflight,
    /// Wordings for the label, from the one liked best to the shortest: the first that finds room on the part is
    /// engraved. No label where there are none.
    pub label: Vec<String>,
    /// One line of ASCII that the file carries as a comment at its head.
    pub remark: Option<&'static str>,
}

/// What the machine that reads the file can take.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct DxfStyle {
    /// The version of the format.
    pub profile: DxfProfile,
    /// How arcs are written.
    pub arcs: ArcStyle,
    /// The diameter of the bit, or the width of the kerf, whose middle the contours follow; nominal contours where
    /// nothing is said.
    pub cut_line: Option<Length>,
    /// What is left standing of the outer cuts; nothing unless asked for.
    pub tabs: Option<Tabs>,
}

/// A version of the format.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum DxfProfile {
    /// AC1015: the oldest with polylines in one piece and a unit in the file.
    #[default]
    R2000,
    /// AC1009, for old programs and machines: no unit in the file, always millimetres.
    R12,
}

/// How arcs are written.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub enum ArcStyle {
    /// As bulges of polylines, so that each contour is one entity.
    #[default]
    Bulges,
    /// As LINE and ARC entities end to end, for programs that pass over bulges.
    Separate,
    /// As short lines that deviate by at most the tolerance, for machines without arcs. Broken at the arcs' extremes,
    /// so that the extents stay true; drilled holes stay circles, for a drill goes to a centre.
    Flattened(ChordTolerance),
}

/// Short stretches of each outer cut that hold the part in its blank. On a cut line a tab is drawn wider by the bit,
/// which takes half of itself from both ends, so that what stands is as wide as was asked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tabs {
    count: usize,
    width: Length,
}

impl Tabs {
    /// The most tabs that an outline may get. Larger is a slip of the pen; smaller might leave a long part loose.
    pub const MOST: usize = 100;
    /// The narrowest tab. Larger refuses thin card; smaller is a scratch that holds nothing.
    pub const NARROWEST: Length = Length::mm(0.1);

    /// Up to so many tabs an outline, each so wide along the cut; an outline that has room for fewer, or for none,
    /// gets these, and the file says how many.
    ///
    /// - **Errors**: [`ExportFault::TabsOutOfRange`] for none, too many or too narrow ones.
    pub fn new(count: usize, width: Length) -> Result<Self, ExportFault> {
        let sound = (1..=Self::MOST).contains(&count) && width >= Self::NARROWEST;
        sound.then_some(Self { count, width }).ok_or(ExportFault::TabsOutOfRange { count, width })
    }

    /// How many an outline, at most.
    #[must_use]
    pub const fn count(self) -> usize {
        self.count
    }

    /// How wide each, along the cut.
    #[must_use]
    pub const fn width(self) -> Length {
        self.width
    }
}

impl DxfProfile {
    /// The name by which people choose it: "r2000", "r12".
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::R2000 => "r2000",
            Self::R12 => "r12",
        }
    }
}
