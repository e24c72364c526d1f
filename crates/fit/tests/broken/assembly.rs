//! Plans whose solids do not meet as they are meant to, each by one check.

use spec::Document;

use super::plan;

const PORCH: &str = include_str!("../../../../specs/porch-three-string.toml");
const MEADOW: &str = include_str!("../../../../specs/meadow-diatonic.toml");

/// The check that a plan breaks, and the plan.
pub fn assembly() -> Vec<(&'static str, Document)> {
    let porch = |id, changes: &[(&str, &str)]| (id, plan(PORCH, changes));
    let tail_at =
        |distance| [("tail.hole_height", "6 mm"), ("saddle.thickness", "12 mm"), ("tail.distance", distance)];
    vec![
        // The neck's end stands over the wall that it is glued to.
        porch(
            "parts-touch",
            &[("neck.joint", "butt"), ("heel.reach", "0 mm"), ("neck.face_above_lid", "18 mm")],
        ),
        // The tail block stands in the saddle.
        porch("parts-clear", &tail_at("5 mm")),
        // The strings run through the lid's edge.
        ("parts-clear", plan(MEADOW, &[("tail.hole_height", "-4 mm")])),
    ]
}
