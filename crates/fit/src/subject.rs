//! What is checked?

use layout::Layout;
use parts::PartSet;

/// An instrument and its parts, as the checks see them.
#[derive(Clone, Copy, Debug)]
pub struct Subject<'a> {
    /// Where everything goes.
    pub layout: &'a Layout,
    /// What it is made of.
    pub parts: &'a PartSet,
}
