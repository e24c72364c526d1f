//! What lies in one face of the box and right behind it, and how far apart are two such things?
//!
//! Places on a face are those of the document: on the lid along it and across, on the walls along (or across) and down from
//! the lid's top.

use geometry::{Circle, Outline, Point2, Shape, Vector2, WELD, gap};
use layout::{BoxHole, Layout, TailKind};
use spec::{BoxFace, Joint, Opening};
use units::{Length, math};

/// A rectangle, a disc or something drawn on a face: a rectangle of no size with a radius is a disc, and what is drawn lies in
/// the rectangle of its bounds.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Patch {
    center: [Length; 2],
    half: [Length; 2],
    radius: Length,
    drawn: Option<Outline>,
}

impl Patch {
    /// The rectangle between two limits each way.
    pub(crate) fn between(first: [Length; 2], second: [Length; 2]) -> Self {
        let middle = |ends: [Length; 2]| (ends[0] + ends[1]) / 2.0;
        let half = |ends: [Length; 2]| (ends[1] - ends[0]).abs() / 2.0;
        Self {
            center: [middle(first), middle(second)],
            half: [half(first), half(second)],
            radius: Length::ZERO,
            drawn: None,
        }
    }

    /// What is cut away for an opening.
    pub(crate) fn of(hole: &BoxHole) -> Self {
        let center = [hole.first, hole.second];
        let rectangle = |sizes: [Length; 2], drawn| Self {
            center,
            half: sizes.map(|size| size / 2.0),
            radius: Length::ZERO,
            drawn,
        };
        match &hole.opening {
            Opening::Round { diameter } => {
                Self { radius: *diameter / 2.0, ..rectangle([Length::ZERO; 2], None) }
            }
            Opening::Rectangle { length, width } => rectangle([*length, *width], None),
            Opening::Drawn { outline, .. } => {
                let bounds = outline.outline.bounds();
                let moved = outline.outline.translated(Vector2::new(center[0], center[1]));
                rectangle([bounds.width(), bounds.height()], Some(moved))
            }
        }
    }

    /// The two ends of it in one of the two directions.
    pub(crate) fn ends(&self, direction: usize) -> [Length; 2] {
        let reach = self.half[direction] + self.radius;
        [self.center[direction] - reach, self.center[direction] + reach]
    }

    /// The air between two patches; negative by how far they would have to be moved apart where they overlap, of something
    /// drawn by how far its bounds would.
    ///
    /// - **Source**: derived: two rectangles are as far apart as a point from a rectangle of both their sizes.
    pub(crate) fn gap(&self, other: &Self) -> Length {
        let around = self.gap_of_bounds(other);
        if self.drawn.is_none() && other.drawn.is_none() {
            return around;
        }
        let (one, two) = (self.shape(), other.shape());
        let between = one.segments().first().zip(two.segments().first()).map(|(own, others)| {
            if one.contains(others.from()) || two.contains(own.from()) {
                return Length::ZERO;
            }
            gap(one.segments(), two.segments()).unwrap_or(Length::ZERO)
        });
        between.filter(|air| *air > Length::ZERO).unwrap_or(around)
    }

    fn gap_of_bounds(&self, other: &Self) -> Length {
        let apart =
            [0, 1].map(|way| (self.center[way] - other.center[way]).abs() - self.half[way] - other.half[way]);
        let outside = apart.map(|way| way.max(Length::ZERO).as_mm());
        let inside = apart[0].max(apart[1]).min(Length::ZERO);
        Length::mm(math::hypot(outside[0], outside[1])) + inside - self.radius - other.radius
    }

    /// The edge of it.
    fn shape(&self) -> Shape {
        let [at, half] = [self.center, self.half].map(|[x, y]| Vector2::new(x, y));
        let center = Point2::ORIGIN + at;
        match &self.drawn {
            Some(drawn) => drawn.clone().into(),
            None if self.radius > Length::ZERO => Circle::of_diameter(center, self.radius * 2.0).into(),
            // A rectangle of no size is a point, drawn as a disc that nobody sees.
            None => Outline::rectangle(center - half, center + half)
                .map_or_else(|_| Circle::of_diameter(center, WELD.distance() * 2.0).into(), Shape::from),
        }
    }

    /// The least distance from this patch to the edge of another that it should lie in; negative where it sticks out.
    pub(crate) fn inside(&self, other: &Self) -> Length {
        [0, 1]
            .map(|way| {
                let (own, around) = (self.ends(way), other.ends(way));
                (own[0] - around[0]).min(around[1] - own[1])
            })
            .into_iter()
            .fold(other.half[0], Length::min)
    }
}

