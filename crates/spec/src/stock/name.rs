//! How a name that a person wrote is found in a table.

use crate::nearest::{nearest, plain, quoted_list};

/// A name that stands in no table, with the names that come nearest.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("expected the name of a {what}, found \"{found}\"")]
pub struct UnknownName {
    /// What the table lists, as "wood".
    pub what: &'static str,
    /// What was written, cut to a readable length.
    pub found: String,
    /// The nearest known names, the nearest first; may be empty.
    pub nearest: Vec<&'static str>,
}

impl UnknownName {
    /// The nearest names as a question, or nothing.
    #[must_use]
    pub fn question(&self) -> Option<String> {
        (!self.nearest.is_empty())
            .then(|| format!("did you mean {}?", quoted_list(self.nearest.iter().copied())))
    }
}

/// The row whose name or alias is `found`; case, spaces and hyphens do not count.
pub(super) fn look_up<Row>(
    what: &'static str,
    found: &str,
    rows: &'static [Row],
    names: impl Fn(&'static Row) -> (&'static str, &'static [&'static str]),
) -> Result<&'static Row, UnknownName> {
    // Letter for letter first: a search reads the same name a hundred thousand times.
    if let Some(row) = rows.iter().find(|row| names(row).0 == found) {
        return Ok(row);
    }
    let wanted = plain(found);
    let known = rows.iter().find(|row| {
        let (name, aliases) = names(row);
        plain(name) == wanted || aliases.iter().any(|alias| plain(alias) == wanted)
    });
    known.ok_or_else(|| {
        let all = rows.iter().flat_map(|row| {
            let (name, aliases) = names(row);
            std::iter::once(name).chain(aliases.iter().copied())
        });
        UnknownName { what, found: found.chars().take(40).collect(), nearest: nearest(found, all, 3) }
    })
}
