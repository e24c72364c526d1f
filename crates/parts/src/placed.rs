//! Where does everything solid lie once the instrument is built?
//!
//! Solid parts are modelled in the instrument frame already. What is flat on paper (the lid, the walls) is cut from a
//! plate of its measured thickness here; what is bought (wire, strings, tuners, screws) is as simple as it can be and as
//! large as it is. Left out: the bottom of the box, whose thickness no document tells, and the twisted ends of wrapped
//! wire.

mod hardware;
mod plates;
mod wires;

use std::fmt;

use geometry::{Body, BodyFault, Mesh, Plate, Rod};
use layout::{Layout, StringNumber};
use spec::BoxFace;
use units::ChordTolerance;

use crate::catalogue::PartSet;

/// One solid thing at its place, in the instrument frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// What it is.
    pub thing: Thing,
    /// Its shape.
    pub form: Form,
}

/// What a placed solid is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Thing {
    /// The stick.
    Neck,
    /// The fretboard.
    Fretboard,
    /// The nut.
    Nut,
    /// The saddle.
    Saddle,
    /// The heel block.
    Heel,
    /// The tail block.
    TailBlock,
    /// The lid, or a wall of the box.
    Face(BoxFace),
    /// The zero fret.
    ZeroFret,
    /// A fret, by its number.
    Fret(u8),
    /// A string.
    String(StringNumber),
    /// The post of a string's tuner.
    TunerPost(StringNumber),
    /// The body of a string's tuner, under the headstock.
    TunerBody(StringNumber),
    /// A screw of the tail block, counted from 1.
    TailScrew(u8),
}

/// The shape of a placed solid.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    /// A part's body.
    Body(Body),
    /// A flat part.
    Plate(Plate),
    /// Something round along a line.
    Rod(Rod),
}

impl fmt::Display for Thing {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Neck => formatter.write_str("neck"),
            Self::Fretboard => formatter.write_str("fretboard"),
            Self::Nut => formatter.write_str("nut"),
            Self::Saddle => formatter.write_str("saddle"),
            Self::Heel => formatter.write_str("heel block"),
            Self::TailBlock => formatter.write_str("tail block"),
            Self::Face(BoxFace::Lid) => formatter.write_str("lid"),
            Self::Face(BoxFace::NeckEnd) => formatter.write_str("neck end"),
            Self::Face(BoxFace::TailEnd) => formatter.write_str("tail end"),
            Self::Face(BoxFace::BassSide) => formatter.write_str("bass side"),
            Self::Face(BoxFace::TrebleSide) => formatter.write_str("treble side"),
            Self::ZeroFret => formatter.write_str("zero fret"),
            Self::Fret(number) => write!(formatter, "fret {number}"),
            Self::String(number) => write!(formatter, "string {}", number.0),
            Self::TunerPost(number) => write!(formatter, "tuner post {}", number.0),
            Self::TunerBody(number) => write!(formatter, "tuner body {}", number.0),
            Self::TailScrew(number) => write!(formatter, "tail screw {number}"),
        }
    }
}

impl Placed {
    /// Its surface as triangles, closed and outward, in the instrument frame, millimetres.
    ///
    /// - **Accuracy**: flat faces are exact; nothing round deviates by more than the tolerance.
    /// - **Errors**: a [`BodyFault`] where the triangles do not close.
    pub fn mesh(&self, tolerance: ChordTolerance) -> Result<Mesh, BodyFault> {
        match &self.form {
            Form::Body(body) => body.mesh(tolerance),
            Form::Plate(plate) => plate.mesh(tolerance),
            Form::Rod(rod) => Ok(rod.mesh(tolerance)?),
        }
    }
}

/// Every solid thing of an instrument at its place, each [`Thing`] once.
///
/// - **Units**: millimetres.
/// - **Frame**: instrument frame; the neck straight, as it is before the strings bend it.
/// - **Accuracy**: wire that runs round something round follows it within the tolerance.
/// - What cannot be made is left out, and so is an opening that would cut through the edge of its plate or into another
///   opening.
#[must_use]
pub fn placed(layout: &Layout, set: &PartSet, tolerance: ChordTolerance) -> Vec<Placed> {
    let mut placed = solid_parts(set);
    placed.extend(plates::box_faces(layout, set));
    placed.extend(wires::frets(layout, tolerance));
    placed.extend(hardware::strings(layout));
    placed.extend(hardware::tuners(layout));
    placed.extend(hardware::tail_screws(layout));
    placed
}

fn solid_parts(set: &PartSet) -> Vec<Placed> {
    let thing = |name| match name {
        "neck" => Some(Thing::Neck),
        "fretboard" => Some(Thing::Fretboard),
        "nut" => Some(Thing::Nut),
        "saddle" => Some(Thing::Saddle),
        "heel-block" => Some(Thing::Heel),
        "tail-block" => Some(Thing::TailBlock),
        _ => None,
    };
    let solid = |part: &crate::Part| {
        let body = part.solid.as_ref()?.body.clone();
        Some(Placed { thing: thing(part.name)?, form: Form::Body(body) })
    };
    set.parts.iter().filter_map(solid).collect()
}
