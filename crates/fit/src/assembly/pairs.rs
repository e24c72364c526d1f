//! Which solids are meant to lie on each other, and which to keep clear?

use geometry::{Frame3, Point3, Vector3};
use layout::{Layout, NutSlot, POST_DIAMETER, Place, StringPath, TailKind};
use parts::{Placed, SADDLE_CREST_RADIUS, Thing};
use spec::{BoxFace, FretKind, Joint};
use units::{Angle, Length, math};

use super::HAIR;

/// Two solids and what is meant of them.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Pair {
    pub(super) things: [Thing; 2],
    pub(super) meant: Meant,
}

/// What is meant of two solids, the first against the second.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Meant {
    /// The first lies on the second and can be lifted off along a direction.
    LieOn { parting: Vector3 },
    /// The first, which is bent by hand, lies on the second.
    WrappedRound,
    /// Something round, drawn with a sharp corner, bends over the second, and is drawn inside it by no more than a dip.
    BendOver { dip: Length },
    /// They may touch, and are parted along a direction where they reach into each other.
    Beside { parting: Vector3 },
    /// There is air between them; between faceted solids more than a hair, so that a distance of 0 is too little.
    Clear { least: Length },
    /// There is air between those faces of the first that look up and lie inside some planes, and the second.
    Under { up: Vector3, inside: Vec<Frame3>, least: Length },
}

impl Meant {
    /// Whether the two are meant to lie on each other.
    pub(super) fn is_contact(&self) -> bool {
        matches!(self, Self::LieOn { .. } | Self::WrappedRound | Self::BendOver { .. })
    }
}

use Thing::{
    Face, Fret, Fretboard, Heel, Neck, Nut, Saddle, String, TailBlock, TailScrew, TunerBody, TunerPost,
    ZeroFret,
};

/// Every pair that something is meant of; solids that this instrument has not are named too.
pub(super) fn pairs(layout: &Layout, placed: &[Placed]) -> Vec<Pair> {
    let mut pairs = wood(layout);
    pairs.extend(metal(layout));
    pairs.extend(strings(layout));
    pairs.extend(hardware(placed));
    pairs
}

fn lies_on(one: Thing, other: Thing, parting: Vector3) -> Pair {
    Pair { things: [one, other], meant: Meant::LieOn { parting } }
}

fn clear(one: Thing, other: Thing, least: Length) -> Pair {
    Pair { things: [one, other], meant: Meant::Clear { least } }
}

/// The wooden parts among each other.
fn wood(layout: &Layout) -> Vec<Pair> {
    let spec = layout.spec();
    let [along, up] = box_directions(layout);
    let lid = Face(BoxFace::Lid);
    let walls = [BoxFace::NeckEnd, BoxFace::TailEnd, BoxFace::BassSide, BoxFace::TrebleSide];
    let mut pairs: Vec<Pair> = walls.map(|wall| lies_on(lid, Face(wall), up)).into();
    pairs.extend([
        lies_on(Fretboard, Neck, Vector3::Z),
        lies_on(Nut, Neck, Vector3::Z),
        lies_on(Saddle, lid, up),
        lies_on(Heel, Neck, -Vector3::Z),
        lies_on(Heel, Face(BoxFace::NeckEnd), -along),
        beside(TailBlock, Saddle, along),
    ]);
    pairs.push(match layout.tail().kind {
        TailKind::BlockOnLid => lies_on(TailBlock, lid, up),
        TailKind::BlockOnEnd | TailKind::StringThrough => lies_on(TailBlock, Face(BoxFace::TailEnd), along),
    });
    pairs.extend([lid, Face(BoxFace::NeckEnd)].map(|other| beside(Fretboard, other, up)));
    match spec.neck.joint {
        Joint::Butt => pairs.push(lies_on(Face(BoxFace::NeckEnd), Neck, along)),
        Joint::Through => {
            let ends = [BoxFace::NeckEnd, BoxFace::TailEnd].map(|end| {
                let meant = if spec.print.clearance > HAIR * 2.0 {
                    Meant::Clear { least: spec.print.clearance }
                } else {
                    Meant::Beside { parting: up }
                };
                Pair { things: [Neck, Face(end)], meant }
            });
            pairs.extend(ends);
            pairs.push(beside(
                TailBlock,
                Neck,
                if layout.tail().kind == TailKind::BlockOnLid { up } else { along },
            ));
            let at = |along| point(layout.frame().place(along, Length::ZERO, -spec.body.lid));
            let underside = Frame3 { origin: at(Length::ZERO), u: along, v: Vector3::Y };
            let neck_end = Frame3 { origin: at(Length::ZERO), u: up, v: Vector3::Y };
            let tail_end = Frame3 { origin: at(spec.body.length), u: Vector3::Y, v: up };
            let least = spec.neck.tongue_recess;
            pairs.push(Pair {
                things: [Neck, lid],
                meant: Meant::Under { up, inside: vec![underside, neck_end, tail_end], least },
            });
        }
    }
    pairs
}

