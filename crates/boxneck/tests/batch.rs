//! Does a roster become what its rows say, whatever stands in it and whatever happens on the way?

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use boxneck::batch::{
    Base, Bases, Batch, BatchFault, BatchOptions, Class, Fate, Planned, Roster, RowState, Shard, limits,
    merge, run,
};
use boxneck::export::Format;

const PORCH: &str = include_str!("../../../specs/porch-three-string.toml");

/// Nothing but the cut list and the records, so that a row is quick to make.
fn quick() -> BatchOptions {
    let mut options = BatchOptions::default();
    options.make.formats = [Format::Csv].into();
    options
}

/// The porch instrument with level frets, of which nothing warns: no search for mends takes its time.
fn calm() -> String {
    PORCH.replace("height_scatter = \"0.08 mm\"", "height_scatter = \"0.01 mm\"")
}

fn bases() -> Bases {
    Bases::only(Base::new("porch.toml", calm().as_bytes()))
}

#[track_caller]
fn make(roster: &str, output: &Path, options: &BatchOptions) -> Batch {
    let (roster, bases) = (Roster::parse(roster.as_bytes()), bases());
    run(&Class::plan(&roster, &bases), output, options, &mut |_| {}).expect("nothing hinders it")
}

/// The faults of a roster over the porch instrument, as they are told.
fn faults(roster: &[u8]) -> Vec<String> {
    let (roster, bases) = (Roster::parse(roster), bases());
    Class::plan(&roster, &bases).faults().map(ToString::to_string).collect()
}

/// Every file below a folder with its bytes.
fn tree(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut files = BTreeMap::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(inside) = folders.pop() {
        for entry in fs::read_dir(inside).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
            } else {
                let name = path.strip_prefix(folder).expect("below it").to_string_lossy().into_owned();
                files.insert(name, fs::read(&path).expect("a file"));
            }
        }
    }
    files
}

#[track_caller]
fn check_tree(found: &Path, expected: &Path) {
    let (found, expected) = (tree(found), tree(expected));
    let names = |tree: &BTreeMap<String, Vec<u8>>| tree.keys().cloned().collect::<Vec<_>>();
    assert_eq!(names(&found), names(&expected), "the same files");
    let differing: Vec<&String> = found.keys().filter(|name| found[*name] != expected[*name]).collect();
    assert_eq!(differing, Vec::<&String>::new(), "the same bytes");
}

const CLASS: &str = "student,handed,neck.thickness,quantity,note\nAnna,,,,\nBo,left,,,left-handed\nAnna,,19 mm,2,\n\
                     Cy,,,,=1+1\nDee,,18.5 mm,,\n";

#[test]
fn a_class_is_made_row_by_row() {
    let place = tempfile::tempdir().expect("a folder");
    let batch = make(CLASS, place.path(), &quick());
    let rows: Vec<(&str, u32, RowState)> =
        batch.record.rows.iter().map(|row| (&*row.folder, row.quantity, row.state)).collect();
    let made = |folder, quantity| (folder, quantity, RowState::Made);
    let expected = [made("anna", 1), made("bo", 1), made("anna-2", 2), made("cy", 1), made("dee", 1)];
    assert_eq!(rows, expected, "in the order of the roster");
    assert_eq!(batch.record.kits.len(), 4, "Anna and Cy want the same, worked out once");
    for row in &batch.record.rows {
        let manifest = fs::read(place.path().join(&row.folder).join("manifest.json")).expect("a manifest");
        assert!(!manifest.is_empty(), "{}", row.folder);
        let document = fs::read(place.path().join(&row.folder).join("document.toml")).expect("its document");
        let spec = spec::Document::parse(&document).read().into_result().expect("sound").0;
        assert_eq!(spec.handed == spec::Handed::Left, row.student == "Bo", "{}", row.student);
    }
    let record = fs::read(place.path().join("class/class.json")).expect("the class's record");
    let record: boxneck::batch::ClassRecord = serde_json::from_slice(&record).expect("its shape");
    assert_eq!(record, batch.record, "on disk as in memory");
}

