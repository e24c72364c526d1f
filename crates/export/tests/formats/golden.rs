//! Is a file still what it was when somebody last looked at it?

use std::fs;
use std::path::Path;

/// Compares text with a file of `tests/golden`; with `BLESS=1` in the environment, writes that file.
#[track_caller]
pub fn check(name: &str, found: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/golden").join(name);
    if std::env::var_os("BLESS").is_some_and(|value| value == "1") {
        fs::write(&path, found).expect("the golden file can be written");
    }
    let expected = fs::read_to_string(&path).expect("the golden file is there; BLESS=1 writes it");
    let difference = expected.lines().zip(found.lines()).enumerate().find(|(_, (old, new))| old != new);
    if let Some((line, (old, new))) = difference {
        panic!("{name} differs first in line {}:\n  was {old}\n  is  {new}\nBLESS=1 accepts it", line + 1);
    }
    assert_eq!(expected.len(), found.len(), "{name} has become longer or shorter; BLESS=1 accepts it");
}
