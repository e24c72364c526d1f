//! What is said of holes, openings, slots and radii, and where do the words stand?
//!
//! What is alike is said once, with its count ("4x Ø2.5 through"), beside the one of them that has most room: near it, on no
//! line and no other words, with a line from the words that crosses as little as possible. Where nothing near is free the
//! words stand above the part.

use std::collections::BTreeMap;

use geometry::{Circle, Drawing, HoleDepth, Operation, Point2, Segment, Shape, Vector2};
use units::{Angle, Length, LengthUnit};

use super::annotation::{Annotation, Head, Role, Stroke};
use super::wording::{SIZE, diameter, size, width};
use crate::room::Room;

/// How far from what they are about the words are tried.
const REACHES: [f64; 10] = [4.0, 6.0, 8.0, 11.0, 15.0, 20.0, 26.0, 34.0, 44.0, 56.0];
/// How many directions are tried.
const DIRECTIONS: u32 = 16;
/// The level piece of a leader beside its words.
const SHOULDER: f64 = 1.5;
/// How many millimetres of a longer leader a line that it would cross is worth.
const CROSSING: f64 = 15.0;
/// The most of alike things beside which words are tried. More only take time.
const MOST_TRIED: usize = 12;

/// Something to say of alike things.
#[derive(Clone, Debug, PartialEq)]
struct Note {
    words: String,
    count: usize,
    /// Where a leader may end, and the way out from there; no way where any will do.
    tips: Vec<(Point2, Option<Vector2>)>,
}

/// All that is said, each in its place; `None` where one finds none.
///
/// What finds no place because other words stand before it goes first, and all places are looked for anew.
pub(super) fn callouts(drawing: &Drawing, unit: LengthUnit, top: f64, room: &mut Room) -> Option<Annotation> {
    let mut notes = notes(drawing, unit);
    // Each may go first once; what then still finds none has no place at all.
    for _ in 0..=notes.len() {
        let mut taken = room.clone();
        match placed(&notes, top, &mut taken) {
            Ok(all) => {
                *room = taken;
                return Some(all);
            }
            Err(0) => return None,
            Err(shut_in) => notes[..=shut_in].rotate_right(1),
        }
    }
    None
}

/// The notes in their order, each in the best place that those before it leave; the number of the first that finds none.
fn placed(notes: &[Note], top: f64, room: &mut Room) -> Result<Annotation, usize> {
    let mut all = Annotation::default();
    for (number, note) in notes.iter().enumerate() {
        let drawn = beside(note, room).or_else(|| above(note, top, room)).ok_or(number)?;
        drawn.settle(room);
        all.join(drawn);
    }
    Ok(all)
}

/// What there is to say, holes first.
fn notes(drawing: &Drawing, unit: LengthUnit) -> Vec<Note> {
    let mut notes: Vec<Note> = Vec::new();
    let mut say = |words: String, tips: Vec<(Point2, Option<Vector2>)>| match notes
        .iter_mut()
        .find(|note| note.words == words)
    {
        Some(note) => {
            note.count += 1;
            note.tips.extend(tips);
        }
        None => notes.push(Note { words, count: 1, tips }),
    };
    for (circle, words) in round(drawing, unit) {
        let ways = (0..DIRECTIONS)
            .map(|turn| Vector2::at_angle(Angle::degrees(360.0 / f64::from(DIRECTIONS)) * f64::from(turn)));
        say(words, ways.map(|way| (circle.center + way * circle.radius.as_mm(), Some(way))).collect());
    }
    let number = |length: Length| size(length, unit);
    let middles = |segments: &[Segment]| segments.iter().map(|piece| (piece.point_at(0.5), None)).collect();
    for operation in &drawing.operations {
        let segments = operation.segments();
        let bounds = operation.bounds();
        let extent = || format!("{} x {}", number(bounds.width()), number(bounds.height()));
        match operation {
            Operation::CutInside(Shape::Outline(_)) => {
                say(format!("{} cut out", extent()), middles(&segments))
            }
            Operation::Pocket { shape: Shape::Outline(_), depth } => {
                say(format!("{} pocket, {} deep", extent(), number(*depth)), middles(&segments));
            }
            Operation::Slot { width, depth, path } => {
                let along = [0.5, 0.25, 0.75].map(|share| (path.start().lerp(path.end(), share), None));
                say(format!("slot {} wide, {} deep", number(*width), number(*depth)), along.to_vec());
            }
            Operation::Engrave(_) => say("mark".into(), middles(&segments)),
            _ => {}
        }
        if matches!(
            operation,
            Operation::CutOutside(Shape::Outline(_)) | Operation::CutInside(Shape::Outline(_))
        ) {
            for piece in &segments {
                if let Segment::Arc { radius, .. } = piece {
                    say(format!("R{}", number(*radius)), vec![(piece.point_at(0.5), None)]);
                }
            }
        }
    }
    notes
}