#[test]
fn what_is_up_to_date_is_not_made_again() {
    let place = tempfile::tempdir().expect("a folder");
    let (roster, bases) = (Roster::parse(CLASS.as_bytes()), bases());
    let class = Class::plan(&roster, &bases);
    let fates = |options: &BatchOptions| {
        let mut fates = Vec::new();
        run(&class, place.path(), options, &mut |row| fates.push(row.fate)).expect("made");
        fates
    };
    assert_eq!(fates(&quick()), [Fate::Made; 5], "at first");
    assert_eq!(fates(&quick()), [Fate::UpToDate; 5], "nothing changed");
    fs::write(place.path().join("bo/cut-list.csv"), "scribble").expect("written");
    fs::remove_file(place.path().join("cy/layout.json")).expect("removed");
    let expected = [Fate::UpToDate, Fate::Made, Fate::UpToDate, Fate::Made, Fate::UpToDate];
    assert_eq!(fates(&quick()), expected, "what was changed or lost is made again");
    let mut other = quick();
    other.make.unit = boxneck::units::LengthUnit::Inch;
    assert_eq!(fates(&other), [Fate::Made; 5], "other options");
}

#[test]
fn names_alone_are_not_worked_out_again_and_change_no_byte() {
    let alone = tempfile::tempdir().expect("a folder");
    let together = tempfile::tempdir().expect("a folder");
    let options = BatchOptions::default();
    make("student,name\nBo,Second of two\n", alone.path(), &options);
    let batch = make("student,name\nAnna,First\nBo,Second of two\n", together.path(), &options);
    assert_eq!(batch.record.kits.len(), 2, "two documents");
    check_tree(&together.path().join("bo"), &alone.path().join("bo"));
}

#[test]
fn shards_merged_are_a_single_run() {
    let whole = tempfile::tempdir().expect("a folder");
    let expected = make(CLASS, whole.path(), &quick());
    let shard = |number, output: &Path| {
        make(CLASS, output, &BatchOptions { shard: Shard::new(number, 3), ..quick() });
    };
    // Each into its own folder, and all into one.
    let (apart, merged, one) = (tempfile::tempdir(), tempfile::tempdir(), tempfile::tempdir());
    let (apart, merged, one) = (apart.expect("a folder"), merged.expect("a folder"), one.expect("a folder"));
    let folders: Vec<_> = (1..=3).map(|number| apart.path().join(number.to_string())).collect();
    for (number, folder) in (1..).zip(&folders) {
        shard(number, folder);
        shard(number, one.path());
    }
    let batch = merge(&folders, merged.path(), &quick()).expect("merged");
    assert_eq!(batch, expected, "the same record");
    check_tree(merged.path(), whole.path());
    merge(&[one.path().to_owned()], one.path(), &quick()).expect("merged in its place");
    check_tree(one.path(), whole.path());

    let missing = merge(&folders[..2], merged.path(), &quick()).expect_err("two of three");
    assert!(missing.to_string().contains("shard 3/3 is missing"), "{missing}");
    let dee = folders.iter().map(|folder| folder.join("dee/cut-list.csv")).find(|list| list.exists());
    fs::write(dee.expect("some shard made it"), "scribble").expect("written");
    let changed = merge(&folders, merged.path(), &quick()).expect_err("it is not what its shard made");
    assert!(changed.to_string().contains("make the shard again"), "{changed}");
}

#[test]
fn removed_rows_are_listed_and_pruned_on_request_and_only_what_is_ours() {
    let place = tempfile::tempdir().expect("a folder");
    make(CLASS, place.path(), &quick());
    let shorter = "student\nAnna\n";
    fs::create_dir(place.path().join("photos")).expect("a folder");
    fs::write(place.path().join("photos/class.jpg"), "picture").expect("a file");
    fs::write(place.path().join("bo/notes.txt"), "mine").expect("a note");
    fs::write(place.path().join("cy/cut-list.csv"), "my own list").expect("a change");
    let outside = place.path().join("photos/class.jpg");
    let manifest = place.path().join("dee/manifest.json");
    let text = fs::read_to_string(&manifest).expect("a manifest");
    fs::write(&manifest, text.replace("\"cut-list.csv\"", "\"../photos/class.jpg\"")).expect("a hostile one");
    let listed = make(shorter, place.path(), &quick());
    let names: Vec<&str> = listed.removed.iter().map(|build| &*build.folder).collect();
    assert_eq!(names, ["anna-2", "bo", "cy", "dee"], "listed");
    assert!(listed.removed.iter().all(|build| build.pruned.is_none()), "and left");
    let pruned = make(shorter, place.path(), &BatchOptions { prune: true, ..quick() });
    let left: Vec<usize> = pruned.removed.iter().map(|build| build.left.len()).collect();
    assert_eq!(left, [0, 1, 1, 1], "the note, the changed list, and what a manifest names falsely");
    let mut names: Vec<String> =
        tree(place.path()).into_keys().filter(|name| !name.starts_with("anna/")).collect();
    names.sort();
    let expected = [
        "bo/notes.txt",
        "class/class.html",
        "class/class.json",
        "class/cut-list.csv",
        "class/kit-list.csv",
        "class/manifest.json",
        "class/safety.html",
        "class/shopping-list.csv",
        "cy/cut-list.csv",
        "dee/cut-list.csv",
        "photos/class.jpg",
    ];
    assert_eq!(names, expected, "nothing of others' went");
    assert_eq!(fs::read(outside).expect("a file"), b"picture", "nor changed");
}

