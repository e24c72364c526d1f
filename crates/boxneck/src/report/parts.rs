//! What does the report show of each part?

use export::page::Card;
use export::{ExportFault, svg};

use crate::instrument::Instrument;

/// The files that one part has become.
pub(crate) struct PartFiles {
    /// The part's name.
    pub part: &'static str,
    /// Relative to the build.
    pub paths: Vec<String>,
}

/// A card for each part that there is.
pub(super) fn cards(instrument: &Instrument, files: &[PartFiles]) -> Result<Vec<Card>, ExportFault> {
    let cards = instrument.parts().parts.iter().map(|part| {
        let picture = part.drawings.first().map(svg::small).transpose()?.unwrap_or_default();
        let rows = [
            ("material", part.material.clone()),
            ("quantity", part.quantity_words()),
            ("blank", part.blank.map(|size| size.to_string()).join(" x ")),
        ];
        let files = files.iter().filter(|files| files.part == part.name);
        Ok(Card {
            title: part.title.to_owned(),
            picture,
            rows: rows.map(|(what, value)| (what.to_owned(), value)).to_vec(),
            files: files.flat_map(|files| files.paths.iter().cloned()).collect(),
        })
    });
    cards.collect()
}
