//! Where do the tuner posts stand, so that no string crosses another?

use spec::Spec;
use units::Length;

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

/// One tuner a string, bass to treble.
///
/// - **One row**: all posts on the centre line. The strings nearest the centre take the nearest posts, so that the
///   others pass outside them.
/// - **Two rows**: the bass half of the strings (the middle one of an odd number counts to it) on the bass side, the
///   rest on the treble side, half a pitch farther out so that tuner bodies do not meet across a narrow stick. In each
///   row the outer strings take the nearest posts, so that the inner ones pass inside them.
pub(crate) fn tuners(spec: &Spec, neck: &NeckShape, strings_at_nut: &[Length]) -> Vec<Tuner> {
    let count = strings_at_nut.len();
    let nut_rear_x = neck.nut_front_x - spec.nut.thickness;
    let bass_count = count.div_ceil(2);
    let in_longest_row = if spec.headstock.tuner_rows == 1 { count } else { bass_count };
    let room = spec.headstock.length - FIRST_POST - END_MARGIN;
    let pitch = POST_PITCH.min(room / (in_longest_row.max(2) - 1) as f64);
    let row_y = neck.width_at_nut / 4.0;
    (0..count)
        .map(|string| {
            let (steps, y) = if spec.headstock.tuner_rows == 1 {
                (rank_from_centre(strings_at_nut, string) as f64, Length::ZERO)
            } else if string < bass_count {
                (string as f64, -row_y)
            } else {
                ((count - 1 - string) as f64 + 0.5, row_y)
            };
            let x = nut_rear_x - FIRST_POST - pitch * steps;
            let bore = Place { x, y, z: neck.head_top_z };
            Tuner { bore, diameter: spec.headstock.tuner_bore, post: bore.raised(spec.headstock.post_height) }
        })
        .collect()
}

/// How many strings lie nearer the centre line than this one; of two equally near, the bass one counts as nearer.
fn rank_from_centre(strings: &[Length], string: usize) -> usize {
    let nearer = |other: usize| {
        let (there, here) = (strings[other].abs().as_mm(), strings[string].abs().as_mm());
        // Symmetric strings differ by rounding only.
        there < here - 1e-9 || ((there - here).abs() <= 1e-9 && other < string)
    };
    (0..strings.len()).filter(|other| *other != string && nearer(*other)).count()
}
