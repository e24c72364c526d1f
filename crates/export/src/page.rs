//! How do words, tables and figures become one page that can be kept?
//!
//! A page of its own that asks for nothing from anywhere: it forbids the browser every request. It follows the reader's
//! light or dark screen, fits a phone (what is wider than the screen scrolls in a box of its own) and prints. Words are
//! given plain and escaped here, what is to be typed between grave accents; figures are markup that a writer of this crate
//! has made.

mod columns;

use std::fmt::Write;

use crate::ExportFault;
use crate::markup::escaped;
use crate::table::Table;

/// A page that is being written, from top to bottom.
#[derive(Clone, Debug)]
pub struct Page {
    title: String,
    styles: Vec<&'static str>,
    script: Option<&'static str>,
    before_sections: String,
    body: String,
    sections: Vec<String>,
    tables: usize,
}

/// How good or bad news is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// All is well.
    Good,
    /// Worth knowing.
    Note,
    /// Worth mending.
    Warning,
    /// Cannot stay so.
    Failure,
}

/// News: a word that says how good or bad, what it is of, and lines of text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    /// How good or bad.
    pub tone: Tone,
    /// The word for that: meaning does not hang on colour.
    pub word: String,
    /// What it is of; empty where that is plain.
    pub of: String,
    /// What there is to say, a paragraph each.
    pub lines: Vec<String>,
}

/// One of several things of a kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Card {
    /// What it is.
    pub title: String,
    /// Markup of a small picture; empty for none.
    pub picture: String,
    /// What is said of it.
    pub rows: Vec<(String, String)>,
    /// Files that lie beside the page, as paths relative to it; they are named, and linked.
    pub files: Vec<String>,
}

impl Page {
    /// A page with nothing on it but its title.
    #[must_use]
    pub fn new(title: &str) -> Self {
        Self {
            title: title.to_owned(),
            styles: vec![include_str!("page/page.css")],
            script: None,
            before_sections: String::new(),
            body: String::new(),
            sections: Vec::new(),
            tables: 0,
        }
    }

    /// Adds a style sheet, such as [`crate::chart::STYLE`].
    pub fn style(&mut self, style: &'static str) {
        self.styles.push(style);
    }

    /// The script of the page, such as [`crate::viewer::SCRIPT`]; a page without one forbids all scripts.
    pub fn script(&mut self, script: &'static str) {
        self.script = Some(script);
    }

    /// Begins a section, which the list at the top of the page names.
    pub fn section(&mut self, heading: &str) {
        if !self.sections.is_empty() {
            self.put(format_args!("</section>\n"));
        }
        self.sections.push(heading.to_owned());
        let number = self.sections.len();
        self.put(format_args!(
            "<section aria-labelledby=\"section-{number}\">\n<h2 id=\"section-{number}\">{}</h2>\n",
            escaped(heading)
        ));
    }

    /// Begins a part of a section.
    pub fn subsection(&mut self, heading: &str) {
        self.put(format_args!("<h3>{}</h3>\n", escaped(heading)));
    }

    /// A paragraph.
    pub fn paragraph(&mut self, text: &str) {
        self.put(format_args!("<p>{}</p>\n", words(text)));
    }

    /// A list.
    pub fn list<Item: AsRef<str>>(&mut self, items: impl IntoIterator<Item = Item>) {
        let items = items.into_iter().map(|item| format!("<li>{}</li>\n", words(item.as_ref())));
        let items: String = items.collect();
        self.put(format_args!("<ul>\n{items}</ul>\n"));
    }

    /// News.
    pub fn notice(&mut self, notice: &Notice) {
        let tone = match notice.tone {
            Tone::Good => "good",
            Tone::Note => "note",
            Tone::Warning => "warning",
            Tone::Failure => "failure",
        };
        let of = if notice.of.is_empty() {
            String::new()
        } else {
            format!(" <span class=\"of\">{}</span>", escaped(&notice.of))
        };
        let lines: String = notice.lines.iter().map(|line| format!("<p>{}</p>\n", words(line))).collect();
        let word = escaped(&notice.word);
        self.put(format_args!(
            "<div class=\"notice {tone}\">\n<p><span class=\"word\">{word}</span>{of}</p>\n{lines}</div>\n"
        ));
    }

