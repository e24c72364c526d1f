//! How is a file of R12 (AC1009) put together, for programs and machines of its time?
//!
//! No handles, no owners, no objects, and no unit: millimetres. A polyline is a POLYLINE with its vertices one by one.

use geometry::{Bounds2, Point2, Vertex};

use super::Content;
use super::entity::Entity;
use super::tags::Tags;

pub(super) fn write(tags: &mut Tags, content: &Content) {
    header(tags, content.bounds);
    tables(tags, content);
    tags.fixed("0 SECTION; 2 BLOCKS; 0 ENDSEC; 0 SECTION; 2 ENTITIES");
    for (layer, entities) in &content.layers {
        let name = layer.name();
        entities.iter().for_each(|entity| write_entity(tags, &name, entity));
    }
    tags.fixed("0 ENDSEC; 0 EOF");
}

fn header(tags: &mut Tags, bounds: Bounds2) {
    tags.fixed("0 SECTION; 2 HEADER; 9 $ACADVER; 1 AC1009; 9 $INSBASE; 10 0.0; 20 0.0; 30 0.0");
    for (name, corner) in [("$EXTMIN", bounds.min), ("$EXTMAX", bounds.max)] {
        tags.text(9, name);
        point(tags, 10, corner);
    }
    for (name, corner) in [("$LIMMIN", bounds.min), ("$LIMMAX", bounds.max)] {
        tags.text(9, name);
        tags.point(10, (corner.x, corner.y));
    }
    tags.fixed("0 ENDSEC");
}

fn tables(tags: &mut Tags, content: &Content) {
    let (min, max) = (content.bounds.min, content.bounds.max);
    tags.fixed("0 SECTION; 2 TABLES; 0 TABLE; 2 VPORT; 70 1; 0 VPORT; 2 *ACTIVE; 70 0");
    tags.fixed("10 0.0; 20 0.0; 11 1.0; 21 1.0");
    tags.point(12, ((min.x + max.x) / 2.0, (min.y + max.y) / 2.0));
    tags.fixed(
        "13 0.0; 23 0.0; 14 1.0; 24 1.0; 15 1.0; 25 1.0; 16 0.0; 26 0.0; 36 1.0; 17 0.0; 27 0.0; 37 0.0",
    );
    tags.number(40, 1.1 * (max.y - min.y).max((max.x - min.x) / 1.5));
    tags.fixed(
        "41 1.5; 42 50.0; 43 0.0; 44 0.0; 50 0.0; 51 0.0; 71 0; 72 1000; 73 1; 74 3; 75 0; 76 0; 77 0; 78 0",
    );
    tags.fixed(
        "0 ENDTAB; 0 TABLE; 2 LTYPE; 70 1; 0 LTYPE; 2 CONTINUOUS; 70 0; 3 Solid line; 72 65; 73 0; 40 0.0",
    );
    tags.fixed("0 ENDTAB; 0 TABLE; 2 LAYER");
    tags.integer(70, content.layers.len() + 1);
    tags.fixed("0 LAYER; 2 0; 70 0; 62 7; 6 CONTINUOUS");
    for (layer, _) in &content.layers {
        tags.text(0, "LAYER");
        tags.text(2, &layer.name());
        tags.fixed("70 0");
        tags.integer(62, layer.colour().index.into());
        tags.fixed("6 CONTINUOUS");
    }
    tags.fixed("0 ENDTAB; 0 TABLE; 2 STYLE; 70 1; 0 STYLE; 2 STANDARD; 70 0; 40 0.0; 41 1.0; 50 0.0; 71 0; 42 2.5; 3 txt; 4");
    tags.fixed("0 ENDTAB; 0 ENDSEC");
}

fn write_entity(tags: &mut Tags, layer: &str, entity: &Entity) {
    let begin = |tags: &mut Tags, kind: &str| {
        tags.text(0, kind);
        tags.text(8, layer);
    };
    match entity {
        Entity::Line { from, to } => {
            begin(tags, "LINE");
            point(tags, 10, *from);
            point(tags, 11, *to);
        }
        Entity::Arc { center, radius, start, end } => {
            begin(tags, "ARC");
            point(tags, 10, *center);
            tags.number(40, radius.as_mm());
            tags.angle(50, *start);
            tags.angle(51, *end);
        }
        Entity::Circle(circle) => {
            begin(tags, "CIRCLE");
            point(tags, 10, circle.center);
            tags.number(40, circle.radius.as_mm());
        }
        Entity::Polyline { vertices, closed } => {
            begin(tags, "POLYLINE");
            tags.fixed("66 1; 10 0.0; 20 0.0; 30 0.0");
            tags.integer(70, usize::from(*closed));
            for Vertex { point: at, bulge } in vertices {
                begin(tags, "VERTEX");
                point(tags, 10, *at);
                if *bulge != 0.0 {
                    tags.bulge(*bulge);
                }
            }
            begin(tags, "SEQEND");
        }
    }
}

/// The three pairs of a point: x under the code, y under the code plus ten, z under the code plus twenty.
fn point(tags: &mut Tags, code: u16, at: Point2) {
    tags.point(code, (at.x, at.y));
    tags.number(code + 20, 0.0);
}
