//! How will an instrument play that is known only so well?

use mechanics::intonation::root_mean_square;
use mechanics::random::normal_below;

use crate::built::Built;
use crate::instrument::Layout;
use crate::string_path::StringNumber;

/// A number that is known only so well.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Uncertain {
    /// What it is most likely.
    pub value: f64,
    /// One standard deviation.
    pub error: f64,
}

/// How an instrument plays.
#[derive(Clone, Debug, PartialEq)]
pub struct Outlook {
    /// Its strings, bass to treble.
    pub strings: Vec<StringOutlook>,
}

/// How one string plays.
#[derive(Clone, Debug, PartialEq)]
pub struct StringOutlook {
    /// Its number.
    pub number: StringNumber,
    /// The action where the document measures it, in millimetres.
    pub action: Uncertain,
    /// Drift of the open string, in cents for each millimetre that the saddle moves toward the tail.
    pub drift: Uncertain,
    /// Error of each fretted note in cents, in the order of the frets.
    pub cents: Vec<Uncertain>,
    /// For the open string and each fret that it can be pressed to, the later fret that it is likeliest to touch.
    pub contacts: Vec<Contact>,
}

/// A string over the fret that it is likeliest to touch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contact {
    /// Pressed to which fret; 0 for the open string.
    pub fretted: u8,
    /// Over which fret.
    pub over: u8,
    /// The room that is left there, in millimetres.
    pub room: Uncertain,
    /// The probability that it touches there.
    pub probability: f64,
}

impl Outlook {
    /// Of an instrument, with one standard deviation of each result in the order of [`Sensitivity`](super::sensitivity::Sensitivity).
    pub(super) fn of(layout: &Layout, built: &Built, errors: &[f64]) -> Self {
        let mut errors = errors.iter().copied();
        let mut uncertain = |value: f64| Uncertain { value, error: errors.next().unwrap_or(f64::NAN) };
        let strings = built.strings.iter().zip(layout.strings()).map(|(string, path)| {
            let action = uncertain(string.action.as_mm());
            let drift = uncertain(string.drift_cents_per_mm);
            let cents = string.cents.iter().map(|cents| uncertain(*cents)).collect();
            let mut contacts: Vec<Contact> = Vec::new();
            for margin in &string.margins {
                let room = uncertain(margin.room().as_mm());
                // A plan has at most 48 frets.
                let contact = Contact {
                    fretted: margin.fretted as u8,
                    over: margin.over as u8,
                    room,
                    probability: touches(room),
                };
                match contacts.last_mut().filter(|last| last.fretted == contact.fretted) {
                    Some(last) if last.in_deviations() <= contact.in_deviations() => {}
                    Some(last) => *last = contact,
                    None => contacts.push(contact),
                }
            }
            StringOutlook { number: path.number, action, drift, cents, contacts }
        });
        Self { strings: strings.collect() }
    }

    /// The largest probability with which any string touches anywhere.
    #[must_use]
    pub fn worst_probability(&self) -> f64 {
        let tightest = self.strings.iter().filter_map(StringOutlook::tightest);
        tightest.map(|contact| contact.probability).fold(0.0, f64::max)
    }

    /// The largest root mean square error of any string, in cents.
    #[must_use]
    pub fn worst_rms_cents(&self) -> f64 {
        self.strings.iter().map(StringOutlook::rms_cents).fold(0.0, f64::max)
    }

    /// The largest drift of any string without its sign, in cents for each millimetre.
    #[must_use]
    pub fn worst_drift(&self) -> f64 {
        self.strings.iter().map(|string| string.drift.value.abs()).fold(0.0, f64::max)
    }
}

impl StringOutlook {
    /// Where it is likeliest to touch; nothing without frets.
    #[must_use]
    pub fn tightest(&self) -> Option<&Contact> {
        self.contacts.iter().min_by(|a, b| a.in_deviations().total_cmp(&b.in_deviations()))
    }

    /// Where it more likely touches than not, by the fret that it is pressed to.
    pub fn buzzes(&self) -> impl Iterator<Item = &Contact> {
        self.contacts.iter().filter(|contact| contact.room.value < 0.0)
    }

    /// Root mean square of the errors of its notes, in cents.
    #[must_use]
    pub fn rms_cents(&self) -> f64 {
        root_mean_square(&self.cents.iter().map(|cents| cents.value).collect::<Vec<_>>())
    }

    /// The largest error of any of its notes, with its sign; nothing without frets.
    #[must_use]
    pub fn worst_cents(&self) -> Option<Uncertain> {
        self.cents.iter().copied().max_by(|a, b| a.value.abs().total_cmp(&b.value.abs()))
    }
}

impl Contact {
    /// The room in its standard deviations: finer than a probability where that is next to nothing.
    fn in_deviations(&self) -> f64 {
        // Of rooms that are known exactly, the smaller is the tighter.
        self.room.value / self.room.error.max(1e-6)
    }
}

fn touches(room: Uncertain) -> f64 {
    normal_below(-room.value / room.error.max(1e-6))
}
