//! What does each column give?

use spec::{KeyKind, key_at, keys_near};

use super::limits;
use crate::batch::fault::RosterFault;

/// A column of the roster.
#[derive(Clone, Debug)]
pub(super) struct Column {
    place: usize,
    heading: String,
    pub(super) meaning: Meaning,
    /// Whether anything stands under a heading that says nothing.
    pub(super) has_cells: bool,
    /// Whether its fault was told.
    pub(super) is_told: bool,
}

/// What the cells of a column are.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Meaning {
    Student,
    Quantity,
    Note,
    Base,
    /// The value of a dotted key.
    Key(String),
    /// Nothing that can be told.
    Nothing,
}

/// The columns that are no keys of a document.
const WORDS: [(&str, Meaning); 4] = [
    ("student", Meaning::Student),
    ("quantity", Meaning::Quantity),
    ("note", Meaning::Note),
    ("base", Meaning::Base),
];

impl Column {
    /// "C (neck.thickness)".
    pub(super) fn shown(&self) -> String {
        format!("{} ({})", self.letters(), self.heading)
    }

    /// "C", as a spreadsheet letters it.
    pub(super) fn letters(&self) -> String {
        let mut letters = Vec::new();
        let mut rest = self.place + 1;
        while rest > 0 {
            rest -= 1;
            // The remainder by 26 fits a byte.
            letters.push(b'A' + (rest % 26) as u8);
            rest /= 26;
        }
        letters.iter().rev().map(|letter| char::from(*letter)).collect()
    }
}

/// The columns of a heading in row `number`, with what is wrong with them.
pub(super) fn columns(heading: &[String], number: usize, faults: &mut Vec<RosterFault>) -> Vec<Column> {
    let last = heading.iter().rposition(|cell| !cell.trim().is_empty()).map_or(0, |last| last + 1);
    if last > limits::COLUMNS {
        let message = format!("expected at most {} columns, found {last}", limits::COLUMNS);
        faults.push(RosterFault::of_roster(message, "what all have alike stands in the base").in_row(number));
    }
    let mut columns: Vec<Column> = Vec::new();
    for (place, cell) in heading.iter().enumerate().take(limits::COLUMNS) {
        let heading: String = cell.trim().chars().filter(|letter| !letter.is_control()).collect();
        let lower = heading.to_lowercase();
        let meaning = meaning(&lower);
        let column = Column { place, heading, meaning, has_cells: false, is_told: !lower.is_empty() };
        let shown = column.shown();
        let twice = columns
            .iter()
            .find(|other| column.meaning != Meaning::Nothing && other.meaning == column.meaning);
        if let Some(other) = twice {
            let message = format!("expected each column once, found it in {} already", other.letters());
            let fault = RosterFault::of_roster(message, "keep one of the two");
            faults.push(fault.in_row(number).in_column(shown));
        } else if column.meaning == Meaning::Nothing && !lower.is_empty() {
            faults.push(unknown(&lower).in_row(number).in_column(shown));
        }
        columns.push(column);
    }
    columns
}

/// How many columns there are up to the last that has a heading.
pub(super) fn named(columns: &[Column]) -> usize {
    columns.iter().rposition(|column| !column.heading.is_empty()).map_or(0, |last| last + 1)
}

fn meaning(heading: &str) -> Meaning {
    if let Some((_, meaning)) = WORDS.iter().find(|(word, _)| *word == heading) {
        return meaning.clone();
    }
    let is_item = heading.rsplit_once('.').is_some_and(|(list, item)| {
        item.parse::<usize>().is_ok_and(|item| item > 0)
            && key_at(list).is_some_and(|key| key.kind == KeyKind::Sections)
    });
    let is_key = is_item || key_at(heading).is_some();
    if is_key { Meaning::Key(heading.to_owned()) } else { Meaning::Nothing }
}

fn unknown(heading: &str) -> RosterFault {
    let shown: String = heading.chars().take(60).collect();
    let word = WORDS.iter().map(|(word, _)| *word).find(|word| {
        let (short, long) = if word.len() < heading.len() { (*word, heading) } else { (heading, *word) };
        short.len() >= 3 && long.contains(short)
    });
    let near = keys_near(heading, 3);
    let named: Vec<&str> = word.into_iter().chain(near.iter().map(String::as_str)).collect();
    let hint = if named.is_empty() {
        "a column is student, quantity, note, base or a dotted key of the document; `boxneck schema` lists these".to_owned()
    } else {
        format!("did you mean {}?", named.join(" or "))
    };
    RosterFault::of_roster(format!("expected the name of a column, found \"{shown}\""), hint)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(heading: &str) -> Vec<String> {
        let cells: Vec<String> = heading.split(',').map(str::to_owned).collect();
        let mut faults = Vec::new();
        columns(&cells, 1, &mut faults);
        faults.iter().map(ToString::to_string).collect()
    }

    #[test]
    fn keys_and_words_are_known() {
        let sound =
            "Student, QUANTITY ,note,base,neck.thickness,strings.2.pitch,strings.4,box.holes,name,handed,";
        assert_eq!(told(sound), Vec::<String>::new(), "every one of them");
    }

    #[test]
    fn the_nearest_name_is_told() {
        for (heading, expected) in [
            ("neck.thicknes", "did you mean neck.thickness"),
            ("thickness", "neck.thickness"),
            ("students", "did you mean student"),
            ("strings.2.pich", "did you mean strings.2.pitch"),
            ("colour of the wool", "dotted key"),
        ] {
            let told = told(&format!("student,{heading}"));
            assert_eq!(told.len(), 1, "{told:?}");
            assert!(told[0].starts_with("row 1, column B (") && told[0].contains(expected), "{told:?}");
        }
    }

    #[test]
    fn a_column_stands_once() {
        let told = told("student,neck.thickness,Neck.Thickness");
        assert!(
            told[0].contains("column C (Neck.Thickness)") && told[0].contains("in B already"),
            "{told:?}"
        );
    }

    #[test]
    fn columns_are_lettered_as_in_a_spreadsheet() {
        let letters = |place| {
            let heading = String::new();
            Column { place, heading, meaning: Meaning::Nothing, has_cells: false, is_told: false }.letters()
        };
        assert_eq!([0, 25, 26, 701, 702].map(letters), ["A", "Z", "AA", "ZZ", "AAA"], "letters");
    }
}
