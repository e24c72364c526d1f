//! In which plane does a flat shape lie, and where does a thing go when it is turned and shifted as a whole?
//!
//! - *Frame*: a plane in space with two perpendicular directions in it, so that a point of a flat shape has a place
//!   in space. The normal is the first direction crossed with the second: a shape that runs counter-clockwise in its
//!   frame runs counter-clockwise for an eye toward which the normal points.
//! - *Rigid motion*: a turn and a shift, never a mirror.

use units::{Angle, Length};

use crate::{Point2, Point3, Vector2, Vector3};

/// A plane in space with an origin and two directions in it, both of length 1 and perpendicular to each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame3 {
    /// Where the flat point (0, 0) lies.
    pub origin: Point3,
    /// The direction of the flat first axis, of length 1.
    pub u: Vector3,
    /// The direction of the flat second axis, of length 1 and perpendicular to `u`.
    pub v: Vector3,
}

/// A turn followed by a shift; shapes keep their size and their handedness.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rigid3 {
    /// Where the three axis directions go.
    columns: [Vector3; 3],
    shift: Vector3,
}

impl Frame3 {
    /// The plane at a place along x: flat x is +y, flat y is +z, the normal +x.
    #[must_use]
    pub const fn across_x(x: Length) -> Self {
        Self { origin: Point3::mm(x.as_mm(), 0.0, 0.0), u: Vector3::Y, v: Vector3::Z }
    }

    /// The plane at a place along y: flat x is +z, flat y is +x, the normal +y.
    #[must_use]
    pub const fn across_y(y: Length) -> Self {
        Self { origin: Point3::mm(0.0, y.as_mm(), 0.0), u: Vector3::Z, v: Vector3::X }
    }

    /// The plane at a place along z: flat x is +x, flat y is +y, the normal +z.
    #[must_use]
    pub const fn across_z(z: Length) -> Self {
        Self { origin: Point3::mm(0.0, 0.0, z.as_mm()), u: Vector3::X, v: Vector3::Y }
    }

    /// The plane through a point that has a given normal, with `u` as near to a wished direction as the plane allows.
    ///
    /// `None` where the normal has no length or the wished direction is the normal's.
    #[must_use]
    pub fn facing(origin: Point3, normal: Vector3, toward_u: Vector3) -> Option<Self> {
        let normal = normal.normalised()?;
        let v = normal.cross(toward_u.normalised()?);
        let v = if v.length() > 1e-9 { v.normalised()? } else { return None };
        Some(Self { origin, u: v.cross(normal), v })
    }

    /// The direction that the plane faces, of length 1.
    #[must_use]
    pub const fn normal(self) -> Vector3 {
        self.u.cross(self.v)
    }

    /// The place in space of a flat point.
    #[must_use]
    pub fn point(self, flat: Point2) -> Point3 {
        self.origin + self.u * flat.x + self.v * flat.y
    }

    /// The direction in space of a flat vector.
    #[must_use]
    pub fn vector(self, flat: Vector2) -> Vector3 {
        self.u * flat.x + self.v * flat.y
    }

    /// The flat point nearest to a point in space: what is off the plane is dropped along the normal.
    #[must_use]
    pub fn flat(self, point: Point3) -> Point2 {
        let from_origin = point - self.origin;
        Point2::mm(from_origin.dot(self.u), from_origin.dot(self.v))
    }

    /// How far a point lies off the plane, in millimetres, positive on the side that the normal points to.
    #[must_use]
    pub fn height(self, point: Point3) -> f64 {
        (point - self.origin).dot(self.normal())
    }

    /// The same plane with its flat origin moved along itself and its normal.
    #[must_use]
    pub fn shifted(self, along_normal: Length) -> Self {
        Self { origin: self.origin + self.normal() * along_normal.as_mm(), ..self }
    }