fn beside(one: Thing, other: Thing, parting: Vector3) -> Pair {
    Pair { things: [one, other], meant: Meant::Beside { parting } }
}

/// The zero fret and the frets against the wood and each other.
fn metal(layout: &Layout) -> Vec<Pair> {
    let surface = if layout.spec().fretboard.thickness > Length::ZERO { Fretboard } else { Neck };
    let mut pairs = vec![lies_on(ZeroFret, surface, Vector3::Z)];
    let mut before = ZeroFret;
    for fret in &layout.frets().frets {
        let this = Fret(fret.number);
        let lies = |wood| match fret.kind {
            FretKind::WrappedWire => Pair { things: [this, wood], meant: Meant::WrappedRound },
            FretKind::SeatedWire | FretKind::FretWire => lies_on(this, wood, Vector3::Z),
        };
        pairs.push(lies(surface));
        pairs.push(beside(this, before, Vector3::X));
        if fret.kind == FretKind::WrappedWire {
            if surface == Fretboard {
                pairs.push(lies(Neck));
            }
            pairs.extend(
                [Heel, Face(BoxFace::NeckEnd), Face(BoxFace::Lid)]
                    .map(|wood| clear(this, wood, Length::ZERO)),
            );
        }
        before = this;
    }
    pairs
}

/// Every string against what it bears on, what it goes through, and all that it must not touch.
fn strings(layout: &Layout) -> Vec<Pair> {
    let through_neck = layout.tail().kind == TailKind::StringThrough;
    let mut pairs = Vec::new();
    for (index, (string, slot)) in layout.strings().iter().zip(&layout.nut().slots).enumerate() {
        let this = String(string.number);
        let over = |other, dip| Pair { things: [this, other], meant: Meant::BendOver { dip } };
        pairs.push(over(ZeroFret, dip_over_zero_fret(layout, string)));
        pairs.push(over(Saddle, dip_over_saddle(layout, string)));
        let holder = if through_neck { Neck } else { TailBlock };
        pairs.push(clear(this, holder, -dip_in_mouth(layout, string)));
        pairs.push(clear(this, Nut, -dip_in_nut(string, slot)));
        let wood = [Neck, Fretboard, Face(BoxFace::Lid)];
        pairs.extend(
            wood.into_iter().filter(|wood| *wood != holder).map(|wood| clear(this, wood, Length::ZERO)),
        );
        pairs.extend(layout.frets().frets.iter().map(|fret| clear(this, Fret(fret.number), Length::ZERO)));
        for other in layout.strings().iter().filter(|other| other.number != string.number) {
            pairs.push(clear(this, TunerPost(other.number), -BENT_BY_POST));
        }
        for other in &layout.strings()[index + 1..] {
            pairs.push(clear(this, String(other.number), Length::ZERO));
        }
        for screw in 1..=layout.tail().screws.len() {
            pairs.push(clear(this, TailScrew(screw as u8), Length::ZERO));
        }
    }
    pairs
}

