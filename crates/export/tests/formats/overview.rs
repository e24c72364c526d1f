//! Does a picture show every view, and keep its labels off the drawing and off each other?

use boxneck_export::ExportFault;
use boxneck_export::scene::{Figure, Item, Scene, Style, View, write};
use geometry::{Outline, Path, Point2, Shape};
use proptest::prelude::*;
use units::LengthUnit;

use crate::svg_file::check_balanced;
use crate::{golden, sample};

fn board(from: (f64, f64), to: (f64, f64)) -> Figure {
    let (from, to) = (Point2::mm(from.0, from.1), Point2::mm(to.0, to.1));
    Figure::Shape(Shape::Outline(Outline::rectangle(from, to).expect("a board is sound")))
}

fn wire(from: (f64, f64), to: (f64, f64)) -> Figure {
    let (from, to) = (Point2::mm(from.0, from.1), Point2::mm(to.0, to.1));
    Figure::Path(Path::line(from, to).expect("a wire is sound"))
}

fn item(figure: Figure, style: Style, label: Option<&str>) -> Item {
    Item { figure, style, label: label.map(String::from) }
}

/// A board with a hole and two wires, from above and from the side.
fn scene() -> Scene {
    let plan = View {
        caption: "from above".into(),
        items: vec![
            item(board((0.0, -40.0), (400.0, 40.0)), Style::PaleWood, Some("board")),
            item(
                Figure::Shape(Shape::Circle(sample::hole(320.0, 0.0, 30.0))),
                Style::Opening,
                Some("hole <30>"),
            ),
            item(wire((10.0, 15.0), (390.0, 15.0)), Style::Strand, None),
            item(wire((60.0, -40.0), (60.0, 40.0)), Style::Copper, Some("first wire")),
            item(wire((64.0, -40.0), (64.0, 40.0)), Style::Copper, Some("second wire")),
        ],
    };
    let side = View {
        caption: "from the side".into(),
        items: vec![
            item(board((0.0, -20.0), (400.0, 0.0)), Style::PaleWood, None),
            item(wire((305.0, 0.0), (305.0, -20.0)), Style::Hidden, Some("edge of the hole")),
            item(wire((0.0, -10.0), (400.0, -10.0)), Style::Mark, None),
        ],
    };
    let title = "A board with wires".into();
    Scene { name: "board".into(), title, unit: LengthUnit::Millimetre, views: vec![plan, side] }
}

fn text(scene: &Scene) -> String {
    write(scene).expect("the picture can be drawn")
}

#[test]
fn the_board_is_as_it_was() {
    golden::check("board.svg", &text(&scene()));
}

#[test]
fn tags_are_balanced_and_words_escaped() {
    check_balanced(&text(&scene()));
    assert!(text(&scene()).contains(">hole &lt;30&gt;</text>"), "a label is text");
}

#[test]
fn inches_get_a_bar_in_inches() {
    let scene = Scene { unit: LengthUnit::Inch, ..scene() };
    // A quarter of 400 mm is 3.9 in: the largest round number up to it is 2.
    assert!(text(&scene).contains(">2 in</text>"), "the bar is 2 in long");
}

#[test]
fn an_empty_picture_is_refused() {
    let empty = Scene { views: Vec::new(), ..scene() };
    assert_eq!(write(&empty), Err(ExportFault::NothingToDraw { name: "board".into() }), "no views");
    let mut hollow = scene();
    hollow.views[1].items.clear();
    let expected = ExportFault::NothingToDraw { name: "from the side".into() };
    assert_eq!(write(&hollow), Err(expected), "a view of nothing");
}

#[test]
fn a_label_longer_than_the_page_is_refused() {
    let mut crowded = scene();
    crowded.views[0].items[0].label = Some("very ".repeat(60));
    let expected = ExportFault::CrowdedLabels { name: "board".into(), view: "from above".into() };
    assert_eq!(write(&crowded), Err(expected), "a label of 300 letters");
}

