//! Which values contradict one another?

use crate::instrument::Spec;
use crate::reading::Reader;

/// Tells every contradiction between keys that were themselves read without fault.
pub(crate) fn check(_spec: &Spec, _reader: &mut Reader<'_>) {}
