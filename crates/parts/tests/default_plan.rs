//! Every part of the default plan can be drawn and built.

use units::{ChordTolerance, Length};

#[test]
fn every_part_of_the_default_plan_is_made() {
    let layout = layout::layout(&spec::Spec::default()).expect("the default plan can be laid out");
    let set = parts::parts(&layout);
    assert!(set.faults.is_empty(), "no part may fail: {:?}", set.faults);
    for part in &set.parts {
        for drawing in &part.drawings {
            let faults = drawing.faults(&geometry::Preflight::default());
            assert!(faults.is_empty(), "{}: {faults:?}", drawing.name);
        }
        if let Some(solid) = &part.solid {
            let mesh = solid.body.mesh(ChordTolerance::new(Length::mm(0.02))).expect(part.name);
            mesh.check_closed().expect(part.name);
        }
    }
}
