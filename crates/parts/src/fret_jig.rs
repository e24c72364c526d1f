//! The fret-marking jig: a comb that lies on the playing surface, with a slot for the pencil at every station.
//!
//! A fence hooks over one edge of the neck (at negative `y` whatever the hand: a neck is the same at both), and is slanted as
//! the neck tapers, so that the slots are square to the centre line. A jig longer than the bed comes in sections. Each begins
//! with the slot of the last station of the one before, and its drawing says how far that is from the zero fret: measured once
//! from there, errors do not add up. One dimple beside every fifth slot and two beside every tenth help to count.

use geometry::{
    Body, Bore, Circle, Datum, Drawing, Frame3, HoleDepth, Loft, Operation, Outline, OutlineFault, Path,
    Point2, Point3, Rigid3, Section, Vector3,
};
use layout::Layout;
use units::Length;

use crate::part::{Part, PartFault, Process, Solid};

/// What the sections are called. A jig in more pieces helps nobody.
const NAMES: [&str; 6] = ["fret-jig-1", "fret-jig-2", "fret-jig-3", "fret-jig-4", "fret-jig-5", "fret-jig-6"];
const TITLES: [&str; 6] = [
    "Fret-marking jig, section 1",
    "Fret-marking jig, section 2",
    "Fret-marking jig, section 3",
    "Fret-marking jig, section 4",
    "Fret-marking jig, section 5",
    "Fret-marking jig, section 6",
];

/// How thick the comb is. Smaller bends; larger hides the line from the eye. Common practice, no source.
const THICKNESS: Length = Length::mm(3.0);

/// How far the fence hangs down beside the neck. Smaller slips off; larger meets the bench under a thin neck. Common practice,
/// no source.
const HOOK: Length = Length::mm(5.0);

/// How wide the spine is that carries the teeth. Smaller lets them twist. Common practice, no source.
const SPINE: Length = Length::mm(10.0);

/// How thick the fence is. Common practice, no source.
const FENCE: Length = Length::mm(3.0);

/// Beyond the first and the last slot of a section. Common practice, no source.
const END: Length = Length::mm(8.0);

/// The narrowest tooth between two slots. Smaller breaks off. Common practice, no source.
const TOOTH: Length = Length::mm(2.0);

/// Diameter of a dimple, and how far two stand from the middle between them. Common practice, no source.
const DIMPLE: Length = Length::mm(2.0);
const BESIDE: Length = Length::mm(2.2);

/// What is kept free round a section on the bed, for skirts and brims. Common practice, no source.
const BED_MARGIN: Length = Length::mm(5.0);

/// Every section, from the zero fret on; none where the frets are too close or too many for a printer, or the neck is too narrow
/// for teeth.
pub(crate) fn make(layout: &Layout) -> Result<Vec<Part>, PartFault> {
    let sections = sections(layout);
    let neck = layout.neck();
    let narrowest = neck.width_at_nut.min(neck.width_at_box);
    if sections.len() > NAMES.len() || narrowest < SPINE + TOOTH * 2.0 {
        return Ok(Vec::new());
    }
    sections
        .iter()
        .zip(NAMES)
        .zip(TITLES)
        .map(|((slots, name), title)| part(layout, slots, name, title))
        .collect()
}

fn part(layout: &Layout, slots: &[Slot], name: &'static str, title: &'static str) -> Result<Part, PartFault> {
    let comb = Comb { layout, slots, kerf: layout.spec().print.nozzle * 2.0 };
    let bad_outline = PartFault::outline(name);
    let [from, to] = comb.ends();
    let body =
        Body::new(comb.lofts().map_err(bad_outline)?, comb.dimples()).map_err(PartFault::body(name))?;
    // It is printed on its back, with the fence up.
    let back = Frame3 { origin: Point3::new(from, Length::ZERO, THICKNESS), u: Vector3::X, v: -Vector3::Y };
    let half = comb.half(from).max(comb.half(to));
    Ok(Part {
        name,
        title,
        material: "as the printed parts".into(),
        blank: [to - from, half * 2.0 + FENCE, THICKNESS + HOOK],
        quantity: 0,
        drawings: vec![comb.drawing(name, title).map_err(bad_outline)?],
        solid: Some(Solid::new(
            name,
            body,
            Rigid3::between(back, Frame3::across_z(Length::ZERO)),
            Process::Printed,
        )?),
    })
}

/// A place to mark.
#[derive(Clone, Copy)]
struct Slot {
    /// 0 is the zero fret.
    number: u8,
    x: Length,
}

/// The slots of each section.
fn sections(layout: &Layout) -> Vec<Vec<Slot>> {
    let spec = layout.spec();
    let longest = spec.print.bed[0].max(spec.print.bed[1]) - (BED_MARGIN + END) * 2.0;
    let frets = layout.frets().frets.iter().map(|fret| Slot { number: fret.number, x: fret.x });
    let mut stations = vec![Slot { number: 0, x: Length::ZERO }];
    for slot in frets {
        if slot.x - stations[stations.len() - 1].x < TOOTH + spec.print.nozzle * 2.0 {
            break;
        }
        stations.push(slot);
    }
    let mut sections: Vec<Vec<Slot>> = Vec::new();
    let mut section = vec![stations[0]];
    for slot in &stations[1..] {
        // A section has two slots at least; that it is larger than the bed then, the check of the bed tells.
        if section.len() > 1 && slot.x - section[0].x > longest {
            let last = section[section.len() - 1];
            sections.push(std::mem::replace(&mut section, vec![last]));
        }
        section.push(*slot);
    }
    if section.len() > 1 {
        sections.push(section);
    }
    sections
}

