//! What is asked?

use fit::{Change, Check};
use layout::playing::Player;
use spec::{Document, keys};

use super::axis::{Axis, Base};
use super::fault::ExploreFault;
use super::measure::PlanMeasure;
use super::measures::FRETS;
use super::plan::MOST_WANTS;
use super::told::WANTED_FRETS;
use super::want::{Side, Want, named};
use crate::instrument::Instrument;

/// A question about the plans around a document.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// What is varied; where nothing is, the keys that move what is asked about.
    pub axes: Vec<Axis>,
    /// What every plan must hold.
    pub wants: Vec<Want>,
    /// What is to be as good as can be, the first before the second; where nothing is, plans come in the order of their warnings and of
    /// how little they change.
    pub best: Vec<&'static PlanMeasure>,
    /// Keys, or whole sections, that stay as they are.
    pub locks: Vec<String>,
    /// The most plans that are worked out.
    pub plans: usize,
    /// How many plans are told.
    pub told: usize,
    /// The seed of the swarm that looks where there are more.
    pub seed: u64,
}

impl Default for Question {
    /// Nothing asked yet, of a hundred thousand plans at most; five are told.
    fn default() -> Self {
        let (axes, wants, best, locks) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        Self { axes, wants, best, locks, plans: 100_000, told: 5, seed: 1 }
    }
}

/// The most keys that are varied when nobody says which.
const MOST_SUGGESTED: usize = 4;

/// How many values of each of them, about.
const VALUES: f64 = 60.0;

/// How many of a single one.
const VALUES_OF_ONE: f64 = 200.0;

/// How many of each of three, so that all combinations can be tried in seconds.
const VALUES_OF_THREE: f64 = 30.0;

/// A question made ready: with keys to vary, and a document that asks for the frets that are wanted.
pub(super) struct Ready {
    pub(super) document: Document,
    pub(super) axes: Vec<Axis>,
    pub(super) are_suggested: bool,
    /// More frets than the document asked for.
    pub(super) raised: Option<Change>,
}

