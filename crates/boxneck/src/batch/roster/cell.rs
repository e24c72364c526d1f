//! What does one cell say?

use spec::{KeyKind, key_at};

use super::limits;

/// A cell that is not empty.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cell<'c> {
    pub(super) text: &'c str,
    /// Whether a comma within a number is a decimal one: it does not part cells here.
    pub(super) decimal_commas: bool,
}

/// Why a cell cannot be understood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Reading {
    pub(super) message: String,
    pub(super) hint: String,
}

fn misread(message: String, hint: &str) -> Reading {
    Reading { message, hint: hint.to_owned() }
}

const UNCLOSED: &str = "shorten it; a quote that is opened and not closed takes in the rows after it";

impl Cell<'_> {
    /// A name, on one line: a line break in it is a quote that was not closed.
    pub(super) fn name(self, most: usize) -> Result<String, Reading> {
        if self.text.contains(['\n', '\r']) {
            let message = format!("expected a name on one line, found a line break in \"{}\"", self.shown());
            return Err(misread(message, UNCLOSED));
        }
        self.words(most)
    }

    /// Plain words; line breaks become spaces, other control characters than line breaks are shown as U+FFFD.
    pub(super) fn words(self, most: usize) -> Result<String, Reading> {
        let letters = self.text.chars().count();
        if letters > most {
            let message = format!("expected at most {most} characters, found {letters}");
            return Err(misread(message, UNCLOSED));
        }
        let plain = |letter: char| match letter {
            '\n' | '\r' | '\t' => ' ',
            control if control.is_control() => '\u{fffd}',
            plain => plain,
        };
        Ok(self.text.chars().map(plain).collect())
    }

    /// How many instruments.
    pub(super) fn quantity(self) -> Result<u32, Reading> {
        let whole =
            self.text.strip_suffix(".0").or_else(|| self.text.strip_suffix(",0")).unwrap_or(self.text);
        match whole.parse::<u32>() {
            Ok(quantity) if (1..=limits::QUANTITY).contains(&quantity) => Ok(quantity),
            _ => Err(misread(
                format!("expected a whole number from 1 to {}, found \"{}\"", limits::QUANTITY, self.shown()),
                "an empty cell is one; leave the row out for none",
            )),
        }
    }

    /// The value of a key, as an override takes it.
    pub(super) fn value(self, key: &str) -> Result<String, Reading> {
        let Some(kind) = key_at(key).map(|key| key.kind) else { return Ok(self.text.to_owned()) };
        let is_size = matches!(
            kind,
            KeyKind::Length
                | KeyKind::LengthPair
                | KeyKind::Angle
                | KeyKind::Count
                | KeyKind::Wire
                | KeyKind::BoardRadius
        );
        if !is_size {
            return Ok(self.text.to_owned());
        }
        if is_date(self.text) {
            return Err(misread(
                format!("{key}: expected a size, found the date {}", self.shown()),
                "a spreadsheet takes a fraction, as 3/8, for a date: make the column text and write it again, or write 3/8 in with its unit",
            ));
        }
        if !self.decimal_commas {
            return Ok(self.text.to_owned());
        }
        match kind {
            KeyKind::LengthPair if self.text.contains(';') => Ok(points_for_commas(self.text)),
            KeyKind::LengthPair => Ok(self.text.to_owned()),
            _ => Ok(points_for_commas(self.text)),
        }
    }

    /// At most 40 characters of it, for a message.
    fn shown(self) -> String {
        let plain = |letter: char| if letter.is_control() { '\u{fffd}' } else { letter };
        self.text.chars().take(40).map(plain).collect()
    }
}

/// A comma between two digits becomes a point, where there is one of it in its number and no point.
fn points_for_commas(text: &str) -> String {
    let is_of_number = |letter: &char| letter.is_ascii_digit() || matches!(letter, ',' | '.');
    let mut written = String::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let length = if is_of_number(&first) {
            rest.find(|letter| !is_of_number(&letter)).unwrap_or(rest.len())
        } else {
            first.len_utf8()
        };
        let (run, after) = rest.split_at(length);
        let inner = run.trim_start_matches(',').trim_end_matches(',');
        let is_decimal = inner.len() == run.len() && run.matches(',').count() == 1 && !run.contains('.');
        written.push_str(&if is_decimal { run.replace(',', ".") } else { run.to_owned() });
        rest = after;
    }
    written
}