/// Every place where something round is cut, with all that is cut about that centre, from narrow to wide.
fn round(drawing: &Drawing, unit: LengthUnit) -> Vec<(Circle, String)> {
    let number = |length: Length| size(length, unit);
    let mut holes: BTreeMap<(i64, i64), Vec<(Circle, String)>> = BTreeMap::new();
    for operation in &drawing.operations {
        let (circle, rest) = match operation {
            Operation::Drill { circle, depth: HoleDepth::Through } => (circle, " through".into()),
            Operation::Drill { circle, depth: HoleDepth::To(depth) } => {
                (circle, format!(", {} deep", number(*depth)))
            }
            Operation::CutInside(Shape::Circle(circle)) => (circle, " cut out".into()),
            Operation::Pocket { shape: Shape::Circle(circle), depth } => {
                (circle, format!(" pocket, {} deep", number(*depth)))
            }
            _ => continue,
        };
        let about = |value: f64| (value * 100.0).round() as i64;
        let words = format!("Ø{}{rest}", diameter(circle.radius * 2.0, unit));
        holes.entry((about(circle.center.x), about(circle.center.y))).or_default().push((*circle, words));
    }
    let together = |mut cuts: Vec<(Circle, String)>| {
        cuts.sort_by(|a, b| a.0.radius.as_mm().total_cmp(&b.0.radius.as_mm()));
        let words = cuts.iter().map(|cut| cut.1.as_str()).collect::<Vec<_>>().join(" + ");
        cuts.last().map(|widest| (widest.0, words))
    };
    holes.into_values().filter_map(together).collect()
}

impl Note {
    fn told(&self) -> String {
        if self.count > 1 { format!("{}x {}", self.count, self.words) } else { self.words.clone() }
    }

    /// Some of the tips, from all over.
    fn tried(&self) -> impl Iterator<Item = &(Point2, Option<Vector2>)> {
        let most = if self.tips.iter().any(|tip| tip.1.is_some()) {
            MOST_TRIED * DIRECTIONS as usize
        } else {
            MOST_TRIED
        };
        self.tips.iter().step_by(self.tips.len().div_ceil(most).max(1))
    }
}

/// The place near one of the alike things that costs least.
fn beside(note: &Note, room: &Room) -> Option<Annotation> {
    let words = note.told();
    let any_way = || {
        (0..DIRECTIONS)
            .map(|turn| Angle::degrees(360.0 / f64::from(DIRECTIONS)) * f64::from(turn))
            .map(Vector2::at_angle)
    };
    let mut best: Option<(f64, Annotation)> = None;
    for reach in REACHES {
        if best.as_ref().is_some_and(|(cost, _)| *cost <= reach) {
            break;
        }
        for (tip, way) in note.tried() {
            for way in way.map_or_else(|| any_way().collect(), |way| vec![way]) {
                let drawn = leader(&words, *tip, *tip + way * reach, if way.x < 0.0 { -1.0 } else { 1.0 });
                let astray = |stroke: &Stroke| room.runs_along(stroke.from, stroke.to);
                if !drawn.fits(room) || drawn.strokes.iter().any(astray) {
                    continue;
                }
                let crossings: usize =
                    drawn.strokes.iter().map(|stroke| room.crossings(stroke.from, stroke.to)).sum();
                let cost = reach + CROSSING * crossings as f64;
                if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                    best = Some((cost, drawn));
                }
            }
        }
    }
    best.map(|(_, drawn)| drawn)
}

/// The first free place above everything.
fn above(note: &Note, top: f64, room: &Room) -> Option<Annotation> {
    let words = note.told();
    let rows = (1..80).map(|row| top + 5.0 * f64::from(row));
    rows.flat_map(|y| (0..120).map(move |step| (y, step))).find_map(|(y, step)| {
        let aside = f64::from((step + 1) / 2) * 6.0 * if step % 2 == 0 { 1.0 } else { -1.0 };
        note.tips.iter().step_by(note.tips.len().div_ceil(6).max(1)).find_map(|(tip, _)| {
            let drawn =
                leader(&words, *tip, Point2::mm(tip.x + aside, y), if aside < 0.0 { -1.0 } else { 1.0 });
            drawn.fits(room).then_some(drawn)
        })
    })
}

/// Words beside the elbow of a line from a tip.
fn leader(words: &str, tip: Point2, elbow: Point2, toward: f64) -> Annotation {
    let mut drawn = Annotation::default();
    let shoulder = elbow + Vector2::mm(toward * SHOULDER, 0.0);
    drawn.stroke(Role::Dimension, tip, elbow);
    drawn.stroke(Role::Dimension, elbow, shoulder);
    if let Some(toward) = (tip - elbow).normalised() {
        drawn.heads.push(Head { tip, toward });
    }
    let middle = shoulder + Vector2::mm(toward * (0.3 * SIZE + width(words) / 2.0), 0.0);
    drawn.text(words.to_owned(), middle, false);
    drawn
}
