//! How are the columns of a table set, and what becomes of them on a narrow screen?

use crate::table::Table;

/// The longest text that is kept in one line of a table.
const ONE_LINE: usize = 28;

/// The letters that a phone held upright has room for, side by side.
const NARROW: usize = 44;

/// Letters between two columns, as wide as the space there.
const BETWEEN: usize = 2;

/// The most rows that become lists on a narrow screen; more are easier to compare down their columns.
const MOST_STACKED: usize = 16;

/// Whether rows become lists on a narrow screen: the columns have no room side by side, and the rows are few.
pub(super) fn may_stack(table: &Table) -> bool {
    is_wide(table) && table.rows.len() <= MOST_STACKED
}

fn is_wide(table: &Table) -> bool {
    let word = |text: &String| text.split_whitespace().map(|word| word.chars().count()).max().unwrap_or(0);
    let column = |column: usize| {
        let cells = table.rows.iter().map(|row| row[column].chars().count());
        let longest = cells.max().unwrap_or(0).min(ONE_LINE);
        longest.max(word(&table.heading[column])) + BETWEEN
    };
    (0..table.heading.len()).map(column).sum::<usize>() > NARROW
}

/// How a column is set.
pub(super) fn class(table: &Table, column: usize) -> &'static str {
    let longest = table.rows.iter().map(|row| row[column].chars().count()).max().unwrap_or(0);
    match longest {
        _ if table.is_of_numbers(column) => "number",
        ..=ONE_LINE => "short",
        _ => "long",
    }
}
