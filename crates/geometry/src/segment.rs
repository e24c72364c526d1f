//! What is one piece of an outline, a straight line or a circular arc, and where does it run?
//!
//! A *bulge* is the tangent of a quarter of an arc's sweep: 0 for a line, 1 for a half circle, positive where the
//! arc turns left. It needs no centre, so the formulas below keep their accuracy for arcs that are almost straight.

use units::{Angle, ChordTolerance, Length, math};

use crate::{Bounds2, Point2, Vector2, WELD};

/// A straight line or a circular arc, with a direction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Segment {
    /// A straight line.
    Line {
        /// Where it begins.
        from: Point2,
        /// Where it ends.
        to: Point2,
    },
    /// A circular arc.
    Arc {
        /// Where it begins.
        from: Point2,
        /// Where it ends.
        to: Point2,
        /// The centre of its circle.
        center: Point2,
        /// The radius of its circle.
        radius: Length,
        /// The angle that it covers, seen from the centre: positive when it turns left (counter-clockwise).
        sweep: Angle,
    },
}

impl Segment {
    /// The segment between two points with a bulge; one that stands off its chord by less than [`WELD`] is a line.
    #[must_use]
    pub fn new(from: Point2, to: Point2, bulge: f64) -> Self {
        let chord = to - from;
        if is_straight(chord, bulge) {
            return Self::Line { from, to };
        }
        Self::Arc {
            from,
            to,
            center: from + center_from_start(chord, bulge),
            radius: Length::mm(chord.length() * (1.0 + bulge * bulge) / (4.0 * bulge.abs())),
            sweep: Angle::radians(4.0 * math::atan(bulge)),
        }
    }

    /// Where it begins.
    #[must_use]
    pub const fn from(&self) -> Point2 {
        match *self {
            Self::Line { from, .. } | Self::Arc { from, .. } => from,
        }
    }

    /// Where it ends.
    #[must_use]
    pub const fn to(&self) -> Point2 {
        match *self {
            Self::Line { to, .. } | Self::Arc { to, .. } => to,
        }
    }

    /// The vector from its beginning to its end.
    #[must_use]
    pub fn chord(&self) -> Vector2 {
        self.to() - self.from()
    }

    /// The tangent of a quarter of the sweep; 0 for a line.
    #[must_use]
    pub fn bulge(&self) -> f64 {
        math::tan(self.sweep().as_radians() / 4.0)
    }

    /// The angle by which its direction turns from beginning to end, left positive; 0 for a line.
    #[must_use]
    pub const fn sweep(&self) -> Angle {
        match *self {
            Self::Line { .. } => Angle::ZERO,
            Self::Arc { sweep, .. } => sweep,
        }
    }

    /// How long it is, along itself.
    #[must_use]
    pub fn length(&self) -> Length {
        match *self {
            Self::Line { from, to } => Length::mm(from.distance(to)),
            Self::Arc { radius, sweep, .. } => radius * sweep.as_radians().abs(),
        }
    }

