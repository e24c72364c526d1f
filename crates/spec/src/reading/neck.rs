//! The stick, its headstock, its heel and its board.

use units::Angle;

use super::keys::{Keys, mm};
use crate::instrument::{Fretboard, Headstock, Heel, Joint, Neck, NeckSection, Plank};

pub(super) fn neck(keys: &mut Keys<'_, '_>) -> Neck {
    Neck {
        joint: keys.choice("joint", Joint::Through),
        wood: keys.wood("wood", "hard maple"),
        width_at_nut: keys.length("width_at_nut", "1 1/2 in", mm(15.0)..=mm(120.0)),
        width_at_box: keys.length("width_at_box", "1 1/2 in", mm(15.0)..=mm(120.0)),
        thickness: keys.length("thickness", "3/4 in", mm(6.0)..=mm(60.0)),
        section: keys.choice("section", NeckSection::Eased),
        edge_radius: keys.length("edge_radius", "1/8 in", mm(0.0)..=mm(30.0)),
        back_angle: keys.angle("back_angle", "0 deg", Angle::degrees(0.0)..=Angle::degrees(10.0)),
        face_above_lid: keys.length("face_above_lid", "0 mm", mm(-20.0)..=mm(30.0)),
        tongue_recess: keys.length("tongue_recess", "1/8 in", mm(0.0)..=mm(40.0)),
        tail_overhang: keys.length("tail_overhang", "1/2 in", mm(0.0)..=mm(200.0)),
    }
}

pub(super) fn plank(keys: &mut Keys<'_, '_>) -> Plank {
    Plank {
        length: keys.optional_length("length", mm(100.0)..=mm(6000.0)),
        width: keys.optional_length("width", mm(10.0)..=mm(1000.0)),
        thickness: keys.optional_length("thickness", mm(4.0)..=mm(200.0)),
    }
}

pub(super) fn headstock(keys: &mut Keys<'_, '_>) -> Headstock {
    let length = keys.length("length", "6 in", mm(30.0)..=mm(400.0));
    let outline_units = keys.outline_units();
    let outline = keys.headstock_outline(outline_units);
    Headstock {
        length: outline.as_ref().map_or(length, |drawn| drawn.outline.bounds().width()),
        outline,
        outline_units,
        thickness: keys.length("thickness", "3/8 in", mm(4.0)..=mm(60.0)),
        tuner_bore: keys.length("tuner_bore", "10 mm", mm(3.0)..=mm(25.0)),
        tuner_rows: keys.count("tuner_rows", 2, 1..=2),
        post_height: keys.length("post_height", "5 mm", mm(0.0)..=mm(40.0)),
        // What tuners measure is common practice, no source: measure yours.
        tuner_reach: keys.length("tuner_reach", "24 mm", mm(5.0)..=mm(80.0)),
        tuner_body: keys.length_pair("tuner_body", "20 mm, 16 mm", mm(5.0)..=mm(60.0)),
        tuner_button: keys.length_pair("tuner_button", "35 mm, 18 mm", mm(0.0)..=mm(80.0)),
    }
}

pub(super) fn heel(keys: &mut Keys<'_, '_>) -> Heel {
    Heel {
        reach: keys.length("reach", "1 in", mm(0.0)..=mm(200.0)),
        depth: keys.length("depth", "1 1/2 in", mm(6.0)..=mm(200.0)),
    }
}

pub(super) fn fretboard(keys: &mut Keys<'_, '_>) -> Fretboard {
    Fretboard {
        thickness: keys.length("thickness", "0 mm", mm(0.0)..=mm(15.0)),
        radius: keys.board_radius("radius", mm(50.0)..=mm(2000.0)),
    }
}
