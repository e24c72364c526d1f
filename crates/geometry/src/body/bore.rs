//! What is a round hole?

use units::Length;

use crate::{Frame3, Point3, Rigid3, Vector3};

/// A round hole along a straight axis, square to the flat face that it enters.
///
/// Its profile runs through the steps in order, from the first at depth 0. Between two steps the wall is a cylinder
/// where the radii are equal, a flat shoulder where the depths are equal, and a cone where both differ. A last step
/// that lies in a flat face square to the bore makes it a through bore; otherwise it is blind and the last step is
/// its bottom: a disc, or the tip of a cone where the last radius is 0.
#[derive(Clone, Debug, PartialEq)]
pub struct Bore {
    /// The centre of the hole in the face that it enters.
    pub entry: Point3,
    /// Into the material; of length 1.
    pub direction: Vector3,
    /// The profile, from the entry inward.
    pub steps: Vec<BoreStep>,
}

/// One corner of a bore's profile.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoreStep {
    /// From the entry face.
    pub depth: Length,
    /// Of the hole at that depth.
    pub radius: Length,
}

impl Bore {
    /// A hole of one radius down to a depth.
    #[must_use]
    pub fn straight(entry: Point3, direction: Vector3, radius: Length, depth: Length) -> Self {
        Self { entry, direction, steps: steps([(Length::ZERO, radius), (depth, radius)]) }
    }

    /// A hole with a wider one in its mouth, flat at the bottom.
    #[must_use]
    pub fn counterbored(entry: Point3, direction: Vector3, hole: BoreStep, mouth: BoreStep) -> Self {
        let corners = [
            (Length::ZERO, mouth.radius),
            (mouth.depth, mouth.radius),
            (mouth.depth, hole.radius),
            (hole.depth, hole.radius),
        ];
        Self { entry, direction, steps: steps(corners) }
    }

    /// A hole whose mouth narrows like a cone, from `mouth_radius` at the face to the hole's at `mouth_depth`.
    #[must_use]
    pub fn countersunk(
        entry: Point3,
        direction: Vector3,
        hole: BoreStep,
        mouth_radius: Length,
        mouth_depth: Length,
    ) -> Self {
        let corners = [(Length::ZERO, mouth_radius), (mouth_depth, hole.radius), (hole.depth, hole.radius)];
        Self { entry, direction, steps: steps(corners) }
    }

    /// The bore after a motion.
    #[must_use]
    pub fn moved(&self, motion: &Rigid3) -> Self {
        Self {
            entry: motion.point(self.entry),
            direction: motion.vector(self.direction),
            steps: self.steps.clone(),
        }
    }

    /// The mirror image in the plane y = 0.
    #[must_use]
    pub fn mirrored_y(&self) -> Self {
        Self {
            entry: Point3::mm(self.entry.x, -self.entry.y, self.entry.z),
            direction: Vector3::mm(self.direction.x, -self.direction.y, self.direction.z),
            steps: self.steps.clone(),
        }
    }

    /// The place on the axis at a depth.
    pub(super) fn at(&self, depth: Length) -> Point3 {
        self.entry + self.direction * depth.as_mm()
    }

    /// Whether the steps make a hole: a direction of length 1, at least two steps, from depth 0 never back, radii
    /// positive but for a tip at the end.
    pub(super) fn is_sound(&self) -> bool {
        let weld = crate::WELD.distance();
        let unit = (self.direction.length() - 1.0).abs() < 1e-9 && self.entry.is_finite();
        let last = self.steps.len().saturating_sub(1);
        let radii = self
            .steps
            .iter()
            .enumerate()
            .all(|(index, step)| step.radius > weld || (index == last && step.radius == Length::ZERO));
        let onward = self.steps.windows(2).all(|pair| {
            let deeper = pair[1].depth - pair[0].depth;
            let shoulder = deeper == Length::ZERO && (pair[1].radius - pair[0].radius).abs() > weld;
            shoulder || deeper > weld
        });
        let begins = self.steps.first().is_some_and(|step| step.depth == Length::ZERO);
        let ends = self.steps.last().is_some_and(|step| step.depth > weld);
        unit && self.steps.len() >= 2 && radii && onward && begins && ends
    }

    /// A frame across the axis at a depth, facing along `normal`, which is the direction or its opposite. All frames
    /// of one bore share `u`, so that their circles start beside each other.
    pub(super) fn frame(&self, depth: Length, facing_along: bool) -> Frame3 {
        let least = if self.direction.x.abs() < 0.8 { Vector3::X } else { Vector3::Y };
        let normal = if facing_along { self.direction } else { -self.direction };
        Frame3::facing(self.at(depth), normal, least)
            .expect("a bore's direction is not its own perpendicular: our bug")
    }
}

fn steps<const COUNT: usize>(corners: [(Length, Length); COUNT]) -> Vec<BoreStep> {
    corners.into_iter().map(|(depth, radius)| BoreStep { depth, radius }).collect()
}