/// Whether a spreadsheet made a date of it: 2026-08-03, 03.08.2026, 8/3/26, 3-Aug, Aug-03, 3. Aug.
fn is_date(text: &str) -> bool {
    const MONTHS: [&str; 17] = [
        "jan", "feb", "mar", "mär", "apr", "may", "mai", "jun", "jul", "aug", "sep", "oct", "okt", "nov",
        "dec", "dez", "dic",
    ];
    let text = text.to_lowercase();
    // A time of day may follow.
    let day = match text.split_once([' ', 't']) {
        Some((day, time)) if time.contains(':') => day,
        _ => &text,
    };
    let parts: Vec<&str> = day.split(['-', '/', '.', ' ']).filter(|part| !part.is_empty()).collect();
    let is_number = |part: &&str| part.len() <= 4 && part.bytes().all(|byte| byte.is_ascii_digit());
    let is_month = |part: &&str| MONTHS.iter().any(|month| part.starts_with(month)) && part.len() <= 9;
    let numbers = parts.iter().filter(|part| is_number(part)).count();
    let months = parts.iter().filter(|part| is_month(part)).count();
    let marks = day.matches(['-', '/', '.']).count();
    match (parts.len(), numbers, months) {
        (2 | 3, numbers, 1) => numbers + 1 == parts.len(),
        (3, 3, 0) => {
            let same_mark = ["-", "/", "."].iter().any(|mark| day.matches(mark).count() == 2);
            marks == 2 && same_mark && (parts[0].len() == 4 || parts[2].len() >= 2) && parts[1].len() <= 2
        }
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(key: &str, text: &str, expected: &str) {
        let value = Cell { text, decimal_commas: true }.value(key);
        assert_eq!(value.as_deref(), Ok(expected), "{key} = {text}");
    }

    #[test]
    fn decimal_commas_become_points() {
        check("neck.thickness", "19,5", "19.5");
        check("neck.thickness", "19,500 mm", "19.500 mm");
        check("neck.thickness", "1.234,5", "1.234,5");
        check("neck.back_angle", "2,5 deg", "2.5 deg");
        check("neck.thickness", "3/4 in", "3/4 in");
        check("print.bed", "220, 220", "220, 220");
        check("print.bed", "220,5; 220,5", "220.5; 220.5");
        check("name", "Anna, 3,5", "Anna, 3,5");
        let cell = Cell { text: "19,5", decimal_commas: false };
        assert_eq!(
            cell.value("neck.thickness").as_deref(),
            Ok("19,5"),
            "left to the key where commas part cells"
        );
    }

    #[test]
    fn dates_are_told_from_sizes() {
        for date in [
            "2026-08-03",
            "03.08.2026",
            "8/3/26",
            "3-Aug",
            "Aug-03",
            "03-Aug-26",
            "3. Aug",
            "2026-08-03 00:00:00",
        ] {
            assert!(is_date(date), "{date}");
        }
        for size in [
            "3/8",
            "3/8 in",
            "25-1/2",
            "25-1/2 in",
            "25 1/2 in",
            "19.5",
            "16 AWG",
            "3 deg",
            "1 1/2",
            "-3",
            "12",
        ] {
            assert!(!is_date(size), "{size}");
        }
        let fault =
            Cell { text: "3-Aug", decimal_commas: false }.value("neck.thickness").expect_err("a date");
        assert!(fault.message.contains("the date 3-Aug") && fault.hint.contains("3/8"), "{fault:?}");
        check("name", "3-Aug", "3-Aug");
    }

    #[test]
    fn quantities_are_whole() {
        let quantity = |text| Cell { text, decimal_commas: true }.quantity().ok();
        assert_eq!(
            ["1", "24", "2.0", "2,0"].map(quantity),
            [Some(1), Some(24), Some(2), Some(2)],
            "sound ones"
        );
        assert_eq!(["0", "-1", "1.5", "many", "1001", "=1+1"].map(quantity), [None; 6], "the others");
    }

    #[test]
    fn words_stay_on_one_line() {
        let words = |text| Cell { text, decimal_commas: true }.words(5);
        assert_eq!(words("a\nb").as_deref(), Ok("a b"), "a line break");
        assert_eq!(words("a\u{0}b").as_deref(), Ok("a\u{fffd}b"), "a control character");
        assert!(words("abcdef").is_err(), "longer than allowed");
        let name = Cell { text: "a\nb", decimal_commas: true }.name(5);
        assert!(name.is_err_and(|fault| fault.hint.contains("not closed")), "a name has one line");
    }
}
