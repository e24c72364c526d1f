//! What does one instrument want: parts, wire, strings, hardware, and what is there to know about it?
//!
//! `kit.json` in a student's folder holds a [`Kit`], the small summary of an instrument: a class's record keeps one of each
//! document, and its papers take from there what the checks found. Lengths are in millimetres; what a length is, its key says.

use fit::Severity;
use layout::{Layout, Place, StringPath, TailKind};
use parts::Process;
use serde::{Deserialize, Serialize};
use spec::{Choice, Opening};
use units::Length;

use crate::account::materials::wire_material;
use crate::findings_record::ToldFinding;
use crate::instrument::Instrument;
use crate::record_number::{mm, tidy};

/// What one instrument wants.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Kit {
    /// What the instrument is called.
    pub name: String,
    /// "right" or "left".
    pub handed: String,
    /// The worst finding's severity.
    pub worst: Severity,
    /// What does not simply hold.
    pub findings: Vec<ToldFinding>,
    /// The parts that are cut or printed; those of quantity 0 are coupons.
    pub parts: Vec<KitPart>,
    /// The wire of the frets, the zero fret's first.
    pub wires: Vec<KitWire>,
    /// The strings, from bass to treble.
    pub strings: Vec<KitString>,
    /// How many tuners.
    pub tuners: usize,
    /// The bore of a tuner.
    pub tuner_bore_mm: f64,
    /// Screws of the tail block, where there is one.
    pub screws: Option<KitScrews>,
    /// Bores through the stick's end that a ferrule can line.
    pub ferrules: usize,
    /// Openings of the box, and what sits in them.
    pub openings: Vec<KitOpening>,
    /// What the frets are made of, in the document's words.
    pub frets: String,
}

/// A part.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct KitPart {
    /// Its name, the stem of its files.
    pub name: String,
    /// What it is, for people.
    pub title: String,
    /// What it is made of.
    pub material: String,
    /// How many one instrument has.
    pub quantity: u32,
    /// The blank: along, across, thick.
    pub blank_mm: [f64; 3],
    /// "printed" or "machined"; `None` where it is flat.
    pub process: Option<String>,
    /// The names of its drawings.
    pub drawings: Vec<String>,
}

/// Wire.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct KitWire {
    /// "zero fret", or the kind of fret in the document's words.
    pub purpose: String,
    /// What to buy.
    pub material: String,
    /// How many pieces.
    pub pieces: usize,
    /// All of them together, ends included.
    pub length_mm: f64,
}

/// A string.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct KitString {
    /// Its number, 1 for the treble string.
    pub number: u8,
    /// The open note.
    pub pitch: String,
    /// Over everything.
    pub diameter_mm: f64,
    /// Of the core, where it is wound and the document says so.
    pub core_mm: Option<f64>,
    /// What is wound round it.
    pub wrap: Option<String>,
    /// From its post to where it enters the tail; what goes round the post and through the tail is not counted.
    pub length_mm: f64,
}

/// The tail block's screws.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct KitScrews {
    /// As the document names it: "No. 6".
    pub gauge: String,
    /// How many.
    pub quantity: usize,
    /// Through the block and the wood that it holds in: the longest that does not come out behind.
    pub through_mm: f64,
}

/// An opening of the box.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct KitOpening {
    /// "sound", "jack", "pot" or "pickup".
    pub purpose: String,
    /// Diameter, or length and width.
    pub size_mm: Vec<f64>,
}

