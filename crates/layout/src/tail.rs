//! What holds the strings' ends, and where are its holes?

use spec::stock::{ScrewSize, screw_size};
use spec::{Spec, TailKind as SpecTailKind};
use units::Length;

use crate::box_frame::BoxFrame;
use crate::place::Place;

/// Material left round a ball end's counterbore. Larger makes a clumsy block; smaller splits. Common practice, no source.
const EDGE: Length = Length::mm(3.0);

/// Length of the narrow bore in front of the counterbore, which the ball end pulls against. Common practice, no source.
const BEARING: Length = Length::mm(8.0);

/// What the tail is, once the hole height has said where.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TailKind {
    /// A block on the lid: string bores along the strings, screws down.
    BlockOnLid,
    /// A block on the tail end of the box: string bores down, screws along the strings.
    BlockOnEnd,
    /// The overhanging end of the stick: string bores down.
    StringThrough,
}

/// The tail, in the box's frame.
#[derive(Clone, Debug, PartialEq)]
pub struct TailPlan {
    /// What it is.
    pub kind: TailKind,
    /// Its two ends along the lid, from the neck end of the box.
    pub along: [Length; 2],
    /// Its two ends across.
    pub across: [Length; 2],
    /// Its underside and its top above the lid.
    pub above: [Length; 2],
    /// One bore a string, bass to treble.
    pub bores: Vec<StringBore>,
    /// Depth of the counterbores, from the face where the balls go in.
    pub ball_depth: Length,
    /// The screws that hold a block.
    pub screws: Vec<TailScrew>,
}

/// Where one string goes into the tail.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StringBore {
    /// Along the lid.
    pub along: Length,
    /// Across.
    pub across: Length,
    /// Above the lid.
    pub above: Length,
    /// Diameter of the string's bore.
    pub diameter: Length,
    /// Diameter of the ball end's counterbore.
    pub ball_diameter: Length,
}

/// One screw of the block.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TailScrew {
    /// Across.
    pub across: Length,
    /// The wood screw.
    pub screw: ScrewSize,
}

impl TailPlan {
    /// The tail behind strings that arrive at the saddle at `at_saddle` and go straight on in plan, by `fan` a length.
    pub(crate) fn of(spec: &Spec, saddle_along: Length, at_saddle: &[Length], fan: &[f64]) -> Self {
        let tail = &spec.tail;
        let entry_along = saddle_along + tail.distance;
        let bores: Vec<StringBore> = at_saddle
            .iter()
            .zip(fan)
            .map(|(y, fan)| StringBore {
                along: entry_along,
                across: *y + tail.distance * *fan,
                above: tail.hole_height,
                diameter: tail.hole_bore,
                ball_diameter: tail.ball_bore,
            })
            .collect();
        let outer = bores.iter().map(|bore| bore.across.abs()).fold(Length::ZERO, Length::max);
        let screw = screw_size(tail.screw);
        let screw_y = outer + tail.ball_bore / 2.0 + EDGE + screw.head / 2.0;
        let half_width = screw_y + screw.head / 2.0 + EDGE;
        let ball_radius = tail.ball_bore / 2.0;
        let kind = match tail.kind {
            SpecTailKind::StringThrough => TailKind::StringThrough,
            SpecTailKind::Block if tail.hole_height > Length::ZERO => TailKind::BlockOnLid,
            SpecTailKind::Block => TailKind::BlockOnEnd,
        };
        let (along, above, half_width) = match kind {
            TailKind::BlockOnLid => (
                [entry_along, entry_along + tail.ball_depth + BEARING],
                [Length::ZERO, tail.hole_height + ball_radius + EDGE],
                half_width,
            ),
            TailKind::BlockOnEnd => (
                [spec.body.length, entry_along + ball_radius + EDGE],
                [tail.hole_height - tail.ball_depth - BEARING, tail.hole_height],
                half_width,
            ),
            TailKind::StringThrough => (
                [spec.body.length, spec.body.length + spec.neck.tail_overhang],
                [-spec.body.lid - spec.neck.tongue_recess - spec.neck.thickness, tail.hole_height],
                spec.neck.width_at_box / 2.0,
            ),
        };
        let screws = match kind {
            TailKind::StringThrough => Vec::new(),
            TailKind::BlockOnLid | TailKind::BlockOnEnd => screw_places(spec.tail.screws, screw_y, &bores)
                .into_iter()
                .map(|across| TailScrew { across, screw })
                .collect(),
        };
        Self {
            kind,
            along,
            across: [-half_width, half_width],
            above,
            bores,
            ball_depth: tail.ball_depth,
            screws,
        }
    }

    /// Where a string enters its bore, in the instrument frame.
    pub(crate) fn entry(bore: &StringBore, frame: &BoxFrame) -> Place {
        frame.place(bore.along, bore.across, bore.above)
    }
}

/// Two screws outside the outer strings; more of them in the middles between neighbouring strings, nearest the centre
/// line first; a single one likewise.
fn screw_places(count: u8, outside: Length, bores: &[StringBore]) -> Vec<Length> {
    let mut middles: Vec<Length> =
        bores.windows(2).map(|pair| (pair[0].across + pair[1].across) / 2.0).collect();
    middles.sort_by(|a, b| a.abs().as_mm().total_cmp(&b.abs().as_mm()));
    let mut places: Vec<Length> = match count {
        0 => Vec::new(),
        1 => middles.first().copied().into_iter().collect(),
        _ => [-outside, outside].into_iter().chain(middles).take(usize::from(count)).collect(),
    };
    places.sort_by(|a, b| a.as_mm().total_cmp(&b.as_mm()));
    places
}
