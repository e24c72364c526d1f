//! How are the entities written?

use geometry::{Circle, Vertex};

use super::super::entity::Entity;
use super::super::tags::{Tags, hexadecimal};
use super::Scale;
use super::tables::MODEL_SPACE;
use crate::Layer;

/// The section of entities; the first gets the handle given, the others count on.
pub(super) fn write(tags: &mut Tags, scale: Scale, layers: &[(Layer, Vec<Entity>)], first: usize) {
    tags.fixed("0 SECTION; 2 ENTITIES");
    let mut handle = first;
    for (layer, entities) in layers {
        for entity in entities {
            let place = Place { handle, layer: &layer.name() };
            match entity {
                Entity::Line { from, to } => {
                    begin(tags, "LINE", &place);
                    tags.text(100, "AcDbLine");
                    tags.point(10, scale.point(*from));
                    tags.fixed("30 0.0");
                    tags.point(11, scale.point(*to));
                    tags.fixed("31 0.0");
                }
                Entity::Arc { center, radius, start, end } => {
                    circle(tags, scale, &place, "ARC", &Circle { center: *center, radius: *radius });
                    tags.text(100, "AcDbArc");
                    tags.angle(50, *start);
                    tags.angle(51, *end);
                }
                Entity::Circle(full) => circle(tags, scale, &place, "CIRCLE", full),
                Entity::Polyline { vertices, closed } => polyline(tags, scale, &place, vertices, *closed),
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

fn circle(tags: &mut Tags, scale: Scale, place: &Place<'_>, kind: &str, circle: &Circle) {
    begin(tags, kind, place);
    tags.text(100, "AcDbCircle");
    tags.point(10, scale.point(circle.center));
    tags.fixed("30 0.0");
    tags.number(40, scale.number(circle.radius.as_mm()));
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
