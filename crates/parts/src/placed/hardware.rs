//! Where do strings, tuners and screws lie?

use geometry::{Frame3, Outline, Plate, Point2, Point3, Rod};
use layout::{Layout, POST_DIAMETER, Place, StringBore, StringPath, TailKind};
use units::Length;

use super::{Form, Placed, Thing};
use crate::part::{box_directions, point};

/// How far a post goes on above the string. Common practice, no source.
const POST_ABOVE_STRING: Length = Length::mm(4.0);

/// How far a tuner's body hangs under the headstock. Common practice, no source.
const BODY_DEPTH: Length = Length::mm(12.0);

/// Every string, from the side of its post from which it is wanted to where its ball end lies.
///
/// Its slot through the nut aims at the middle of the post, so that it turns at the nut's rear face once more.
pub(super) fn strings(layout: &Layout) -> Vec<Placed> {
    let ends = layout.strings().iter().zip(&layout.nut().slots).zip(&layout.tail().bores);
    ends.filter_map(|((string, slot), bore)| {
        let aside = (string.nut.y - string.post.y).max(-POST_DIAMETER / 2.0).min(POST_DIAMETER / 2.0);
        let post = Place { y: string.post.y + aside, ..string.post };
        let share = (slot.rear.x - string.nut.x) / (string.post.x - string.nut.x);
        let rear = Place { z: string.nut.z + (string.post.z - string.nut.z) * share, ..slot.rear };
        let places = [post, rear, string.nut, string.zero_fret, string.saddle, string.tail];
        let points = places.map(point).into_iter().chain([ball_end(layout, string, bore)]).collect();
        rod(Thing::String(string.number), points, string.diameter)
    })
    .collect()
}

/// The far end of a string's bore through the tail.
fn ball_end(layout: &Layout, string: &StringPath, bore: &StringBore) -> Point3 {
    let tail = layout.tail();
    let place = match tail.kind {
        TailKind::BlockOnLid => layout.frame().place(tail.along[1], bore.across, bore.above),
        TailKind::BlockOnEnd => layout.frame().place(bore.along, bore.across, tail.above[0]),
        TailKind::StringThrough => Place { z: layout.neck().bottom_z, ..string.tail },
    };
    point(place)
}

/// The post and the body of every tuner, about the middle of its bore.
pub(super) fn tuners(layout: &Layout) -> Vec<Placed> {
    let seat_z = layout.neck().bottom_z;
    let upright = |place: Place, from: Length, to: Length| {
        [from, to].map(|z| Point3::new(place.x, place.y, z)).to_vec()
    };
    layout
        .tuners()
        .iter()
        .zip(layout.strings())
        .flat_map(|(tuner, string)| {
            let post = upright(tuner.bore, seat_z, tuner.post.z + POST_ABOVE_STRING);
            [
                rod(Thing::TunerPost(string.number), post, POST_DIAMETER),
                tuner_body(layout, tuner.bore)
                    .map(|form| Placed { thing: Thing::TunerBody(string.number), form }),
            ]
        })
        .flatten()
        .collect()
}

/// A block under the headstock, with its middle under a bore.
fn tuner_body(layout: &Layout, bore: Place) -> Option<Form> {
    let [length, width] = layout.spec().headstock.tuner_body;
    let corner = |side: f64| Point2::new(bore.x + length * (side / 2.0), bore.y + width * (side / 2.0));
    let outline = Outline::rectangle(corner(-1.0), corner(1.0)).ok()?;
    let seat = Frame3::across_z(layout.neck().bottom_z);
    Plate::new(seat, outline, BODY_DEPTH, Vec::new()).ok().map(Form::Plate)
}

/// The shank of every screw of the tail block, from its head through the block and the wood that it holds in.
pub(super) fn tail_screws(layout: &Layout) -> Vec<Placed> {
    let (tail, body) = (layout.tail(), &layout.spec().body);
    let [along, _, above] = box_directions(layout.frame());
    let middle = |ends: [Length; 2]| (ends[0] + ends[1]) / 2.0;
    let (head, into, length) = match tail.kind {
        TailKind::StringThrough => return Vec::new(),
        TailKind::BlockOnLid => ([middle(tail.along), tail.above[1]], -above, tail.above[1] + body.lid),
        TailKind::BlockOnEnd => {
            ([tail.along[1], middle(tail.above)], -along, tail.along[1] - tail.along[0] + body.wall)
        }
    };
    let numbered = tail.screws.iter().zip(1..);
    numbered
        .filter_map(|(screw, number)| {
            let head = point(layout.frame().place(head[0], screw.across, head[1]));
            rod(Thing::TailScrew(number), vec![head, head + into * length.as_mm()], screw.screw.diameter)
        })
        .collect()
}

/// A round thing; nothing where it has no length.
fn rod(thing: Thing, points: Vec<Point3>, diameter: Length) -> Option<Placed> {
    Rod::open(points, diameter / 2.0).ok().map(|rod| Placed { thing, form: Form::Rod(rod) })
}