    /// A table under its caption; columns of numbers stand to the right, the first column names its row. Where a narrow
    /// screen has no room for the columns, each row becomes a list; a table of many rows is scrolled there.
    ///
    /// # Errors
    ///
    /// [`ExportFault::RaggedTable`] for the first row that does not fit the heading.
    pub fn table(&mut self, caption: &str, table: &Table) -> Result<(), ExportFault> {
        let expected = table.heading.len();
        if let Some(place) = table.rows.iter().position(|row| row.len() != expected) {
            let found = table.rows[place].len();
            return Err(ExportFault::RaggedTable { row: place + 1, expected, found });
        }
        let class: Vec<&str> = (0..expected).map(|column| columns::class(table, column)).collect();
        let may_stack = columns::may_stack(table);
        let heading: String = table
            .heading
            .iter()
            .zip(&class)
            .map(|(words, class)| format!("<th scope=\"col\" class=\"{class}\">{}</th>", escaped(words)))
            .collect();
        let mut rows = String::new();
        for row in &table.rows {
            rows.push_str("<tr>");
            for (column, (words, class)) in row.iter().zip(&class).enumerate() {
                let (tag, scope) = if column == 0 { ("th", " scope=\"row\"") } else { ("td", "") };
                let of = match &table.heading[column] {
                    heading if may_stack => format!(" data-of=\"{}\"", escaped(heading)),
                    _ => String::new(),
                };
                // Writing to a string cannot fail.
                let _ = write!(rows, "<{tag}{scope} class=\"{class}\"{of}>{}</{tag}>", escaped(words));
            }
            rows.push_str("</tr>\n");
        }
        self.tables += 1;
        let (number, caption) = (self.tables, words(caption));
        let stacks = if may_stack { " class=\"stacks\"" } else { "" };
        // The caption stands outside the box that scrolls, so that it is read whole.
        self.put(format_args!(
            "<p class=\"caption\" id=\"table-{number}\">{caption}</p>\n\
             <div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-labelledby=\"table-{number}\">\n\
             <table{stacks} aria-labelledby=\"table-{number}\">\n<thead><tr>{heading}</tr></thead>\n<tbody>\n{rows}</tbody>\n</table>\n</div>\n"
        ));
        Ok(())
    }

    /// Figures side by side, as many as there is room for: captions and the markup of each.
    pub fn figures(&mut self, figures: impl IntoIterator<Item = (String, String)>) {
        let figures = figures.into_iter().map(|(caption, markup)| {
            format!("<figure>\n<figcaption>{}</figcaption>\n{markup}</figure>\n", escaped(&caption))
        });
        let figures: String = figures.collect();
        self.put(format_args!("<div class=\"figures\">\n{figures}</div>\n"));
    }

    /// A figure that needs the width of a screen, which a narrower one scrolls.
    pub fn wide_figure(&mut self, caption: &str, markup: &str) {
        let caption = escaped(caption);
        self.put(format_args!(
            "<figure>\n<div class=\"scroll wide\" tabindex=\"0\" role=\"region\" aria-label=\"{caption}\">\n{markup}</div>\n\
             <figcaption>{caption}</figcaption>\n</figure>\n"
        ));
    }

    /// Things of a kind, side by side.
    pub fn cards(&mut self, cards: impl IntoIterator<Item = Card>) {
        let cards: String = cards.into_iter().map(|card| card_markup(&card)).collect();
        self.put(format_args!("<div class=\"cards\">\n{cards}</div>\n"));
    }

    /// Markup that a writer of this crate has made, for the screen alone where it would say nothing on paper.
    pub fn for_the_screen(&mut self, markup: &str) {
        self.put(format_args!("<div class=\"not-on-paper\">\n{markup}</div>\n"));
    }

    /// The page as the text of an HTML file.
    #[must_use]
    pub fn finish(mut self) -> String {
        if !self.sections.is_empty() {
            self.put(format_args!("</section>\n"));
        }
        let title = escaped(&self.title);
        let styles = self.styles.concat();
        let scripts = if self.script.is_some() { " script-src 'unsafe-inline';" } else { "" };
        let script = self.script.map_or_else(String::new, |script| format!("<script>\n{script}</script>\n"));
        let contents: String = self
            .sections
            .iter()
            .enumerate()
            .map(|(place, heading)| {
                format!("<li><a href=\"#section-{}\">{}</a></li>\n", place + 1, escaped(heading))
            })
            .collect();
        let contents = if self.sections.len() < 2 {
            String::new()
        } else {
            format!("<nav aria-label=\"Sections\">\n<ul>\n{contents}</ul>\n</nav>\n")
        };
        format!(
            "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
             <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
             <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';{scripts} style-src 'unsafe-inline'\">\n\
             <title>{title}</title>\n<style>\n{styles}</style>\n</head>\n<body>\n<main>\n<h1>{title}</h1>\n\
             {}{contents}{}</main>\n{script}</body>\n</html>\n",
            self.before_sections, self.body,
        )
    }

