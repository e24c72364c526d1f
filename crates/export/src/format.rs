//! Which files can be made, how are they named, and where do they go?

use units::LengthUnit;

/// A kind of file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Format {
    /// Flat drawings for cutting: [`crate::dxf`].
    Dxf,
    /// Flat drawings for looking at and for lasers: [`crate::svg`].
    Svg,
    /// Triangles for printing: [`crate::stl`].
    Stl,
    /// Plates of parts for printing: [`crate::threemf`].
    ThreeMf,
    /// Solids for other modellers: [`crate::step`].
    Step,
    /// Tables for spreadsheets: [`crate::table`].
    Csv,
    /// A picture of the whole: [`crate::scene`].
    Picture,
    /// The whole in space: [`crate::gltf`].
    Glb,
    /// A page that shows the whole in space: [`crate::viewer`].
    View,
    /// A page that tells everything: [`crate::page`].
    Report,
    /// Paper templates at true size, one file a paper: [`crate::pdf`].
    Templates,
}

/// What a format is made from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Subject {
    /// A [`geometry::Drawing`].
    Drawing,
    /// A [`geometry::Mesh`].
    Mesh,
    /// A [`crate::threemf::Plate`].
    Plate,
    /// The boundary of a [`geometry::Body`].
    Solid,
    /// A [`crate::table::Table`].
    Table,
    /// A [`crate::scene::Scene`].
    Scene,
    /// A [`crate::gltf::Model`].
    Model,
    /// A [`crate::page::Page`].
    Page,
    /// A [`crate::pdf::Booklet`].
    Booklet,
}

/// One line a format: its name where people choose formats, its file ending, its folder, what it takes, and whether
/// the unit of its numbers stands in the file's name.
const FORMATS: [(Format, &str, &str, &str, Subject, bool); 11] = [
    (Format::Dxf, "dxf", "dxf", "drawings", Subject::Drawing, true),
    (Format::Svg, "svg", "svg", "drawings", Subject::Drawing, false),
    (Format::Stl, "stl", "stl", "solids", Subject::Mesh, true),
    (Format::ThreeMf, "3mf", "3mf", "solids", Subject::Plate, false),
    (Format::Step, "step", "step", "solids", Subject::Solid, false),
    (Format::Csv, "csv", "csv", "", Subject::Table, false),
    (Format::Picture, "picture", "svg", "", Subject::Scene, false),
    (Format::Glb, "glb", "glb", "solids", Subject::Model, false),
    (Format::View, "view", "html", "", Subject::Model, false),
    (Format::Report, "report", "html", "", Subject::Page, false),
    (Format::Templates, "templates", "pdf", "", Subject::Booklet, false),
];

impl Format {
    /// Every format, in the order in which they are listed for people.
    pub fn all() -> impl Iterator<Item = Self> {
        FORMATS.iter().map(|line| line.0)
    }

    /// The format that people call by a name: "dxf", "svg", "stl", "3mf", "step", "csv", "picture", "glb", "view",
    /// "report", "templates".
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        FORMATS.iter().find(|line| line.1 == name).map(|line| line.0)
    }

    /// The name by which people choose it.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.line().1
    }

    /// The ending of its files, without the dot.
    #[must_use]
    pub fn ending(self) -> &'static str {
        self.line().2
    }

    /// The folder for its files, relative to the build; empty for the build's own folder.
    #[must_use]
    pub fn folder(self) -> &'static str {
        self.line().3
    }

    /// What it is made from.
    #[must_use]
    pub fn takes(self) -> Subject {
        self.line().4
    }

    /// The path of one file, relative to the build, with `/` between folder and file.
    ///
    /// - **Units**: `unit` is that of the drawing; it stands in the name of files whose readers cannot be relied on to
    ///   know it. Meshes are always in millimetres.
    #[must_use]
    pub fn path(self, stem: &str, unit: LengthUnit) -> String {
        let (_, _, ending, folder, subject, with_unit) = *self.line();
        let suffix = match unit {
            _ if !with_unit => "",
            LengthUnit::Inch if subject == Subject::Drawing => "_in",
            LengthUnit::Inch | LengthUnit::Millimetre => "_mm",
        };
        let slash = if folder.is_empty() { "" } else { "/" };
        format!("{folder}{slash}{stem}{suffix}.{ending}")
    }

    fn line(self) -> &'static (Self, &'static str, &'static str, &'static str, Subject, bool) {
        &FORMATS[self as usize]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(format: Format, unit: LengthUnit, expected: &str) {
        assert_eq!(format.path("tail-block", unit), expected, "the path of {format:?} in {unit:?}");
    }

    #[test]
    fn a_drawing_says_its_unit() {
        check(Format::Dxf, LengthUnit::Millimetre, "drawings/tail-block_mm.dxf");
        check(Format::Dxf, LengthUnit::Inch, "drawings/tail-block_in.dxf");
    }

    #[test]
    fn a_mesh_is_always_in_millimetres() {
        check(Format::Stl, LengthUnit::Inch, "solids/tail-block_mm.stl");
    }

    #[test]
    fn formats_that_carry_their_unit_do_not_repeat_it() {
        check(Format::Svg, LengthUnit::Inch, "drawings/tail-block.svg");
        check(Format::Step, LengthUnit::Millimetre, "solids/tail-block.step");
        check(Format::View, LengthUnit::Inch, "tail-block.html");
        check(Format::Report, LengthUnit::Millimetre, "tail-block.html");
        check(Format::ThreeMf, LengthUnit::Inch, "solids/tail-block.3mf");
        check(Format::Csv, LengthUnit::Millimetre, "tail-block.csv");
        check(Format::Templates, LengthUnit::Inch, "tail-block.pdf");
    }

    #[test]
    fn every_format_is_on_its_own_line_and_found_by_its_name() {
        for (place, format) in Format::all().enumerate() {
            assert_eq!(format as usize, place, "{format:?} stands on its own line");
            assert_eq!(Format::named(format.name()), Some(format), "{format:?} is found by its name");
        }
        assert_eq!(Format::named("exe"), None, "what is not listed is not found");
    }
}
