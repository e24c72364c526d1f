//! The routed fit coupon: what the router cuts for other parts, on one strip of the walls' stock.
//!
//! The neck's notch across its true width, a length of the pocket of a saddle that is let in, and a tuner's bore, with the
//! corner relief of the parts.

use geometry::{Circle, Contour, Datum, Drawing, HoleDepth, Operation, Outline, OutlineFault, Point2, Shape};
use layout::Layout;
use spec::Joint;
use units::Length;

use crate::box_walls::notched;
use crate::coupon_printed::foot_length;
use crate::lid::{outline, rectangle};
use crate::mating::{cut_for_mate, titled};
use crate::part::{Part, PartFault};

const NAME: &str = "coupon-routed";

/// How deep the notch is tried, if it is wider than deep and the bites of the relief have room: deeper it is as wide. Common
/// practice, no source.
const DEEPEST: Length = Length::mm(15.0);

/// What stays between two cuts, and between a cut and the edge. Smaller breaks out. Common practice, no source.
const WALL: Length = Length::mm(8.0);

pub(crate) fn make(layout: &Layout) -> Result<Option<Part>, PartFault> {
    let plan = Plan::of(layout);
    if plan.tongue.is_none() && plan.foot.is_none() {
        return Ok(None);
    }
    let [width, height] = plan.size();
    Ok(Some(Part {
        name: NAME,
        title: "Fit coupon, routed",
        material: "an offcut of the walls".into(),
        blank: [width, height, layout.spec().body.wall],
        quantity: 0,
        drawings: vec![plan.draw(layout)?],
        solid: None,
    }))
}

/// A plate whose upper edge is notched, and below the notch the pocket and the bore beside each other; from the middle of
/// its width and from its lower edge.
struct Plan {
    /// Half the tongue's width, and how deep it goes in.
    tongue: Option<(Length, Length)>,
    /// Length and thickness of the saddle's foot, and how deep it goes in.
    foot: Option<(Length, Length, Length)>,
    bore: Length,
    air: Length,
    /// What a bite of the relief may take beyond a cut, on one side.
    bite: Length,
}

impl Plan {
    fn of(layout: &Layout) -> Self {
        let (spec, saddle) = (layout.spec(), layout.saddle());
        let through = spec.neck.joint == Joint::Through;
        let wall = spec.body.wall;
        Self {
            tongue: through.then(|| {
                let (width, deep) = (spec.neck.width_at_box, spec.neck.thickness);
                (width / 2.0, if deep < width { deep.min(DEEPEST.max(spec.router.bit)) } else { deep })
            }),
            foot: (saddle.let_in > Length::ZERO)
                .then(|| (foot_length(layout), saddle.thickness, saddle.let_in.min(wall / 2.0))),
            bore: spec.headstock.tuner_bore,
            air: spec.print.clearance,
            bite: spec.router.bit / 2.0,
        }
    }

    /// Width and height of what lies below the notch: the pocket and the bore beside each other.
    fn below(&self) -> [Length; 2] {
        let (length, thickness) = self.pocket();
        let apart = if self.foot.is_some() { WALL } else { Length::ZERO };
        [length + apart + self.bore, thickness.max(self.bore)]
    }

    /// The room that the pocket and its bites take.
    fn pocket(&self) -> (Length, Length) {
        let room = |size: Length| size + (self.air + self.bite) * 2.0;
        self.foot
            .map_or((Length::ZERO, Length::ZERO), |(length, thickness, _)| (room(length), room(thickness)))
    }

    fn size(&self) -> [Length; 2] {
        let [width, height] = self.below();
        let notch = self.tongue.map_or([Length::ZERO; 2], |(half, deep)| {
            [(half + self.air + self.bite) * 2.0, deep + self.air + self.bite + WALL]
        });
        [width.max(notch[0]) + WALL * 2.0, WALL + height + WALL + notch[1] - self.spare()]
    }

    /// The wall above the pocket and the bore is the one below the notch.
    fn spare(&self) -> Length {
        if self.tongue.is_some() { WALL } else { Length::ZERO }
    }

    fn draw(&self, layout: &Layout) -> Result<Drawing, PartFault> {
        let bad_outline = PartFault::outline(NAME);
        let [width, height] = self.size();
        let ends = [-width / 2.0, width / 2.0];
        let mut operations = Vec::new();
        let outside = outline(ends, [Length::ZERO, height]);
        match self.tongue {
            None => operations.push(Operation::CutOutside(Shape::Outline(outside.map_err(bad_outline)?))),
            Some((half, deep)) => {
                let floor = height - deep - self.air;
                let blank =
                    notched(ends, [Length::ZERO, height], half + self.air, floor).map_err(bad_outline)?;
                operations.push(Operation::CutOutside(cut_for_mate(layout, NAME, blank, Contour::Outside)?));
                let tongue = rectangle([-half, half], [floor + self.air, height]).map_err(bad_outline)?;
                operations.push(Operation::Mate(tongue));
            }
        }
        let [wide, high] = self.below();
        let middle = WALL + high / 2.0;
        if let Some((length, thickness, depth)) = self.foot {
            let center = Point2::new((self.pocket().0 - wide) / 2.0, middle);
            let pocket = around(center, [length + self.air * 2.0, thickness + self.air * 2.0]);
            let shape = cut_for_mate(layout, NAME, pocket.map_err(bad_outline)?, Contour::Pocket)?;
            operations.push(Operation::Pocket { shape, depth });
            let foot = around(center, [length, thickness]).map_err(bad_outline)?;
            operations.push(Operation::Mate(Shape::Outline(foot)));
        }
        let circle = Circle::of_diameter(Point2::new((wide - self.bore) / 2.0, middle), self.bore);
        operations.push(Operation::Drill { circle, depth: HoleDepth::Through });
        Ok(Drawing {
            name: NAME.into(),
            title: titled(layout, &self.title(), Some("corners of what is tried in it")),
            datum: Datum { point: Point2::ORIGIN, meaning: "middle of the lower edge".into() },
            operations,
        })
    }

    fn title(&self) -> String {
        let tried = [
            self.tongue.map(|_| "the neck's tongue"),
            self.foot.map(|_| "the saddle's foot"),
            Some("a tuner"),
        ];
        format!("Fit coupon, routed: for {}", tried.into_iter().flatten().collect::<Vec<_>>().join(", "))
    }
}

/// A rectangle about its middle.
fn around(center: Point2, [width, height]: [Length; 2]) -> Result<Outline, OutlineFault> {
    let half = geometry::Vector2::new(width / 2.0, height / 2.0);
    Outline::rectangle(center - half, center + half)
}