    /// The frame of the mirror image of a flat shape in the plane y = 0, where the flat shape is mirrored too.
    ///
    /// A mirror turns a right-handed frame into a left-handed one. So the second direction is turned about: the
    /// mirror image of the flat point (a, b) lies at flat (a, -b), and the normal is the mirror image of the normal.
    #[must_use]
    pub fn mirrored_y(self) -> Self {
        Self {
            origin: Point3::mm(self.origin.x, -self.origin.y, self.origin.z),
            u: mirrored_y(self.u),
            v: -mirrored_y(self.v),
        }
    }
}

impl Rigid3 {
    /// Everything stays where it is.
    pub const IDENTITY: Self = Self { columns: [Vector3::X, Vector3::Y, Vector3::Z], shift: Vector3::ZERO };

    /// A shift without a turn.
    #[must_use]
    pub const fn translation(shift: Vector3) -> Self {
        Self { shift, ..Self::IDENTITY }
    }

    /// A turn by an angle about a line through a point, by the right hand: seen against the axis, counter-clockwise.
    ///
    /// - **Errors**: `None` for an axis of no length.
    /// - **Source**: Rodrigues' rotation formula.
    #[must_use]
    pub fn turn(through: Point3, axis: Vector3, angle: Angle) -> Option<Self> {
        let axis = axis.normalised()?;
        let (sin, cos) = (angle.sin(), angle.cos());
        let turned = |vector: Vector3| {
            vector * cos + axis.cross(vector) * sin + axis * (axis.dot(vector) * (1.0 - cos))
        };
        let columns = [turned(Vector3::X), turned(Vector3::Y), turned(Vector3::Z)];
        let turn = Self { columns, shift: Vector3::ZERO };
        Some(Self { shift: through - turn.point(through), ..turn })
    }

    /// The motion that lays one frame upon another: `from`'s flat points go to `to`'s.
    #[must_use]
    pub fn between(from: Frame3, to: Frame3) -> Self {
        let out_of = |frame: Frame3| Self {
            columns: [frame.u, frame.v, frame.normal()],
            shift: frame.origin.to_vector(),
        };
        out_of(from).inverse().then(&out_of(to))
    }

    /// Where a point goes.
    #[must_use]
    pub fn point(&self, point: Point3) -> Point3 {
        Point3::ORIGIN + self.vector(point.to_vector()) + self.shift
    }

    /// Where a direction goes: turned, not shifted.
    #[must_use]
    pub fn vector(&self, vector: Vector3) -> Vector3 {
        self.columns[0] * vector.x + self.columns[1] * vector.y + self.columns[2] * vector.z
    }

    /// Where a frame goes.
    #[must_use]
    pub fn frame(&self, frame: Frame3) -> Frame3 {
        Frame3 { origin: self.point(frame.origin), u: self.vector(frame.u), v: self.vector(frame.v) }
    }

    /// This motion, and after it the next.
    #[must_use]
    pub fn then(&self, next: &Self) -> Self {
        Self {
            columns: self.columns.map(|column| next.vector(column)),
            shift: next.vector(self.shift) + next.shift,
        }
    }

    /// The motion that undoes this one.
    #[must_use]
    pub fn inverse(&self) -> Self {
        let [a, b, c] = self.columns;
        let columns = [Vector3::mm(a.x, b.x, c.x), Vector3::mm(a.y, b.y, c.y), Vector3::mm(a.z, b.z, c.z)];
        let turn = Self { columns, shift: Vector3::ZERO };
        Self { shift: -turn.vector(self.shift), ..turn }
    }
}

