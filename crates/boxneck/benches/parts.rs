//! How long do the parts of a six-string instrument take, and a whole build?
//!
//! Budget: no mesh over 2 ms, no STEP text over 5 ms, the templates under 60 ms, a whole build under 150 ms, ten thousand
//! instruments by lot under 5 s on two cores, the papers of a class of 24 under 1 s, a hundred thousand plans of a search under 20 s
//! on two cores.

use std::collections::BTreeSet;
use std::path::PathBuf;

use boxneck::batch::{Base as BatchBase, Bases, BatchOptions, Class, Roster, run};
use boxneck::explore::{Axis, Base, Question, explore};
use boxneck::export::Format;
use boxneck::export::step::{self, StepOptions};
use boxneck::export::stl::{self, StlOptions};
use boxneck::fit::{self, Subject};
use boxneck::layout::playing::{Player, Playing};
use boxneck::spec::Document;
use boxneck::units::{ChordTolerance, Length};
use boxneck::{
    Enrolment, Instrument, MakeOptions, Member, class_papers, files, layout, parts, tolerances, with_files_of,
};
use divan::{Bencher, black_box};
use sha2::{Digest as _, Sha256};

const CHORD: ChordTolerance = ChordTolerance::new(Length::mm(0.02));

/// The parts that other kernels are timed with, and the larger ones.
const PARTS: [&str; 5] = ["nut", "tail-block", "fretboard", "neck", "saddle"];

/// A six-string instrument with every part that there is, the same that other kernels are timed with.
const SIX_STRINGS: &str = include_str!("../../../tests/peers/three-parts.toml");

fn main() {
    divan::main();
}

fn document(text: &str) -> Document {
    with_files_of(Document::parse(text.as_bytes()), &folder().join("any"))
}

fn instrument(text: &str) -> Instrument {
    Instrument::of(&document(text)).expect("the document describes an instrument")
}

fn part(name: &str) -> parts::Part {
    let set = instrument(SIX_STRINGS).parts().clone();
    set.parts.into_iter().find(|part| part.name == name).expect("the instrument has that part")
}

#[divan::bench(args = PARTS)]
fn mesh(bencher: Bencher, name: &str) {
    let solid = part(name).solid.expect("the part is solid");
    bencher.bench(|| black_box(&solid).body.mesh(CHORD));
}

/// From the body to the bytes of the file.
#[divan::bench(args = PARTS)]
fn stl_bytes(bencher: Bencher, name: &str) {
    let solid = part(name).solid.expect("the part is solid");
    let on_bed = |mesh: boxneck::geometry::Mesh| {
        let lowest = mesh.bounds().expect("a mesh has points").min;
        let drop = boxneck::geometry::Vector3 { x: -lowest.x, y: -lowest.y, z: -lowest.z };
        mesh.moved(&boxneck::geometry::Rigid3::translation(drop))
    };
    bencher.bench(|| {
        let mesh = black_box(&solid).body.mesh(CHORD).expect("a sound body");
        stl::write(name, &on_bed(mesh.moved(&solid.laid)), &StlOptions::default())
    });
}

/// From the body to the text of the file.
#[divan::bench(args = PARTS)]
fn step(bencher: Bencher, name: &str) {
    let solid = part(name).solid.expect("the part is solid");
    bencher.bench(|| {
        let brep = black_box(&solid).body.brep().expect("a sound body");
        step::write(name, &brep, &StepOptions::default())
    });
}

#[divan::bench]
fn read(bencher: Bencher) {
    bencher.bench(|| document(black_box(SIX_STRINGS)).read());
}

/// The floor under reading: the text is parsed, and no more.
#[divan::bench]
fn floor_to_parse(bencher: Bencher) {
    bencher.bench(|| toml::de::DeTable::parse(black_box(SIX_STRINGS)).map(|table| table.get_ref().len()));
}

#[divan::bench]
fn lay_out(bencher: Bencher) {
    let spec = instrument(SIX_STRINGS).spec().clone();
    bencher.bench(|| layout::layout(black_box(&spec)));
}

/// Everything but buzz.
#[divan::bench]
fn play(bencher: Bencher) {
    bencher.with_inputs(unplayed).bench_refs(|playing| {
        black_box((playing.pulls(), playing.neck(), playing.tuning(), playing.drift(), playing.saddle()));
    });
}

#[divan::bench]
fn buzz(bencher: Bencher) {
    bencher.with_inputs(unplayed).bench_refs(|playing| {
        black_box(playing.buzz());
    });
}

fn unplayed() -> Playing {
    Playing::new(instrument(SIX_STRINGS).layout().clone(), Player::default())
}

/// Each instrument, and as many more as there are dimensions to draw anew.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn ten_thousand_by_lot(bencher: Bencher) {
    let instrument = instrument(SIX_STRINGS);
    bencher.bench(|| tolerances(black_box(&instrument), 10_000));
}

/// A thousand plans around each document, on all cores: layout, playing and the checks of the plan.
#[divan::bench(args = documents(), sample_count = 3, sample_size = 1)]
fn thousand_plans(bencher: Bencher, name: &str) {
    search(bencher, name, &[]);
}

/// The same with the instruments drawn by lot that tell how low the strings may be.
#[divan::bench(args = documents(), sample_count = 3, sample_size = 1)]
fn thousand_plans_with_buzz(bencher: Bencher, name: &str) {
    search(bencher, name, &["safe-action"]);
}