impl Kit {
    /// The kit of an instrument.
    #[must_use]
    pub fn of(instrument: &Instrument) -> Self {
        let (layout, spec) = (instrument.layout(), instrument.spec());
        Self {
            name: spec.name.clone(),
            handed: spec.handed.word().to_owned(),
            worst: instrument.worst(),
            findings: ToldFinding::all_of(instrument.findings()),
            parts: instrument.parts().parts.iter().map(part).collect(),
            wires: wires(instrument),
            strings: spec
                .strings
                .iter()
                .zip(layout.strings())
                .map(|(string, path)| KitString {
                    number: path.number.0,
                    pitch: path.pitch.to_string(),
                    diameter_mm: mm(string.diameter),
                    core_mm: string.core.map(mm),
                    wrap: string.wrap.map(|wrap| wrap.name().to_owned()),
                    length_mm: length(path),
                })
                .collect(),
            tuners: layout.tuners().len(),
            tuner_bore_mm: mm(spec.headstock.tuner_bore),
            screws: screws(layout),
            ferrules: if layout.tail().kind == TailKind::StringThrough {
                layout.tail().bores.len()
            } else {
                0
            },
            openings: layout
                .holes()
                .iter()
                .map(|hole| KitOpening {
                    purpose: hole.purpose.word().to_owned(),
                    size_mm: match &hole.opening {
                        Opening::Round { diameter } => vec![mm(*diameter)],
                        Opening::Rectangle { length, width } => vec![mm(*length), mm(*width)],
                        Opening::Drawn { outline, .. } => {
                            let bounds = outline.outline.bounds();
                            vec![mm(bounds.width()), mm(bounds.height())]
                        }
                    },
                })
                .collect(),
            frets: spec.frets.kind.word().to_owned(),
        }
    }

    /// Whether a finding fails: nothing is made then unless it is asked for.
    #[must_use]
    pub fn fails(&self) -> bool {
        self.worst == Severity::Fail
    }

    /// The bytes of `kit.json`.
    pub(super) fn to_bytes(&self) -> Vec<u8> {
        let mut bytes = serde_json::to_vec_pretty(self).expect("a kit is plain data");
        bytes.push(b'\n');
        bytes
    }
}

fn part(part: &parts::Part) -> KitPart {
    let process = |solid: &parts::Solid| match solid.process {
        Process::Printed => "printed".to_owned(),
        Process::Machined => "machined".to_owned(),
    };
    KitPart {
        name: part.name.to_owned(),
        title: part.title.to_owned(),
        material: part.material.clone(),
        quantity: part.quantity,
        blank_mm: part.blank.map(mm),
        process: part.solid.as_ref().map(process),
        drawings: part.drawings.iter().map(|drawing| drawing.name.clone()).collect(),
    }
}

fn wires(instrument: &Instrument) -> Vec<KitWire> {
    let layout = instrument.layout();
    let zero_fret = KitWire {
        purpose: "zero fret".to_owned(),
        material: "fret wire".to_owned(),
        pieces: 1,
        length_mm: mm(layout.wire().zero_fret),
    };
    let cuts = layout.wire().cuts.iter().map(|cut| KitWire {
        purpose: cut.kind.word().to_owned(),
        material: wire_material(instrument, cut.kind),
        pieces: cut.pieces,
        length_mm: mm(cut.total),
    });
    std::iter::once(zero_fret).chain(cuts).collect()
}

/// Along the string, from its post over nut, zero fret and saddle to the tail.
fn length(path: &StringPath) -> f64 {
    let places = [path.post, path.nut, path.zero_fret, path.saddle, path.tail];
    let apart = |from: Place, to: Place| {
        let [x, y, z] = [to.x - from.x, to.y - from.y, to.z - from.z].map(Length::as_mm);
        units::math::hypot(units::math::hypot(x, y), z)
    };
    tidy(places.windows(2).map(|pair| apart(pair[0], pair[1])).sum())
}

fn screws(layout: &Layout) -> Option<KitScrews> {
    let (tail, spec) = (layout.tail(), layout.spec());
    let through = match tail.kind {
        TailKind::StringThrough => return None,
        TailKind::BlockOnLid => tail.above[1] + spec.body.lid,
        TailKind::BlockOnEnd => tail.along[1] - tail.along[0] + spec.body.wall,
    };
    Some(KitScrews {
        gauge: spec.tail.screw.word().to_owned(),
        quantity: tail.screws.len(),
        through_mm: mm(through),
    })
}
