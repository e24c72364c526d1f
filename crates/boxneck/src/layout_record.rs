//! How does another program read every number of a layout?
//!
//! `layout.json` mirrors [`layout::Layout`] field by field. Every length's key ends in `_mm`, every angle's in `_deg`,
//! every frequency's in `_hz`; a place is an object of `x_mm`, `y_mm` and `z_mm`; choices are the document's own words.

use layout::{Layout, Obstacle, Place, Shortfall, StringPath, TailKind};
use serde_json::{Value, json};
use spec::{BoxFace, Choice, FretKind, HolePurpose, Joint, Opening};

use crate::findings_record::{findings_record, remedies_record};
use crate::instrument::Instrument;
use crate::playing_record::playing_record;
use crate::record_number::{deg, mm};

/// The version of the record's shape; it rises when a key changes its meaning or goes.
const VERSION: u32 = 1;

/// The whole layout and the findings, in reading order.
#[must_use]
pub fn layout_record(instrument: &Instrument) -> Value {
    let layout = instrument.layout();
    let spec = layout.spec();
    json!({
        "version": VERSION,
        "name": spec.name,
        "handed": spec.handed.word(),
        "scale_length_mm": mm(spec.scale.length),
        "frame": "x along the centre line from the crown of the zero fret toward the tail, y across, positive toward the treble string of a right-handed instrument, z up from the playing plane",
        "box_frame": {
            "neck_end_x_mm": mm(layout.frame().neck_end_x),
            "lid_z_mm": mm(layout.frame().lid_z),
            "back_angle_deg": deg(layout.frame().back_angle),
        },
        "neck": neck(layout),
        "heel": layout.heel().map(|heel| json!({
            "reach_mm": mm(heel.reach),
            "front_x_mm": mm(heel.front_x),
            "wall_x_mm": heel.wall_x.map(mm),
            "top_z_mm": mm(heel.top_z),
            "bottom_z_mm": mm(heel.bottom_z),
            "front_width_mm": mm(heel.front_width),
            "box_width_mm": mm(heel.box_width),
        })),
        "fretboard": {
            "thickness_mm": mm(spec.fretboard.thickness),
            "radius_mm": match spec.fretboard.radius {
                spec::BoardRadius::Flat => Value::Null,
                spec::BoardRadius::Radius(radius) => json!(mm(radius)),
            },
        },
        "zero_fret": { "crown_mm": mm(spec.zero_fret.crown_height), "crown_width_mm": mm(spec.zero_fret.crown_width) },
        "frets": frets(layout),
        "grooves": layout.grooves().iter().map(|groove| json!({
            "x_mm": mm(groove.x), "width_mm": mm(groove.width), "depth_mm": mm(groove.depth),
        })).collect::<Vec<_>>(),
        "nut": nut(layout),
        "saddle": saddle(layout),
        "tail": tail(layout),
        "tuners": layout.tuners().iter().map(|tuner| json!({
            "bore": place(tuner.bore), "diameter_mm": mm(tuner.diameter), "post": place(tuner.post),
        })).collect::<Vec<_>>(),
        "strings": layout.strings().iter().map(|path| string(path, layout)).collect::<Vec<_>>(),
        "box": body(layout),
        "wire": wire(layout),
        "playing": playing_record(layout, instrument.playing()),
        "findings": findings_record(instrument.findings()),
        "remedies": remedies_record(instrument.remedies()),
    })
}

fn neck(layout: &Layout) -> Value {
    let neck = layout.neck();
    json!({
        "joint": neck.joint.word(),
        "wood": layout.spec().neck.wood.name(),
        "section": neck.section.word(),
        "head_end_x_mm": mm(neck.head_end_x),
        "nut_front_x_mm": mm(neck.nut_front_x),
        "box_x_mm": mm(neck.box_x),
        "tail_end_x_mm": mm(neck.tail_end_x),
        "length_mm": mm(neck.length()),
        "headstock_outline": layout.spec().headstock.outline.as_ref().map(|drawn| &drawn.file),
        "headstock_length_mm": mm(layout.spec().headstock.length),
        "stick_width_mm": mm(layout.stick_width()),
        "width_at_nut_mm": mm(neck.width_at_nut),
        "width_at_box_mm": mm(neck.width_at_box),
        "top_z_mm": mm(neck.top_z),
        "head_top_z_mm": mm(neck.head_top_z),
        "bottom_z_mm": mm(neck.bottom_z),
        "edge_radius_mm": mm(neck.edge_radius),
        "tongue_top_above_lid_mm": (neck.joint == Joint::Through)
            .then(|| mm(-layout.spec().body.lid - layout.spec().neck.tongue_recess)),
    })
}

fn frets(layout: &Layout) -> Value {
    let plan = layout.frets();
    json!({
        "wanted": plan.reach.wanted,
        "reached": plan.frets.len(),
        "wrapped": plan.reach.wrapped,
        "stop": plan.reach.stop.map(|stop| shortfall(&stop)),
        "wrapped_stop": plan.reach.wrapped_stop.map(|stop| shortfall(&stop)),
        "stations": plan.frets.iter().map(|fret| json!({
            "number": fret.number,
            "semitone": fret.semitone,
            "x_mm": mm(fret.x),
            "kind": fret.kind.word(),
            "crown_mm": mm(fret.crown),
            "width_mm": mm(fret.width),
            "wire_mm": mm(fret.wire),
        })).collect::<Vec<_>>(),
    })
}

