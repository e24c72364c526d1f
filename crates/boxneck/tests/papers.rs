//! Does a class get every piece cut once, every kit told, and the same bytes each time?

use std::collections::BTreeMap;

use boxneck::export::Format;
use boxneck::spec::{Document, Price, StockList};
use boxneck::{Absent, BuiltFile, Enrolment, Instrument, MakeOptions, Member, class_papers};

const STOCK: &str = include_str!("../../../specs/class/stock.toml");

fn stock(text: &str) -> StockList {
    let (stock, warnings) =
        Document::parse(text.as_bytes()).read_stock().into_result().expect("a sound list");
    assert!(warnings.is_empty(), "nothing to say about {text}: {warnings:?}");
    stock
}

fn member(student: &str, quantity: u32, overrides: &[(&str, &str)]) -> Member {
    let document = overrides.iter().fold(Document::parse(b"name = \"Porch\"\n"), |document, (key, value)| {
        document.with_override(key, value)
    });
    let instrument = Instrument::of(&document).expect("a sound instrument");
    let enrolment =
        Enrolment { student: student.into(), quantity, note: "bring glue".into(), link: String::new() };
    Member::of(&instrument, enrolment).expect("its parts are sound")
}

/// Three students, four instruments, one of them for the left hand, one with a jack.
fn class() -> Vec<Member> {
    vec![
        member("Amara", 1, &[]),
        member("=1+1", 2, &[("handed", "left"), ("scale.length", "24 in")]),
        member("", 1, &[("box.holes.1.purpose", "jack"), ("box.holes.1.diameter", "9.5 mm")]),
    ]
}

fn files(members: &[Member], stock: Option<&StockList>) -> BTreeMap<String, String> {
    let made =
        class_papers("Spring class", members, &[], stock, &MakeOptions::default()).expect("files are made");
    let text = |BuiltFile { path, bytes }| (path, String::from_utf8_lossy(&bytes).into_owned());
    made.into_iter().map(text).collect()
}

/// The rows of a table without quotes within cells that matter here, below its heading.
fn rows(table: &str) -> Vec<Vec<String>> {
    let cells = |line: &str| {
        let mut cells = vec![String::new()];
        let mut is_quoted = false;
        for letter in line.chars() {
            match letter {
                '"' => is_quoted = !is_quoted,
                ',' if !is_quoted => cells.push(String::new()),
                letter => cells.last_mut().expect("there is a cell").push(letter),
            }
        }
        cells
    };
    table.lines().skip(1).map(cells).collect()
}

#[test]
fn a_class_gets_all_its_papers() {
    let files = files(&class(), Some(&stock(STOCK)));
    let expected = [
        "class.html",
        "cut-list.csv",
        "kit-list.csv",
        "labels-a4.pdf",
        "labels-letter.pdf",
        "plates/plate.3mf",
        "safety.html",
        "sheets/sheet-1_mm.dxf",
        "shopping-list.csv",
    ];
    for path in expected {
        assert!(files.contains_key(path), "{path} is among {:?}", files.keys());
    }
    assert!(files["sheets/sheet-1_mm.dxf"].contains("CUT_OUTER"), "a sheet keeps the layers of its parts");
    assert!(files["safety.html"].contains("Solder"), "somebody solders a jack");
    assert!(files["class.html"].contains("<svg"), "there are pictures");
}

#[test]
fn every_piece_is_cut_once_within_its_board_and_kerf() {
    let cuts = rows(&files(&class(), Some(&stock(STOCK)))["cut-list.csv"]);
    let necks = cuts.iter().filter(|row| row[5] == "Neck");
    let mut count: BTreeMap<&str, usize> = BTreeMap::new();
    necks.for_each(|row| *count.entry(row[4].as_str()).or_insert(0) += 1);
    let expected = BTreeMap::from([("Amara (1)", 1), ("'=1+1 (2)", 2), ("no. 3", 1)]);
    assert_eq!(count, expected, "a neck for each instrument: {cuts:?}");
    let number = |cell: &String| cell.parse::<f64>().expect("a number");
    let mut end = (String::new(), 0.0);
    for row in cuts.iter().filter(|row| row[0].starts_with("boards")) {
        let board = format!("{} {}", row[0], row[2]);
        let (from, length) = (number(&row[9]), number(&row[6]));
        let least = if end.0 == board { end.1 + 3.0 } else { 10.0 };
        assert!((from - least).abs() < 0.02, "{board}: at {from}, behind a kerf at {least}");
        let whole = if row[0] == "boards.1" { 2438.4 } else { 1016.0 };
        assert!(from + length <= whole - 10.0 + 0.01, "{board}: the piece ends before the trim");
        end = (board, from + length);
    }
    assert!(cuts.iter().all(|row| row[0] != "none"), "the stock serves all of it: {cuts:?}");
}

