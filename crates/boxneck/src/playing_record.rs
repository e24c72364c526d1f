//! How does another program read how the instrument will play?

use layout::Layout;
use layout::playing::{BuzzReport, DriftReport, Playing, StringTuning};
use mechanics::core_estimate::Estimate;
use serde_json::{Value, json};
use units::Length;

use crate::record_number::{mm, tidy};

/// The object under the key `playing` of `layout.json`: strings from bass to treble, frets in the order of the stations.
pub(crate) fn playing_record(layout: &Layout, playing: &Playing) -> Value {
    let neck = &playing.neck();
    json!({
        "assumed": {
            "pluck_n": playing.player().pluck.force.as_newtons(),
            "pluck_from_saddle_mm": mm(playing.player().pluck.from_saddle),
            "pluck_toward_neck_share": tidy(playing.player().pluck.normal_share),
            "free_of_buzz_share": playing.player().free_of_buzz,
            "instruments": playing.player().trials,
            "seed": playing.player().seed,
        },
        "pulls": playing.pulls().iter().map(|pull| json!({
            "tension_n": estimate(pull.tension, |tension| tension.as_newtons()),
            "core_mm": estimate(pull.core, Length::as_mm),
            "core_is_estimated": pull.core_is_estimated,
            "stretch_ratio": tidy(pull.stretch_ratio),
            "share_of_breaking_load": pull.share_of_breaking_load.map(|share| estimate(share, |share| share)),
        })).collect::<Vec<_>>(),
        "neck": {
            "tension_n": tidy(neck.tension.as_newtons()),
            "droop_mm": mm(neck.droop),
            "bow_mm": layout.frets().frets.iter().map(|fret| mm(layout.bow().at(fret.x))).collect::<Vec<_>>(),
            "stress_mpa": tidy(neck.stress().as_megapascals()),
            "share_of_strength": tidy(neck.share_of_strength),
            "settled": neck.settled,
        },
        "tuning": playing.tuning().iter().map(tuning).collect::<Vec<_>>(),
        "drift": drift(playing.drift()),
        "saddle": {
            "down_n": playing.saddle().down.iter().map(|force| tidy(force.as_newtons())).collect::<Vec<_>>(),
            "down_on_zero_fret_n":
                playing.saddle().down_on_zero_fret.iter().map(|force| tidy(force.as_newtons())).collect::<Vec<_>>(),
            "standing": playing.saddle().standing.map(|standing| json!({
                "push_at_foot_mm": standing.push_at_foot.map(mm),
                "margin_mm": mm(standing.margin),
                "along_n": tidy(standing.along.as_newtons()),
                "friction_needed": finite(standing.friction_needed),
            })),
            "lid_sink_supported_mm": playing.saddle().sink.map(|[supported, _]| mm(supported)),
            "lid_sink_clamped_mm": playing.saddle().sink.map(|[_, clamped]| mm(clamped)),
            "action_lost_mm": playing.saddle().action_lost.map(mm),
        },
        "buzz": playing.buzz().map(buzz),
    })
}

fn tuning(tuning: &StringTuning) -> Value {
    json!({
        "setback_mm": mm(tuning.setback),
        "before_cents": tuning.before_cents.iter().copied().map(tidy).collect::<Vec<_>>(),
        "after_cents": tuning.after_cents.iter().copied().map(tidy).collect::<Vec<_>>(),
        "rms_before_cents": tidy(tuning.rms_before()),
        "rms_after_cents": tidy(tuning.rms_after()),
        "with_zero_fret": tuning.with_zero_fret.map(|both| json!({
            "saddle_setback_mm": mm(both.saddle),
            "zero_fret_setback_mm": mm(both.zero_fret),
            "rms_after_cents": tidy(both.after_cents),
        })),
    })
}

fn drift(report: &DriftReport) -> Value {
    json!({
        "strings": report.strings.iter().map(|drift| json!({
            "cents_per_mm": finite(drift.cents_per_mm),
            "slipping_cents": finite(drift.slipping_cents),
            "dragged_cents": finite(drift.dragged_cents),
            "break_even_tail_angle_deg": drift.break_even.map(|(angle, _)| tidy(angle.as_degrees())),
            "break_even_hole_height_mm": drift.break_even.map(|(_, height)| mm(height)),
        })).collect::<Vec<_>>(),
        "advice": report.advice.as_ref().map(|advice| json!({
            "hole_height_mm": mm(advice.hole_height),
            "worst_cents": tidy(advice.worst_cents),
            "is_at_limit": advice.is_at_limit,
            "curve": advice.curve.iter().map(|place| json!({
                "hole_height_mm": mm(place.hole_height),
                "worst_cents": tidy(place.worst_cents()),
                "cents": place.cents.iter().copied().map(tidy).collect::<Vec<_>>(),
            })).collect::<Vec<_>>(),
        })),
    })
}

fn buzz(report: &BuzzReport) -> Value {
    json!({
        "tightest": report.tightest.iter().map(|tightest| json!({
            "room_mm": mm(tightest.room),
            "fretted": tightest.fretted,
            "over": tightest.over,
            "probability": tidy(tightest.probability),
        })).collect::<Vec<_>>(),
        "least_room_mm": report.least_room.iter().map(|string| string.iter().copied().map(mm).collect()).collect::<Vec<Vec<_>>>(),
        "share_free": report.share_free,
        "lowest_action_mm": mm(report.lowest_action),
        "lowest_action_level_mm": mm(report.lowest_action_level),
    })
}

fn estimate<T: Copy>(range: Estimate<T>, number: impl Fn(T) -> f64) -> Value {
    json!({
        "low": tidy(number(range.low)),
        "nominal": tidy(number(range.nominal)),
        "high": tidy(number(range.high)),
    })
}

/// A number, or nothing where there is none to tell.
fn finite(value: f64) -> Option<f64> {
    value.is_finite().then(|| tidy(value))
}