#[test]
fn a_line_alone_can_be_shown() {
    let view = View {
        caption: "line".into(),
        items: vec![item(wire((0., 0.), (0., 9.)), Style::Outline, Some("it"))],
    };
    check_balanced(&text(&Scene { views: vec![view], ..scene() }));
}

/// Left, right, top and bottom of the words of each label, at 0.6 of the letters' height a letter.
fn words(text: &str) -> Vec<[f64; 4]> {
    let number = |line: &str, name: &str| -> f64 {
        let (_, rest) = line.split_once(&format!(" {name}=\"")).expect("the attribute is there");
        rest.split('"').next().and_then(|value| value.parse().ok()).expect("the attribute is a number")
    };
    let labels = text.lines().filter(|line| line.starts_with("<text class=\"label\""));
    labels
        .map(|line| {
            let (x, y) = (number(line, "x"), number(line, "y"));
            let letters = line.split(['>', '<']).nth(2).expect("there are words").chars().count();
            let half = letters as f64 * 13.0 * 0.6 / 2.0;
            [x - half, x + half, y - 10.0, y + 3.0]
        })
        .collect()
}

/// Across, from and to down the page: the upright piece of the line of each label.
fn uprights(text: &str) -> Vec<[f64; 3]> {
    let lines = text.lines().filter_map(|line| line.split("class=\"leader\" d=\"M").nth(1));
    lines
        .map(|data| {
            let numbers: Vec<f64> =
                data.split([' ', 'L', '"']).map_while(|number| number.parse().ok()).collect();
            let [x, from, _, to, ..] = numbers[..] else { panic!("a line has three points, found {data}") };
            [x, from.min(to), from.max(to)]
        })
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn labels_keep_apart(places in prop::collection::vec((2.0..398.0_f64, -38.0..38.0_f64, 1..14_usize), 1..24)) {
        let mut items = vec![item(board((0.0, -40.0), (400.0, 40.0)), Style::Wood, None)];
        for (x, y, letters) in places {
            let circle = Figure::Shape(Shape::Circle(sample::hole(x, y, 2.0)));
            items.push(item(circle, Style::Metal, Some(&"m".repeat(letters))));
        }
        let scene = Scene { views: vec![View { caption: "board".into(), items }], ..scene() };
        let text = text(&scene);
        let board = text.lines().find(|line| line.contains("class=\"wood\"")).expect("the board is drawn");
        let data = board.split("d=\"M").nth(1).and_then(|rest| rest.split('Z').next()).expect("it has a path");
        let points: Vec<(f64, f64)> = data.split('L').filter_map(|point| {
            let (x, y) = point.split_once(' ')?;
            Some((x.parse().ok()?, y.parse().ok()?))
        }).collect();
        prop_assert_eq!(points.len(), 4, "the board has four corners");
        let top = points.iter().map(|point| point.1).fold(f64::INFINITY, f64::min);
        let bottom = points.iter().map(|point| point.1).fold(f64::NEG_INFINITY, f64::max);
        let words = words(&text);
        for (own, [x, from, to]) in uprights(&text).into_iter().enumerate() {
            for (other, word) in words.iter().enumerate().filter(|(other, _)| *other != own) {
                let apart = x <= word[0] || x >= word[1] || to <= word[2] || from >= word[3];
                prop_assert!(apart, "the line of label {} passes the words of label {}", own, other);
            }
        }
        for (place, a) in words.iter().enumerate() {
            prop_assert!(a[3] < top || a[2] > bottom, "words at {:?} lie off the board from {} to {}", a, top, bottom);
            prop_assert!(a[0] >= 0.0 && a[1] <= 1200.0, "words at {:?} are on the page", a);
            for b in &words[place + 1..] {
                let apart = a[1] <= b[0] || b[1] <= a[0] || a[3] <= b[2] || b[3] <= a[2];
                prop_assert!(apart, "words at {:?} and {:?} lie apart", a, b);
            }
        }
    }
}
