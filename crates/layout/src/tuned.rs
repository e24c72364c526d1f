//! How hard do the strings pull at their pitches?

use mechanics::core_estimate::{Estimate, estimate_core};
use mechanics::string_body::{MUSIC_WIRE, StringBody};
use mechanics::string_model::StringModel;
use spec::stock::WrapMaterial;
use spec::{Spec, StringSpec};
use units::{Force, Length};

/// A string of the document at its pitch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TunedString {
    /// The string, for the low, the likely and the high diameter of its core; all the same where the core is known.
    pub model: Estimate<StringModel>,
    /// Whether the core's diameter is a guess.
    pub core_is_estimated: bool,
}

impl TunedString {
    /// Its tension, for the range of its core.
    #[must_use]
    pub fn tension(&self) -> Estimate<Force> {
        self.model.map(|model| model.tension())
    }
}

/// Every string of a document at its pitch over the scale length, bass to treble.
pub(crate) fn tuned_strings(spec: &Spec) -> Vec<TunedString> {
    spec.strings.iter().map(|string| tuned(string, spec.scale.length)).collect()
}

fn tuned(string: &StringSpec, scale_length: Length) -> TunedString {
    const SOUND: &str =
        "a valid document has strings of positive size, thicker than their cores, and a positive pitch";
    let at_pitch =
        |body: StringBody| StringModel::tuned(body, scale_length, string.pitch.frequency()).expect(SOUND);
    let wound = |core: Length, wrap: WrapMaterial| {
        at_pitch(StringBody::wound(string.diameter, core, MUSIC_WIRE, wrap.density()).expect(SOUND))
    };
    let (model, core_is_estimated) = match (string.core, string.wrap) {
        (Some(core), wrap) => (Estimate::exact(wound(core, wrap.unwrap_or_else(WrapMaterial::usual))), false),
        (None, Some(wrap)) => {
            (estimate_core(string.diameter).expect(SOUND).map(|core| wound(core, wrap)), true)
        }
        (None, None) => {
            (Estimate::exact(at_pitch(StringBody::plain(string.diameter, MUSIC_WIRE).expect(SOUND))), false)
        }
    };
    TunedString { model, core_is_estimated }
}
