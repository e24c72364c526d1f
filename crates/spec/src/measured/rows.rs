//! How are measurements read from the rows of a CSV file?

use std::ops::Range;

use super::cell::{Cell, Fault};
use super::{Extent, Gathered, Kind, Measured, Reading, ReadingOf};
use crate::code::Code;
use crate::diagnostic::{Checked, Diagnostic, Origin, Place};
use crate::document::Document;
use crate::limits;
use crate::nearest::{nearest, plain};
use crate::reading::measure::Misreading;
use crate::reading::written::Written;

const COLUMNS: [&str; 6] = ["what", "string", "fret", "over", "value", "error"];

pub(super) fn read(file: &Document, extent: Extent) -> Checked<Measured> {
    let mut gathered = Gathered::new(extent);
    // What is wrong with it as TOML is no matter; what is no text, or too much of it, cannot be read as anything.
    let is_fatal =
        |fault: &&Diagnostic| matches!(fault.code, Code::NotText | Code::TooLarge) && file.is_torn();
    gathered.faults.extend(file.faults().iter().filter(is_fatal).cloned());
    if !gathered.faults.is_empty() {
        return gathered.finish();
    }
    let text = file.source();
    let mut lines = lines(text);
    let Some(head) = lines.next() else { return gathered.finish() };
    let columns = columns(text, &head, &mut gathered);
    for (index, fields) in lines.enumerate() {
        let row = Row { text, number: index + 2, fields: &fields, columns: &columns };
        match row.reading(extent) {
            Ok(reading) => gathered.readings.push(reading),
            Err(faults) => gathered.faults.extend(faults.into_iter().map(|fault| *fault)),
        }
    }
    gathered.finish()
}

/// The fields of each line that holds anything, by their bytes.
fn lines(text: &str) -> impl Iterator<Item = Vec<Range<usize>>> {
    let mut start = 0;
    text.split_inclusive('\n')
        .map(move |line| {
            let from = start;
            start += line.len();
            fields(line.trim_end_matches(['\n', '\r']), from)
        })
        .filter(|fields| fields.iter().any(|field| !field.is_empty()))
        .take(limits::LIST_ITEMS * 8)
}

/// Fields between commas, or semicolons where there are no commas; a comma between quotes parts nothing.
fn fields(line: &str, from: usize) -> Vec<Range<usize>> {
    let separator = if line.contains(',') || !line.contains(';') { ',' } else { ';' };
    let (mut fields, mut start, mut is_quoted) = (Vec::new(), 0, false);
    for (place, letter) in line.char_indices().chain([(line.len(), separator)]) {
        // A mark of inches stands within a field, a quote at its beginning.
        if letter == '"' && (is_quoted || line[start..place].trim().is_empty()) {
            is_quoted = !is_quoted;
        }
        if letter == separator && (!is_quoted || place == line.len()) {
            let field = &line[start..place];
            let inner = field.trim();
            let is_in_quotes = inner.len() >= 2 && inner.starts_with('"') && inner.ends_with('"');
            let inner = if is_in_quotes { &inner[1..inner.len() - 1] } else { inner };
            let begin = from + (inner.as_ptr() as usize - line.as_ptr() as usize);
            fields.push(begin..begin + inner.len());
            start = place + letter.len_utf8();
        }
    }
    fields
}

/// Which column each field of the head names.
fn columns(text: &str, head: &[Range<usize>], gathered: &mut Gathered) -> Vec<Option<&'static str>> {
    let mut found = Vec::new();
    for field in head {
        let name = text[field.clone()].trim_start_matches('\u{feff}');
        let column = COLUMNS.into_iter().find(|column| plain(column) == plain(name));
        if column.is_none() || found.contains(&column) {
            let place = Place { key: "head".to_owned(), origin: Origin::Source(field.clone()) };
            let is_again = column.is_some();
            let code = if is_again { Code::DuplicateKey } else { Code::UnknownKey };
            let shown = crate::document::shortened(name);
            let message = format!(
                "expected a column once, of {}; found {shown}{}",
                COLUMNS.join(", "),
                if is_again { " again" } else { "" }
            );
            let fault = Diagnostic::error(code, place, message);
            gathered.faults.push(match nearest(name, COLUMNS, 1).first() {
                Some(near) if !is_again => fault.hint(format!("did you mean {near}?")),
                _ => fault.hint("write what,string,fret,over,value,error in the first line"),
            });
        }
        found.push(column);
    }
    if !found.contains(&Some("what")) {
        let place =
            Place { key: "head".to_owned(), origin: Origin::Source(head.first().cloned().unwrap_or(0..0)) };
        let fault = Diagnostic::error(Code::MissingKey, place, "expected a column \"what\", found none");
        gathered.faults.push(fault.hint("write what,string,fret,over,value,error in the first line"));
    }
    found
}

