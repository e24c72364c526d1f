//! The box, what stands on it, and the machines.

use super::{Relation, Side, require};
use crate::code::Code;
use crate::diagnostic::Diagnostic;
use crate::instrument::{Joint, Spec, TailKind};
use crate::reading::Reader;
use units::Length;

pub(super) fn check(spec: &Spec, reader: &mut Reader<'_>) {
    let (body, saddle) = (&spec.body, &spec.saddle);
    let relations = [
        Relation {
            code: Code::SaddleOffBox,
            key: "saddle.from_tail_end",
            found: saddle.from_tail_end,
            side: Side::Below,
            limit: body.length,
            because: "box.length",
            others: &["box.length"],
        },
        Relation {
            code: Code::BoxBeforeNut,
            key: "box.length",
            found: body.length,
            side: Side::Below,
            limit: spec.scale.length + saddle.from_tail_end,
            because: "scale.length and saddle.from_tail_end together, so that the box begins behind the zero fret",
            others: &["scale.length", "saddle.from_tail_end"],
        },
        Relation {
            code: Code::WallsFillBox,
            key: "box.wall",
            found: body.wall,
            side: Side::Below,
            limit: body.width.min(body.length) * 0.5,
            because: "half of box.width or box.length",
            others: &["box.width", "box.length"],
        },
        Relation {
            code: Code::LidFillsBox,
            key: "box.lid",
            found: body.lid,
            side: Side::Below,
            limit: body.depth,
            because: "box.depth",
            others: &["box.depth"],
        },
        Relation {
            code: Code::SpreadWiderThanBox,
            key: "saddle.spread",
            found: saddle.spread,
            side: Side::Below,
            limit: body.width,
            because: "box.width",
            others: &["box.width"],
        },
        Relation {
            code: Code::BallSlipsThrough,
            key: "tail.ball_bore",
            found: spec.tail.ball_bore,
            side: Side::Above,
            limit: spec.tail.hole_bore,
            because: "tail.hole_bore",
            others: &["tail.hole_bore"],
        },
        Relation {
            code: Code::LayerThickerThanNozzle,
            key: "print.layer",
            found: spec.print.layer,
            side: Side::AtMost,
            limit: spec.print.nozzle,
            because: "print.nozzle",
            others: &["print.nozzle"],
        },
    ];
    for relation in &relations {
        require(reader, relation);
    }
    if spec.tail.kind == TailKind::StringThrough {
        string_through(spec, reader);
    }
}

/// Strings that go down through the stick's overhanging end.
fn string_through(spec: &Spec, reader: &mut Reader<'_>) {
    if spec.neck.joint != Joint::Through {
        if reader.is_sound("tail.kind") && reader.is_sound("neck.joint") {
            let message =
                "tail.kind: expected a through neck for \"string through\", found neck.joint = \"butt\"";
            let fault =
                Diagnostic::error(Code::NothingToStringThrough, reader.place_of("tail.kind"), message)
                    .label(reader.place_of("neck.joint"), "this neck ends on the box wall")
                    .hint_edit("write tail.kind = \"block\"", "tail.kind".to_owned(), "block".to_owned())
                    .hint_edit(
                        "or write neck.joint = \"through\"",
                        "neck.joint".to_owned(),
                        "through".to_owned(),
                    );
            reader.tell(fault);
        }
        return;
    }
    let height = Relation {
        code: Code::HolesAboveLid,
        key: "tail.hole_height",
        found: spec.tail.hole_height,
        side: Side::AtMost,
        limit: Length::ZERO,
        because: "because the strings go down through the stick",
        others: &["tail.kind"],
    };
    require(reader, &height);
    let overhang = Relation {
        code: Code::NoOverhang,
        key: "neck.tail_overhang",
        found: spec.neck.tail_overhang,
        side: Side::Above,
        limit: spec.tail.ball_bore,
        because: "tail.ball_bore, because the strings go through the overhang",
        others: &["tail.ball_bore", "tail.kind"],
    };
    require(reader, &overhang);
}
