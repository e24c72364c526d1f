//! How does a table become a CSV file that any spreadsheet takes as it is meant?
//!
//! By RFC 4180: commas, CRLF after every record, cells in double quotes where they hold a comma, a quote or a line
//! break, quotes within doubled. A spreadsheet takes a cell that begins with `=`, `+`, `-` or `@` for a formula, with
//! quotes or without, and text from a document must not become one: such a cell gets an apostrophe in front, as does one
//! that begins with a tab or a line break. A plain number, negative ones too, stays as it is.

use crate::ExportFault;

/// A table as it is to be read: text and numbers already written out.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Table {
    /// What is in each column.
    pub heading: Vec<String>,
    /// As many cells each as the heading.
    pub rows: Vec<Vec<String>>,
}

impl Table {
    /// Whether all that is said in a column is a number, with at most a sign and a unit of one word: "3", "-1.5 mm".
    #[must_use]
    pub fn is_of_numbers(&self, column: usize) -> bool {
        let mut said =
            self.rows.iter().filter_map(|row| row.get(column)).filter(|cell| !cell.is_empty()).peekable();
        said.peek().is_some()
            && said.all(|cell| {
                let (number, unit) = cell.split_once(' ').unwrap_or((cell, ""));
                is_number(number) && !unit.contains(|letter: char| letter == ' ' || letter.is_ascii_digit())
            })
    }
}

/// A table as the text of a CSV file, in UTF-8 without a mark in front.
///
/// - **Errors**: [`ExportFault::RaggedTable`] for the first row that does not fit the heading.
///
/// ```
/// use boxneck_export::table::{Table, write};
///
/// let table = Table {
///     heading: vec!["part".into(), "size".into()],
///     rows: vec![vec!["side, long".into(), "3/4\"".into()]],
/// };
/// let text = write(&table)?;
/// assert_eq!(text, "part,size\r\n\"side, long\",\"3/4\"\"\"\r\n", "commas and quotes are quoted");
/// # Ok::<(), boxneck_export::ExportFault>(())
/// ```
pub fn write(table: &Table) -> Result<String, ExportFault> {
    let expected = table.heading.len();
    let mut text = record(&table.heading);
    for (place, row) in table.rows.iter().enumerate() {
        if row.len() != expected {
            return Err(ExportFault::RaggedTable { row: place + 1, expected, found: row.len() });
        }
        text.push_str(&record(row));
    }
    Ok(text)
}

fn record(cells: &[String]) -> String {
    let cells: Vec<_> = cells.iter().map(|text| cell(text)).collect();
    // A record of one empty cell would read as no record at all.
    if cells.len() == 1 && cells[0].is_empty() { "\"\"\r\n".into() } else { cells.join(",") + "\r\n" }
}

fn cell(text: &str) -> String {
    let like_a_formula = text.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']) && !is_number(text);
    let harmless = if like_a_formula { format!("'{text}") } else { text.to_owned() };
    if harmless.contains([',', '"', '\r', '\n']) {
        format!("\"{}\"", harmless.replace('"', "\"\""))
    } else {
        harmless
    }
}

/// Digits with at most one decimal point, after at most one sign.
fn is_number(text: &str) -> bool {
    let digits = text.strip_prefix(['-', '+']).unwrap_or(text);
    digits.contains(|c: char| c.is_ascii_digit())
        && digits.matches('.').count() <= 1
        && digits.chars().all(|c| c.is_ascii_digit() || c == '.')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: &str) {
        assert_eq!(cell(text), expected, "the cell {text:?}");
    }

    #[test]
    fn plain_text_stays_plain() {
        check("hard maple", "hard maple");
        check("Ø 8 mm", "Ø 8 mm");
        check("", "");
    }

    #[test]
    fn commas_quotes_and_line_breaks_are_quoted() {
        check("12, 14", "\"12, 14\"");
        check("3/4\"", "\"3/4\"\"\"");
        check("two\nlines", "\"two\nlines\"");
    }

    #[test]
    fn a_formula_is_made_text() {
        check("=1+1", "'=1+1");
        check("+cmd", "'+cmd");
        check("-2+3", "'-2+3");
        check("@sum(a1)", "'@sum(a1)");
        check("\t=1", "'\t=1");
        check("=\"a\"", "\"'=\"\"a\"\"\"");
        check("-", "'-");
        check("-1.2.3", "'-1.2.3");
    }

    #[test]
    fn a_negative_number_stays_one() {
        check("-0.5", "-0.5");
        check("-12", "-12");
        check("+3", "+3");
    }

    #[test]
    fn a_column_of_numbers_is_known() {
        let rows = [["-1.5 mm", "1 of 2", "12", ""], ["+3 mm", "7", "a", ""]];
        let rows = rows.map(|row| row.map(String::from).to_vec()).to_vec();
        let table = Table { heading: Vec::new(), rows };
        let found: Vec<bool> = (0..4).map(|column| table.is_of_numbers(column)).collect();
        assert_eq!(found, [true, false, false, false], "signs and units pass, words and nothing do not");
    }

    #[test]
    fn records_end_in_crlf() {
        let table =
            Table { heading: vec!["part".into(), "mm".into()], rows: vec![vec!["nut".into(), "-1".into()]] };
        assert_eq!(write(&table), Ok("part,mm\r\nnut,-1\r\n".into()), "a table of one row");
    }

    #[test]
    fn a_single_empty_cell_is_still_a_record() {
        let table = Table { heading: vec!["note".into()], rows: vec![vec![String::new()]] };
        assert_eq!(write(&table), Ok("note\r\n\"\"\r\n".into()), "a row of one empty cell");
    }

    #[test]
    fn a_short_row_is_refused() {
        let table = Table { heading: vec!["a".into(), "b".into()], rows: vec![vec!["1".into()]] };
        let expected = ExportFault::RaggedTable { row: 1, expected: 2, found: 1 };
        assert_eq!(write(&table), Err(expected), "a row of one cell under two headings");
    }
}
