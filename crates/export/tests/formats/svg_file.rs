//! Does the SVG file hold the drawing at true size?

use boxneck_export::svg::{SvgOptions, write};

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
    // From -3 to 60 and from -5 to 45 with the datum's cross and the guide, and a margin of 2 on each side.
    let size = "width=\"67mm\" height=\"54mm\" viewBox=\"0 0 67 54\"";
    assert!(text().contains(size), "the page is {size}, found {}", text().lines().next().unwrap_or_default());
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