#[test]
fn offcuts_come_first() {
    let used = rows(&files(&class(), Some(&stock(STOCK)))["shopping-list.csv"]);
    let offcuts: Vec<&Vec<String>> = used.iter().filter(|row| row[0].contains("offcut")).collect();
    assert!(!offcuts.is_empty(), "some stock in hand is used: {used:?}");
    assert!(offcuts.iter().all(|row| row[5] == "0.00"), "and costs nothing: {offcuts:?}");
}

#[test]
fn what_is_not_known_stays_unknown() {
    let list = rows(&files(&class(), Some(&stock(STOCK)))["shopping-list.csv"]);
    let cost = |item: &str| list.iter().find(|row| row[0] == item).map(|row| row[5].clone());
    assert_eq!(cost("wood screw").as_deref(), Some("unknown"), "no price is given for screws");
    // Three tuners each for four instruments at 3.20.
    assert_eq!(cost("tuner").as_deref(), Some("38.40"), "tuners");
    assert!(cost("in all").is_some_and(|sum| sum.starts_with("at least ")), "the sum says so");
    let without = rows(&files(&class(), None)["shopping-list.csv"]);
    assert!(without.iter().all(|row| row[5] == "unknown"), "without a stock list nothing has a price");
    assert_eq!(Price::hundredths(1405).to_string(), "14.05", "a price is written to a hundredth");
}

#[test]
fn wood_that_is_missing_is_told_with_the_key_that_helps() {
    let thin =
        stock("[[sheets]]\nwood = \"birch plywood\"\nlength = 48\nwidth = 24\nthickness = \"4.2 mm\"\n");
    let cuts = rows(&files(&class()[..1], Some(&thin))["cut-list.csv"]);
    let why =
        |part: &str| cuts.iter().find(|row| row[5] == part).map(|row| row[1].clone()).unwrap_or_default();
    assert!(why("Lid").contains("box.lid = 4.2 mm would meet it"), "the lid: {}", why("Lid"));
    assert!(why("Neck").contains("nothing in stock comes near"), "the neck: {}", why("Neck"));
}

#[test]
fn boards_run_out_and_sheets_may_be_too_small() {
    let little = stock(
        "units = \"mm\"\n[[boards]]\nwood = \"maple\"\nlength = 1000\nwidth = 60\nthickness = 19.05\ncount = 2\n\
         [[sheets]]\nwood = \"plywood\"\nlength = 200\nwidth = 200\nthickness = 3.2\n",
    );
    let cuts = rows(&files(&class(), Some(&little))["cut-list.csv"]);
    let none = |part: &str| cuts.iter().filter(|row| row[5] == part && row[0] == "none").count();
    assert_eq!((none("Neck"), none("Lid")), (2, 4), "two boards, two necks; no lid fits: {cuts:?}");
}

#[test]
fn a_class_of_nobody_and_a_list_of_nothing_do() {
    let files = files(&[], Some(&stock("")));
    assert!(files.contains_key("class.html"), "there is a page: {:?}", files.keys());
    let files =
        class_papers("x", &class(), &[], Some(&stock("")), &MakeOptions::default()).expect("nothing is cut");
    assert!(files.iter().all(|file| !file.path.starts_with("sheets/")), "there are no sheets");
}

#[test]
fn only_what_is_asked_for_is_made() {
    let options = MakeOptions { formats: [Format::Csv].into(), ..MakeOptions::default() };
    let made = class_papers("x", &class(), &[], None, &options).expect("tables are made");
    let paths: Vec<&str> = made.iter().map(|file| file.path.as_str()).collect();
    assert_eq!(
        paths,
        ["kit-list.csv", "shopping-list.csv", "cut-list.csv", "class.html", "safety.html"],
        "tables and pages"
    );
}

#[test]
fn the_same_class_gives_the_same_bytes() {
    let stock = stock(STOCK);
    let make =
        || class_papers("x", &class(), &[], Some(&stock), &MakeOptions::default()).expect("files are made");
    assert_eq!(make(), make(), "twice the same");
}

#[test]
fn who_is_not_made_is_named() {
    let absent = [Absent { student: "Bo <row 7>".into(), why: vec!["strings.9 is one too many".into()] }];
    let made = class_papers("x", &class(), &absent, None, &MakeOptions::default()).expect("files are made");
    let page = made.iter().find(|file| file.path == "class.html").expect("there is a page");
    let text = String::from_utf8_lossy(&page.bytes);
    assert!(text.contains("Bo &lt;row 7&gt;") && text.contains("strings.9 is one too many"), "who, and why");
    assert!(text.contains("1 are not made"), "the first thing to know");
}
