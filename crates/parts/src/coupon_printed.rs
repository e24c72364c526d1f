//! The printed fit coupon: what the printed parts hold or must enter, on one small piece.
//!
//! String slots as in the nut, one string bore with its ball end's counterbore as in the tail block, and a length of the
//! foot of a saddle that is let in, to try in the routed coupon. It is the same for both hands.

use geometry::{
    Body, Bore, BoreStep, Circle, Datum, Drawing, Frame3, HoleDepth, Loft, Operation, Outline, OutlineFault,
    Path, Point2, Point3, Rigid3, Shape, Vector3, Vertex,
};
use layout::{Layout, NutSlot, StringBore, TailKind};
use units::Length;

use crate::lid::outline;
use crate::part::{Part, PartFault, Process, Solid};

const NAME: &str = "coupon-printed";

/// Between slots, round the bore, and under both. Smaller breaks; larger is print for nothing. Common practice, no source.
const WALL: Length = Length::mm(2.0);

/// The length of the saddle's foot that is tried, if it is longer than thick and the bites of the relief have room. Larger
/// is print for nothing; smaller does not tell whether the foot sits straight. Common practice, no source.
const FOOT: Length = Length::mm(12.0);

/// By how much the foot that is tried is longer than it must be.
const LONGER: Length = Length::mm(1.0);

/// The string's bore behind its counterbore. Smaller breaks out under a string's pull. Common practice, no source.
const BEARING: Length = Length::mm(6.0);

/// How deep slots and counterbores are tried, at most: deeper they are as wide. Common practice, no source.
const DEEPEST: Length = Length::mm(6.0);

pub(crate) fn make(layout: &Layout) -> Result<Option<Part>, PartFault> {
    let plan = Plan::of(layout);
    let bad_outline = PartFault::outline(NAME);
    let body = Body::new(plan.lofts().map_err(bad_outline)?, plan.bores()).map_err(PartFault::body(NAME))?;
    let foot = plan.foot.map_or([Length::ZERO; 2], |foot| [foot.thickness, foot.let_in]);
    Ok(Some(Part {
        name: NAME,
        title: "Fit coupon, printed",
        material: "as the printed parts".into(),
        blank: [plan.width(), plan.depth + foot[0], plan.height + foot[1]],
        quantity: 0,
        drawings: vec![plan.front_view().map_err(bad_outline)?],
        solid: Some(Solid::new(NAME, body, Rigid3::IDENTITY, Process::Printed)?),
    }))
}

/// How much of the length of the saddle's foot is tried.
///
/// It is relieved as the whole foot's pocket is: on the same edges, where two diameters of the bit must find room.
pub(crate) fn foot_length(layout: &Layout) -> Length {
    let saddle = layout.saddle();
    let least = saddle.thickness.max(layout.spec().router.bit * 2.0) + LONGER;
    (saddle.ends[1] - saddle.ends[0]).min(FOOT.max(least))
}

/// A bar that lies across the strings, `y` from its bass end, and `z` from its foot, with the slots along `x` in its top, the
/// bore along `x` beside them, and behind its treble end the saddle's foot, upside down.
struct Plan {
    /// Width and depth of each slot, bass to treble.
    slots: Vec<(Length, Length)>,
    bore: Option<StringBore>,
    ball_depth: Length,
    foot: Option<Foot>,
    /// Along `x`, without the foot.
    depth: Length,
    /// Up to the top that the slots are in.
    height: Length,
}

/// A length of the saddle's foot.
#[derive(Clone, Copy)]
struct Foot {
    length: Length,
    thickness: Length,
    let_in: Length,
}

impl Plan {
    fn of(layout: &Layout) -> Self {
        let (nut, tail, saddle) = (layout.nut(), layout.tail(), layout.saddle());
        let deep = |slot: &NutSlot| (nut.top_z - slot.front.z).max(slot.width).min(DEEPEST.max(slot.width));
        let slots: Vec<(Length, Length)> = nut.slots.iter().map(|slot| (slot.width, deep(slot))).collect();
        let bored = tail.kind != TailKind::StringThrough;
        let bore = tail.bores.first().copied().filter(|_| bored);
        let ball_depth = tail.ball_depth.min(DEEPEST);
        let deepest = slots.iter().map(|slot| slot.1).fold(Length::ZERO, Length::max);
        let ball = bore.map_or(Length::ZERO, |bore| bore.ball_diameter.max(bore.diameter));
        Self {
            slots,
            bore,
            ball_depth,
            foot: (saddle.let_in > Length::ZERO).then(|| Foot {
                length: foot_length(layout),
                thickness: saddle.thickness,
                let_in: saddle.let_in,
            }),
            depth: ball_depth + BEARING,
            height: (deepest + WALL).max(ball + WALL * 2.0),
        }
    }

    /// The middle of each slot, bass to treble.
    fn slot_places(&self) -> Vec<Length> {
        let mut end = Length::ZERO;
        let next = |(width, _): &(Length, Length)| {
            let middle = end + WALL + *width / 2.0;
            end = middle + *width / 2.0;
            middle
        };
        self.slots.iter().map(next).collect()
    }

