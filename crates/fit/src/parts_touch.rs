//! parts-touch: does everything that is meant to lie on something else lie on it?

use units::Length;

use crate::assembly::{HAIR, Meeting};
use crate::finding::{Bound, Check, Concern, Finding, Limits, Measure, Source};
use crate::subject::Subject;

pub(crate) const CHECK: Check = Check {
    id: "parts-touch",
    measures: "how far two parts that are meant to lie on each other are from it",
    cures: &["neck.face_above_lid", "neck.thickness", "heel.depth", "box.depth", "tail.ball_depth"],
};

/// Where contact ends and air, or wood in wood, begins.
const LIMITS: Limits = Limits {
    bound: Bound::AtMost,
    warn: Measure::Length(HAIR),
    fail: Measure::Length(HAIR),
    source: Source::Geometry,
};

/// Every pair that does not meet as it is meant to; where all do, the one that is nearest to not doing so.
pub(crate) fn check(subject: &Subject) -> Vec<Finding> {
    let told = told(subject.assembly().contacts());
    told.into_iter()
        .map(|meeting| {
            // What is wrong is told from where contact is perfect.
            let off = (meeting.wrong_by() + HAIR).max(Length::ZERO);
            let finding = LIMITS.judge(CHECK, Concern::Pair(meeting.pair), Measure::Length(off));
            let way =
                if meeting.air > Length::ZERO { "they are apart" } else { "one reaches into the other" };
            Finding { detail: (meeting.wrong_by() > Length::ZERO).then(|| way.into()), ..finding }
        })
        .collect()
}

/// Of some meetings those that are wrong, or else the one that is nearest to being wrong; the first of equals.
pub(crate) fn told(meetings: &[Meeting]) -> Vec<&Meeting> {
    let wrong: Vec<&Meeting> = meetings.iter().filter(|meeting| meeting.wrong_by() > Length::ZERO).collect();
    if !wrong.is_empty() {
        return wrong;
    }

    meetings
        .iter()
        .reduce(|one, other| if other.wrong_by() > one.wrong_by() { other } else { one })
        .into_iter()
        .collect()
}