fn shortfall(stop: &Shortfall) -> Value {
    let obstacle = match stop.obstacle {
        Obstacle::Heel => "heel",
        Obstacle::Box => "box",
        Obstacle::Neighbour => "neighbour",
    };
    json!({ "number": stop.number, "x_mm": mm(stop.x), "obstacle": obstacle, "lacks_mm": mm(stop.lacks) })
}

fn nut(layout: &Layout) -> Value {
    let nut = layout.nut();
    json!({
        "front_x_mm": mm(nut.front_x),
        "rear_x_mm": mm(nut.rear_x),
        "base_z_mm": mm(nut.base_z),
        "top_z_mm": mm(nut.top_z),
        "length_mm": mm(nut.length),
        "slots": nut.slots.iter().map(|slot| json!({
            "front": place(slot.front), "rear": place(slot.rear), "width_mm": mm(slot.width),
        })).collect::<Vec<_>>(),
    })
}

fn saddle(layout: &Layout) -> Value {
    let saddle = layout.saddle();
    json!({
        "kind": layout.spec().saddle.kind.word(),
        "along_mm": mm(saddle.along),
        "shift_mm": mm(saddle.shift),
        "thickness_mm": mm(saddle.thickness),
        "ends_mm": saddle.ends.map(mm),
        "let_in_mm": mm(saddle.let_in),
        "crests": saddle.crests.iter().map(|crest| json!({
            "across_mm": mm(crest.across), "above_mm": mm(crest.above), "offset_mm": mm(crest.offset),
        })).collect::<Vec<_>>(),
    })
}

fn tail(layout: &Layout) -> Value {
    let tail = layout.tail();
    let kind = match tail.kind {
        TailKind::BlockOnLid => "block on the lid",
        TailKind::BlockOnEnd => "block on the end",
        TailKind::StringThrough => "string through",
    };
    json!({
        "kind": kind,
        "along_mm": tail.along.map(mm),
        "across_mm": tail.across.map(mm),
        "above_mm": tail.above.map(mm),
        "ball_depth_mm": mm(tail.ball_depth),
        "bores": tail.bores.iter().map(|bore| json!({
            "along_mm": mm(bore.along),
            "across_mm": mm(bore.across),
            "above_mm": mm(bore.above),
            "diameter_mm": mm(bore.diameter),
            "ball_diameter_mm": mm(bore.ball_diameter),
        })).collect::<Vec<_>>(),
        "screws": tail.screws.iter().map(|placed| json!({
            "across_mm": mm(placed.across),
            "clearance_mm": mm(placed.screw.clearance),
            "head_mm": mm(placed.screw.head),
        })).collect::<Vec<_>>(),
    })
}

fn string(path: &StringPath, layout: &Layout) -> Value {
    json!({
        "number": path.number.0,
        "pitch": path.pitch.to_string(),
        "frequency_hz": path.pitch.frequency().as_hertz(),
        "diameter_mm": mm(path.diameter),
        "post": place(path.post),
        "nut": place(path.nut),
        "zero_fret": place(path.zero_fret),
        "saddle": place(path.saddle),
        "tail": place(path.tail),
        "actions_mm": path.actions.iter().copied().map(mm).collect::<Vec<_>>(),
        "break_at_zero_fret_deg": deg(path.break_at_zero_fret()),
        "break_at_nut_deg": deg(path.break_at_nut()),
        "fall_behind_zero_fret_deg": deg(path.fall_behind_zero_fret()),
        "break_at_saddle_deg": deg(path.break_at_saddle()),
        "front_angle_deg": deg(path.front_angle(layout.frame())),
        "tail_angle_deg": deg(path.tail_angle(layout.frame())),
    })
}

fn body(layout: &Layout) -> Value {
    let body = &layout.spec().body;
    json!({
        "length_mm": mm(body.length),
        "width_mm": mm(body.width),
        "depth_mm": mm(body.depth),
        "wall_mm": mm(body.wall),
        "lid_mm": mm(body.lid),
        "lid_wood": body.lid_wood.name(),
        "holes": layout.holes().iter().map(|hole| {
            let (purpose, face): (HolePurpose, BoxFace) = (hole.purpose, hole.face);
            let size = match &hole.opening {
                Opening::Round { diameter } => json!({ "diameter_mm": mm(*diameter) }),
                Opening::Rectangle { length, width } => json!({ "length_mm": mm(*length), "width_mm": mm(*width) }),
                Opening::Drawn { outline, .. } => json!({
                    "outline": outline.file,
                    "length_mm": mm(outline.outline.bounds().width()),
                    "width_mm": mm(outline.outline.bounds().height()),
                    "area_mm2": outline.outline.signed_area(),
                }),
            };
            json!({
                "purpose": purpose.word(),
                "face": face.word(),
                "at_mm": [mm(hole.first), mm(hole.second)],
                "opening": size,
            })
        }).collect::<Vec<_>>(),
    })
}

fn wire(layout: &Layout) -> Value {
    json!({
        "zero_fret_mm": mm(layout.wire().zero_fret),
        "cuts": layout.wire().cuts.iter().map(|cut| {
            let kind: FretKind = cut.kind;
            json!({ "kind": kind.word(), "pieces": cut.pieces, "total_mm": mm(cut.total) })
        }).collect::<Vec<_>>(),
    })
}

fn place(place: Place) -> Value {
    json!({ "x_mm": mm(place.x), "y_mm": mm(place.y), "z_mm": mm(place.z) })
}
