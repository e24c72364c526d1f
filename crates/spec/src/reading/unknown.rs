//! What was probably meant by a key that does not exist?

use crate::code::Code;
use crate::diagnostic::{Diagnostic, Place};
use crate::document::shortened;
use crate::key::KeyInfo;
use crate::nearest::nearest;

/// The fault of a key that `section` does not have; `known` are the keys that it has, `all` those of the whole document.
pub(super) fn unknown_key(
    place: Place,
    section: &str,
    key: &str,
    known: &[&'static str],
    all: &'static [KeyInfo],
) -> Diagnostic {
    let shown = shortened(key);
    let where_to = if section.is_empty() { "the document".to_owned() } else { format!("[{section}]") };
    let elsewhere: Vec<&str> =
        all.iter().filter(|info| info.name() == key).map(|info| info.path.as_str()).collect();
    let near = nearest(key, known.iter().copied(), 2);
    if !elsewhere.is_empty() {
        let message = format!("expected a key of {where_to}, found {shown}, which stands elsewhere");
        let named: Vec<&str> = near.iter().chain(&elsewhere).take(3).copied().collect();
        return Diagnostic::error(Code::WrongSection, place, message)
            .hint(format!("did you mean {}?", named.join(" or ")));
    }
    let message = format!("expected a key of {where_to}, found {shown}, which does not exist");
    let fault = Diagnostic::error(Code::UnknownKey, place, message);
    if !near.is_empty() {
        return fault.hint(format!("did you mean {}?", near.join(" or ")));
    }
    let names = all.iter().map(crate::key::KeyInfo::name);
    let near_elsewhere = nearest(key, names, 1);
    match near_elsewhere.first() {
        Some(name) => {
            let paths = all.iter().filter(|info| info.name() == *name).map(|info| info.path.as_str());
            let named: Vec<&str> = paths.take(3).collect();
            fault.hint(format!("did you mean {}?", named.join(" or ")))
        }
        None => fault.hint(format!("the keys here are {}", known.join(", "))),
    }
}
