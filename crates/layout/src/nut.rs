//! Where do the strings lie at the nut, and how are its slots cut?

use spec::{Spacing, Spec, StringSpec};
use units::{Angle, Length, math};

use crate::neck_shape::NeckShape;
use crate::place::Place;

/// How far a slot's floor lies below the zero fret's crown at the nut's front face: at least and at most.
///
/// Higher lifts the string off the zero fret; lower lets it lie loose in the slot. Common practice, no source.
const FLOOR_BELOW_CROWN: [Length; 2] = [Length::mm(0.2), Length::mm(0.5)];

/// How much steeper than the string the floor falls, so that the string rests on the front edge. Common practice, no
/// source.
const FLOOR_RELIEF: Angle = Angle::degrees(2.0);

/// The least slope of a floor toward the tuners. Common practice, no source.
const FLOOR_SLOPE: Angle = Angle::degrees(5.0);

/// How deep the thinnest string lies in its slot at least; a thicker one lies in by its diameter. Common practice, no
/// source.
const SLOT_DEPTH: Length = Length::mm(1.0);

/// How high a slot's straight walls stand above its round bottom at least, at the front face, where it is the shallowest. Any
/// height makes a slot that a file can follow; with none the round bottom would come out through the nut's top.
const WALL_OVER_ROUND: Length = Length::mm(0.1);

/// The nut: a block behind the zero fret that spaces the strings.
#[derive(Clone, Debug, PartialEq)]
pub struct NutPlan {
    /// The `x` of its front face, toward the zero fret.
    pub front_x: Length,
    /// The `x` of its rear face, toward the tuners.
    pub rear_x: Length,
    /// The `z` that it stands on: the headstock's face, or the neck's where the headstock is not cut down.
    pub base_z: Length,
    /// The `z` of its top.
    pub top_z: Length,
    /// Its size across the strings.
    pub length: Length,
    /// One slot a string, bass to treble.
    pub slots: Vec<NutSlot>,
}

/// One string's slot through the nut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NutSlot {
    /// Lowest point of the slot at the front face.
    pub front: Place,
    /// Lowest point of the slot at the rear face: lower, and turned toward the post.
    pub rear: Place,
    /// Width of the slot, and diameter of its bottom.
    pub width: Length,
}

impl NutSlot {
    /// Its width along the nut's faces: as the saw cuts it, and more where it runs aslant.
    #[must_use]
    pub fn width_across(&self) -> Length {
        self.width * math::hypot(1.0, (self.front.y - self.rear.y) / (self.front.x - self.rear.x))
    }
}

/// Where the strings' centres lie when they share `width`, with `margin` from each edge to the outer strings' edges.
///
/// Bass to treble, around the middle of the width. A single string lies in the middle.
pub(crate) fn spread(strings: &[StringSpec], spacing: Spacing, width: Length, margin: Length) -> Vec<Length> {
    let (Some(first), Some(last)) = (strings.first(), strings.last()) else { return Vec::new() };
    if strings.len() == 1 {
        return vec![Length::ZERO];
    }
    let bass = -width / 2.0 + margin + first.diameter / 2.0;
    let treble = width / 2.0 - margin - last.diameter / 2.0;
    between(strings, spacing, bass, treble)
}

/// Where the strings' centres lie between the given outer centres.
pub(crate) fn between(strings: &[StringSpec], spacing: Spacing, bass: Length, treble: Length) -> Vec<Length> {
    let (Some(first), Some(last)) = (strings.first(), strings.last()) else { return Vec::new() };
    if strings.len() == 1 {
        return vec![(bass + treble) / 2.0];
    }
    let steps = (strings.len() - 1) as f64;
    let inner_metal: Length =
        strings.iter().map(|string| string.diameter).sum::<Length>() - (first.diameter + last.diameter) / 2.0;
    let gap = (treble - bass - inner_metal) / steps;
    let mut centre = bass;
    let mut centres = vec![bass];
    for (index, pair) in strings.windows(2).enumerate() {
        centre = match spacing {
            Spacing::EqualCentres => bass + (treble - bass) * ((index + 1) as f64 / steps),
            Spacing::EqualGaps => centre + (pair[0].diameter + pair[1].diameter) / 2.0 + gap,
        };
        centres.push(centre);
    }
    centres
}