    /// The list of sections stands before the first one.
    fn put(&mut self, markup: std::fmt::Arguments<'_>) {
        let text = if self.sections.is_empty() { &mut self.before_sections } else { &mut self.body };
        let _ = text.write_fmt(markup);
    }
}

/// Text as markup; what stands between two grave accents is to be typed as it is.
fn words(text: &str) -> String {
    let mut pieces = text.split('`').map(escaped);
    let mut markup = pieces.next().unwrap_or_default();
    while let Some(typed) = pieces.next() {
        let _ = match pieces.next() {
            Some(rest) => write!(markup, "<code>{typed}</code>{rest}"),
            None => write!(markup, "`{typed}"),
        };
    }
    markup
}

fn card_markup(card: &Card) -> String {
    let mut rows = String::new();
    for (what, value) in &card.rows {
        let _ = writeln!(rows, "<dt>{}</dt><dd>{}</dd>", escaped(what), escaped(value));
    }
    if !card.files.is_empty() {
        // How to get there from this page says nothing of what is there.
        let shown = |path: &str| escaped(path.trim_start_matches("../"));
        let links: Vec<String> = card
            .files
            .iter()
            .map(|path| format!("<a href=\"{}\">{}</a>", escaped(path), shown(path)))
            .collect();
        let _ = writeln!(rows, "<dt>files</dt><dd>{}</dd>", links.join("<br>"));
    }
    let title = escaped(&card.title);
    format!("<article class=\"card\">\n<h3>{title}</h3>\n{}<dl>\n{rows}</dl>\n</article>\n", card.picture)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table(rows: &[&[&str]]) -> Table {
        let owned = |row: &[&str]| row.iter().map(|cell| (*cell).to_owned()).collect();
        Table {
            heading: vec!["thing".into(), "mm".into()],
            rows: rows.iter().map(|row| owned(row)).collect(),
        }
    }

    #[test]
    fn words_stay_words() {
        let mut page = Page::new("<b>");
        page.section("A & B");
        page.paragraph("1 < 2");
        page.list(["\"x\"", "call `make <x>` or `"]);
        let text = page.finish();
        for expected in [
            "<h1>&lt;b&gt;</h1>",
            ">A &amp; B</h2>",
            "<p>1 &lt; 2</p>",
            "<li>&quot;x&quot;</li>",
            "<li>call <code>make &lt;x&gt;</code> or `</li>",
        ] {
            assert!(text.contains(expected), "{expected} is in {text}");
        }
    }

    #[test]
    fn a_page_without_a_script_forbids_scripts() {
        let text = Page::new("still").finish();
        assert!(
            text.contains("content=\"default-src 'none'; style-src 'unsafe-inline'\""),
            "the policy: {text}"
        );
        assert!(!text.contains("<script"), "there is no script");
        let mut page = Page::new("lively");
        page.script("let a = 1;\n");
        assert!(
            page.finish().contains("default-src 'none'; script-src 'unsafe-inline';"),
            "scripts of its own"
        );
    }

    #[test]
    fn sections_are_listed_after_what_comes_first() {
        let mut page = Page::new("report");
        page.paragraph("first");
        page.section("one");
        page.section("two");
        let text = page.finish();
        let place = |words: &str| text.find(words).expect("it is there");
        assert!(place("first") < place("<nav"), "what comes first stands before the list");
        assert!(
            place("href=\"#section-2\">two") < place("id=\"section-1\""),
            "the list stands before the sections"
        );
    }

    #[test]
    fn columns_of_numbers_stand_to_the_right() {
        let mut page = Page::new("numbers");
        page.table("sizes", &table(&[&["nut", "3.5"], &["1 of 2", "-7 mm"]])).expect("rows fit the heading");
        let text = page.finish();
        assert!(text.contains("<td class=\"number\">3.5</td>"), "a number: {text}");
        assert!(text.contains("<th scope=\"row\" class=\"short\">nut</th>"), "a name: {text}");
    }

    #[test]
    fn cells_without_room_say_what_they_are() {
        let wide = "more words than a phone has room for";
        let mut page = Page::new("numbers");
        page.table("sizes", &table(&[&[wide, "as wide as a thumb, and half"]]))
            .expect("rows fit the heading");
        let text = page.finish();
        assert!(
            text.contains("<td class=\"short\" data-of=\"mm\">as wide"),
            "by their column's heading: {text}"
        );
    }

    #[test]
    fn a_short_row_is_refused() {
        let fault = ExportFault::RaggedTable { row: 1, expected: 2, found: 1 };
        assert_eq!(Page::new("x").table("y", &table(&[&["nut"]])), Err(fault), "a row of one cell");
    }
}
