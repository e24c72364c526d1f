//! The machines that make the parts.

use super::keys::{Keys, mm};
use crate::instrument::{CornerRelief, Print, Router};

pub(super) fn router(keys: &mut Keys<'_, '_>) -> Router {
    Router {
        bit: keys.length("bit", "1/8 in", mm(0.3)..=mm(25.0)),
        corner_relief: keys.choice("corner_relief", CornerRelief::Dogbone),
    }
}

pub(super) fn print(keys: &mut Keys<'_, '_>) -> Print {
    Print {
        clearance: keys.length("clearance", "0.15 mm", mm(0.0)..=mm(2.0)),
        layer: keys.length("layer", "0.2 mm", mm(0.04)..=mm(1.0)),
        nozzle: keys.length("nozzle", "0.4 mm", mm(0.1)..=mm(2.0)),
        bed: keys.length_pair("bed", "220 mm, 220 mm", mm(50.0)..=mm(2000.0)),
    }
}
