//! What is a body, and which descriptions are refused?

use units::{ChordTolerance, Length};

use super::{BodyFault, Bore, Skin, assembly, boring, brep, merging, rooted, triangulation};
use crate::{Frame3, Mesh, Outline, Rigid3, Vertex, WELD};

/// A closed line-and-arc ring in a plane in space, counter-clockwise for an eye toward which the normal points.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// The plane.
    pub frame: Frame3,
    /// The ring, in the frame's own coordinates.
    pub ring: Outline,
}

/// The solid between two sections whose rings have the same vertices in the same order.
///
/// Vertex i of the start is ruled to vertex i of the end, and each point of a segment to the point at the same share
/// of the sweep of its like: a segment is a line at both ends or an arc that turns the same way at both. The end lies
/// wholly on the side of the start plane that the start normal points to. The planes may slant to each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Loft {
    /// Where it begins.
    pub start: Section,
    /// Where it ends.
    pub end: Section,
}

/// A solid: a chain of lofts, each beginning in the plane where the former ends, less its bores; it may begin on a wall of a
/// loft of its own, its root.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    root: Option<Loft>,
    lofts: Vec<Loft>,
    bores: Vec<Bore>,
}

impl Loft {
    /// The solid of one outline carried along the normal of its frame.
    #[must_use]
    pub fn prism(frame: Frame3, outline: Outline, height: Length) -> Self {
        let ring = outline.counter_clockwise();
        Self {
            start: Section { frame, ring: ring.clone() },
            end: Section { frame: frame.shifted(height), ring },
        }
    }
}

impl Body {
    /// A body from its lofts, in their order along the normals, and its bores.
    ///
    /// - **Units**: millimetres, in whatever frame the sections are given.
    /// - **Errors**: a [`BodyFault`] where a loft is not a solid or two do not meet. What bores and the meeting of
    ///   rings may still get wrong is found when the skin is built.
    pub fn new(lofts: Vec<Loft>, bores: Vec<Bore>) -> Result<Self, BodyFault> {
        if lofts.is_empty() {
            return Err(BodyFault::NoLoft);
        }
        for (index, loft) in lofts.iter().enumerate() {
            check_loft(index, loft)?;
        }
        for (index, pair) in lofts.windows(2).enumerate() {
            check_joint(index + 1, &pair[0].end, &pair[1].start)?;
        }
        for (index, bore) in bores.iter().enumerate() {
            if !bore.is_sound() {
                return Err(BodyFault::BoreShape { bore: index });
            }
        }
        Ok(Self { root: None, lofts, bores })
    }

    /// A body whose chain of lofts begins on a flat wall of a root: the wall between two corners of the root's rings and the
    /// first ring of the chain are one rectangle.
    ///
    /// - **Errors**: as for [`Body::new`], and [`BodyFault::NoWall`] where no wall of the root is the chain's first ring.
    pub fn rooted(root: Loft, lofts: Vec<Loft>, bores: Vec<Bore>) -> Result<Self, BodyFault> {
        check_loft(0, &root)?;
        let chain = Self::new(lofts, bores)?;
        rooted::wall(&root, &chain.lofts[0].start).ok_or(BodyFault::NoWall)?;
        Ok(Self { root: Some(root), ..chain })
    }

    /// A body of one outline carried along the normal of its frame.
    pub fn prism(
        frame: Frame3,
        outline: Outline,
        height: Length,
        bores: Vec<Bore>,
    ) -> Result<Self, BodyFault> {
        Self::new(vec![Loft::prism(frame, outline, height)], bores)
    }

    /// The bores, in the order given.
    #[must_use]
    pub fn bores(&self) -> &[Bore] {
        &self.bores
    }

    /// The body after a motion.
    #[must_use]
    pub fn moved(&self, motion: &Rigid3) -> Self {
        let section =
            |section: &Section| Section { frame: motion.frame(section.frame), ring: section.ring.clone() };
        self.with_sections(section, |bore| bore.moved(motion))
    }

    /// The mirror image in the plane y = 0; faces still look outward.
    #[must_use]
    pub fn mirrored_y(&self) -> Self {
        let section = |section: &Section| Section {
            frame: section.frame.mirrored_y(),
            ring: section.ring.mirrored_y(),
        };
        self.with_sections(section, Bore::mirrored_y)
    }

    fn with_sections(&self, section: impl Fn(&Section) -> Section, bore: impl Fn(&Bore) -> Bore) -> Self {
        let loft = |loft: &Loft| Loft { start: section(&loft.start), end: section(&loft.end) };
        Self {
            root: self.root.as_ref().map(loft),
            lofts: self.lofts.iter().map(loft).collect(),
            bores: self.bores.iter().map(bore).collect(),
        }
    }

