//! compensation-room: can every crest stand where intonation wants it?

use layout::Layout;
use units::Length;

use crate::finding::{Bound, Check, Finding, Limits, Measure, Severity, Source, about_string};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "compensation-room",
    measures: "how far the crest that intonation wants lies from where the saddle's middle can stand",
    cures: &["saddle.adjust", "saddle.thickness", "action.height"],
};

pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let layout = subject.layout();
    let saddle = layout.saddle();
    let room = parts::room_for_crest(layout);
    let limit = Measure::Length(room);
    let limits = Limits { bound: Bound::AtMost, warn: limit, fail: limit, source: Source::Document };
    layout
        .strings()
        .iter()
        .zip(&saddle.crests)
        .map(|(string, crest)| {
            let finding = limits.judge(CHECK, about_string(string), Measure::Length(crest.offset.abs()));
            let setback = crest.offset + saddle.shift;
            let short = match finding.severity {
                Severity::Fail => what_is_short(layout, room),
                _ => String::new(),
            };
            finding.with_detail(format!("it belongs {setback} behind the saddle line{short}"))
        })
        .collect()
}

/// Either the saddle cannot follow the crests, or they lie farther apart than it is thick.
fn what_is_short(layout: &Layout, room: Length) -> String {
    let (saddle, adjust) = (layout.saddle(), layout.spec().saddle.adjust);
    if saddle.shift.abs() >= adjust {
        return format!(", and saddle.adjust lets the saddle be slid no farther than {adjust}");
    }
    let offsets = || saddle.crests.iter().map(|crest| crest.offset);
    let apart = offsets().fold(Length::ZERO, Length::max) - offsets().fold(Length::ZERO, Length::min);
    format!(
        ", and the crests lie {apart} apart, where a saddle.thickness of {} has room for {}",
        saddle.thickness,
        room * 2.0
    )
}
