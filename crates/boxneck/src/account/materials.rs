//! What has to be bought or cut?

use export::table::Table;
use layout::TailKind;
use spec::{Choice, FretKind, HolePurpose};
use units::{Length, LengthForm};

use super::{Passage, both, table};
use crate::instrument::Instrument;

/// One row a blank, lengths in millimetres and in inches.
pub(crate) fn blanks(instrument: &Instrument) -> Table {
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
    let parts = instrument.parts().parts.iter().filter(|part| part.quantity > 0);
    table(heading, parts.map(|part| row(part.title, &part.material, &part.quantity.to_string(), &part.blank)))
}

/// The blanks, and a row a kind of wire.
pub(crate) fn cut_list(instrument: &Instrument) -> Table {
    let mut table = blanks(instrument);
    let mut add = |title: &str, material: &str, length: Length| {
        table.rows.push(row(title, material, "1", &[length]).to_vec());
    };
    let wire = instrument.layout().wire();
    add("Wire for the zero fret", "fret wire", wire.zero_fret);
    for cut in &wire.cuts {
        let title = format!("Wire for {} frets, all together", cut.pieces);
        add(&title, &wire_material(instrument, cut.kind), cut.total);
    }
    table
}

/// A remark in a row of its own.
pub(crate) fn remark_row(remark: &str) -> Vec<String> {
    row(remark, "", "0", &[]).to_vec()
}

fn row(piece: &str, material: &str, quantity: &str, sizes: &[Length]) -> [String; 9] {
    let size = |at: usize, write: &dyn Fn(&Length) -> String| sizes.get(at).map(write).unwrap_or_default();
    let millimetres = |at| size(at, &|length| format!("{:.2}", length.as_mm()));
    let inches = |at| size(at, &|length| length.written(LengthForm::Sixtyfourths).to_string());
    [
        piece.to_owned(),
        material.to_owned(),
        quantity.to_owned(),
        millimetres(0),
        millimetres(1),
        millimetres(2),
        inches(0),
        inches(1),
        inches(2),
    ]
}

/// What to buy for frets of a kind.
pub(crate) fn wire_material(instrument: &Instrument, kind: FretKind) -> String {
    match kind {
        FretKind::FretWire => "fret wire".to_owned(),
        FretKind::WrappedWire | FretKind::SeatedWire => {
            format!("copper wire {}", instrument.spec().frets.wire)
        }
    }
}

/// The wire for zero fret and frets.
pub(crate) fn wire(instrument: &Instrument) -> Passage {
    let wire = instrument.layout().wire();
    let mut rows =
        vec![["zero fret".to_owned(), "fret wire".to_owned(), "1".to_owned(), both(wire.zero_fret)]];
    for cut in &wire.cuts {
        let mut material = wire_material(instrument, cut.kind);
        if cut.kind != FretKind::FretWire {
            material = format!("{material} ({})", instrument.spec().frets.wire.diameter());
        }
        rows.push([cut.kind.word().to_owned(), material, cut.pieces.to_string(), both(cut.total)]);
    }
    let table = table(["for", "wire", "pieces", "all together"], rows);
    Passage::new("Wire to buy", "with ends to twist or file, and nothing for mistakes", table)
}

/// What is neither wood nor wire.
pub(crate) fn hardware(instrument: &Instrument) -> Passage {
    let (layout, spec) = (instrument.layout(), instrument.spec());
    let mut rows: Vec<[String; 3]> = Vec::new();
    let mut add = |what: &str, count: usize, size: String| {
        rows.push([what.to_owned(), count.to_string(), size]);
    };
    let head = &spec.headstock;
    add(
        "tuner",
        layout.tuners().len(),
        format!("for a bore of {} and a headstock {} thick", head.tuner_bore, head.thickness),
    );
    for (string, path) in spec.strings.iter().zip(layout.strings()) {
        let made = match (string.core, string.wrap) {
            (None, None) => "plain steel".to_owned(),
            (core, wrap) => {
                let wrap = wrap.map_or(String::new(), |wrap| format!(" with {}", wrap.name()));
                let core = core.map_or(String::new(), |core| format!(", core {core}"));
                format!("wound{wrap}{core}")
            }
        };
        let gauge = path.diameter.written(LengthForm::DecimalInches);
        add(
            &format!("string {}", path.pitch),
            1,
            format!("{} ({gauge}), {made}, with a ball end", path.diameter),
        );
    }
    if layout.tail().kind != TailKind::StringThrough {
        let size = format!("{} wood screw, for the tail block", spec.tail.screw.word());
        add("screw", layout.tail().screws.len(), size);
    }
    for purpose in [HolePurpose::Jack, HolePurpose::Pot, HolePurpose::Pickup] {
        let count = layout.holes().iter().filter(|hole| hole.purpose == purpose).count();
        if count > 0 {
            add(purpose.word(), count, "for its opening in the box".to_owned());
        }
    }
    Passage::new("Hardware", "besides glue", table(["piece", "quantity", "which"], rows))
}
