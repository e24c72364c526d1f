//! Is a stock list read as it is meant, and is every fault told as in any other document?

use spec::{Document, Grain, Price, stock_keys};
use units::Length;

const BOARD: &str =
    "[[boards]]\nwood = \"maple\"\nlength = 96\nwidth = \"3 1/2 in\"\nthickness = \"3/4 in\"\n";

/// The codes of what is wrong with a list, and everything that is said of it.
fn faults(text: &str) -> (Vec<&'static str>, String) {
    let document = Document::parse(text.as_bytes());
    let checked = document.read_stock();
    let told = checked.diagnostics();
    let hints = |fault: &spec::Diagnostic| {
        fault.hints.iter().map(|hint| hint.text.clone()).collect::<Vec<_>>().join("; ")
    };
    let words: Vec<String> = told.iter().map(|fault| format!("{fault} ({})", hints(fault))).collect();
    (told.iter().map(|fault| fault.code.text()).collect(), words.join("\n"))
}

#[track_caller]
fn check(text: &str, code: &str, words: &str) {
    let (codes, told) = faults(text);
    assert_eq!(codes, [code], "codes of {text:?}: {told}");
    assert!(told.contains(words), "{words:?} is in {told:?}");
}

#[test]
fn a_board_is_read() {
    let text = format!("{BOARD}count = 3\nprice = \"14,5\"\noffcut = true\n[cutting]\nkerf = \"2.2 mm\"\n");
    let (stock, _) = Document::parse(text.as_bytes()).read_stock().into_result().expect("a sound list");
    let board = &stock.boards[0];
    assert_eq!(board.length, Length::mm(2438.4), "a bare number is in inches");
    assert_eq!((board.count, board.price), (Some(3), Some(Price::hundredths(1450))), "count and price");
    assert_eq!((board.offcut, board.grain), (true, Grain::Length), "an offcut, its grain along it");
    assert_eq!((stock.cutting.kerf, stock.sheets.len()), (Length::mm(2.2), 0), "the kerf, and no sheets");
}

#[test]
fn an_empty_list_is_sound() {
    let (stock, told) = Document::parse(b"").read_stock().into_result().expect("nothing is in stock");
    assert_eq!((stock.boards.len(), stock.sheets.len(), told.len()), (0, 0, 0), "nothing in stock");
}

#[test]
fn faults_name_the_key_the_limit_and_what_works() {
    check(&format!("{BOARD}gran = \"free\"\n"), "S006", "which does not exist");
    check(&format!("{BOARD}cuont = 3\n"), "S006", "did you mean count?");
    check(&format!("{BOARD}kerf = 3\n"), "S007", "cutting.kerf");
    check("[[sheets]]\nwood = \"ply\"\nlength = 48\nwidth = 24\n", "S015", "write thickness = \"3/4 in\"");
    check(&BOARD.replace("maple", "mapel"), "S014", "did you mean \"maple\"");
    check(&format!("{BOARD}price = -3\n"), "S008", "expected a price, as 14.50");
    check(&format!("{BOARD}price = 3.505\n"), "S010", "write 3.50");
    check(&format!("{BOARD}price = 1e9\n"), "S008", "expected a price");
    check(&format!("{BOARD}price = 4000000\n"), "S011", "at most 999999");
    check(&format!("{BOARD}count = 0\n"), "S011", "the nearest value that works is 1");
    check(&format!("{BOARD}offcut = \"true\"\n"), "S008", "write true");
    check(&format!("{BOARD}offcut = 1\n"), "S008", "expected true or false");
    check("[neck]\nthickness = 3\n", "S006", "expected a key of the document, found neck");
    check("boards = 3\n", "S008", "boards: expected a list of sections");
    check(
        "[[sheets]]\nwood = \"ply\"\nlength = 48\nwidth = 24\nthickness = 0.1\ngrain = \"across\"\n",
        "S013",
        "\"length\", \"width\" or \"free\"",
    );
}

#[test]
fn a_thousand_boards_are_too_many_kinds() {
    check(&BOARD.repeat(65), "S016", "boards: expected 0 to 64 of them, found 65");
}

#[test]
fn the_keys_are_known() {
    let paths: Vec<&str> = stock_keys().iter().map(|key| key.path.as_str()).collect();
    for path in ["units", "cutting.kerf", "boards.N.offcut", "sheets.N.grain", "prices.fret_wire"] {
        assert!(paths.contains(&path), "{path} is among {paths:?}");
    }
    assert!(!paths.contains(&"boards.N.grain"), "the grain of a board runs along it");
}
