//! How is text written inside XML?

/// Text as it stands in an XML element or attribute; characters that XML cannot hold become U+FFFD.
pub(crate) fn escaped(text: &str) -> String {
    let mut written = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => written.push_str("&amp;"),
            '<' => written.push_str("&lt;"),
            '>' => written.push_str("&gt;"),
            '"' => written.push_str("&quot;"),
            '\t' | '\n' => written.push(' '),
            '\u{0}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => written.push('\u{fffd}'),
            other => written.push(other),
        }
    }
    written
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: &str) {
        assert_eq!(escaped(text), expected, "{text:?} in markup");
    }

    #[test]
    fn markup_in_a_name_stays_text() {
        check("<b>&\"x\"", "&lt;b&gt;&amp;&quot;x&quot;");
    }

    #[test]
    fn control_characters_do_not_break_the_file() {
        check("a\u{0}b\u{1b}c\nd", "a\u{fffd}b\u{fffd}c d");
    }

    #[test]
    fn other_scripts_pass() {
        check("Größe ½ 弦", "Größe ½ 弦");
    }
}