    /// Where the slots' part ends.
    fn slots_end(&self) -> Length {
        self.slots.iter().map(|slot| slot.0 + WALL).sum::<Length>() + WALL
    }

    /// The middle of the bore, and where its part ends.
    fn bore_place(&self) -> (Point2, Length) {
        let ball = self.bore.map_or(Length::ZERO, |bore| bore.ball_diameter.max(bore.diameter));
        let end = self.slots_end() + if self.bore.is_some() { ball + WALL } else { Length::ZERO };
        (Point2::new(end - WALL - ball / 2.0, self.height / 2.0), end)
    }

    fn width(&self) -> Length {
        self.bore_place().1 + self.foot.map_or(Length::ZERO, |foot| foot.length)
    }

    /// The bar's own coordinates across the strings, about the middle of its width.
    fn across(&self, x: Length) -> Frame3 {
        let origin = Point3::new(x, -self.width() / 2.0, Length::ZERO);
        Frame3 { origin, ..Frame3::across_x(x) }
    }

    fn lofts(&self) -> Result<Vec<Loft>, OutlineFault> {
        let mut lofts = vec![Loft::prism(self.across(Length::ZERO), self.ring()?, self.depth)];
        if let Some(foot) = self.foot {
            let ring = outline(self.foot_ends(foot), [Length::ZERO, self.height + foot.let_in])?;
            lofts.push(Loft::prism(self.across(self.depth), ring, foot.thickness));
        }
        Ok(lofts)
    }

    fn foot_ends(&self, foot: Foot) -> [Length; 2] {
        [self.width() - foot.length, self.width()]
    }

    /// The bar cut across the strings.
    fn ring(&self) -> Result<Outline, OutlineFault> {
        let (width, top) = (self.width(), self.height);
        let sharp = |y: Length, z: Length| Vertex::sharp(Point2::new(y, z));
        let mut vertices =
            vec![sharp(Length::ZERO, Length::ZERO), sharp(width, Length::ZERO), sharp(width, top)];
        for (middle, (slot, depth)) in self.slot_places().into_iter().zip(&self.slots).rev() {
            let (right, left, spring) =
                (middle + *slot / 2.0, middle - *slot / 2.0, top - *depth + *slot / 2.0);
            vertices.push(sharp(right, top));
            // Half a circle, clockwise: down one wall, round the floor and up the other.
            vertices.push(Vertex { point: Point2::new(right, spring), bulge: -1.0 });
            vertices.push(sharp(left, spring));
            vertices.push(sharp(left, top));
        }
        vertices.push(sharp(Length::ZERO, top));
        Outline::new(vertices)
    }

    /// Entered from the front, where the ball end goes in.
    fn bores(&self) -> Vec<Bore> {
        let (at, _) = self.bore_place();
        let bore = |bore: &StringBore| {
            Bore::counterbored(
                self.across(Length::ZERO).point(at),
                Vector3::X,
                BoreStep { depth: self.depth, radius: bore.diameter / 2.0 },
                BoreStep { depth: self.ball_depth, radius: bore.ball_diameter / 2.0 },
            )
        };
        self.bore.iter().map(bore).collect()
    }

    /// Seen from where the ball end goes in: each slot as one saw cut, as the nut's drawings have it.
    fn front_view(&self) -> Result<Drawing, OutlineFault> {
        let (width, top) = (self.width(), self.height);
        let mut corners = vec![
            Point2::ORIGIN,
            Point2::new(width, Length::ZERO),
            Point2::new(width, top),
            Point2::new(Length::ZERO, top),
        ];
        if let Some(foot) = self.foot {
            let [from, to] = self.foot_ends(foot);
            let over = top + foot.let_in;
            corners.splice(2..3, [Point2::new(to, over), Point2::new(from, over), Point2::new(from, top)]);
        }
        let mut operations = vec![Operation::CutOutside(Shape::Outline(Outline::polygon(corners)?))];
        for (middle, (slot, depth)) in self.slot_places().into_iter().zip(&self.slots) {
            let path = Path::line(Point2::new(middle, top), Point2::new(middle, top - *depth))?;
            operations.push(Operation::Slot { path, width: *slot, depth: self.depth });
        }
        if let Some(bore) = self.bore {
            let (at, _) = self.bore_place();
            let drill =
                |diameter, depth| Operation::Drill { circle: Circle::of_diameter(at, diameter), depth };
            operations.push(drill(bore.diameter, HoleDepth::Through));
            operations.push(drill(bore.ball_diameter, HoleDepth::To(self.ball_depth)));
        }
        let foot = if self.foot.is_some() { ", and the saddle's foot upside down" } else { "" };
        Ok(Drawing {
            name: NAME.into(),
            title: format!("Fit coupon, printed: string slots from bass to treble, a ball end's bore{foot}"),
            datum: Datum { point: Point2::ORIGIN, meaning: "the bass end on the foot".into() },
            operations,
        })
    }
}
