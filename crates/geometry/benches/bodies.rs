//! How long do the skin, the mesh and the B-rep of a body take?
//!
//! Budget: no mesh of a part over 2 ms, the skin well under 1 ms.

#[allow(dead_code, reason = "the samples are shared with the tests, which use them all")]
#[path = "../tests/bodies/samples.rs"]
mod samples;

use boxneck_geometry::Body;
use divan::{Bencher, black_box};
use units::{ChordTolerance, Length};

const CHORD: ChordTolerance = ChordTolerance::new(Length::mm(0.01));
const BODIES: [&str; 5] = ["prism", "slotted bar", "bored plate", "bored block", "stepped bar"];

fn main() {
    divan::main();
}

fn body(name: &str) -> Body {
    let body = match name {
        "prism" => {
            Body::new(vec![samples::prism_along_x(0.0, 30.0, &samples::rounded(12.0, 8.0, 2.0))], Vec::new())
        }
        "slotted bar" => samples::slotted_bar(24),
        "bored plate" => samples::bored_plate(),
        "bored block" => samples::bored_block(6, 2),
        _ => samples::stepped_bar(40),
    };
    body.expect("a sound sample")
}

#[divan::bench(args = BODIES)]
fn skin(bencher: Bencher, name: &str) {
    let body = body(name);
    bencher.bench(|| black_box(&body).skin());
}

#[divan::bench(args = BODIES)]
fn mesh(bencher: Bencher, name: &str) {
    let body = body(name);
    bencher.bench(|| black_box(&body).mesh(CHORD));
}

#[divan::bench(args = BODIES)]
fn brep(bencher: Bencher, name: &str) {
    let body = body(name);
    bencher.bench(|| black_box(&body).brep());
}
