//! Which wires are tapped down, and where does the saddle go, so that every string is free at the wanted action with the least work?
//!
//! Room and action are straight-line functions of how far each wire goes down and of how far each end of the saddle goes up, so that the
//! least work is the answer to a linear programme, to the last bit and not to the nearest try.

use mechanics::MechanicsError;
use mechanics::clearance::Margin;
use mechanics::linear_program::{AtLeast, least_cost};
use units::Length;

use crate::built::AcrossSaddle;

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub struct TappingCase {
    /// The strings.
    pub strings: Vec<StringOver>,
    /// How far each fret may go down, in the order of the frets.
    pub may_sink: Vec<Length>,
    /// The wanted action.
    pub wanted: Length,
    /// How far the action may be from it.
    pub within: Length,
    /// How far the saddle may go down at each end; nothing where it stays as it is.
    pub saddle_may_sink: Option<AcrossSaddle>,
}

/// One string over the frets as they are.
#[derive(Clone, Debug, PartialEq)]
pub struct StringOver {
    /// The room over each later fret, from each fret.
    pub margins: Vec<Margin>,
    /// How much room is wanted there, in the same order.
    pub spare: Vec<Length>,
    /// The action where the document measures it.
    pub action: Length,
    /// The index of the fret that stands there, where one does.
    pub action_fret: Option<usize>,
    /// The share of the way from zero fret to saddle there.
    pub action_share: f64,
    /// How far the crest rises for each length by which the saddle rises under the bass string, and under the treble string.
    pub rises: [f64; 2],
}

/// The least work.
#[derive(Clone, Debug, PartialEq)]
pub struct Tapping {
    /// How far each fret goes down, in the order of the frets.
    pub taps: Vec<Length>,
    /// How far the saddle goes up.
    pub saddle: AcrossSaddle,
    /// How much higher than wanted the strings must be because the wires go down no farther; nothing where that suffices.
    pub above_wanted: Length,
}

impl Tapping {
    /// How far all wires go down together.
    #[must_use]
    pub fn work(&self) -> Length {
        self.taps.iter().copied().sum()
    }
}

/// What a millimetre costs: first the strings are as low as the wires allow, then the wires go down as little as that takes, and last
/// the action comes as near as it can to what is wanted. Each is worth so much more than the next that it is never given up for it.
const ABOVE_WANTED: f64 = 1e3;
const TAPPED: f64 = 1.0;
const OFF_WANTED: f64 = 1e-3;

/// The saddle's two ends, each up and down.
const ENDS: [(usize, f64); 4] = [(0, 1.0), (0, -1.0), (1, 1.0), (1, -1.0)];

/// The least work after which every string has the room that is wanted.
///
/// - **Shape**: the case in; how far each wire goes down and the saddle up out.
/// - **Units**: millimetres, inside [`Length`].
/// - **Accuracy**: the optimum, to rounding, for strings whose saddle stays in its place along the neck.
/// - **Errors**: [`MechanicsError::Impossible`] where no saddle and no wires give the room.
/// - **Source**: derived; [`least_cost`].
pub fn least_tapping(case: &TappingCase) -> Result<Tapping, MechanicsError> {
    let programme = Programme { frets: case.may_sink.len(), strings: case.strings.len() };
    let costs = programme.costs();
    let mut conditions = Vec::new();
    let mut at_least = |coefficients: Vec<f64>, bound: f64| conditions.push(AtLeast { coefficients, bound });
    for (index, most) in case.may_sink.iter().enumerate() {
        at_least(programme.with(&[(index, -1.0)]), -most.as_mm());
    }
    if let Some(AcrossSaddle { bass, treble }) = case.saddle_may_sink {
        for (end, may_sink) in [bass, treble].into_iter().enumerate() {
            let of_end: Vec<(usize, f64)> = programme
                .saddle()
                .filter(|(_, (of, _))| *of == end)
                .map(|(column, (_, way))| (column, way))
                .collect();
            at_least(programme.with(&of_end), -may_sink.as_mm());
        }
    }
    for (number, string) in case.strings.iter().enumerate() {
        let raised = |share: f64| -> Vec<(usize, f64)> {
            let columns = programme.saddle().filter(|_| case.saddle_may_sink.is_some());
            columns.map(|(column, (end, way))| (column, way * share * string.rises[end])).collect()
        };
        for (margin, spare) in string.margins.iter().zip(&string.spare) {
            let mut entries = raised(margin.share);
            entries.push((margin.over - 1, 1.0));
            entries.extend(margin.fretted.checked_sub(1).map(|fretted| (fretted, margin.share - 1.0)));
            at_least(programme.with(&entries), (*spare - margin.room()).as_mm());
        }
        let mut action = raised(string.action_share);
        action.extend(string.action_fret.map(|fret| (fret, 1.0)));
        let lower: Vec<(usize, f64)> = action.iter().map(|(column, entry)| (*column, -entry)).collect();
        let beside = |entries: &[(usize, f64)], column: usize| {
            programme.with(&entries.iter().copied().chain([(column, 1.0)]).collect::<Vec<_>>())
        };
        let too_high = (string.action - case.wanted).as_mm();
        at_least(beside(&lower, programme.above_wanted()), too_high - case.within.as_mm());
        at_least(programme.with(&action), -too_high - case.within.as_mm());
        at_least(beside(&lower, programme.off_wanted(number)), too_high);
        at_least(beside(&action, programme.off_wanted(number)), -too_high);
    }
    let found = least_cost(&costs, &conditions)?;
    let mut saddle = [0.0; 2];
    for (column, (end, way)) in programme.saddle() {
        saddle[end] += way * found[column];
    }
    // A single string hangs between the ends, and cannot tell them apart.
    if case.strings.len() == 1 {
        saddle = [(saddle[0] + saddle[1]) / 2.0; 2];
    }
    Ok(Tapping {
        taps: found[..programme.frets].iter().map(|tap| Length::mm(*tap)).collect(),
        saddle: AcrossSaddle { bass: Length::mm(saddle[0]), treble: Length::mm(saddle[1]) },
        above_wanted: Length::mm(found[programme.above_wanted()]),
    })
}

/// Which amount stands in which column: the wires, the saddle's ends up and down, the height above what is wanted, and each string's
/// distance from what is wanted.
struct Programme {
    frets: usize,
    strings: usize,
}

impl Programme {
    fn saddle(&self) -> impl Iterator<Item = (usize, (usize, f64))> + use<> {
        let first = self.frets;
        ENDS.into_iter().enumerate().map(move |(index, end)| (first + index, end))
    }

    fn above_wanted(&self) -> usize {
        self.frets + ENDS.len()
    }

    fn off_wanted(&self, string: usize) -> usize {
        self.above_wanted() + 1 + string
    }

    fn costs(&self) -> Vec<f64> {
        let mut costs = vec![OFF_WANTED; self.off_wanted(self.strings)];
        costs[..self.frets].fill(TAPPED);
        costs[self.frets..self.above_wanted()].fill(0.0);
        costs[self.above_wanted()] = ABOVE_WANTED;
        costs
    }

    fn with(&self, entries: &[(usize, f64)]) -> Vec<f64> {
        let mut coefficients = vec![0.0; self.off_wanted(self.strings)];
        for (column, entry) in entries {
            coefficients[*column] += entry;
        }
        coefficients
    }
}