impl NutPlan {
    /// The nut for strings whose undersides pass over the zero fret at `on_zero_fret` and leave the posts at `at_post`.
    pub(crate) fn of(
        spec: &Spec,
        neck: &NeckShape,
        at_nut: &[Length],
        on_zero_fret: &[Place],
        at_post: &[Place],
    ) -> Self {
        let front_x = neck.nut_front_x;
        let rear_x = front_x - spec.nut.thickness;
        let slots: Vec<NutSlot> = spec
            .strings
            .iter()
            .zip(at_nut)
            .zip(on_zero_fret.iter().zip(at_post))
            .map(|((string, y), (zero_fret, post))| {
                let straight_drop = zero_fret.z - zero_fret.on_the_way_to(*post, front_x).z;
                let drop = straight_drop.max(FLOOR_BELOW_CROWN[0]).min(FLOOR_BELOW_CROWN[1]);
                let front = Place { x: front_x, y: *y, z: zero_fret.z - drop };
                NutSlot {
                    front,
                    rear: rear_end(front, *post, rear_x),
                    width: string.diameter + spec.nut.slot_clearance,
                }
            })
            .collect();
        let top_z = spec
            .strings
            .iter()
            .zip(&slots)
            .map(|(string, slot)| {
                let round = slot.width_across() / 2.0 + WALL_OVER_ROUND;
                slot.front.z + string.diameter.max(SLOT_DEPTH).max(round)
            })
            .fold(neck.head_top_z, Length::max);
        Self { front_x, rear_x, base_z: neck.head_top_z, top_z, length: neck.width_at_nut, slots }
    }
}

/// The floor's rear end: toward the post in plan, and a little steeper than the string in elevation.
fn rear_end(front: Place, post: Place, rear_x: Length) -> Place {
    let straight = front.on_the_way_to(post, rear_x);
    let run = front.x - rear_x;
    let string_slope = Angle::of_slope(front.z - straight.z, run);
    let slope = (string_slope + FLOOR_RELIEF).max(FLOOR_SLOPE);
    Place { z: front.z - run * slope.tan(), ..straight }
}

#[cfg(test)]
mod tests {
    use super::*;
    use spec::Spec;

    #[track_caller]
    fn check(spacing: Spacing, diameters_mm: &[f64], expected_mm: &[f64]) {
        let sample = Spec::default().strings[0].clone();
        let strings: Vec<StringSpec> = diameters_mm
            .iter()
            .map(|diameter| StringSpec { diameter: Length::mm(*diameter), ..sample.clone() })
            .collect();
        let found = spread(&strings, spacing, Length::mm(40.0), Length::mm(4.0));
        assert_eq!(found.len(), expected_mm.len(), "one centre a string");
        for (found, expected) in found.iter().zip(expected_mm) {
            assert!(
                (found.as_mm() - expected).abs() < 1e-9,
                "{spacing:?} of {diameters_mm:?}: {} mm, expected {expected} mm",
                found.as_mm()
            );
        }
    }

    #[test]
    fn one_string_lies_in_the_middle() {
        check(Spacing::EqualGaps, &[1.0], &[0.0]);
    }

    #[test]
    fn equal_centres_ignore_the_diameters_between() {
        check(Spacing::EqualCentres, &[1.0, 0.2, 1.0], &[-15.5, 0.0, 15.5]);
    }

    // A loose slot that runs far aslant to its post is more than twice as broad as its string.
    #[test]
    fn the_round_of_no_slot_comes_out_through_the_top() {
        let text = r#"
            neck.width_at_nut = "60.43 mm"
            headstock.tuner_bore = "3 mm"
            nut.slot_clearance = "0.67 mm"
            strings = [{ pitch = "E2", diameter = "0.046 in", core = "0.018 in" }]
        "#;
        let (spec, _) =
            spec::Document::parse(text.as_bytes()).read().into_result().expect("a valid document");
        let layout = crate::layout(&spec).expect("an instrument");
        let (nut, string) = (layout.nut(), &spec.strings[0]);
        let slot = &nut.slots[0];
        assert!(slot.width_across() > string.diameter * 2.0, "{} mm across", slot.width_across().as_mm());
        let round_ends = slot.front.z + slot.width_across() / 2.0;
        assert!(nut.top_z > round_ends, "top {}, round up to {}", nut.top_z.as_mm(), round_ends.as_mm());
    }

    // 32 mm between the margins, 3 mm of it string: two gaps of 14.5 mm.
    #[test]
    fn equal_gaps_leave_the_same_air_between_edges() {
        check(Spacing::EqualGaps, &[2.0, 0.6, 0.4], &[-15.0, -15.0 + 1.0 + 14.5 + 0.3, 15.8]);
    }
}
