//! Which known name did the person probably mean?

/// The known names nearest to `word` first, at most `most` of them; none when nothing is near.
///
/// Case, spaces, hyphens and underscores do not count. A name is near when one edit in three letters makes it.
pub(crate) fn nearest<'n>(word: &str, names: impl IntoIterator<Item = &'n str>, most: usize) -> Vec<&'n str> {
    let plain_word = plain(word);
    if plain_word.is_empty() || plain_word.len() > crate::limits::VALUE_CHARACTERS * 4 {
        return Vec::new();
    }
    let mut near: Vec<(usize, &str)> = names
        .into_iter()
        .filter_map(|name| {
            let plain_name = plain(name);
            let edits = strsim::damerau_levenshtein(&plain_word, &plain_name);
            let part = plain_word.len() >= 4
                && (plain_name.contains(&plain_word) || plain_word.contains(&plain_name));
            let letters = plain_word.chars().count().max(plain_name.chars().count());
            (edits * 3 <= letters || part).then_some((edits, name))
        })
        .collect();
    near.sort();
    near.dedup();
    near.into_iter().take(most).map(|(_, name)| name).collect()
}

/// Names joined for a sentence: "a", "a" or "b", "a", "b" or "c"; each in double quotes.
pub(crate) fn quoted_list<'n>(names: impl IntoIterator<Item = &'n str>) -> String {
    let quoted: Vec<String> = names.into_iter().map(|name| format!("\"{name}\"")).collect();
    match quoted.split_last() {
        None => String::new(),
        Some((only, [])) => only.clone(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
    }
}

/// The letters and digits of a name, in lower case: what counts when names are compared.
pub(crate) fn plain(word: &str) -> String {
    word.chars().filter(|letter| letter.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(word: &str, expected: &[&str]) {
        let names = ["thickness", "width_at_nut", "width_at_box", "wood"];
        assert_eq!(nearest(word, names, 2), expected, "names near {word:?}");
    }

    #[test]
    fn a_slip_of_the_finger() {
        check("thicknes", &["thickness"]);
        check("Wood", &["wood"]);
        check("width", &["width_at_box", "width_at_nut"]);
    }

    #[test]
    fn nothing_near_is_nothing() {
        check("colour", &[]);
        check("", &[]);
        check("--", &[]);
    }

    #[test]
    fn lists_read_as_sentences() {
        assert_eq!(quoted_list(["a"]), "\"a\"", "one name");
        assert_eq!(quoted_list(["a", "b", "c"]), "\"a\", \"b\" or \"c\"", "three names");
    }
}