#[test]
fn a_folder_that_vanishes_is_told_and_the_rest_is_made_later() {
    let place = tempfile::tempdir().expect("a folder");
    let output = place.path().join("made");
    let (roster, bases) = (Roster::parse(CLASS.as_bytes()), bases());
    let class = Class::plan(&roster, &bases);
    let mut vanish = |_: &boxneck::batch::RowDone| drop(fs::remove_dir_all(&output));
    let fault = run(&class, &output, &quick(), &mut vanish).expect_err("its folder is gone");
    assert!(matches!(fault, BatchFault::Machine { .. }), "{fault}");
    assert!(!output.join("class").exists(), "no record of what is not there");
    run(&class, &output, &quick(), &mut |_| {}).expect("made");
    let undisturbed = place.path().join("undisturbed");
    run(&class, &undisturbed, &quick(), &mut |_| {}).expect("made");
    check_tree(&output, &undisturbed);
}

#[test]
fn a_folder_of_somebody_elses_is_left_and_the_rest_goes_on() {
    let place = tempfile::tempdir().expect("a folder");
    fs::create_dir(place.path().join("bo")).expect("a folder");
    fs::write(place.path().join("bo/diary.txt"), "dear").expect("a file");
    fs::write(place.path().join("cy"), "a file").expect("a file");
    let batch = make(CLASS, place.path(), &quick());
    let states: Vec<RowState> = batch.record.rows.iter().map(|row| row.state).collect();
    let (made, refused) = (RowState::Made, RowState::Refused);
    assert_eq!(states, [made, refused, made, refused, made], "{:?}", batch.record.rows[3].faults);
    assert_eq!(tree(&place.path().join("bo")).len(), 1, "the diary alone");
}

/// Every kind of file of the class, so that no format escapes.
#[test]
fn one_thread_or_eight_make_the_same() {
    let made = |threads| {
        let place = tempfile::tempdir().expect("a folder");
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("a pool");
        pool.install(|| make("student,handed\nAnna,\nBo,left\n", place.path(), &BatchOptions::default()));
        place
    };
    check_tree(made(1).path(), made(8).path());
}

#[track_caller]
fn check_told(roster: impl AsRef<[u8]>, expected: &[&str]) {
    let told = faults(roster.as_ref());
    let shown = String::from_utf8_lossy(roster.as_ref()).chars().take(80).collect::<String>();
    assert_eq!(told.len(), expected.len(), "{shown:?}: {told:#?}");
    for (told, expected) in told.iter().zip(expected) {
        assert!(
            expected.split(" .. ").all(|part| told.contains(part)),
            "{shown:?}: expected {expected}, found {told}"
        );
    }
}

#[test]
fn every_spreadsheet_is_understood() {
    check_told("student;neck.thickness\r\nZo\u{eb};0,75\r\n", &[]);
    check_told("\u{feff}student\tneck.thickness\n\u{738b}\t19,500 mm\n", &[]);
    check_told("student,\"neck.thickness\"\n\"Okafor, Amara\",\"3/4 in\"\n", &[]);
    check_told("sep=;\nstudent;box.holes\nA;none\nB;\n", &[]);
    check_told(
        "student;strings.4;strings.1.pitch\nA;\"{ pitch = \"\"B3\"\", diameter = \"\"0.013 in\"\" }\";\nB;;G2\n",
        &[],
    );
    check_told("student;strings.3\nA;none\n", &[]);
    check_told("student;strings.4.diameter;strings.4.pitch\nA;\"0,013 in\";B3\nB;;\n", &[]);
    check_told("student,print.bed,scale.pattern\nA,\"200 mm, 180 mm\",diatonic\n", &[]);
    check_told("student,neck.thickness\nA,3/4\"\nB,\"3/4\"\"\"\n", &[]);
    check_told("student,,\nA,,\n\n,,\nB\u{0},,\n", &[]);
    let wide: Vec<u8> = [0xff, 0xfe]
        .into_iter()
        .chain("student\nZo\u{eb}\n".encode_utf16().flat_map(u16::to_le_bytes))
        .collect();
    check_told(wide, &[]);
}