struct Row<'t> {
    text: &'t str,
    number: usize,
    fields: &'t [Range<usize>],
    columns: &'t [Option<&'static str>],
}

impl<'t> Row<'t> {
    /// A field, where it holds anything.
    fn cell(&self, column: &str) -> Option<Cell<'t>> {
        let index = self.columns.iter().position(|name| *name == Some(column))?;
        let span = self.fields.get(index)?.clone();
        let text = &self.text[span.clone()];
        let place = Place { key: format!("row {}, {column}", self.number), origin: Origin::Source(span) };
        (!text.is_empty()).then_some(Cell { place, written: Written::Loose(text) })
    }

    fn needed(&self, column: &str) -> Result<Cell<'t>, Fault> {
        self.cell(column).ok_or_else(|| {
            let place = Place {
                key: format!("row {}", self.number),
                origin: Origin::Source(self.fields.first().cloned().unwrap_or(0..0)),
            };
            let message =
                format!("row {}: expected something in the column \"{column}\", found nothing", self.number);
            let example = match column {
                "what" => "string height",
                "value" => "2.8 mm",
                _ => "1",
            };
            Box::new(
                Diagnostic::error(Code::MissingKey, place, message).hint(format!("write {example} there")),
            )
        })
    }

    fn kind(&self) -> Result<(Kind, Cell<'t>), Fault> {
        let cell = self.needed("what")?;
        let Written::Loose(word) = cell.written else { unreachable!("a field of a row is text") };
        match Kind::all().find(|kind| plain(kind.word()) == plain(word)) {
            Some(kind) => Ok((kind, cell)),
            None => {
                let words: Vec<&str> = Kind::all().map(Kind::word).collect();
                let message = format!("expected a kind of reading, found {}", cell.written.description());
                let hint = match nearest(word, words.iter().copied(), 1).first() {
                    Some(near) => format!("did you mean \"{near}\"?"),
                    None => format!("the kinds are {}", words.join(", ")),
                };
                Err(cell.fault(Misreading::new(Code::UnknownChoice, message).hint(hint)))
            }
        }
    }

    fn reading(&self, extent: Extent) -> Result<Reading, Vec<Fault>> {
        let (kind, what) = self.kind().map_err(|fault| vec![fault])?;
        let mut faults = Vec::new();
        let of = self.of(kind, extent).map_err(|fault| faults.push(fault)).ok();
        let value = match kind {
            Kind::Buzz => Ok((0.0, what)),
            _ => self.needed("value").and_then(|cell| Ok((cell.value(kind, extent.units)?, cell))),
        };
        let value = value.map_err(|fault| faults.push(fault)).ok();
        let error = self.cell("error").map_or(Ok(kind.usual_error()), |cell| cell.error(kind, extent.units));
        let error = error.map_err(|fault| faults.push(fault)).ok();
        match (of, value, error) {
            (Some(of), Some((value, cell)), Some(error)) => {
                Ok(Reading { of, value, error, place: cell.place })
            }
            _ => Err(faults),
        }
    }

    fn of(&self, kind: Kind, extent: Extent) -> Result<ReadingOf, Fault> {
        let Extent { strings, frets, .. } = extent;
        let string = || self.needed("string")?.count("string", 1..=strings);
        let fret = |limits| self.needed("fret")?.count("fret", limits);
        let last_but_one = frets.saturating_sub(1);
        Ok(match kind {
            Kind::FretHeight => ReadingOf::FretHeight { fret: fret(1..=frets)? },
            Kind::StraightedgeGap => ReadingOf::StraightedgeGap { fret: fret(0..=frets)? },
            Kind::ZeroFretHeight => ReadingOf::ZeroFretHeight,
            Kind::StringHeight => ReadingOf::StringHeight { string: string()?, fret: fret(1..=frets)? },
            Kind::SaddleHeight => ReadingOf::SaddleHeight { string: string()? },
            Kind::SaddlePlace => ReadingOf::SaddlePlace { string: string()? },
            Kind::TailHeight => ReadingOf::TailHeight,
            Kind::TailDistance => ReadingOf::TailDistance,
            Kind::Relief => ReadingOf::Relief { fret: fret(1..=last_but_one)? },
            Kind::Tuner => ReadingOf::Tuner { string: string()?, fret: fret(0..=frets)? },
            Kind::Buzz => {
                let (string, fret) = (string()?, fret(0..=last_but_one)?);
                let over =
                    self.cell("over").map(|cell| cell.count("later fret", fret + 1..=frets)).transpose()?;
                ReadingOf::Buzz { string, fret, over }
            }
        })
    }
}
