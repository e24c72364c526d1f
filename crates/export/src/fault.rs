//! What can a writer refuse?

use geometry::{CutLineFault, DrawingFault, MeshFault, OutlineFault};
use units::Length;

use crate::dxf::Tabs;

/// Why something was not written.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ExportFault {
    /// The pre-flight of a drawing found faults.
    #[error("drawing \"{name}\" is not fit to be cut: {}", in_a_row(faults))]
    FaultyDrawing {
        /// The drawing's name.
        name: String,
        /// All that was found.
        faults: Vec<DrawingFault>,
    },
    /// A bit does not go where the drawing wants it.
    #[error(transparent)]
    CutLine(#[from] CutLineFault),
    /// A chord tolerance, or a shortest segment, folds an outline onto itself.
    #[error(
        "drawing \"{name}\" must keep its outlines at the tolerances asked for, choose smaller ones: {fault}"
    )]
    CoarseArcs {
        /// The drawing's name.
        name: String,
        /// What becomes of an outline.
        fault: OutlineFault,
    },
    /// So fine a chord tolerance makes lines that machines stutter over.
    #[error("drawing \"{name}\" must have lines of at least {} mm, its arcs flattened to so fine a tolerance have some of \
        {} mm: choose a larger chord tolerance", least.as_mm(), found.as_mm())]
    FineArcs {
        /// The drawing's name.
        name: String,
        /// The shortest line.
        found: Length,
        /// The shortest that may be.
        least: Length,
    },
    /// The old version of the format cannot say that its numbers are inches.
    #[error("an R12 drawing carries no unit and must be in millimetres: leave out the inches or R12")]
    UnitlessInches,
    /// So many tabs, or tabs so narrow, that it can only be a mistake.
    #[error("tabs must be 1 to {} an outline and at least {} mm wide, found {count} of {} mm",
        Tabs::MOST, Tabs::NARROWEST.as_mm(), width.as_mm())]
    TabsOutOfRange {
        /// How many were asked for.
        count: usize,
        /// How wide each.
        width: Length,
    },
    /// There is nothing to draw.
    #[error("\"{name}\" must show something, found nothing")]
    NothingToDraw {
        /// The name of the drawing or picture.
        name: String,
    },
    /// A coordinate is not a number, or so far out that it can only be a mistake.
    #[error("\"{name}\" must lie within {} mm of its origin", most.as_mm())]
    OutOfRange {
        /// The name of the drawing or picture.
        name: String,
        /// The farthest that is written.
        most: Length,
    },
    /// The mesh, rounded as the file holds it, is not the skin of a solid.
    #[error("mesh \"{name}\" must be watertight after rounding to the file's precision: {fault}")]
    OpenMesh {
        /// The part's name.
        name: String,
        /// What is wrong with it.
        fault: MeshFault,
    },
    /// The mesh does not lie on the bed.
    #[error("mesh \"{name}\" must lie on z = 0, found its lowest point at z = {} mm", lowest.as_mm())]
    NotOnBed {
        /// The part's name.
        name: String,
        /// Its lowest z.
        lowest: Length,
    },
    /// The format counts triangles in 32 bits.
    #[error("mesh \"{name}\" must have at most {} triangles, found {triangles}", u32::MAX)]
    TooManyTriangles {
        /// The part's name.
        name: String,
        /// How many it has.
        triangles: usize,
    },
    /// The solid is empty, or has a curve or a surface that STEP lacks.
    #[error("solid \"{name}\" must have a boundary of curves and surfaces that STEP can hold")]
    UnwritableSolid {
        /// The part's name.
        name: String,
    },
    /// There is no room for the labels of a view beside one another.
    #[error(
        "the labels of view \"{view}\" of picture \"{name}\" must fit beside it: use fewer or shorter ones"
    )]
    CrowdedLabels {
        /// The picture's name.
        name: String,
        /// The view's caption.
        view: String,
    },
    /// Words on a template are longer than any tile of it is wide.
    #[error("the words of template \"{name}\" must fit on a tile: use shorter ones")]
    WordsTooLong {
        /// The template's name.
        name: String,
    },
    /// One sheet for everything would be larger than a page of a PDF can be.
    #[error(
        "the sheet for \"{name}\" must be at most {:.0} mm long and wide, found {:.0} mm by {:.0} mm: use a4 or letter, which are tiled",
        most.as_mm(), found[0].as_mm(), found[1].as_mm()
    )]
    SheetTooLarge {
        /// The booklet's title.
        name: String,
        /// Across and up.
        found: [Length; 2],
        /// The longest side there is.
        most: Length,
    },
    /// A row of a table is longer or shorter than the heading.
    #[error("row {row} of the table must have {expected} cells like its heading, found {found}")]
    RaggedTable {
        /// Which row, from 1, the heading not counted.
        row: usize,
        /// Cells in the heading.
        expected: usize,
        /// Cells in the row.
        found: usize,
    },
}

fn in_a_row(faults: &[DrawingFault]) -> String {
    faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")
}