/// How thick the box's bottom is taken to be: as thick as the lid. Common practice, no source.
pub(crate) fn bottom(layout: &Layout) -> Length {
    layout.spec().body.lid
}

/// The part of a face that has neither a wall nor lid nor bottom behind it.
pub(crate) fn hollow(layout: &Layout, face: BoxFace) -> Patch {
    let body = &layout.spec().body;
    let half = body.width / 2.0 - body.wall;
    let (along, across) = ([body.wall, body.length - body.wall], [-half, half]);
    let down = [body.lid, body.depth - bottom(layout)];
    match face {
        BoxFace::Lid => Patch::between(along, across),
        BoxFace::TailEnd | BoxFace::NeckEnd => Patch::between(across, down),
        BoxFace::BassSide | BoxFace::TrebleSide => Patch::between(along, down),
    }
}

/// What stands on a face or goes through it, and its name.
pub(crate) fn fittings(layout: &Layout, face: BoxFace) -> Vec<(&'static str, Patch)> {
    let (neck, tail, frame) = (layout.neck(), layout.tail(), layout.frame());
    let half = neck.width_at_box / 2.0;
    let down = |ends: [Length; 2]| [-ends[1], -ends[0]];
    let heights = |along: Length, bottom_z: Length, top_z: Length| {
        down([frame.above_at(bottom_z, along), frame.above_at(top_z, along)])
    };
    let mut fittings = Vec::new();
    let through = neck.joint == Joint::Through;
    match face {
        BoxFace::Lid => {
            if tail.kind == TailKind::BlockOnLid {
                fittings.push(("the tail block", Patch::between(tail.along, tail.across)));
            }
        }
        BoxFace::NeckEnd => {
            let stick = heights(Length::ZERO, neck.bottom_z, neck.top_z);
            fittings.push(("the neck", Patch::between([-half, half], stick)));
            if let Some(heel) = layout.heel() {
                let block = heights(Length::ZERO, heel.bottom_z, heel.top_z);
                fittings.push(("the heel", Patch::between([-half, half], block)));
            }
        }
        BoxFace::TailEnd => {
            if through {
                let stick = heights(layout.spec().body.length, neck.bottom_z, neck.top_z);
                fittings.push(("the neck", Patch::between([-half, half], stick)));
            }
            if tail.kind == TailKind::BlockOnEnd {
                fittings.push(("the tail block", Patch::between(tail.across, down(tail.above))));
            }
        }
        BoxFace::BassSide | BoxFace::TrebleSide => {}
    }
    fittings
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(value: f64) -> Length {
        Length::mm(value)
    }

    #[track_caller]
    fn check(one: &Patch, other: &Patch, expected_mm: f64) {
        for (one, other) in [(one, other), (other, one)] {
            let found = one.gap(other);
            assert!((found.as_mm() - expected_mm).abs() < 1e-12, "found {found}, expected {expected_mm} mm");
        }
    }

    fn disc(x: f64, y: f64, radius: f64) -> Patch {
        Patch { center: [mm(x), mm(y)], half: [Length::ZERO; 2], radius: mm(radius), drawn: None }
    }

    #[test]
    fn discs() {
        check(&disc(0.0, 0.0, 2.0), &disc(3.0, 4.0, 1.0), 2.0);
    }

    #[test]
    fn a_disc_beside_a_corner_and_a_side() {
        let square = Patch::between([mm(0.0), mm(10.0)], [mm(0.0), mm(10.0)]);
        check(&square, &disc(13.0, 14.0, 1.0), 4.0);
        check(&square, &disc(5.0, 14.0, 1.0), 3.0);
        // Its centre a millimetre inside: it must move by that and by its radius.
        check(&square, &disc(9.0, 5.0, 2.0), -3.0);
    }

    #[test]
    fn rectangles() {
        let square = Patch::between([mm(0.0), mm(10.0)], [mm(0.0), mm(10.0)]);
        check(&square, &Patch::between([mm(13.0), mm(20.0)], [mm(14.0), mm(20.0)]), 5.0);
        check(&square, &Patch::between([mm(8.0), mm(20.0)], [mm(2.0), mm(9.0)]), -2.0);
    }

    #[test]
    fn a_disc_in_a_rectangle() {
        let sheet = Patch::between([mm(0.0), mm(100.0)], [mm(-30.0), mm(30.0)]);
        let found = disc(20.0, 24.0, 5.0).inside(&sheet);
        assert!((found.as_mm() - 1.0).abs() < 1e-12, "found {found}");
        let found = disc(3.0, 0.0, 5.0).inside(&sheet);
        assert!((found.as_mm() + 2.0).abs() < 1e-12, "found {found}");
    }
}