#[test]
fn every_fault_is_told_with_its_place() {
    check_told(
        "student,neck.thicknes\nA,19 mm\n",
        &["row 1, column B (neck.thicknes) .. did you mean neck.thickness"],
    );
    check_told(
        "student,neck.thickness\nA,750 mm\n",
        &["row 2, column B (neck.thickness): neck.thickness: must lie .. 60 mm"],
    );
    check_told(
        "student,neck.thickness\nA,3-Aug\n",
        &["row 2, column B (neck.thickness) .. the date 3-Aug .. 3/8"],
    );
    check_told(
        "student,neck.thickness,box.lid\nA,19,5,3\n",
        &["row 2: expected 3 cells .. found 4 .. \"19,5\" .. 19.5"],
    );
    check_told("student,neck.thickness\nA\n", &["row 2: expected 2 cells .. found 1"]);
    check_told("student,neck.wood\nA,hard mapel\n", &["row 2, column B (neck.wood) .. hard maple"]);
    check_told("student,strings.2.pich\nA,G3\n", &["strings.2.pitch"]);
    check_told(
        "student,strings.9.pitch\nA,G3\n",
        &["row 2, column B (strings.9.pitch) .. between 1 and 4, found 9"],
    );
    check_told(
        "student,quantity\nA,many\n",
        &["row 2, column B (quantity) .. from 1 to 1000, found \"many\""],
    );
    check_told("student,student\nA,B\n", &["row 1, column B (student) .. in A already"]);
    check_told("student,\nA,19 mm\n", &["row 2, column B .. a heading over every column"]);
    check_told("student,base\nA,elsewhere.toml\n", &["row 2, column B (base) .. elsewhere.toml"]);
    check_told(
        format!("student\n{}\n", "a".repeat(1_000)),
        &["row 2, column A (student) .. at most 200 characters, found 1000"],
    );
    check_told(
        "student\n\"A\n".to_owned() + &"B\n".repeat(9_000),
        &["row 2: .. a quote that is opened and not closed"],
    );
    check_told("student\n\"A\nB\n", &["row 2: expected a quote at the end of a cell"]);
    check_told(
        "student,note\nA,\"says \"\"no\"\" and\nB,\n",
        &["row 2: expected a quote at the end of a cell"],
    );
    check_told("student,note\n\"A\nB\",\n", &["row 2, column A (student) .. on one line"]);
    check_told("", &["found nothing"]);
    check_told("student\n", &["found none"]);
    check_told(b"student\nZo\xeb\n", &["row 2: expected UTF-8 text, found byte 0xeb"]);
    // All of them at once, each in its place.
    check_told(
        "student;neck.thickness;handed\nA;750 mm;left\nB;;sideways\nC;0,75;\nD;2026-08-03;\n",
        &["row 2, column B", "row 3, column C (handed)", "row 5, column B"],
    );
}

#[test]
fn one_bad_row_hinders_no_other() {
    let place = tempfile::tempdir().expect("a folder");
    let batch = make("student,neck.thickness\nA,750 mm\nB,\n", place.path(), &quick());
    let states: Vec<RowState> = batch.record.rows.iter().map(|row| row.state).collect();
    assert_eq!(states, [RowState::Refused, RowState::Made], "the good one is made");
    assert!(batch.record.rows[0].faults[0].message.contains("neck.thickness"), "{:?}", batch.record.rows[0]);
    assert!(!place.path().join("a").exists(), "the bad one leaves nothing");
}

#[test]
fn a_failing_instrument_is_held_back_unless_asked_for() {
    let place = tempfile::tempdir().expect("a folder");
    let roster = "student,scale.frets\nA,36\nB,\n";
    let states = |options: &BatchOptions| -> Vec<RowState> {
        make(roster, place.path(), options).record.rows.iter().map(|row| row.state).collect()
    };
    assert_eq!(states(&quick()), [RowState::HeldBack, RowState::Made], "36 frets do not fit");
    assert_eq!(states(&BatchOptions { anyway: true, ..quick() }), [RowState::Made; 2], "made all the same");
    assert_eq!(states(&quick()), [RowState::HeldBack, RowState::Made], "and not counted as made afterwards");
}

