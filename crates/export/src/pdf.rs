//! How do things become paper templates at true size?
//!
//! A PDF of pages for an office printer or a plotter: vectors only, one embedded font, nothing that scales. What is
//! larger than a page is cut into *tiles* that overlap and share *marks* (ringed crosses), small things share pages.
//! Every page carries rulers both ways, to be measured before anything is cut.
//!
//! | module | what it answers |
//! | --- | --- |
//! | `template` | what is drawn: lines by their meaning, and words |
//! | `from_drawing`, `label` | how a drawing of operations becomes one |
//! | `sheet` | how large is the paper, and what does a printer make of it |
//! | `tiles` | how is a large thing cut into tiles |
//! | `caption` | what stands above a thing |
//! | `pages` | which tile goes on which page |
//! | `page`, `ruler` | what does a page look like |
//! | `content`, `typeface`, `file` | how is that written |

mod caption;
mod content;
mod file;
mod from_drawing;
mod label;
mod page;
mod pages;
mod ruler;
mod sheet;
mod template;
mod tiles;
mod typeface;

use units::Length;

use crate::ExportFault;
use crate::plan::in_range;

pub use sheet::{Correction, CorrectionFault, Paper};
pub use template::{Mark, Pen, Reading, Side, Template, Words};

/// What goes into one file.
#[derive(Clone, Debug, PartialEq)]
pub struct Booklet {
    /// What it is of: the file's title, and the first words on every page.
    pub title: String,
    /// What to draw, in the order in which it takes its place on the pages.
    pub templates: Vec<Template>,
    /// What every page warns of.
    pub remark: Option<&'static str>,
}

/// How it is put on paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PdfOptions {
    /// The paper.
    pub paper: Paper,
    /// What the printer does to lengths, undone.
    pub correction: Correction,
}

/// As much of each line as fits a width at a size, with an ellipsis where something is left out.
#[must_use]
pub fn shortened<const MANY: usize>(lines: [(&str, Length); MANY], width: Length) -> [String; MANY] {
    let typeface = typeface::Typeface::new();
    lines.map(|(line, size)| typeface.shortened(line, size, width))
}

/// Templates as the bytes of a PDF file; the same input gives the same bytes.
///
/// - **Units**: one millimetre of a template is one of the paper, 72/25.4 of the file's units, before the correction.
/// - **Frame**: x to the right of the page, y up, pages lying on their long side.
/// - **Accuracy**: every coordinate within 2e-5 mm of its place, each on its own from the page's corner; arcs within
///   1e-5 of their radius.
/// - **Errors**: [`ExportFault::NothingToDraw`] without templates or with an empty one, [`ExportFault::OutOfRange`]
///   beyond 100 m, [`ExportFault::WordsTooLong`] for words that no tile holds, [`ExportFault::SheetTooLarge`] where one
///   sheet for everything would be larger than a PDF page can be.
pub fn write(booklet: &Booklet, options: &PdfOptions) -> Result<Vec<u8>, ExportFault> {
    if booklet.templates.is_empty() {
        return Err(ExportFault::NothingToDraw { name: booklet.title.clone() });
    }
    let mut typeface = typeface::Typeface::new();
    let mut figures = Vec::new();
    for template in &booklet.templates {
        let nothing = || ExportFault::NothingToDraw { name: template.name.clone() };
        let bounds = template.bounds(&typeface).ok_or_else(nothing)?;
        if !in_range(bounds) {
            let (name, most) = (template.name.clone(), crate::plan::FARTHEST);
            return Err(ExportFault::OutOfRange { name, most });
        }
        figures.push((template, bounds));
    }
    let room = pages::Room::on(options, &figures, &typeface);
    let mut pieces = Vec::new();
    for (template, bounds) in figures {
        pieces.push(tiles::Piece::cut(template, bounds, &room, &typeface)?);
    }
    let (pages, height) = pages::packed(&pieces, &room);
    let room = room.closed(options, &booklet.title, height)?;
    let view = page::View { booklet, options, room: &room, pieces: &pieces, pages: &pages };
    let contents = (0..pages.len()).map(|number| page::draw(&view, number, &mut typeface)).collect();
    Ok(file::assembled(&booklet.title, room.sheet, contents, typeface.into_subset()))
}