impl Question {
    /// The measure of a name, as `--best` takes it.
    ///
    /// # Errors
    ///
    /// [`ExploreFault::Measure`], which lists those there are.
    pub fn measure(name: &str) -> Result<&'static PlanMeasure, ExploreFault> {
        named(name.trim()).map_err(|why| ExploreFault::Measure { text: name.to_owned(), why })
    }

    /// Whether a key, or the section that it stands in, is to stay as it is.
    pub(super) fn is_locked(&self, key: &str) -> bool {
        self.locks.iter().any(|lock| {
            key == lock || key.strip_prefix(lock.as_str()).is_some_and(|rest| rest.starts_with('.'))
        })
    }

    fn is_varied(&self, key: &str) -> bool {
        self.axes.iter().any(|axis| axis.key == key)
    }

    /// Made ready; `in_the_way` are checks whose cures are varied as well, where nobody names a key.
    ///
    /// # Errors
    ///
    /// [`ExploreFault`] for a question that cannot be answered as it stands.
    pub(super) fn ready(
        &self,
        base: &Base,
        player: &Player,
        in_the_way: &[Check],
    ) -> Result<Ready, ExploreFault> {
        self.check()?;
        let raised = self.more_frets(base)?;
        let document = match &raised {
            Some(frets) => base.document.with_override(&frets.key, &frets.to),
            None => base.document.clone(),
        };
        let are_suggested = self.axes.is_empty();
        let axes = if are_suggested {
            self.suggested(base, &document, player, in_the_way)?
        } else {
            self.axes.clone()
        };
        Ok(Ready { document, axes, are_suggested, raised })
    }

    fn check(&self) -> Result<(), ExploreFault> {
        for lock in &self.locks {
            let is_there = |path: &str| {
                spec::key_at(path).is_some()
                    || keys().iter().any(|key| key.path.starts_with(&format!("{path}.")))
            };
            if !is_there(lock) {
                let why = "there is no such key or section; \"box.length\" and \"box\" work".to_owned();
                return Err(ExploreFault::Lock { text: lock.clone(), why });
            }
        }
        for (place, axis) in self.axes.iter().enumerate() {
            if self.is_locked(&axis.key) {
                let why = format!("{} is to be varied as well; leave out one of them", axis.key);
                return Err(ExploreFault::Lock { text: axis.key.clone(), why });
            }
            if self.axes[..place].iter().any(|other| other.key == axis.key) {
                let why = format!("{} is varied twice; leave out one of them", axis.key);
                return Err(ExploreFault::Key { text: axis.asked(), why });
            }
        }
        if let Some(want) = self.wants.get(MOST_WANTS) {
            let why = format!("expected at most {MOST_WANTS} conditions, found {}", self.wants.len());
            return Err(ExploreFault::Condition { text: want.to_string(), why });
        }
        Ok(())
    }

    /// What the document must ask for so that the frets that are wanted are there.
    fn more_frets(&self, base: &Base) -> Result<Option<Change>, ExploreFault> {
        let wants =
            self.wants.iter().filter(|want| FRETS.contains(&want.measure.name) && want.side == Side::AtLeast);
        let Some(most) = wants.max_by(|one, other| one.limit.total_cmp(&other.limit)) else {
            return Ok(None);
        };
        let (wanted, there) = (most.limit.ceil(), f64::from(base.spec.scale.frets));
        if wanted <= there || self.is_varied(WANTED_FRETS) {
            return Ok(None);
        }
        if self.is_locked(WANTED_FRETS) {
            let why =
                format!("the document asks for {there} frets, and {most} for more; leave out one of them");
            return Err(ExploreFault::Lock { text: WANTED_FRETS.into(), why });
        }
        let to = format!("{wanted}");
        let read = base.document.with_override(WANTED_FRETS, &to).read();
        if let Some(fault) = read.diagnostics().iter().find(|told| told.severity == spec::Severity::Error) {
            return Err(ExploreFault::Condition { text: most.to_string(), why: fault.message.clone() });
        }
        Ok(Some(Change { key: WANTED_FRETS.into(), from: format!("{there}"), to }))
    }

    /// Values round the document's own of those keys that move what is asked about, and that cure the checks that fail.
    fn suggested(
        &self,
        base: &Base,
        document: &Document,
        player: &Player,
        in_the_way: &[Check],
    ) -> Result<Vec<Axis>, ExploreFault> {
        let instrument = Instrument::played_by(document, player)?;
        let measures = self.wants.iter().map(|want| want.measure).chain(self.best.iter().copied());
        let mut lists: Vec<Vec<&str>> = measures.map(PlanMeasure::keys).collect();
        let failing = instrument.findings().iter().filter(|finding| finding.severity == fit::Severity::Fail);
        lists.extend(failing.map(|finding| finding.check.cures.to_vec()));
        lists.extend(in_the_way.iter().map(|check| check.cures.to_vec()));
        let mut keys: Vec<&str> = Vec::new();
        // The first key of each before the second of any.
        let longest = lists.iter().map(Vec::len).max().unwrap_or(0);
        for key in
            (0..longest).flat_map(|place| lists.iter().filter_map(move |list| list.get(place).copied()))
        {
            let is_out =
                keys.contains(&key) || key.contains(".N.") || key == WANTED_FRETS || self.is_locked(key);
            if keys.len() < MOST_SUGGESTED && !is_out && Axis::around(base, key, VALUES).is_some() {
                keys.push(key);
            }
        }
        let values = match keys.len() {
            1 => VALUES_OF_ONE,
            3 => VALUES_OF_THREE,
            _ => VALUES,
        };
        let axes: Vec<Axis> = keys.iter().filter_map(|key| Axis::around(base, key, values)).collect();
        if axes.is_empty() {
            let why = match (self.locks.is_empty(), self.wants.is_empty() && self.best.is_empty()) {
                (false, _) => {
                    "all that would move what is asked about are locked; leave out a lock, or name a key"
                }
                (true, true) => {
                    "nothing is asked; name a key, as heel.reach=10 mm..40 mm, or a condition, as frets>=15"
                }
                (true, false) => {
                    "none is known to move what is asked about; name one, as heel.reach=10 mm..40 mm"
                }
            };
            return Err(ExploreFault::NothingToVary(why.into()));
        }
        Ok(axes)
    }
}