/// The mirror image of a direction in the plane y = 0.
const fn mirrored_y(vector: Vector3) -> Vector3 {
    Vector3::mm(vector.x, -vector.y, vector.z)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(found: Point3, expected: (f64, f64, f64)) {
        let expected = Point3::mm(expected.0, expected.1, expected.2);
        let apart = found.distance(expected);
        assert!(apart < 1e-12, "expected {expected:?}, found {found:?}, {apart:e} mm apart");
    }

    const AT: Length = Length::mm(7.0);
    const FLAT: Point2 = Point2::mm(2.0, 3.0);

    #[test]
    fn across_x_keeps_its_axes() {
        check(Frame3::across_x(AT).point(FLAT), (7.0, 2.0, 3.0));
        assert_eq!(Frame3::across_x(AT).normal(), Vector3::X, "normal");
    }

    #[test]
    fn across_y_keeps_its_axes() {
        check(Frame3::across_y(AT).point(FLAT), (3.0, 7.0, 2.0));
        assert_eq!(Frame3::across_y(AT).normal(), Vector3::Y, "normal");
    }

    #[test]
    fn across_z_keeps_its_axes() {
        check(Frame3::across_z(AT).point(FLAT), (2.0, 3.0, 7.0));
        assert_eq!(Frame3::across_z(AT).normal(), Vector3::Z, "normal");
    }

    #[test]
    fn a_slanted_frame_takes_points_there_and_back() {
        let frame = Frame3::facing(Point3::mm(1.0, 2.0, 3.0), Vector3::mm(1.0, 0.2, -0.4), Vector3::Y)
            .expect("the wished direction is not the normal");
        let space = frame.point(FLAT);
        let flat = frame.flat(space);
        assert!(flat.distance(FLAT) < 1e-12, "expected {FLAT:?}, found {flat:?}");
        assert!(frame.height(space).abs() < 1e-12, "a point of the plane has no height");
        assert!(frame.u.dot(frame.v).abs() < 1e-15, "directions are perpendicular");
        assert!((frame.shifted(AT).height(space) + 7.0).abs() < 1e-12, "the plane went along its normal");
    }

    #[test]
    fn a_wish_along_the_normal_is_refused() {
        assert_eq!(Frame3::facing(Point3::ORIGIN, Vector3::Z, Vector3::Z), None, "no direction to choose");
    }

    #[test]
    fn a_mirrored_frame_holds_the_mirrored_shape() {
        let frame = Frame3::facing(Point3::mm(1.0, 2.0, 3.0), Vector3::mm(1.0, 0.2, -0.4), Vector3::Y)
            .expect("the wished direction is not the normal");
        let space = frame.point(FLAT);
        check(frame.mirrored_y().point(FLAT.mirrored_y()), (space.x, -space.y, space.z));
        let normal = frame.normal();
        check(Point3::ORIGIN + frame.mirrored_y().normal(), (normal.x, -normal.y, normal.z));
    }

    #[test]
    fn a_quarter_turn_goes_by_the_right_hand() {
        let turn =
            Rigid3::turn(Point3::mm(1.0, 0.0, 5.0), Vector3::Z, Angle::degrees(90.0)).expect("an axis");
        check(turn.point(Point3::mm(3.0, 0.0, 9.0)), (1.0, 2.0, 9.0));
    }

    #[test]
    fn motions_chain_and_undo() {
        let turn = Rigid3::turn(Point3::mm(1.0, 2.0, 3.0), Vector3::mm(1.0, 1.0, 0.5), Angle::degrees(40.0))
            .expect("an axis");
        let both = turn.then(&Rigid3::translation(Vector3::mm(3.0, -1.0, 2.0)));
        let point = Point3::mm(-4.0, 5.0, 6.0);
        check(both.point(point), {
            let moved = turn.point(point) + Vector3::mm(3.0, -1.0, 2.0);
            (moved.x, moved.y, moved.z)
        });
        check(both.inverse().point(both.point(point)), (-4.0, 5.0, 6.0));
    }

    #[test]
    fn a_frame_is_laid_upon_another() {
        let from = Frame3::facing(Point3::mm(1.0, 2.0, 3.0), Vector3::mm(1.0, 0.2, -0.4), Vector3::Y)
            .expect("the wished direction is not the normal");
        let to = Frame3::across_z(AT);
        check(Rigid3::between(from, to).point(from.point(FLAT)), (2.0, 3.0, 7.0));
    }
}