/// Tuners and screws among each other and against the wood that they are not meant to meet.
fn hardware(placed: &[Placed]) -> Vec<Pair> {
    let things = |wanted: fn(Thing) -> bool| -> Vec<Thing> {
        placed.iter().map(|placed| placed.thing).filter(|thing| wanted(*thing)).collect()
    };
    let bodies = things(|thing| matches!(thing, TunerBody(_)));
    let screws = things(|thing| matches!(thing, TailScrew(_)));
    let mut pairs = Vec::new();
    for group in [&bodies, &screws] {
        for (index, one) in group.iter().enumerate() {
            pairs.extend(group[index + 1..].iter().map(|other| beside(*one, *other, Vector3::Y)));
        }
    }
    let posts = things(|thing| matches!(thing, TunerPost(_)));
    pairs.extend(posts.iter().map(|post| beside(*post, Nut, -Vector3::X)));
    let woods = [Neck, Saddle];
    pairs.extend(screws.iter().flat_map(|screw| woods.map(|wood| beside(*screw, wood, Vector3::X))));
    pairs
}

/// How far another string's post may bend a string out of its way. Common practice, no source.
const BENT_BY_POST: Length = Length::mm(1.0);

/// How far a string with a sharp corner over the zero fret is drawn inside its round crown.
fn dip_over_zero_fret(layout: &Layout, string: &StringPath) -> Length {
    let wire = &layout.spec().zero_fret;
    let half = wire.crown_width / 2.0;
    let rise = wire.crown_height.min(half);
    let radius = (rise * (rise / half) + half) * (half / rise) / 2.0;
    let fall =
        |end: Place| Angle::of_slope((string.zero_fret.z - end.z).abs(), (string.zero_fret.x - end.x).abs());
    dip(radius + string.diameter / 2.0, fall(string.nut).max(fall(string.saddle)))
}

/// The same over the edges of its slot in the nut: down over the front one, and aside at the rear one, from where it goes to
/// one side of its post. The bottom of a slot that runs aslant is drawn as a circle, where a file leaves an ellipse as much
/// wider as it is aslant: half of that at most is too narrow.
fn dip_in_nut(string: &StringPath, slot: &NutSlot) -> Length {
    let run = Length::mm(math::hypot(
        (string.nut.x - string.post.x).as_mm(),
        (string.nut.y - string.post.y).as_mm(),
    ));
    let radius = string.diameter / 2.0;
    let down = dip(radius, Angle::of_slope((string.nut.z - string.post.z).abs(), run));
    let aside = dip(radius, Angle::of_slope(POST_DIAMETER / 2.0, run));
    down + aside + (slot.width_across() - slot.width) / 4.0
}

/// The same over the saddle's crest.
fn dip_over_saddle(layout: &Layout, string: &StringPath) -> Length {
    let (front, behind) = (string.front_angle(layout.frame()), string.tail_angle(layout.frame()));
    dip(SADDLE_CREST_RADIUS + string.diameter / 2.0, front.max(-front).max(behind))
}

/// The same in the mouth of its bore: a string that goes on into its bore turns there, one that goes down through its bore
/// bends round the mouth's edge.
fn dip_in_mouth(layout: &Layout, string: &StringPath) -> Length {
    match layout.tail().kind {
        TailKind::BlockOnLid => dip(string.diameter / 2.0, string.tail_angle(layout.frame())),
        TailKind::BlockOnEnd | TailKind::StringThrough => string.diameter / 2.0,
    }
}

/// How far inside a circle a line lies that passes its top at an angle to the tangent there.
fn dip(radius: Length, angle: Angle) -> Length {
    radius * (1.0 - angle.cos())
}

/// Along the lid, and up from it.
fn box_directions(layout: &Layout) -> [Vector3; 2] {
    let back = layout.frame().back_angle;
    [Vector3::mm(back.cos(), 0.0, -back.sin()), Vector3::mm(back.sin(), 0.0, back.cos())]
}

fn point(place: Place) -> Point3 {
    Point3::new(place.x, place.y, place.z)
}
