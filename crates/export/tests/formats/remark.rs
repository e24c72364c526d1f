//! Does a remark reach the reader in every format that can carry one?

use boxneck_export::dxf::{self, DxfOptions};
use boxneck_export::step::{self, StepOptions};
use boxneck_export::stl::{self, StlOptions};
use boxneck_export::svg::{self, SvgOptions};
use units::{ChordTolerance, Length};

use crate::bodies::plate;
use crate::{dxf_file, sample};

const REMARK: &str = "NOT FOR USE";

#[test]
fn a_drawing_file_says_it_and_still_reads() {
    let options = DxfOptions { remark: Some(REMARK), ..DxfOptions::default() };
    let text = dxf::write(&sample::plate(), &options).expect("the drawing can be written");
    assert!(text.starts_with("999\nNOT FOR USE\n999\nUNIT: MILLIMETRES\n"), "the first comment at the head");
    let plain = dxf_file::text(&sample::plate(), dxf_file::MILLIMETRE);
    let count = |text: &str| dxf_file::read(text).entities().count();
    assert_eq!(count(&text), count(&plain), "the reader passes over the comment");
}

#[test]
fn a_picture_says_it() {
    let options = SvgOptions { remark: Some(REMARK), ..SvgOptions::default() };
    let text = svg::write(&sample::plate(), &options).expect("the drawing can be written");
    assert!(text.contains("<desc>NOT FOR USE. True size"), "in the description");
}

#[test]
fn a_mesh_says_it_in_its_head_and_nowhere_else() {
    let mesh = plate().mesh(ChordTolerance::new(Length::mm(0.02))).expect("the plate has a mesh");
    let write = |remark| stl::write("plate", &mesh, &StlOptions { remark }).expect("the mesh can be written");
    let (marked, plain) = (write(Some(REMARK)), write(None));
    assert!(marked.starts_with(REMARK.as_bytes()), "at the head");
    assert_eq!(marked[80..], plain[80..], "the triangles are the same");
    let long = write(Some(
        "NINETY LETTERS OF REMARK NINETY LETTERS OF REMARK NINETY LETTERS OF REMARK NINETY LETTERS",
    ));
    assert_eq!(long[80..], plain[80..], "a long remark is cut before the count");
}

#[test]
fn a_solid_says_it() {
    let solid = plate().brep().expect("the plate has a boundary");
    let options = StepOptions { description: REMARK.into(), ..StepOptions::default() };
    let text = step::write("plate", &solid, &options).expect("the solid can be written");
    assert!(text.contains("FILE_DESCRIPTION(('NOT FOR USE'), '2;1');"), "in the description");
}
