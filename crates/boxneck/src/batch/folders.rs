//! In which folder does each row's instrument go?
//!
//! The folder's name comes from the student's name by [`folder_name`], so that it is a name that every disk knows and never
//! a path. The first row of a name has it; those after it, in the order of the roster, get the lowest number that is free,
//! "anna-2", "anna-3". The same roster gives the same names; the files of the class itself have names that no student's
//! folder gets.

use std::collections::{BTreeMap, BTreeSet};

use super::shard::Shard;
use crate::folder_name::{folder_name, numbered};

/// The folder of the class's own files, beside those of its students.
pub const CLASS_FOLDER: &str = "class";

/// One folder a name, in the same order, all different.
pub(super) fn unique_folders<'n>(names: impl Iterator<Item = &'n str>) -> Vec<String> {
    let mut folders: Vec<String> = names.map(own_name).collect();
    let mut taken: BTreeSet<String> = folders.iter().cloned().collect();
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    for folder in &mut folders {
        let count = seen.entry(folder.clone()).or_insert(0);
        *count += 1;
        if *count == 1 {
            continue;
        }
        let name = folder.clone();
        loop {
            *folder = numbered(&name, *count);
            if taken.insert(folder.clone()) {
                break;
            }
            *count += 1;
        }
    }
    folders
}

/// The folder of a name, as long as nobody else has it.
fn own_name(name: &str) -> String {
    let folder = folder_name(name);
    let is_ours = folder == CLASS_FOLDER || Shard::of_folder(&folder).is_some();
    if is_ours { format!("student-{folder}") } else { folder }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(names: &[&str], expected: &[&str]) {
        assert_eq!(unique_folders(names.iter().copied()), expected, "the folders of {names:?}");
    }

    #[test]
    fn the_first_keeps_the_name() {
        check(&["Anna", "anna", "ANNA"], &["anna", "anna-2", "anna-3"]);
        check(&["Anna", "Anna", "Anna 2"], &["anna", "anna-3", "anna-2"]);
    }

    #[test]
    fn names_of_the_class_are_kept_free() {
        check(
            &["Class", "class", "Shard 1 of 2"],
            &["student-class", "student-class-2", "student-shard-1-of-2"],
        );
    }

    #[test]
    fn no_name_leaves_the_folder() {
        check(&["../../x", "/x", "C:\\x", "..", ""], &["x", "x-2", "c-x", "instrument", "instrument-2"]);
    }

    #[test]
    fn long_names_stay_short_and_different() {
        let name = "a".repeat(10_000);
        let folders = unique_folders([&*name, &*name].into_iter());
        assert!(folders.iter().all(|folder| folder.len() <= 60), "{folders:?}");
        assert_ne!(folders[0], folders[1], "two folders");
    }

    #[test]
    fn a_hundred_thousand_of_one_name_are_numbered_at_once() {
        let folders = unique_folders(std::iter::repeat_n("Anna", 100_000));
        assert_eq!(folders[99_999], "anna-100000", "the last of them");
    }
}