fn search(bencher: Bencher, name: &str, best: &[&str]) {
    let base = Base::of(&document(&text_of(name))).expect("a sound document");
    let axes = ["tail.hole_height=-2 mm..2.9 mm:0.1 mm", "heel.reach=20 mm..39 mm:1 mm"];
    let question = Question {
        axes: axes.iter().map(|text| Axis::parse(&base, text).expect("values")).collect(),
        best: best.iter().map(|name| Question::measure(name).expect("a measure")).collect(),
        told: 1,
        ..Question::default()
    };
    bencher.bench(|| explore(black_box(&base), &question, &Player::default()));
}

#[divan::bench]
fn make_parts(bencher: Bencher) {
    let instrument = instrument(SIX_STRINGS);
    bencher.bench(|| parts::parts(black_box(instrument.layout())));
}

/// All that the checks look at is worked out anew.
#[divan::bench]
fn find(bencher: Bencher) {
    let layout = instrument(SIX_STRINGS).layout().clone();
    bencher
        .with_inputs(|| Subject::new(layout.clone(), Player::default()))
        .bench_refs(|subject| fit::findings(subject));
}

/// Every file of the six-string instrument and of each document of `specs/`, from the text on.
#[divan::bench(args = documents())]
fn whole_build(bencher: Bencher, name: &str) {
    let text = text_of(name);
    bencher.bench(|| files(&instrument(black_box(&text)), &MakeOptions::default()));
}

/// The search for what cures each of its ten warnings, on all cores.
#[divan::bench]
fn mend(bencher: Bencher) {
    let instrument = instrument(SIX_STRINGS);
    black_box(instrument.findings());
    bencher.with_inputs(|| instrument.clone()).bench_refs(|instrument| instrument.remedies().len());
}

/// One format of the six-string instrument, when all that is told in it is known.
#[divan::bench(args = Format::all().map(Format::name))]
fn format(bencher: Bencher, name: &str) {
    let instrument = instrument(SIX_STRINGS);
    let options =
        MakeOptions { formats: Format::named(name).into_iter().collect(), ..MakeOptions::default() };
    black_box(instrument.remedies());
    bencher.bench(|| files(black_box(&instrument), &options));
}

/// The floor under a whole build: its bytes are hashed for the manifest, and no more.
#[divan::bench]
fn floor_to_hash(bencher: Bencher) {
    let built = files(&instrument(SIX_STRINGS), &MakeOptions::default()).expect("it can be made");
    bencher.bench(|| {
        for file in &built {
            black_box(Sha256::digest(&file.bytes));
        }
    });
}

/// The floor under a build on the disk: its bytes go into a new folder, and no more.
#[divan::bench]
fn floor_to_write(bencher: Bencher) {
    let built = files(&instrument(SIX_STRINGS), &MakeOptions::default()).expect("it can be made");
    let folder = || tempfile::tempdir().expect("a folder");
    bencher.with_inputs(folder).bench_refs(|folder| {
        for file in &built {
            let path = folder.path().join(&file.path);
            std::fs::create_dir_all(path.parent().expect("it lies in the folder")).expect("a folder");
            std::fs::write(path, &file.bytes).expect("a file");
        }
    });
}

/// A class of 24 with two thicknesses of neck, all files and papers on the disk, on all cores.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn class_of_24(bencher: Bencher) {
    let rows: String = (0..24).map(|row| format!("Student {row},{} mm\n", 19 + row % 2)).collect();
    let roster = Roster::parse(format!("student,neck.thickness\n{rows}").as_bytes());
    let bases = Bases::only(BatchBase::new("six.toml", SIX_STRINGS.as_bytes()));
    let folder = || tempfile::tempdir().expect("a folder");
    let options = BatchOptions { anyway: true, ..BatchOptions::default() };
    bencher.with_inputs(folder).bench_refs(|folder| {
        run(&Class::plan(&roster, &bases), folder.path(), &options, &mut |_| {}).expect("nothing hinders it")
    });
}

/// The templates alone, on both office papers, of an instrument that is ready.
#[divan::bench(args = documents())]
fn templates(bencher: Bencher, name: &str) {
    let instrument = instrument(&text_of(name));
    let options = MakeOptions { formats: BTreeSet::from([Format::Templates]), ..MakeOptions::default() };
    bencher.bench(|| files(black_box(&instrument), &options));
}

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../specs")
}

/// The documents in `specs/` in the order of their names, after the six-string instrument.
fn documents() -> Vec<String> {
    let entries = std::fs::read_dir(folder()).expect("the repository has a folder specs");
    let names: BTreeSet<String> = entries
        .map(|entry| entry.expect("an entry of specs").file_name().to_string_lossy().into_owned())
        .filter(|name| name.ends_with(".toml"))
        .collect();
    std::iter::once("six strings".to_owned()).chain(names).collect()
}

fn text_of(name: &str) -> String {
    if name == "six strings" {
        return SIX_STRINGS.to_owned();
    }
    std::fs::read_to_string(folder().join(name)).expect("the document can be read")
}

/// Cut lists, nested sheets, plates, labels and pages for 24 students with one plan.
#[divan::bench]
fn papers_of_a_class(bencher: Bencher) {
    let stock = document(include_str!("../../../specs/class/stock.toml")).read_stock();
    let stock = stock.value().expect("a sound stock list");
    let enrolment = |student: u32| Enrolment {
        student: format!("student {student}"),
        quantity: 1,
        note: String::new(),
        link: String::new(),
    };
    let first = Member::of(&instrument(""), enrolment(1)).expect("sound parts");
    let members: Vec<Member> = (1..=24).map(|student| first.shared_with(enrolment(student))).collect();
    let options = MakeOptions::default();
    bencher.bench(|| class_papers("class", black_box(&members), &[], Some(stock), &options));
}
