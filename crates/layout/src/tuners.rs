//! Where do the tuner posts stand, so that no string crosses another?

use spec::Spec;
use units::{Length, math};

use crate::neck_shape::NeckShape;
use crate::place::Place;

/// From the nut's rear face to the nearest post. Larger flattens the break over the nut; smaller leaves no room to wind
/// the string. Common practice, no source.
const FIRST_POST: Length = Length::mm(25.0);

/// From post to post in one row. Larger flattens the break of the far strings; smaller lets buttons collide. Common
/// practice, no source.
const POST_PITCH: Length = Length::mm(26.0);

/// From the last post to the end of the stick, at least. Common practice, no source.
const END_MARGIN: Length = Length::mm(12.0);

/// Diameter of a tuner's post with the string wound round it. Larger brings other strings nearer to it; smaller is no tuner
/// for steel. Common practice, no source.
pub const POST_DIAMETER: Length = Length::mm(6.0);

/// One tuner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tuner {
    /// The middle of its bore, on the headstock's top face.
    pub bore: Place,
    /// Diameter of the bore.
    pub diameter: Length,
    /// Where the string leaves the post: above the bore by the post's height.
    pub post: Place,
}

/// From the bore to the edge of the headstock. Larger brings the posts under the strings; smaller splits. Common practice,
/// no source.
const EDGE: Length = Length::mm(4.0);

/// One tuner a string, bass to treble.
///
/// - **One row**: all posts on the centre line.
/// - **Two rows**: the bass half of the strings (the middle one of an odd number counts to it) on the bass side, the
///   rest on the treble side, half a pitch farther out so that tuner bodies do not meet across a narrow stick.
///
/// In each row the strings share out the posts so that all of them together are shortest. Strings shared out so never
/// cross: two that did could swap their posts and be shorter (the sides of a triangle).
pub(crate) fn tuners(spec: &Spec, neck: &NeckShape, strings_at_nut: &[Length]) -> Vec<Tuner> {
    let count = strings_at_nut.len();
    let nut_rear_x = neck.nut_front_x - spec.nut.thickness;
    let bass_count = if spec.headstock.tuner_rows == 1 { count } else { count.div_ceil(2) };
    let room = spec.headstock.length - FIRST_POST - END_MARGIN;
    // In pitches from the first post: the last of the bass row, and of the treble row, which begins half a pitch farther out.
    let last_post = (bass_count.max(1) - 1) as f64;
    let last_post =
        if count > bass_count { last_post.max((count - bass_count) as f64 - 0.5) } else { last_post };
    let pitch = if last_post > 0.0 { POST_PITCH.min(room / last_post) } else { POST_PITCH };
    let half = neck.width_at_nut / 2.0;
    let row_y = match spec.headstock.tuner_rows {
        1 => Length::ZERO,
        _ => (half - spec.headstock.tuner_bore / 2.0 - EDGE).max(half / 2.0),
    };
    let row = |strings: &[Length], y: Length, first: f64| -> Vec<Tuner> {
        let from_nut = |post: usize| FIRST_POST + pitch * (first + post as f64);
        let way =
            |string: usize, post: usize| math::hypot(from_nut(post).as_mm(), (y - strings[string]).as_mm());
        shortest_sharing(strings.len(), &way)
            .into_iter()
            .map(|post| {
                let bore = Place { x: nut_rear_x - from_nut(post), y, z: neck.head_top_z };
                Tuner {
                    bore,
                    diameter: spec.headstock.tuner_bore,
                    post: bore.raised(spec.headstock.post_height),
                }
            })
            .collect()
    };
    let (bass, treble) = strings_at_nut.split_at(bass_count);
    let mut tuners = row(bass, -row_y, 0.0);
    tuners.extend(row(treble, row_y, 0.5));
    tuners
}

/// Which post each of some strings takes so that all ways together are shortest; the first of equal sharings.
///
/// Tries them all: six strings have 720.
fn shortest_sharing(count: usize, way: &impl Fn(usize, usize) -> f64) -> Vec<usize> {
    fn share_out(
        taken: &mut Vec<usize>,
        length: f64,
        count: usize,
        way: &impl Fn(usize, usize) -> f64,
        best: &mut (f64, Vec<usize>),
    ) {
        if taken.len() == count {
            if length < best.0 {
                *best = (length, taken.clone());
            }
            return;
        }
        for post in (0..count).filter(|post| !taken.contains(post)).collect::<Vec<_>>() {
            let longer = length + way(taken.len(), post);
            taken.push(post);
            share_out(taken, longer, count, way, best);
            taken.pop();
        }
    }
    let mut best = (f64::INFINITY, Vec::new());
    share_out(&mut Vec::new(), 0.0, count, way, &mut best);
    best.1
}
