//! Where is there wood in the headstock, seen from above?

use geometry::{Bounds2, Outline, Point2, Segment, Vector2, meetings};
use spec::Spec;
use units::Length;

use crate::neck_shape::NeckShape;
use crate::place::Place;

/// The headstock from above, in the instrument frame's `x` and `y`: the document's outline, or a rectangle as wide as the neck.
#[derive(Clone, Debug, PartialEq)]
pub struct HeadstockPlan {
    outline: Outline,
    /// The `x` of the nut's rear face, where it is joined to the neck.
    joint_x: Length,
    /// Half as wide as the neck is there.
    half_joint: Length,
}

impl HeadstockPlan {
    /// The plan of a right-handed headstock.
    pub(crate) fn of(spec: &Spec, neck: &NeckShape) -> Self {
        let (joint_x, half) = (neck.nut_front_x - spec.nut.thickness, neck.width_at_nut / 2.0);
        let outline = match &spec.headstock.outline {
            None => Outline::rectangle(
                Point2::new(-spec.headstock.length, -half),
                Point2::new(Length::ZERO, half),
            ),
            Some(drawn) => drawn.joined_to(half * 2.0),
        };
        let outline = outline.expect("a document is sound only where the neck fits its headstock: our bug");
        Self { outline: outline.translated(Vector2::new(joint_x, Length::ZERO)), joint_x, half_joint: half }
    }

    /// The edge, counter-clockwise. Its two vertices on the edges of the neck, where both are joined, follow each other.
    #[must_use]
    pub const fn outline(&self) -> &Outline {
        &self.outline
    }

    /// The vertex, by its number, from which the joint to the neck leads to the next one.
    #[must_use]
    pub fn joint(&self) -> usize {
        let ends_at = |segment: &Segment| self.is_joint(segment);
        self.outline
            .segments()
            .position(|segment| ends_at(&segment))
            .expect("a headstock has its joint: our bug")
    }

    /// All of the edge but the joint to the neck.
    pub fn edges(&self) -> impl Iterator<Item = Segment> {
        self.outline.segments().filter(|segment| !self.is_joint(segment))
    }

    /// The least box round it.
    #[must_use]
    pub fn bounds(&self) -> Bounds2 {
        self.outline.bounds()
    }

    /// From a place on the headstock to the nearest edge; negative where the place lies beside the headstock.
    #[must_use]
    pub fn inside(&self, place: Place) -> Length {
        let point = Point2::new(place.x, place.y);
        let to_edge =
            self.edges().map(|edge| edge.distance_to(point)).fold(Length::mm(f64::MAX), Length::min);
        // The neck goes on beyond the joint.
        let on_wood = self.outline.contains(point) || place.x > self.joint_x;
        if on_wood { to_edge } else { -to_edge }
    }

    /// From a place to the outermost edge beside it, square to the centre line: at the side of the place that `side` points
    /// to, which is 1 or -1; nothing where there is no wood.
    #[must_use]
    pub fn beside(&self, place: Place, side: f64) -> Option<Length> {
        let from = Point2::new(place.x, place.y);
        let far = Point2::mm(from.x, from.y + side * (self.bounds().height().as_mm() * 2.0 + 1.0));
        let crossed = meetings([Segment::Line { from, to: far }], self.edges());
        crossed.into_iter().map(|point| Length::mm((point.y - from.y).abs())).reduce(Length::max)
    }

    /// The same for the other hand.
    pub(crate) fn mirrored(&self) -> Self {
        Self { outline: self.outline.mirrored_y(), ..*self }
    }

    fn is_joint(&self, segment: &Segment) -> bool {
        let on_joint =
            |point: Point2| point.x == self.joint_x.as_mm() && point.y.abs() == self.half_joint.as_mm();
        on_joint(segment.from()) && on_joint(segment.to())
    }
}
