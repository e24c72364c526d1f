//! What of an instrument goes on paper, in which order, and what is said about it?

mod read_first;
mod stations;
mod strip;
mod whole;

use std::collections::BTreeSet;

use export::ExportFault;
use export::pdf::{Booklet, Mark, Pen, Reading, Side, Template, Words};
use export::scene::Figure;
use geometry::{OutlineFault, Path, Point2, Preflight};
use parts::Part;
use units::{Length, LengthUnit};

use crate::instrument::Instrument;

/// What shows the neck as a whole goes with one of these parts.
const NECK_PARTS: [&str; 2] = ["neck", "fretboard"];

/// The frets and strings over the full length and the strip to fold round the neck, then every drawing of the chosen
/// parts; before all of them, what to read first.
///
/// What cannot be drawn is left out: the findings say why it cannot.
pub(crate) fn templates(
    instrument: &Instrument,
    parts: &[&Part],
    remark: Option<&'static str>,
) -> Result<Booklet, ExportFault> {
    let layout = instrument.layout();
    let mut templates = vec![read_first::template()];
    let chosen: BTreeSet<&str> = parts.iter().map(|part| part.name).collect();
    if NECK_PARTS.iter().any(|name| chosen.contains(name)) {
        templates.extend([whole::template(layout), strip::template(layout)].into_iter().flatten());
    }
    for part in parts {
        for drawing in &part.drawings {
            let mut template = Template::of_drawing(drawing, &Preflight::default())?;
            template.notes.insert(0, needs(part, layout.spec().units));
            templates.push(template);
        }
    }
    Ok(Booklet { title: layout.spec().name.clone(), templates, remark })
}

/// How many, of what, from which blank.
fn needs(part: &Part, unit: LengthUnit) -> String {
    let sizes = part.blank.map(|size| match unit {
        LengthUnit::Millimetre => format!("{:.1}", size.as_mm()),
        LengthUnit::Inch => format!("{:.3}", size.as_inches()),
    });
    let sizes = sizes.join("\u{a0}× ");
    match part.quantity {
        0 => format!("to work with, of {}, blank {sizes}\u{a0}{unit}", part.material),
        quantity => format!("{quantity}\u{a0}× {}, blank {sizes}\u{a0}{unit}", part.material),
    }
}

fn line(from: Point2, to: Point2, pen: Pen) -> Result<Mark, OutlineFault> {
    Ok(Mark::Figure(Figure::Path(Path::line(from, to)?), pen))
}

fn words(at: Point2, side: Side, reading: Reading, size_mm: f64, text: impl Into<String>) -> Mark {
    Mark::Words(Words { at, side, reading, size: Length::mm(size_mm), text: text.into() })
}