    /// The boundary of the body: points, edges and faces that share them.
    ///
    /// - **Errors**: a [`BodyFault`] where rings or bores touch each other so that no solid results.
    pub fn skin(&self) -> Result<Skin, BodyFault> {
        let mut skin = assembly::assemble(&self.lofts)?;
        if let Some(root) = &self.root {
            rooted::graft(&mut skin, root, &self.lofts[0].start)?;
        }
        merging::merge(&mut skin)?;
        boring::bore(&mut skin, &self.bores)?;
        skin.check()?;
        Ok(skin)
    }

    /// The body as triangles, closed and outward.
    ///
    /// - **Accuracy**: flat faces are exact; no arc and no ruled face deviates by more than the tolerance.
    /// - **Errors**: those of [`Body::skin`], and [`BodyFault::TooThin`] where a face is all but without area.
    pub fn mesh(&self, tolerance: ChordTolerance) -> Result<Mesh, BodyFault> {
        triangulation::triangulate(&self.skin()?, tolerance)
    }

    /// The body as a solid of `truck`, one to one with the skin: flat faces are planes, the walls of bores surfaces
    /// of revolution, other walls ruled surfaces, exact with their arcs.
    ///
    /// - **Errors**: those of [`Body::skin`], and [`BodyFault::Brep`].
    pub fn brep(&self) -> Result<truck_modeling::Solid, BodyFault> {
        brep::solid(&self.skin()?)
    }
}

fn check_loft(index: usize, loft: &Loft) -> Result<(), BodyFault> {
    let (start, end) = (loft.start.ring.vertices(), loft.end.ring.vertices());
    if start.len() != end.len() {
        return Err(BodyFault::VertexCount { loft: index, start: start.len(), end: end.len() });
    }
    for section in [&loft.start, &loft.end] {
        let Frame3 { u, v, origin } = section.frame;
        let unit = (u.length() - 1.0).abs() < 1e-9 && (v.length() - 1.0).abs() < 1e-9;
        if !(unit && u.dot(v).abs() < 1e-9 && origin.is_finite()) {
            return Err(BodyFault::Frame { loft: index });
        }
        if !section.ring.is_counter_clockwise() {
            return Err(BodyFault::Clockwise { loft: index });
        }
    }
    for (segment, (a, b)) in start.iter().zip(end).enumerate() {
        let same_kind = if a.bulge == 0.0 { b.bulge == 0.0 } else { a.bulge * b.bulge > 0.0 };
        if !same_kind {
            return Err(BodyFault::SegmentKind { loft: index, segment });
        }
        let from_start = loft.start.frame.height(loft.end.frame.point(b.point));
        let to_end = -loft.end.frame.height(loft.start.frame.point(a.point));
        let rise = from_start.min(to_end);
        if rise.is_nan() || rise <= WELD.distance().as_mm() {
            return Err(BodyFault::Backward { loft: index, vertex: segment, rise });
        }
    }
    check_untwisted(index, loft)
}

/// Refuses a loft whose rulings cross: its sections on the way are looked at as outlines.
///
/// Between planes that slant to each other a section is looked at from the direction half-way between their normals,
/// and an arc on the way is taken for one with the bulge on the way: what all but crosses may be judged either way.
fn check_untwisted(index: usize, loft: &Loft) -> Result<(), BodyFault> {
    let (start, end) = (&loft.start, &loft.end);
    if start.ring == end.ring && start.frame.u == end.frame.u && start.frame.v == end.frame.v {
        return Ok(());
    }
    let normal = start.frame.normal() + end.frame.normal();
    let view = Frame3::facing(start.frame.origin, normal, start.frame.u).unwrap_or(start.frame);
    for share in [0.25, 0.5, 0.75] {
        let vertex = |(a, b): (&Vertex, &Vertex)| {
            let point = start.frame.point(a.point).lerp(end.frame.point(b.point), share);
            Vertex { point: view.flat(point), bulge: a.bulge + (b.bulge - a.bulge) * share }
        };
        let section =
            Outline::new(start.ring.vertices().iter().zip(end.ring.vertices()).map(vertex).collect());
        if !section.is_ok_and(|section| section.is_counter_clockwise()) {
            return Err(BodyFault::Twisted { loft: index });
        }
    }
    Ok(())
}

fn check_joint(later: usize, before: &Section, after: &Section) -> Result<(), BodyFault> {
    let points = after.ring.vertices().iter().map(|vertex| after.frame.point(vertex.point));
    let gap = points.map(|point| before.frame.height(point).abs()).fold(0.0, f64::max);
    let same_way = before.frame.normal().dot(after.frame.normal()) > 0.0;
    if gap > WELD.distance().as_mm() || !same_way {
        return Err(BodyFault::Gap { loft: later, gap });
    }
    Ok(())
}
