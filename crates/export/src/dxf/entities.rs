//! How are the contours written?

use geometry::{Circle, Operation, Path, Vertex};

use super::tags::{Tags, hexadecimal};
use super::{Scale, tables::MODEL_SPACE};
use crate::Layer;
use crate::plan::{Contour, contour};

/// The section of entities; the first gets the handle given, the others count on.
pub(super) fn write(tags: &mut Tags, scale: Scale, layers: &[(Layer, Vec<Operation>)], first: usize) {
    tags.fixed("0 SECTION; 2 ENTITIES");
    let mut handle = first;
    for (layer, operations) in layers {
        for operation in operations {
            let place = Place { handle, layer: &layer.name() };
            match contour(operation) {
                Contour::Closed(outline) => polyline(tags, scale, &place, outline.vertices(), true),
                Contour::Circle(circle) => full_circle(tags, scale, &place, circle),
                Contour::Open(path) => open(tags, scale, &place, path),
            }
            handle += 1;
        }
    }
    tags.fixed("0 ENDSEC");
}

/// What every entity begins with.
struct Place<'a> {
    handle: usize,
    layer: &'a str,
}

fn begin(tags: &mut Tags, kind: &str, place: &Place<'_>) {
    tags.text(0, kind);
    tags.text(5, &hexadecimal(place.handle));
    tags.text(330, MODEL_SPACE);
    tags.text(100, "AcDbEntity");
    tags.text(8, place.layer);
}

fn full_circle(tags: &mut Tags, scale: Scale, place: &Place<'_>, circle: &Circle) {
    begin(tags, "CIRCLE", place);
    tags.text(100, "AcDbCircle");
    tags.point(10, scale.point(circle.center));
    tags.fixed("30 0.0");
    tags.number(40, scale.number(circle.radius.as_mm()));
}

fn open(tags: &mut Tags, scale: Scale, place: &Place<'_>, path: &Path) {
    match path.vertices() {
        [from, to] if from.bulge == 0.0 => {
            begin(tags, "LINE", place);
            tags.text(100, "AcDbLine");
            tags.point(10, scale.point(from.point));
            tags.fixed("30 0.0");
            tags.point(11, scale.point(to.point));
            tags.fixed("31 0.0");
        }
        vertices => polyline(tags, scale, place, vertices, false),
    }
}

fn polyline(tags: &mut Tags, scale: Scale, place: &Place<'_>, vertices: &[Vertex], closed: bool) {
    begin(tags, "LWPOLYLINE", place);
    tags.text(100, "AcDbPolyline");
    tags.integer(90, vertices.len());
    tags.integer(70, usize::from(closed));
    for vertex in vertices {
        tags.point(10, scale.point(vertex.point));
        if vertex.bulge != 0.0 {
            tags.bulge(vertex.bulge);
        }
    }
}