#[test]
fn no_name_leaves_the_folder_or_meets_another() {
    let names = [
        "../../x",
        "/etc/x",
        "C:\\x",
        "..",
        "NUL",
        "con",
        "anna",
        "ANNA",
        "\u{0}",
        "class",
        "shard-1-of-2",
        "=1+1",
        "x\u{202e}y",
    ];
    let roster: String =
        std::iter::once("student\n".to_owned()).chain(names.map(|name| format!("\"{name}\"\n"))).collect();
    let place = tempfile::tempdir().expect("a folder");
    let output = place.path().join("made");
    let batch = make(&roster, &output, &quick());
    let mut folders: Vec<&str> = batch.record.rows.iter().map(|row| &*row.folder).collect();
    folders.sort_unstable();
    folders.dedup();
    assert_eq!(folders.len(), names.len(), "a folder each: {folders:?}");
    for folder in folders {
        assert!(folder.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'-'), "{folder}");
        assert!(output.join(folder).join("manifest.json").exists(), "{folder}");
    }
    let beside: Vec<_> = fs::read_dir(place.path()).expect("a folder").collect();
    assert_eq!(beside.len(), 1, "nothing outside: {beside:?}");
    for (name, bytes) in tree(&output).into_iter().filter(|(name, _)| name.ends_with(".csv")) {
        let text = String::from_utf8(bytes).expect("text");
        assert!(text.lines().all(|line| !line.starts_with(['=', '+', '@'])), "{name}: {text}");
    }
}

#[test]
fn a_hundred_thousand_rows_are_read() {
    let mut roster = "student;neck.thickness\n".to_owned();
    roster.extend((0..limits::ROWS).map(|row| format!("Student {row};0,{}\n", 700 + row % 100)));
    let (parsed, bases) = (Roster::parse(roster.as_bytes()), bases());
    let class = Class::plan(&parsed, &bases);
    assert_eq!(class.rows().len(), limits::ROWS, "all of them");
    let sound = class.rows().iter().filter(|row| matches!(row.planned, Planned::Document(_))).count();
    assert_eq!(sound, limits::ROWS, "and each is sound: {:?}", class.faults().next());
    roster.push_str("One more;\n");
    check_told(roster, &["at most 100000 rows"]);
}

#[test]
fn a_class_has_its_papers_and_says_who_is_not_among_them() {
    let place = tempfile::tempdir().expect("a folder");
    let stock =
        boxneck::spec::Document::parse(include_bytes!("../../../specs/class/stock.toml")).read_stock();
    let options = BatchOptions { stock: stock.value().cloned(), ..quick() };
    make("student,quantity,neck.thickness\nAnna,2,\nBo,1,750 in\n", place.path(), &options);
    let text = |name: &str| fs::read_to_string(place.path().join("class").join(name)).expect("a paper");
    let necks = text("cut-list.csv").lines().filter(|line| line.contains("Anna (1),Neck")).count();
    assert_eq!(necks, 2, "one for each of hers: {}", text("cut-list.csv"));
    assert!(text("shopping-list.csv").contains("board"), "from boards that are bought");
    let page = text("class.html");
    assert!(page.contains("row 3 Bo") && page.contains("neck.thickness"), "who is not made, and why");
}

#[test]
fn a_merge_wants_the_options_of_its_shards() {
    let (apart, merged) = (tempfile::tempdir().expect("a folder"), tempfile::tempdir().expect("a folder"));
    make(CLASS, apart.path(), &BatchOptions { shard: Shard::new(1, 1), ..quick() });
    let folders = [apart.path().to_owned()];
    let refused = merge(&folders, merged.path(), &BatchOptions::default()).expect_err("other options");
    assert!(refused.to_string().contains("give --merge the options that the shards had"), "{refused}");
    merge(&folders, merged.path(), &quick()).expect("the same options");
}

#[test]
fn more_cells_than_any_class_has_are_refused() {
    // Cells under no heading are cells too.
    let row = format!("A{}\n", ";".repeat(limits::COLUMNS - 1));
    let roster = format!("student{}\n", ";".repeat(limits::COLUMNS - 1))
        + &row.repeat(limits::CELLS / limits::COLUMNS);
    assert_eq!(Roster::parse(roster.as_bytes()).faults(), [], "as many as may be");
    let more = roster + &row.repeat(2);
    let told = Roster::parse(more.as_bytes());
    assert!(
        told.faults().iter().any(|fault| fault.message.contains("at most 2000000 cells")),
        "{:?}",
        told.faults()
    );
}
