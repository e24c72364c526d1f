//! The stick: what is cut from it, and how it meets the box.

use units::Length;

use super::{Relation, Side, require};
use crate::code::Code;
use crate::diagnostic::Diagnostic;
use crate::instrument::{Joint, NeckSection, Spec};
use crate::reading::Reader;

pub(super) fn check(spec: &Spec, reader: &mut Reader<'_>) {
    let neck = &spec.neck;
    let headstock = Relation {
        code: Code::HeadstockThickerThanNeck,
        key: "headstock.thickness",
        found: spec.headstock.thickness,
        side: Side::AtMost,
        limit: neck.thickness,
        because: "neck.thickness",
        others: &["neck.thickness"],
    };
    require(reader, &headstock);
    if let Some(drawn) = &spec.headstock.outline {
        let joint = Relation {
            code: Code::NeckWiderThanJoint,
            key: "neck.width_at_nut",
            found: neck.width_at_nut,
            side: Side::AtMost,
            limit: drawn.joint() + import::JOIN.distance(),
            because: "the straight edge by which headstock.outline is joined to the neck",
            others: &["headstock.outline"],
        };
        require(reader, &joint);
        let no_room = drawn.joined_to(neck.width_at_nut).err();
        let sound = ["headstock.outline", "neck.width_at_nut"].iter().all(|key| reader.is_sound(key));
        if let Some(fault) = no_room.filter(|_| sound && neck.width_at_nut <= joint.limit) {
            let message =
                format!("headstock.outline: expected room for the neck at its right end, found that {fault}");
            let fault = Diagnostic::error(Code::BadOutline, reader.place_of("headstock.outline"), message)
                .label(reader.place_of("neck.width_at_nut"), "which is the neck's width there")
                .hint("keep the edges of the headstock clear of its right end");
            reader.tell(fault);
        }
    }
    if neck.section == NeckSection::Eased {
        let edge = Relation {
            code: Code::EdgeRadiusTooLarge,
            key: "neck.edge_radius",
            found: neck.edge_radius,
            side: Side::AtMost,
            limit: neck.thickness.min(neck.width_at_nut * 0.5).min(neck.width_at_box * 0.5),
            because: "the thickness of the neck or half its width",
            others: &["neck.thickness", "neck.width_at_nut", "neck.width_at_box"],
        };
        require(reader, &edge);
    }
    if spec.heel.reach > Length::ZERO {
        let heel = Relation {
            code: Code::HeelInsideNeck,
            key: "heel.depth",
            found: spec.heel.depth,
            side: Side::Above,
            limit: neck.thickness,
            because: "neck.thickness",
            others: &["neck.thickness", "heel.reach"],
        };
        require(reader, &heel);
    }
    let width = Relation {
        code: Code::NeckWiderThanBox,
        key: "neck.width_at_box",
        found: neck.width_at_box,
        side: Side::Below,
        limit: spec.body.width,
        because: "box.width",
        others: &["box.width"],
    };
    require(reader, &width);
    if neck.joint == Joint::Through {
        tongue(spec, reader);
    }
}

/// A through neck runs under the lid and above the bottom.
fn tongue(spec: &Spec, reader: &mut Reader<'_>) {
    let (neck, body) = (&spec.neck, &spec.body);
    let tongue = Relation {
        code: Code::NoTongueLeft,
        key: "neck.tongue_recess",
        found: neck.tongue_recess,
        side: Side::Below,
        limit: neck.thickness - neck.face_above_lid - body.lid,
        because: "what of neck.thickness lies under the lid",
        others: &["neck.thickness", "neck.face_above_lid", "box.lid"],
    };
    require(reader, &tongue);
    let bottom = Relation {
        code: Code::NeckDeeperThanBox,
        key: "neck.thickness",
        found: neck.thickness,
        side: Side::Below,
        limit: body.depth + neck.face_above_lid,
        because: "box.depth and neck.face_above_lid together",
        others: &["box.depth", "neck.face_above_lid"],
    };
    require(reader, &bottom);
}