    /// The same piece, run the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        match *self {
            Self::Line { from, to } => Self::Line { from: to, to: from },
            Self::Arc { from, to, center, radius, sweep } => {
                Self::Arc { from: to, to: from, center, radius, sweep: -sweep }
            }
        }
    }

    /// The point at a share of the way along: 0 is the beginning, 1 the end.
    #[must_use]
    pub fn point_at(&self, share: f64) -> Point2 {
        if share <= 0.0 {
            return self.from();
        }
        if share >= 1.0 {
            return self.to();
        }
        match *self {
            Self::Line { from, to } => from.lerp(to, share),
            // An inscribed angle is half the angle at the centre: no centre is needed, which matters for flat arcs.
            Self::Arc { from, to, sweep, .. } if sweep.abs() <= Angle::degrees(180.0) => {
                let half = sweep * 0.5;
                from + (to - from).rotated(half * (share - 1.0)) * ((half * share).sin() / half.sin())
            }
            Self::Arc { from, center, sweep, .. } => from.rotated_about(center, sweep * share),
        }
    }

    /// The points strictly between the ends at which to break the segment, so that no chord deviates from it by more
    /// than the tolerance; none for a line. A tolerance under [`WELD`] counts as that.
    #[must_use]
    pub fn flatten(&self, chord: ChordTolerance) -> Vec<Point2> {
        let Self::Arc { radius, sweep, .. } = *self else { return Vec::new() };
        let height = (chord.deviation().max(WELD.distance()) / radius).min(1.0);
        // A chord over an angle a stands off by r (1 - cos a/2) = 2 r sin^2 a/4: the second form does not cancel.
        let step = 4.0 * math::asin((height / 2.0).sqrt());
        let count = (sweep.as_radians().abs() / step).ceil().max(1.0) as usize;
        (1..count).map(|i| self.point_at(i as f64 / count as f64)).collect()
    }

    /// The share of the way along at which a point of the segment lies: the inverse of [`Segment::point_at`].
    #[must_use]
    pub fn share_at(&self, point: Point2) -> f64 {
        let share = match *self {
            Self::Line { from, .. } => {
                let chord = self.chord();
                chord.dot(point - from) / chord.dot(chord)
            }
            Self::Arc { from, center, sweep, .. } => {
                let turn =
                    (from - center).angle_to(point - center).as_radians() * sweep.as_radians().signum();
                let middle = sweep.as_radians().abs() / 2.0;
                // Of the angles that are one direction, the one nearest to the arc's middle.
                let turns = ((middle - turn) / std::f64::consts::TAU).round();
                (turn + turns * std::f64::consts::TAU) / (2.0 * middle)
            }
        };
        share.clamp(0.0, 1.0)
    }

    /// The direction in which it leaves its beginning, of length 1.
    #[must_use]
    pub fn start_direction(&self) -> Vector2 {
        let chord =
            self.chord().normalised().expect("a segment has length: outlines and paths refuse others");
        chord.rotated(self.sweep() * -0.5)
    }

    /// The direction in which it arrives at its end, of length 1.
    #[must_use]
    pub fn end_direction(&self) -> Vector2 {
        -self.reversed().start_direction()
    }

    /// Whether a point of the segment's own circle, or line, lies within the segment; the ends count.
    #[must_use]
    pub fn spans(&self, point: Point2) -> bool {
        let (chord, offset) = (self.chord(), point - self.from());
        match self {
            Self::Line { .. } => (0.0..=chord.dot(chord)).contains(&chord.dot(offset)),
            // An arc lies wholly on one side of its chord, and the rest of its circle on the other.
            Self::Arc { sweep, .. } => chord.cross(offset) * sweep.as_radians() <= 0.0,
        }
    }

    /// The nearest point of the segment to a point.
    #[must_use]
    pub fn nearest(&self, point: Point2) -> Point2 {
        let chord = self.chord();
        match *self {
            Self::Line { from, to } => {
                let share = chord.dot(point - from) / chord.dot(chord);
                if share >= 1.0 {
                    to
                } else if share > 0.0 {
                    from.lerp(to, share)
                } else {
                    from
                }
            }
            Self::Arc { from, to, center, radius, .. } => {
                let on_circle =
                    (point - center).normalised().map(|outward| center + outward * radius.as_mm());
                match on_circle.filter(|&nearest| self.spans(nearest)) {
                    Some(nearest) => nearest,
                    None if point.distance(from) <= point.distance(to) => from,
                    None => to,
                }
            }
        }
    }

    /// The distance from a point to the nearest point of the segment.
    #[must_use]
    pub fn distance_to(&self, point: Point2) -> Length {
        Length::mm(self.nearest(point).distance(point))
    }

    /// The exact bounds: of an arc, not those of its ends alone.
    #[must_use]
    pub fn bounds(&self) -> Bounds2 {
        let ends = Bounds2::at(self.from()).union(Bounds2::at(self.to()));
        let Self::Arc { center, radius, .. } = *self else { return ends };
        let extremes = [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)]
            .map(|(x, y)| center + Vector2::mm(x, y) * radius.as_mm());
        extremes
            .into_iter()
            .filter(|&extreme| self.spans(extreme))
            .map(Bounds2::at)
            .fold(ends, Bounds2::union)
    }
}

/// Whether an arc is a line to within [`WELD`]: its middle stands off the chord by half the bulge times the chord.
pub(crate) fn is_straight(chord: Vector2, bulge: f64) -> bool {
    chord.length() * bulge.abs() / 2.0 < WELD.distance().as_mm()
}

/// Square millimetres between an arc and its chord; positive for an arc that turns left, which lies right of it.
///
/// `r^2 / 2 (sweep - sin sweep)`, with the difference taken from its series where the two would cancel.
pub(crate) fn cap_area(chord: Vector2, bulge: f64) -> f64 {
    let sweep = 4.0 * math::atan(bulge);
    let square = sweep * sweep;
    let difference = if sweep.abs() < 0.3 {
        let tail = 1.0 - square / 110.0 * (1.0 - square / 156.0 * (1.0 - square / 210.0));
        sweep * square / 6.0 * (1.0 - square / 20.0 * (1.0 - square / 42.0 * (1.0 - square / 72.0 * tail)))
    } else {
        sweep - math::sin(sweep)
    };
    if bulge == 0.0 {
        return 0.0;
    }
    let radius_per_chord = (1.0 + bulge * bulge) / (4.0 * bulge);
    chord.dot(chord) * radius_per_chord * radius_per_chord * difference / 2.0
}

/// From the beginning of an arc to its centre.
pub(crate) fn center_from_start(chord: Vector2, bulge: f64) -> Vector2 {
    chord * 0.5 + chord.left() * ((1.0 - bulge * bulge) / (4.0 * bulge))
}
