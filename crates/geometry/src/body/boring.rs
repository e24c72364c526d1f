//! How does a bore change the skin of a body?
//!
//! Its entry, and its exit where it goes through, become holes of flat faces; its wall is two half turns between each
//! two steps, its shoulders are rings and its bottom is a disc or a tip. Full circles are two half circles.

use units::Length;

use super::bore_room::{check_apart, check_inside, curved_faces, flat_face_at};
use super::{BodyFault, Bore, BoreStep, Curve3, EdgeUse, Face, FaceLoop, Skin, Strip, Surface};

/// Two half circles round the axis of a bore, by the right hand about its direction; both ends of the first, in order.
struct Round {
    points: [usize; 2],
    halves: [usize; 2],
}

/// Where a wall ends.
enum Rim {
    Round(Round),
    Tip(usize),
}

/// Adds bores to the skin of a body without bores.
pub(super) fn bore(skin: &mut Skin, bores: &[Bore]) -> Result<(), BodyFault> {
    check_apart(bores)?;
    let outside = skin.faces.len();
    let curved = curved_faces(skin);
    for (index, bore) in bores.iter().enumerate() {
        let last = bore.steps[bore.steps.len() - 1];
        let entry = flat_face_at(skin, outside, bore, index, Length::ZERO)?
            .ok_or(BodyFault::BoreMissesFace { bore: index, at: bore.entry })?;
        let exit = flat_face_at(skin, outside, bore, index, last.depth)?;
        check_inside(skin, &curved, bore, index, exit)?;
        add_bore(skin, bore, entry, exit);
    }
    Ok(())
}

fn add_bore(skin: &mut Skin, bore: &Bore, entry: usize, exit: Option<usize>) {
    let first = add_round(skin, bore, bore.steps[0]);
    skin.faces[entry].loops.push(first.forward());
    let mut above = Rim::Round(first);
    for pair in bore.steps.windows(2) {
        let below = if pair[1].radius == Length::ZERO {
            Rim::Tip(skin.add_point(bore.at(pair[1].depth)))
        } else {
            Rim::Round(add_round(skin, bore, pair[1]))
        };
        let Rim::Round(round) = &above else { unreachable!("only the last step is a tip: our bug") };
        match &below {
            Rim::Round(below) if pair[0].depth == pair[1].depth => {
                add_shoulder(skin, bore, pair, round, below)
            }
            _ => add_wall(skin, bore, round, &below),
        }
        above = below;
    }
    if let Rim::Round(round) = &above {
        match exit {
            Some(exit) => skin.faces[exit].loops.push(round.backward()),
            None => {
                let bottom = bore.frame(bore.steps[bore.steps.len() - 1].depth, false);
                skin.faces.push(Face { surface: Surface::Plane(bottom), loops: vec![round.backward()] });
            }
        }
    }
}

impl Round {
    /// The loop of a face that looks along the bore and lies inside, or against it and lies outside.
    fn forward(&self) -> FaceLoop {
        self.halves.map(|edge| EdgeUse { edge, forward: true }).to_vec()
    }

    /// The loop of a face that looks against the bore and lies inside, or along it and lies outside.
    fn backward(&self) -> FaceLoop {
        self.halves.map(|edge| EdgeUse { edge, forward: false }).into_iter().rev().collect()
    }
}

fn add_round(skin: &mut Skin, bore: &Bore, step: BoreStep) -> Round {
    let frame = bore.frame(step.depth, true);
    let radius = frame.u * step.radius.as_mm();
    let points = [skin.add_point(frame.origin + radius), skin.add_point(frame.origin - radius)];
    let halves =
        [(0, 1), (1, 0)].map(|(from, to)| skin.add_edge(points[from], points[to], 1.0, bore.direction));
    Round { points, halves }
}

/// A flat ring between two circles in one plane: it looks back where the bore narrows, onward where it widens.
fn add_shoulder(skin: &mut Skin, bore: &Bore, steps: &[BoreStep], above: &Round, below: &Round) {
    let narrows = steps[1].radius < steps[0].radius;
    let surface = Surface::Plane(bore.frame(steps[0].depth, !narrows));
    let (above, below) = (above.backward(), below.forward());
    let loops = if narrows { vec![above, below] } else { vec![below, above] };
    skin.faces.push(Face { surface, loops });
}

/// The two half turns of a cylinder or cone.
fn add_wall(skin: &mut Skin, bore: &Bore, above: &Round, below: &Rim) {
    let seams = [0, 1].map(|side| {
        let end = match below {
            Rim::Round(below) => below.points[side],
            Rim::Tip(tip) => *tip,
        };
        skin.add_line(above.points[side], end)
    });
    for half in [0, 1] {
        let start = EdgeUse { edge: above.halves[half], forward: false };
        let mut face_loop = vec![start, EdgeUse { edge: seams[half], forward: true }];
        let end = match below {
            Rim::Round(below) => {
                let end = EdgeUse { edge: below.halves[half], forward: true };
                face_loop.push(end);
                skin.curve_of(end.reversed())
            }
            Rim::Tip(tip) => Curve3::line(skin.points[*tip], skin.points[*tip]),
        };
        face_loop.push(EdgeUse { edge: seams[1 - half], forward: false });
        let strip = Strip { start: skin.curve_of(start), end, start_uses: 1 };
        let surface = Surface::Revolved { strip, center: bore.entry, axis: -bore.direction };
        skin.faces.push(Face { surface, loops: vec![face_loop] });
    }
}
