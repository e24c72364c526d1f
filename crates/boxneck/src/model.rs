//! What does the whole instrument look like in space?

use export::gltf::{Item, Material, Model, Sheen};
use parts::{Placed, Thing, placed};
use spec::{BoxFace, FretKind};
use units::{ChordTolerance, Length};

use crate::instrument::Instrument;

/// How far what is drawn may deviate from the true curve. Larger shows corners on a tuner's post; smaller makes pages
/// heavy.
const CHORD: ChordTolerance = ChordTolerance::new(Length::mm(0.05));

const NECK: Material = wood("neck wood", [0xD2, 0xAC, 0x74]);
const LID: Material = wood("lid wood", [0xE0, 0xC2, 0x90]);
const WALL: Material = wood("wall wood", [0xB4, 0x88, 0x58]);
const DARK: Material = wood("dark wood", [0x6B, 0x48, 0x31]);
const BONE: Material = wood("bone", [0xEC, 0xE4, 0xD0]);
const COPPER: Material = metal("copper", [0xB8, 0x73, 0x42]);
const STEEL: Material = metal("steel", [0xC8, 0xCA, 0xCE]);
const STRING: Material = metal("string wire", [0x6E, 0x72, 0x7A]);
const IRON: Material = metal("iron", [0x8E, 0x92, 0x98]);

const fn wood(name: &'static str, rgb: [u8; 3]) -> Material {
    Material { name, rgb, sheen: Sheen::Dull }
}

const fn metal(name: &'static str, rgb: [u8; 3]) -> Material {
    Material { name, rgb, sheen: Sheen::Metallic }
}

/// Every solid thing of an instrument in the instrument frame. What cannot be drawn is left out, and the description
/// names it.
pub(crate) fn model(instrument: &Instrument, remark: Option<&str>) -> Model {
    let mut items = Vec::new();
    let mut missing = Vec::new();
    for thing in placed(instrument.layout(), instrument.parts(), CHORD) {
        let name = thing.thing.to_string();
        match thing.mesh(CHORD) {
            Ok(mesh) => {
                let material = material(instrument, &thing);
                items.push(Item { name: name.replace(' ', "-"), mesh, material });
            }
            Err(_) => missing.push(name),
        }
    }
    let mut words: Vec<String> = remark.map(String::from).into_iter().collect();
    words.push(
        "x from the zero fret toward the tail, y across, z up from the playing plane, millimetres".into(),
    );
    if !missing.is_empty() {
        words.push(format!("left out: {}", missing.join(", ")));
    }
    Model { name: instrument.spec().name.clone(), description: words.join(". "), items }
}

fn material(instrument: &Instrument, placed: &Placed) -> Material {
    match placed.thing {
        Thing::Neck | Thing::Heel => NECK,
        Thing::Fretboard | Thing::TailBlock => DARK,
        Thing::Nut | Thing::Saddle => BONE,
        Thing::Face(BoxFace::Lid) => LID,
        Thing::Face(_) => WALL,
        Thing::Fret(number) if is_wire(instrument, number) => COPPER,
        Thing::ZeroFret | Thing::Fret(_) => STEEL,
        Thing::String(_) => STRING,
        Thing::TunerPost(_) | Thing::TunerBody(_) | Thing::TailScrew(_) => IRON,
    }
}

/// Whether a fret is copper wire.
fn is_wire(instrument: &Instrument, number: u8) -> bool {
    let frets = &instrument.layout().frets().frets;
    frets.iter().any(|fret| fret.number == number && fret.kind != FretKind::FretWire)
}
