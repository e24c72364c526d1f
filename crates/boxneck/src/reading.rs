//! How much of a stranger's file is looked at?

use std::fs::File;
use std::io::{self, Read as _};
use std::path::Path;

/// The bytes of a file that may have no more than some; of a larger one that many and one more, by which whoever reads them sees
/// that it is too large. A file without end takes no longer.
///
/// # Errors
///
/// Why the file cannot be read.
pub fn read_at_most(path: &Path, most: usize) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    File::open(path)?.take(most as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_beyond_is_left() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("long.txt");
        std::fs::write(&path, b"0123456789").expect("it can be written");
        for (most, expected) in [(4, "01234"), (9, "0123456789"), (10, "0123456789"), (99, "0123456789")] {
            assert_eq!(read_at_most(&path, most).expect("readable"), expected.as_bytes(), "at most {most}");
        }
    }

    #[test]
    #[cfg(unix)]
    fn a_file_without_end_is_no_trap() {
        let bytes = read_at_most(Path::new("/dev/zero"), 1000).expect("it gives zeros for ever");
        assert_eq!(bytes.len(), 1001, "one more than was wanted");
    }
}
