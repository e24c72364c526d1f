//! From a spreadsheet's bytes to rows of cells.

use std::borrow::Cow;

use csv::{Reader, ReaderBuilder, StringRecord};

use super::limits;
use crate::batch::fault::RosterFault;

/// The text in these bytes.
pub(super) fn decoded(bytes: &[u8]) -> Result<Cow<'_, str>, RosterFault> {
    if bytes.len() > limits::ROSTER_BYTES {
        return Err(RosterFault::of_roster(
            format!("expected a roster of at most {} bytes, found {}", limits::ROSTER_BYTES, bytes.len()),
            "make a roster of each part of it, each into a folder of its own",
        ));
    }
    let wide = |bytes: &[u8], unit: fn([u8; 2]) -> u16| {
        let units = bytes.as_chunks().0.iter().map(|pair| unit(*pair));
        char::decode_utf16(units)
            .collect::<Result<String, _>>()
            .map(Cow::Owned)
            .map_err(|_| RosterFault::of_roster("expected UTF-16 text, found something else", SAVE_AS))
    };
    match bytes {
        [0xff, 0xfe, rest @ ..] => wide(rest, u16::from_le_bytes),
        [0xfe, 0xff, rest @ ..] => wide(rest, u16::from_be_bytes),
        [0xef, 0xbb, 0xbf, rest @ ..] => narrow(rest),
        _ => narrow(bytes),
    }
}

const SAVE_AS: &str = "save the spreadsheet as CSV with the encoding UTF-8";

fn narrow(bytes: &[u8]) -> Result<Cow<'_, str>, RosterFault> {
    std::str::from_utf8(bytes).map(Cow::Borrowed).map_err(|fault| {
        let before = &bytes[..fault.valid_up_to()];
        let line = before.iter().filter(|byte| **byte == b'\n').count() + 1;
        let found = bytes[fault.valid_up_to()];
        RosterFault::of_roster(format!("expected UTF-8 text, found byte 0x{found:02x}"), SAVE_AS).in_row(line)
    })
}

/// The rows of a text, one by one, with their numbers.
pub(super) struct Lines<'t> {
    text: &'t str,
    separator: u8,
    reader: Reader<&'t [u8]>,
    /// The rows before `text` begins.
    before: usize,
    /// The number of the row read last.
    number: usize,
    record: StringRecord,
}

impl<'t> Lines<'t> {
    pub(super) fn of(text: &'t str) -> Self {
        let (separator, text, before) = match text.lines().next().and_then(|line| line.strip_prefix("sep=")) {
            Some(told) if told.len() == 1 => {
                (told.as_bytes()[0], text.split_once('\n').map_or("", |(_, rest)| rest), 1)
            }
            _ => (separator(text), text, 0),
        };
        let reader = ReaderBuilder::new()
            .delimiter(separator)
            .flexible(true)
            .has_headers(false)
            .from_reader(text.as_bytes());
        Self { text, separator, reader, before, number: before, record: StringRecord::new() }
    }

    /// What stands between cells.
    pub(super) const fn separator(&self) -> u8 {
        self.separator
    }

    /// The next row that is not empty: its number in the spreadsheet, and its cells.
    pub(super) fn next_row(&mut self) -> Result<Option<(usize, Vec<String>)>, RosterFault> {
        loop {
            let start = self.reader.position().byte() as usize;
            let is_read = self.reader.read_record(&mut self.record).map_err(|fault| {
                RosterFault::of_roster(format!("expected rows of cells, found a fault: {fault}"), SAVE_AS)
            })?;
            if !is_read {
                return Ok(None);
            }
            self.number += 1 + self.blank_lines(start);
            let is_last = self.reader.position().byte() as usize >= self.text.len();
            if is_last && is_open(&self.text[start..], self.separator) {
                let message =
                    "expected a quote at the end of a cell that begins with one, found the end of the roster";
                return Err(RosterFault::of_roster(message, UNCLOSED).in_row(self.number));
            }
            let too_long = |cell: &&str| cell.chars().nth(limits::CELL_CHARACTERS).is_some();
            if let Some(cell) = self.record.iter().find(too_long) {
                let fault = RosterFault::of_roster(
                    format!(
                        "expected a cell of at most {} characters, found {}",
                        limits::CELL_CHARACTERS,
                        cell.chars().count()
                    ),
                    UNCLOSED,
                );
                return Err(fault.in_row(self.number));
            }
            if self.record.iter().any(|cell| !cell.trim().is_empty()) {
                return Ok(Some((self.number, self.record.iter().map(str::to_owned).collect())));
            }
        }
    }

