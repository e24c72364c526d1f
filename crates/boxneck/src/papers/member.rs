//! What of an instrument does the class need to know?

use std::collections::BTreeSet;
use std::sync::Arc;

use fit::Severity;
use geometry::{Datum, Drawing, Operation, Outline, Point2, Shape};
use parts::Part;
use spec::stock::Wood;
use spec::{Choice, Handed, HolePurpose};
use units::Length;

use super::kit::{KitLine, kit};
use crate::findings_record::ToldFinding;
use crate::instrument::Instrument;
use crate::make::{CHORD, MakeFault};
use crate::overview::overview;
use crate::plates::Printed;

/// For whom an instrument is made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Enrolment {
    /// Who makes it.
    pub student: String,
    /// How many of it.
    pub quantity: u32,
    /// What the teacher wants to remember; may be empty.
    pub note: String,
    /// The page or the folder of the instrument itself, relative to the folder of the class; empty where there is none.
    pub link: String,
}

/// Somebody whose instrument is not made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Absent {
    /// Who, or which row of a roster.
    pub student: String,
    /// Why not, a sentence each.
    pub why: Vec<String>,
}

/// A student and what of the instrument the class needs to know. Cloning is cheap: what is made is shared.
#[derive(Clone, Debug)]
pub struct Member {
    pub(super) enrolment: Enrolment,
    pub(super) made: Arc<Made>,
}

/// What of an instrument the class needs to know.
#[derive(Debug)]
pub(super) struct Made {
    pub instrument: String,
    pub handed: Handed,
    /// What is told of it beside its name.
    pub about: Vec<(String, String)>,
    /// A small picture.
    pub picture: String,
    pub bit: Length,
    pub bed: [Length; 2],
    /// Every part: what it is, how many, of what.
    pub parts: Vec<(&'static str, u32, String)>,
    /// What is cut from stock.
    pub pieces: Vec<Piece>,
    /// What is printed.
    pub printed: Vec<Printed>,
    pub kit: Vec<KitLine>,
    /// What does not simply hold, the worst first.
    pub findings: Vec<ToldFinding>,
    pub woods: BTreeSet<&'static str>,
    pub is_electric: bool,
}

/// A part that is cut from a board or a sheet.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Piece {
    pub part: &'static str,
    pub title: &'static str,
    pub need: Need,
    /// Along, across and thick; the grain runs along.
    pub blank: [Length; 3],
    pub quantity: u32,
    /// Its contour from above, with the lower left of its outside at the origin.
    pub drawing: Drawing,
}

/// Which wood serves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Need {
    Wood(Wood),
    AnyHardwood,
}

impl Need {
    /// What a part's material asks for; nothing where it is not cut from stock.
    fn of(material: &str) -> Option<Self> {
        match Wood::named(material) {
            Ok(wood) => Some(Self::Wood(wood)),
            Err(_) => (material == "hardwood").then_some(Self::AnyHardwood),
        }
    }

    pub fn is_met_by(self, wood: Wood) -> bool {
        match self {
            Self::Wood(own) => own == wood,
            Self::AnyHardwood => wood.is_hardwood(),
        }
    }

    pub const fn words(self) -> &'static str {
        match self {
            Self::Wood(wood) => wood.name(),
            Self::AnyHardwood => "any hardwood",
        }
    }
}

impl Member {
    /// What the class needs of an instrument.
    ///
    /// # Errors
    ///
    /// [`MakeFault::Body`] for a printed part that has no mesh, [`MakeFault::Export`] where nothing can be drawn.
    pub fn of(instrument: &Instrument, enrolment: Enrolment) -> Result<Self, MakeFault> {
        Self::checked(instrument, ToldFinding::all_of(instrument.findings()), enrolment)
    }