/// One section, in the instrument frame.
struct Comb<'a> {
    layout: &'a Layout,
    slots: &'a [Slot],
    /// How wide a slot is: the least that every printer keeps open.
    kerf: Length,
}

impl Comb<'_> {
    fn ends(&self) -> [Length; 2] {
        [self.slots[0].x - END, self.slots[self.slots.len() - 1].x + END]
    }

    /// From the centre line to the edge of the neck, with the taper carried on beyond its ends.
    fn half(&self, x: Length) -> Length {
        let neck = self.layout.neck();
        let slope = (neck.width_at_box - neck.width_at_nut) / (neck.box_x - neck.nut_front_x);
        (neck.width_at_nut + (x - neck.nut_front_x) * slope) / 2.0
    }

    /// Where the comb changes across: each place, and whether the teeth go on from there.
    fn steps(&self) -> Vec<(Length, bool)> {
        let [from, to] = self.ends();
        let cut = |slot: &Slot| [(slot.x - self.kerf / 2.0, false), (slot.x + self.kerf / 2.0, true)];
        std::iter::once((from, true)).chain(self.slots.iter().flat_map(cut)).chain([(to, true)]).collect()
    }

    fn lofts(&self) -> Result<Vec<Loft>, OutlineFault> {
        let steps = self.steps();
        let loft = |pair: &[(Length, bool)]| {
            let ((from, tooth), (to, _)) = (pair[0], pair[1]);
            Ok(Loft { start: self.section(from, tooth)?, end: self.section(to, tooth)? })
        };
        steps.windows(2).map(loft).collect()
    }

    /// The comb cut across: fence, spine and, between slots, a tooth as far as the other edge.
    fn section(&self, x: Length, tooth: bool) -> Result<Section, OutlineFault> {
        let half = self.half(x);
        let end = if tooth { half } else { SPINE - half };
        let at = |y: Length, z: Length| Point2::new(y, z);
        let ring = Outline::polygon([
            at(-half - FENCE, -HOOK),
            at(-half, -HOOK),
            at(-half, Length::ZERO),
            at(end, Length::ZERO),
            at(end, THICKNESS),
            at(-half - FENCE, THICKNESS),
        ])?;
        Ok(Section { frame: Frame3::across_x(x), ring })
    }

    /// Where the dimples are.
    fn dimple_places(&self) -> Vec<Point2> {
        let place = |slot: &Slot| {
            let middle = SPINE / 2.0 - FENCE / 2.0 - self.half(slot.x);
            let aside = match slot.number {
                0 => vec![],
                number if number % 10 == 0 => vec![-BESIDE, BESIDE],
                number if number % 5 == 0 => vec![Length::ZERO],
                _ => vec![],
            };
            aside.into_iter().map(|aside| Point2::new(slot.x, middle + aside)).collect::<Vec<_>>()
        };
        self.slots.iter().flat_map(place).collect()
    }

    fn dimples(&self) -> Vec<Bore> {
        let bore = |at: Point2| {
            Bore::straight(
                Point3::mm(at.x, at.y, THICKNESS.as_mm()),
                -Vector3::Z,
                DIMPLE / 2.0,
                THICKNESS / 2.0,
            )
        };
        self.dimple_places().into_iter().map(bore).collect()
    }

    /// From above, in the instrument frame's `x` and `y`, with each slot as one saw cut.
    fn drawing(&self, name: &str, title: &str) -> Result<Drawing, OutlineFault> {
        let [from, to] = self.ends();
        let corners = [
            Point2::new(from, -self.half(from) - FENCE),
            Point2::new(to, -self.half(to) - FENCE),
            Point2::new(to, self.half(to)),
            Point2::new(from, self.half(from)),
        ];
        let mut operations = vec![Operation::CutOutside(Outline::polygon(corners)?.into())];
        for slot in self.slots {
            let half = self.half(slot.x);
            let path = Path::line(Point2::new(slot.x, SPINE - half), Point2::new(slot.x, half))?;
            operations.push(Operation::Slot { path, width: self.kerf, depth: THICKNESS });
        }
        for at in self.dimple_places() {
            operations.push(Operation::Drill {
                circle: Circle::of_diameter(at, DIMPLE),
                depth: HoleDepth::To(THICKNESS / 2.0),
            });
        }
        let first = self.slots[0];
        let meaning = match first.number {
            0 => "centre line at the zero fret".to_owned(),
            number => format!("centre line at fret {number}, {} from the zero fret", first.x),
        };
        let last = self.slots[self.slots.len() - 1].number;
        Ok(Drawing {
            name: name.into(),
            title: format!("{title}, from above: frets {} to {last}", first.number),
            datum: Datum { point: Point2::new(first.x, Length::ZERO), meaning },
            operations,
        })
    }
}