    /// How many lines with nothing on them the reader passed over from `start`.
    fn blank_lines(&self, start: usize) -> usize {
        let rest = self.text.as_bytes().get(start..).unwrap_or_default();
        let is_first = self.number == self.before;
        // The second half of the line break that ended the row before.
        let rest = if is_first { rest } else { rest.strip_prefix(b"\n").unwrap_or(rest) };
        let breaks = rest.iter().take_while(|byte| matches!(byte, b'\r' | b'\n'));
        breaks.filter(|byte| **byte == b'\n').count()
    }
}

const UNCLOSED: &str = "a quote that is opened and not closed takes in all the rows after it";

/// Whether rows end within quotes.
fn is_open(text: &str, separator: u8) -> bool {
    let (mut is_quoted, mut may_open) = (false, true);
    for byte in text.bytes() {
        let is_quote = byte == b'"';
        // A quote that is doubled within quotes closes them and opens them again.
        if is_quote && (is_quoted || may_open) {
            is_quoted = !is_quoted;
            may_open = true;
        } else {
            may_open = !is_quoted && (byte == separator || matches!(byte, b'\r' | b'\n'));
        }
    }
    is_quoted
}

/// What the first row has most of outside quotes; a comma where it has none.
fn separator(text: &str) -> u8 {
    let mut counts = [(b';', 0), (b'\t', 0), (b',', 0)];
    let mut is_quoted = false;
    for byte in text.trim_start_matches(['\r', '\n']).bytes() {
        match byte {
            b'"' => is_quoted = !is_quoted,
            b'\r' | b'\n' if !is_quoted => break,
            _ if is_quoted => {}
            _ => counts.iter_mut().filter(|(mark, _)| *mark == byte).for_each(|(_, count)| *count += 1),
        }
    }
    let most = counts.iter().map(|(_, count)| *count).max().unwrap_or(0);
    // A comma within a heading of semicolons is likelier than the other way round.
    counts.iter().find(|(_, count)| *count == most && most > 0).map_or(b',', |(mark, _)| *mark)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: &[(usize, &[&str])]) {
        let mut lines = Lines::of(text);
        let mut found = Vec::new();
        while let Some(row) = lines.next_row().expect("readable") {
            found.push(row);
        }
        let expected: Vec<(usize, Vec<String>)> = expected
            .iter()
            .map(|(number, cells)| (*number, cells.iter().map(|cell| (*cell).to_owned()).collect()))
            .collect();
        assert_eq!(found, expected, "{text:?}");
    }

    #[test]
    fn rows_are_numbered_as_the_spreadsheet_does() {
        check("a,b\r\n1,2\r\n\r\n3,4\r\n", &[(1, &["a", "b"]), (2, &["1", "2"]), (4, &["3", "4"])]);
        check("\n\na;b\n;\n1;2", &[(3, &["a", "b"]), (5, &["1", "2"])]);
        check("a,b\n\"1\n1\",2\n3,4\n", &[(1, &["a", "b"]), (2, &["1\n1", "2"]), (3, &["3", "4"])]);
        check("sep=;\r\na;b\r\n1;2\r\n", &[(2, &["a", "b"]), (3, &["1", "2"])]);
    }

    #[test]
    fn the_heading_tells_what_stands_between_cells() {
        for (text, expected) in [
            ("student,note", b','),
            ("student;\"a, b, c\"", b';'),
            ("student\tnote\t;", b'\t'),
            ("student", b','),
            ("", b','),
        ] {
            assert_eq!(separator(text), expected, "{text:?}");
        }
    }

    #[test]
    fn every_encoding_of_a_spreadsheet_is_read() {
        let text = "student\nZo\u{eb}\n";
        let little: Vec<u8> =
            [0xff, 0xfe].into_iter().chain(text.encode_utf16().flat_map(u16::to_le_bytes)).collect();
        let big: Vec<u8> =
            [0xfe, 0xff].into_iter().chain(text.encode_utf16().flat_map(u16::to_be_bytes)).collect();
        let marked = format!("\u{feff}{text}");
        for bytes in [&little[..], &big, marked.as_bytes(), text.as_bytes()] {
            assert_eq!(decoded(bytes).expect("readable"), text, "{bytes:?}");
        }
        let fault = decoded(b"student\nZo\xeb\n").expect_err("one byte a letter");
        assert_eq!(fault.row, Some(2), "{fault}");
        assert!(fault.hints[0].contains("UTF-8"), "{fault}");
    }
}
