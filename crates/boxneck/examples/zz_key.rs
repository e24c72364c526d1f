//! Writes random instruments for a judge that is not ours: every placed solid as triangles, and how `fit` says that each
//! pair meets.
//!
//! `assemblies FOLDER COUNT` leaves COUNT pairs of files in FOLDER. `NUMBER.json` holds the document, the solids (name,
//! number of points and of triangles, the radius of what is rounded at its ends) and the meetings; `NUMBER.bin` the points (three little-endian 64-bit numbers each,
//! millimetres) and the triangles (three little-endian 32-bit numbers each) of one solid after the other.

#[allow(dead_code, reason = "the generator serves the property tests too")]
#[path = "../tests/random_document/mod.rs"]
mod random_document;

use std::path::Path;

use boxneck::fit::{Assembly, Relation};
use boxneck::geometry::BodyFault;
use boxneck::parts::{Form, Thing};
use boxneck::spec::Document;
use boxneck::{layout, parts};
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use serde_json::{Value, json};
use units::{ChordTolerance, Length};

const TOLERANCE: ChordTolerance = ChordTolerance::new(Length::mm(0.004));

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [folder, count] = arguments.as_slice() else { return Err("expected a folder and a count".into()) };
    let (folder, count) = (Path::new(folder), count.parse::<usize>()?);
    std::fs::create_dir_all(folder)?;
    let mut runner = TestRunner::new(random_document::config(1));
    let mut written = 0;
    while written < count {
        let text =
            random_document::key_by_key().new_tree(&mut runner).map_err(|reason| reason.to_string())?.current();
        if let Some((told, solids)) = assembly(&text)? {
            std::fs::write(folder.join(format!("{written:04}.json")), told.to_string())?;
            std::fs::write(folder.join(format!("{written:04}.bin")), solids)?;
            written += 1;
        }
    }
    Ok(())
}

/// The two files of an instrument: what is told of it, and its solids.
type Written = (Value, Vec<u8>);

/// What is told of the instrument of a text, and its solids; nothing where the text describes none.
fn assembly(text: &str) -> Result<Option<Written>, BodyFault> {
    let Ok((spec, _)) = Document::parse(text.as_bytes()).read().into_result() else { return Ok(None) };
    let Ok(layout) = layout::layout(&spec) else { return Ok(None) };
    let assembly = Assembly::new(&layout, &parts::parts(&layout));
    let mut bytes = Vec::new();
    let mut solids = Vec::new();
    for placed in assembly.placed() {
        let mesh = placed.mesh(TOLERANCE)?;
        let (points, triangles) = (mesh.points(), mesh.triangles());
        for point in points {
            bytes.extend([point.x, point.y, point.z].into_iter().flat_map(f64::to_le_bytes));
        }
        bytes.extend(triangles.iter().flatten().flat_map(|corner| corner.to_le_bytes()));
        // What is measured by its middle line is taken as rounded where a mesh of it is cut square.
        let rounded = match (&placed.form, placed.thing) {
            (Form::Rod(rod), Thing::String(_) | Thing::Fret(_)) => rod.radius().as_mm(),
            _ => 0.0,
        };
        solids.push(json!({
            "name": placed.thing.to_string(),
            "points": points.len(),
            "triangles": triangles.len(),
            "rounded": rounded,
        }));
    }
    let meetings: Vec<Value> = assembly
        .contacts()
        .iter()
        .chain(assembly.clearances())
        .map(|meeting| {
            let meant = match meeting.relation {
                Relation::Touch { .. } => "touch",
                Relation::Clear { .. } => "clear",
            };
            json!({
                "pair": meeting.pair.map(|thing| thing.to_string()),
                "meant": meant,
                "air": meeting.air.as_mm(),
                "wrong_by": meeting.wrong_by().as_mm(),
            })
        })
        .collect();
    Ok(Some((json!({ "document": text, "solids": solids, "meetings": meetings }), bytes)))
}
