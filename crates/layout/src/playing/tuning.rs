//! How far out of tune are the frets, before and after the saddle is set?

use mechanics::compensation::{Freedom, best_setbacks};
use mechanics::intonation::{error_cents, root_mean_square};
use mechanics::string_line::StringLine;
use units::Length;

use crate::instrument::Layout;

/// How well one string is in tune with itself.
#[derive(Clone, Debug, PartialEq)]
pub struct StringTuning {
    /// How far behind the saddle line the crest belongs: the least root mean square error over the frets that exist.
    pub setback: Length,
    /// Error at each fret with the crest on the saddle line, in cents, positive sharp.
    pub before_cents: Vec<f64>,
    /// Error at each fret with the crest set back.
    pub after_cents: Vec<f64>,
    /// Setbacks of saddle and zero fret that would be best together: how far the zero fret would move toward the saddle.
    pub with_zero_fret: Option<BothSetbacks>,
}

/// The best setbacks when the zero fret may move as well.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BothSetbacks {
    /// Of the saddle, toward the tail.
    pub saddle: Length,
    /// Of the zero fret, away from the saddle; negative toward it.
    pub zero_fret: Length,
    /// The root mean square error that would be left, in cents.
    pub after_cents: f64,
}

impl StringTuning {
    /// Root mean square error with the crest on the saddle line.
    #[must_use]
    pub fn rms_before(&self) -> f64 {
        root_mean_square(&self.before_cents)
    }

    /// Root mean square error with the crest set back.
    #[must_use]
    pub fn rms_after(&self) -> f64 {
        root_mean_square(&self.after_cents)
    }
}

pub(super) fn tuning(layout: &Layout) -> Vec<StringTuning> {
    layout
        .runs()
        .iter()
        .zip(layout.tuned())
        .map(|(run, string)| {
            let model = &string.model.nominal;
            let errors = |line: &StringLine| -> Vec<f64> {
                run.crowns.iter().map(|crown| error_cents(model, line, crown)).collect()
            };
            let uncompensated = StringLine { saddle_setback: Length::ZERO, ..run.line };
            let both = best_setbacks(model, &run.line, &run.crowns, Freedom::SaddleAndZeroFret);
            // A string whose frets do not lie in order between zero fret and saddle has no errors to speak of.
            let in_order = run.compensation.is_some();
            StringTuning {
                setback: run.line.saddle_setback,
                before_cents: if in_order { errors(&uncompensated) } else { Vec::new() },
                after_cents: if in_order { errors(&run.line) } else { Vec::new() },
                with_zero_fret: both.ok().map(|found| BothSetbacks {
                    saddle: found.saddle_setback,
                    zero_fret: found.zero_fret_setback,
                    after_cents: found.after_cents,
                }),
            }
        })
        .collect()
}
