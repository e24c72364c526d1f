//! Is a booklet a file that prints at true size, always the same, and what is refused?

use boxneck_export::ExportFault;
use boxneck_export::pdf::{Booklet, Correction, Mark, Paper, PdfOptions, Pen, Template, write};
use boxneck_export::scene::Figure;
use geometry::{Path, Point2, Preflight};
use units::Length;

use crate::sample;

fn booklet(templates: Vec<Template>) -> Booklet {
    Booklet { title: "Sample".into(), templates, remark: None }
}

fn plate() -> Template {
    Template::of_drawing(&sample::plate(), &Preflight::default()).expect("the plate can be drawn")
}

fn line(length_mm: f64) -> Template {
    let path = Path::line(Point2::ORIGIN, Point2::mm(length_mm, 0.0)).expect("the line is sound");
    let marks = vec![Mark::Figure(Figure::Path(path), Pen::Cut)];
    Template { name: "line".into(), title: "Line".into(), notes: Vec::new(), marks }
}

fn on(paper: Paper) -> PdfOptions {
    PdfOptions { paper, correction: Correction::NONE }
}

/// Whether the file has these words; its objects are not compressed, only its streams are.
fn has(bytes: &[u8], words: &str) -> bool {
    bytes.windows(words.len()).any(|window| window == words.as_bytes())
}

#[track_caller]
fn check(paper: Paper, expected: &str) {
    let bytes = write(&booklet(vec![plate()]), &on(paper)).expect("the plate can be put on paper");
    assert!(bytes.starts_with(b"%PDF-1.7"), "{paper:?} is a PDF");
    assert!(has(&bytes, expected), "{paper:?} has {expected}");
    assert!(has(&bytes, "/PrintScaling /None"), "{paper:?} asks not to be scaled");
    assert!(has(&bytes, "/FontFile2"), "{paper:?} brings its font");
    for dated in ["/CreationDate", "/ModDate", "/ID"] {
        assert!(!has(&bytes, dated), "{paper:?} has no {dated}");
    }
    let again = write(&booklet(vec![plate()]), &on(paper)).expect("as before");
    assert!(bytes == again, "{paper:?} is the same twice");
}

#[test]
fn a4_is_297_by_210_millimetres() {
    check(Paper::A4, "/MediaBox [0 0 841.8898 595.2756]");
}

#[test]
fn letter_is_11_by_8_and_a_half_inches() {
    check(Paper::Letter, "/MediaBox [0 0 792 612]");
}

#[test]
fn a_drawing_tells_its_holes_in_its_notes() {
    let notes = plate().notes.join("; ").replace('\u{a0}', " ");
    for expected in
        ["Datum: middle of the left edge", "1 × drill ⌀3.175 mm through", "1 × drill ⌀8 mm, 12 mm deep"]
    {
        assert!(notes.contains(expected), "{notes:?} has {expected:?}");
    }
}

#[test]
fn nothing_is_refused() {
    let found = write(&booklet(Vec::new()), &on(Paper::A4));
    assert_eq!(found, Err(ExportFault::NothingToDraw { name: "Sample".into() }), "no template");
    let empty = Template { marks: Vec::new(), ..line(1.0) };
    let found = write(&booklet(vec![empty]), &on(Paper::A4));
    assert_eq!(found, Err(ExportFault::NothingToDraw { name: "line".into() }), "an empty template");
}

#[test]
fn what_is_out_of_range_is_refused() {
    let found = write(&booklet(vec![line(100_001.0)]), &on(Paper::A4));
    let expected = ExportFault::OutOfRange { name: "line".into(), most: Length::mm(100_000.0) };
    assert_eq!(found, Err(expected), "100 m and a millimetre");
}

#[test]
fn a_sheet_larger_than_a_page_can_be_is_refused() {
    let found = write(&booklet(vec![line(5100.0)]), &on(Paper::Plotter));
    assert!(matches!(found, Err(ExportFault::SheetTooLarge { .. })), "5.1 m on one sheet, found {found:?}");
    assert!(write(&booklet(vec![line(5000.0)]), &on(Paper::Plotter)).is_ok(), "5 m on one sheet");
}
