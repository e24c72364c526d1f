//! What happens to the open strings when the saddle is slid, and which tail height cures it?
//!
//! The saddle slides along the lid, so everything here is in the box's frame: along the lid, and above it.

use mechanics::break_even::break_even;
use mechanics::drift::{BehindZeroFret, StringPath as Path, dragged_drift, drift_per_mm, slipping_drift};
use mechanics::string_line::StringLine;
use mechanics::string_model::StringModel;
use mechanics::tail_height::{HeightLimits, Limit, TailHeight, recommended_tail_height};
use units::{Angle, Length};

use crate::instrument::Layout;
use crate::place::Place;
use crate::tail::TailKind;

/// The travel by which drift is told: what a builder slides the saddle at a time.
const TRAVEL: Length = Length::mm(1.0);

/// Friction of a steel string on a hard saddle, the upper bound for a wound string: Groves and Kemp, Archives of Acoustics
/// (2019), abstract.
const FRICTION: f64 = 0.26;

/// The least break angle at which a string keeps its place on the saddle. Common practice, no source.
const CONTACT: Angle = Angle::degrees(4.0);

/// The lowest height of a block's bores over the lid: the ball end's radius and a wall. Common practice, no source.
const WALL: Length = Length::mm(0.8);

/// What happens to the open strings when the saddle is slid.
#[derive(Clone, Debug, PartialEq)]
pub struct DriftReport {
    /// Each string, bass to treble.
    pub strings: Vec<StringDrift>,
    /// The tail height that serves the whole set best; nothing where there is no room for one.
    pub advice: Option<TailAdvice>,
}

/// What happens to one open string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StringDrift {
    /// Cents for each millimetre that the saddle moves toward the tail, when the string slips freely; positive sharp.
    pub cents_per_mm: f64,
    /// Cents after one millimetre toward the tail, when it slips freely.
    pub slipping_cents: f64,
    /// The same when friction drags it along.
    pub dragged_cents: f64,
    /// The tail angle at which sliding the saddle leaves the open string alone, and the hole height that gives it.
    pub break_even: Option<(Angle, Length)>,
}

/// The height of the string holes at which the worst drift of any string is least.
#[derive(Clone, Debug, PartialEq)]
pub struct TailAdvice {
    /// The hole height, above the lid.
    pub hole_height: Length,
    /// The worst drift that it leaves, in cents for a millimetre either way.
    pub worst_cents: f64,
    /// Whether a better height lies out of reach: strings would lose contact with the saddle, or the block would end.
    pub is_at_limit: bool,
    /// The drift at a row of rising hole heights, for a plot.
    pub curve: Vec<DriftAtHeight>,
}

/// What happens to the open strings with the string holes at another height.
#[derive(Clone, Debug, PartialEq)]
pub struct DriftAtHeight {
    /// The hole height, above the lid.
    pub hole_height: Length,
    /// Cents of each string, bass to treble, after one millimetre toward the tail, slipping freely; positive sharp.
    pub cents: Vec<f64>,
}

impl DriftAtHeight {
    /// The worst of any string, in cents either way.
    #[must_use]
    pub fn worst_cents(&self) -> f64 {
        self.cents.iter().fold(0.0, |worst, cents| worst.max(cents.abs()))
    }
}

/// Every string, bass to treble.
pub(super) fn strings(layout: &Layout) -> Vec<StringDrift> {
    paths(layout).iter().map(|(model, path)| string_drift(model, path)).collect()
}

/// The tail height that serves them all best.
pub(super) fn tail_advice(layout: &Layout) -> Option<TailAdvice> {
    advice(layout, &paths(layout))
}

fn paths(layout: &Layout) -> Vec<(StringModel, Path)> {
    layout
        .tuned()
        .iter()
        .zip(layout.strings())
        .map(|(string, path)| {
            (string.model.nominal, path_over_lid(layout, path.zero_fret, path.saddle, path.tail))
        })
        .collect()
}

/// A string's path along and above the lid; centre lines.
pub(crate) fn path_over_lid(layout: &Layout, zero_fret: Place, saddle: Place, tail: Place) -> Path {
    let frame = layout.frame();
    Path {
        line: StringLine {
            scale_length: frame.along(saddle) - frame.along(zero_fret),
            zero_fret_height: frame.above(zero_fret),
            saddle_height: frame.above(saddle),
            saddle_setback: Length::ZERO,
            zero_fret_setback: Length::ZERO,
        },
        tail_distance: frame.along(tail) - frame.along(saddle),
        tail_height: frame.above(tail),
        behind_zero_fret: BehindZeroFret::Fixed,
    }
}

fn string_drift(model: &StringModel, path: &Path) -> StringDrift {
    // A path that cannot be travelled (the tail within a millimetre of the saddle) has no drift to tell.
    StringDrift {
        cents_per_mm: drift_per_mm(model, path).unwrap_or(f64::NAN),
        slipping_cents: slipping_drift(model, path, TRAVEL).unwrap_or(f64::NAN),
        dragged_cents: dragged_drift(model, path, TRAVEL, FRICTION).unwrap_or(f64::NAN),
        break_even: break_even(model, path).ok().flatten().map(|even| (even.tail_angle, even.tail_height)),
    }
}

/// The tail height that serves strings on these paths best.
pub(crate) fn advice(layout: &Layout, paths: &[(StringModel, Path)]) -> Option<TailAdvice> {
    let spec = layout.spec();
    // The flattest fall from the lowest crest that still holds the string in its place.
    let highest = paths
        .iter()
        .map(|(_, path)| {
            let front =
                Angle::of_slope(path.line.saddle_height - path.line.zero_fret_height, path.line.scale_length);
            path.line.saddle_height - path.tail_distance * (CONTACT - front).max(Angle::ZERO).tan()
        })
        .reduce(Length::min)?;
    let lowest = match layout.tail().kind {
        TailKind::BlockOnLid => spec.tail.ball_bore / 2.0 + WALL,
        TailKind::BlockOnEnd | TailKind::StringThrough => -spec.body.depth,
    };
    let highest = match layout.tail().kind {
        TailKind::BlockOnLid => highest,
        // Higher holes would make it a block on the lid, or lie above the stick that they go down through.
        TailKind::BlockOnEnd | TailKind::StringThrough => highest.min(Length::ZERO),
    };
    let found: TailHeight = recommended_tail_height(paths, TRAVEL, HeightLimits { lowest, highest }).ok()?;
    let steps = 24;
    let bottom = lowest.max(highest - Length::mm(40.0));
    let curve = (0..=steps)
        .filter_map(|step| {
            let hole_height = bottom + (highest - bottom) * (f64::from(step) / f64::from(steps));
            let cents = paths.iter().map(|(model, path)| {
                let path = Path { tail_height: hole_height, ..*path };
                slipping_drift(model, &path, TRAVEL)
            });
            Some(DriftAtHeight { hole_height, cents: cents.collect::<Result<_, _>>().ok()? })
        })
        .collect();
    Some(TailAdvice {
        hole_height: found.height,
        worst_cents: found.worst_cents,
        is_at_limit: matches!(found.limit, Some(Limit::Lowest | Limit::Highest)),
        curve,
    })
}