    /// The same where it is known already what the checks find: they are not made again.
    pub(crate) fn checked(
        instrument: &Instrument,
        mut findings: Vec<ToldFinding>,
        enrolment: Enrolment,
    ) -> Result<Self, MakeFault> {
        let (spec, layout) = (instrument.spec(), instrument.layout());
        let wanted: Vec<&Part> = instrument.parts().parts.iter().filter(|part| part.quantity > 0).collect();
        let mut printed = Vec::new();
        for part in wanted.iter().filter(|part| part.is_printed()) {
            let Some(solid) = &part.solid else { continue };
            let lying = solid.lying(CHORD).map_err(|fault| MakeFault::Body { part: part.name, fault })?;
            printed.extend(Printed::of(part, &lying));
        }
        let cut: Vec<&&Part> = wanted.iter().filter(|part| !part.is_printed()).collect();
        let pieces: Vec<Piece> = cut.iter().filter_map(|part| piece(part)).collect();
        let from_above = overview(instrument, None).views.swap_remove(0);
        let about = [
            ("hand", spec.handed.word().to_owned()),
            ("strings", spec.strings.len().to_string()),
            ("scale length", spec.scale.length.to_string()),
            ("frets", layout.frets().frets.len().to_string()),
        ];
        findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
        let woods = pieces.iter().map(|piece| piece.need.words());
        let made = Made {
            instrument: spec.name.clone(),
            handed: spec.handed,
            about: about.map(|(what, value)| (what.to_owned(), value)).to_vec(),
            picture: export::scene::thumbnail(&from_above, &spec.name)?,
            bit: spec.router.bit,
            bed: spec.print.bed,
            parts: wanted.iter().map(|part| (part.title, part.quantity, part.material.clone())).collect(),
            woods: woods.chain([spec.neck.wood.name(), spec.body.lid_wood.name()]).collect(),
            pieces,
            printed,
            kit: kit(layout),
            findings,
            is_electric: spec.body.holes.iter().any(|hole| hole.purpose != HolePurpose::Sound),
        };
        Ok(Self { enrolment, made: Arc::new(made) })
    }

    /// The same instrument for another student.
    #[must_use]
    pub fn shared_with(&self, enrolment: Enrolment) -> Self {
        Self { enrolment, made: Arc::clone(&self.made) }
    }

    /// Name and number, as everything of the student's is marked; members are counted from 1.
    pub(super) fn tag(&self, index: usize) -> String {
        let number = index + 1;
        match self.enrolment.student.trim() {
            "" => format!("no. {number}"),
            student => format!("{student} ({number})"),
        }
    }

    /// "right-handed" or "left-handed".
    pub(super) fn hand(&self) -> String {
        format!("{}-handed", self.made.handed.word())
    }

    /// The worst of what does not hold.
    pub(super) fn worst(&self) -> Severity {
        self.made.findings.iter().map(|finding| finding.severity).max().unwrap_or(Severity::Pass)
    }
}

/// A part as it is cut from stock; nothing for what comes as a whole, as a box does.
fn piece(part: &Part) -> Option<Piece> {
    let own = part.drawings.iter().map(at_its_outside).find_map(|drawing| {
        let (drawing, size) = drawing?;
        let is_blank = (0..2).all(|axis| (size[axis] - part.blank[axis]).as_mm().abs() < 0.01);
        is_blank.then_some(drawing)
    });
    Some(Piece {
        part: part.name,
        title: part.title,
        need: Need::of(&part.material)?,
        blank: part.blank,
        quantity: part.quantity,
        drawing: own.or_else(|| plain_blank(part))?,
    })
}

/// A drawing with the lower left of its outside at the origin, and the size of that.
pub(super) fn at_its_outside(drawing: &Drawing) -> Option<(Drawing, [Length; 2])> {
    let outsides = drawing.operations.iter().filter_map(|operation| match operation {
        Operation::CutOutside(shape) => Some(shape.bounds()),
        _ => None,
    });
    let bounds = outsides.reduce(geometry::Bounds2::union)?;
    Some((drawing.translated(Point2::ORIGIN - bounds.min), [bounds.width(), bounds.height()]))
}

/// A rectangle as large as the blank, for a part whose drawings do not show it from above.
fn plain_blank(part: &Part) -> Option<Drawing> {
    let [along, across, _] = part.blank;
    let outline = Outline::rectangle(Point2::ORIGIN, Point2::new(along, across)).ok()?;
    Some(Drawing {
        name: part.name.into(),
        title: format!("{}, blank", part.title),
        datum: Datum { point: Point2::ORIGIN, meaning: "corner of the blank".into() },
        operations: vec![Operation::CutOutside(Shape::Outline(outline))],
    })
}
