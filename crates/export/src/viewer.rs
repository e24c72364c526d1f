//! How does a page show a model in space, without a network and without a library?
//!
//! A *view* is a page element that carries a GLB file as text. A page that has one or more of them has [`STYLE`] and
//! [`SCRIPT`] once; where there is no script or no WebGL 2, the still picture that the element came with stays in place.

use std::fmt::Write;

use crate::markup::escaped;

/// The style sheet of views, for a `<style>` element of the page.
pub const STYLE: &str = include_str!("viewer/viewer.css");

/// The script that brings every view of the page to life, for a `<script>` element anywhere in it.
pub const SCRIPT: &str = include_str!("viewer/viewer.js");

/// A model in a page.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    /// What it shows, for those who cannot see it.
    pub label: &'a str,
    /// Markup of what stands there where there is no script: a still picture, or a sentence.
    pub still: &'a str,
    /// The model as a GLB file: [`crate::gltf::write`].
    pub model: &'a [u8],
}

/// The element of a view: a `<figure>` of class `model-in-space`.
#[must_use]
pub fn element(view: &View<'_>) -> String {
    format!(
        "<figure class=\"model-in-space\" data-label=\"{}\">\n<div data-still>{}</div>\n\
         <figcaption>Drag to turn, with shift to move; wheel or pinch to come nearer; double click to begin \
         again.</figcaption>\n<script type=\"text/plain\" data-model>{}</script>\n</figure>\n",
        escaped(view.label),
        view.still,
        base64(view.model)
    )
}

/// A page of its own for one view. It asks for nothing from anywhere.
#[must_use]
pub fn page(title: &str, view: &View<'_>) -> String {
    let title = escaped(title);
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; script-src 'unsafe-inline'; \
         style-src 'unsafe-inline'\">\n<title>{title}</title>\n<style>\n\
         :root {{ color-scheme: light dark; font-family: system-ui, sans-serif; }}\n\
         body {{ margin: 1rem auto; max-width: 80rem; padding: 0 1rem; }}\n{STYLE}</style>\n</head>\n<body>\n\
         <h1>{title}</h1>\n{}<script>\n{SCRIPT}</script>\n</body>\n</html>\n",
        element(view)
    )
}

/// Bytes as text, in lines of 120 letters.
///
/// - **Source**: RFC 4648, section 4.
fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::with_capacity(bytes.len() * 27 / 20 + 4);
    for (index, three) in bytes.chunks(3).enumerate() {
        if index % 30 == 0 && index > 0 {
            text.push('\n');
        }
        let [a, b, c] = [0, 1, 2].map(|at| u32::from(three.get(at).copied().unwrap_or(0)));
        let bits = a << 16 | b << 8 | c;
        for place in 0..4 {
            let letter = LETTERS[(bits >> (18 - 6 * place) & 63) as usize];
            // Writing to a string cannot fail.
            let _ = text.write_char(if place > three.len() { '=' } else { char::from(letter) });
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(bytes: &str, expected: &str) {
        assert_eq!(base64(bytes.as_bytes()), expected, "{bytes:?} as text");
    }

    #[test]
    fn the_published_answers_come_out() {
        // RFC 4648, section 10.
        check("", "");
        check("f", "Zg==");
        check("fo", "Zm8=");
        check("foo", "Zm9v");
        check("foob", "Zm9vYg==");
        check("fooba", "Zm9vYmE=");
        check("foobar", "Zm9vYmFy");
    }

    #[test]
    fn long_text_is_broken_into_lines() {
        let text = base64(&[0; 200]);
        assert_eq!(text.lines().map(str::len).collect::<Vec<_>>(), [120, 120, 28], "letters a line");
    }

    const VIEW: View<'_> = View { label: "\"Porch\" <three>", still: "<svg/>", model: b"glTF" };

    #[test]
    fn an_element_keeps_its_picture_and_its_words_apart_from_markup() {
        let text = element(&VIEW);
        assert!(text.contains("data-label=\"&quot;Porch&quot; &lt;three&gt;\""), "the label: {text}");
        assert!(text.contains("<div data-still><svg/></div>"), "the still picture: {text}");
        assert!(text.contains("data-model>Z2xURg==</script>"), "the model: {text}");
    }

    #[test]
    fn a_page_names_no_other_place() {
        let text = page("Porch", &VIEW);
        for word in ["http://", "https://", "src=", "import(", "eval(", "fetch("] {
            assert!(!text.contains(word), "the page says {word}");
        }
        assert!(!SCRIPT.contains("</"), "the script cannot end its element early");
    }
}
