//! Does the SVG file hold the drawing at true size?

use boxneck_export::svg::{SvgOptions, TitleBlock, write};

use crate::{golden, sample};

fn text() -> String {
    write(&sample::plate(), &SvgOptions::default()).expect("the plate can be written")
}

#[test]
fn the_plate_is_as_it_was() {
    golden::check("plate.svg", &text());
}

#[test]
fn the_page_is_at_true_size() {
    let text = text();
    let attribute = |name: &str| {
        let (_, rest) = text.split_once(&format!(" {name}=\"")).expect("the page has a size");
        rest.split('"').next().unwrap_or_default().to_owned()
    };
    let (width, height) = (attribute("width"), attribute("height"));
    let page = format!("0 0 {} {}", width.trim_end_matches("mm"), height.trim_end_matches("mm"));
    assert_eq!(attribute("viewBox"), page, "one unit is one millimetre");
    // The blind hole of 8 mm.
    assert!(text.contains("r=\"4\""), "and so is the drawing");
}

#[test]
fn places_and_holes_are_told_from_the_datum() {
    let text = text();
    let words: Vec<_> = text.split("</text>").filter_map(|before| before.rsplit('>').next()).collect();
    // The datum is in the middle of the left edge: the holes are 14 mm below it and above it, 6 mm in; the edges are 20 mm
    // below and above.
    for expected in [
        "60",
        "20",
        "6",
        "14",
        "(35)",
        "Ø3.175 through",
        "Ø8, 12 deep",
        "Ø12 pocket, 3.2 deep",
        "6x R5",
        "slot 0.6 wide, 1.6 deep",
    ] {
        assert!(words.contains(&expected), "{expected} is among {words:?}");
    }
}

#[test]
fn inches_are_told_in_inches() {
    let options = SvgOptions { unit: units::LengthUnit::Inch, ..SvgOptions::default() };
    let text = write(&sample::plate(), &options).expect("the plate can be written");
    for expected in [">2.362<", ">Ø0.125 through<", ">inches; in names of lines millimetres<"] {
        assert!(text.contains(expected), "the file says {expected}");
    }
}

#[test]
fn the_title_block_says_what_it_is_told() {
    let rows = vec![("material".into(), "hard <maple>".into())];
    let options = SvgOptions { title_block: TitleBlock { rows }, ..SvgOptions::default() };
    let text = write(&sample::plate(), &options).expect("the plate can be written");
    for expected in
        [">material<", ">hard &lt;maple&gt;<", ">1:1<", ">middle of the left edge<", ">cut out the part<"]
    {
        assert!(text.contains(expected), "the file says {expected}");
    }
}

#[test]
fn names_stay_text() {
    assert!(text().contains("<title>Plate &lt;&amp; sample&gt;</title>"), "the title is escaped");
}

#[test]
fn layers_are_groups_in_order() {
    let text = text();
    let layers: Vec<_> =
        text.split("data-layer=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
    let expected =
        ["GUIDE", "ENGRAVE", "POCKET_D3_2", "POCKET_D12_0", "SLOT", "DRILL_D3_175", "CUT_INNER", "CUT_OUTER"];
    assert_eq!(layers, expected, "one group a layer");
}

#[test]
fn what_no_layer_tells_is_told_beside_the_shape() {
    for note in ["slot 0.6 mm wide, 1.6 mm deep", "hole 8 mm in diameter, 12 mm deep"] {
        assert!(text().contains(note), "the file says \"{note}\"");
    }
}

#[test]
fn tags_are_balanced() {
    check_balanced(&text());
}

/// Every element that is opened is closed, in order.
#[track_caller]
pub fn check_balanced(text: &str) {
    let mut open = Vec::new();
    for tag in text.split('<').skip(1) {
        let tag = tag.split('>').next().unwrap_or_default();
        let name = tag.trim_start_matches('/').split([' ', '/']).next().unwrap_or_default();
        if tag.starts_with('/') {
            assert_eq!(open.pop(), Some(name), "</{name}> closes what was opened last");
        } else if !tag.ends_with('/') {
            open.push(name);
        }
    }
    assert_eq!(open, Vec::<&str>::new(), "everything is closed at the end");
}
