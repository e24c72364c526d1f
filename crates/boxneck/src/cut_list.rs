//! What has to be cut, from what, and how large?

use export::table::Table;
use units::{Length, LengthForm};

use crate::instrument::Instrument;

/// One row a blank and a row a kind of wire, lengths in millimetres and in inches; a remark in a row of its own.
pub(crate) fn cut_list(instrument: &Instrument, remark: Option<&str>) -> Table {
    let heading = [
        "piece",
        "material",
        "quantity",
        "length mm",
        "width mm",
        "thickness mm",
        "length in",
        "width in",
        "thickness in",
    ];
    let mut rows: Vec<Vec<String>> = instrument
        .parts()
        .parts
        .iter()
        .filter(|part| part.quantity > 0)
        .map(|part| row(part.title, &part.material, part.quantity as usize, &part.blank))
        .collect();
    let layout = instrument.layout();
    rows.push(row("Wire for the zero fret", "fret wire", 1, &[layout.wire().zero_fret]));
    for cut in &layout.wire().cuts {
        let material = match cut.kind {
            spec::FretKind::FretWire => "fret wire".to_owned(),
            spec::FretKind::WrappedWire | spec::FretKind::SeatedWire => {
                format!("copper wire {}", layout.spec().frets.wire)
            }
        };
        let title = format!("Wire for {} frets, all together", cut.pieces);
        rows.push(row(&title, &material, 1, &[cut.total]));
    }
    rows.extend(remark.map(|remark| row(remark, "", 0, &[])));
    Table { heading: heading.map(String::from).to_vec(), rows }
}

fn row(piece: &str, material: &str, quantity: usize, sizes: &[Length]) -> Vec<String> {
    let mut cells = vec![piece.to_owned(), material.to_owned(), quantity.to_string()];
    let millimetres = |length: &Length| format!("{:.2}", length.as_mm());
    let inches = |length: &Length| length.written(LengthForm::Sixtyfourths).to_string();
    cells.extend((0..3).map(|at| sizes.get(at).map(millimetres).unwrap_or_default()));
    cells.extend((0..3).map(|at| sizes.get(at).map(inches).unwrap_or_default()));
    cells
}
