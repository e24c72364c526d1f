//! What is checked?

use layout::Layout;
use layout::playing::Playing;
use parts::PartSet;

/// An instrument and its parts, as the checks see them.
#[derive(Clone, Copy, Debug)]
pub struct Subject<'a> {
    /// Where everything goes.
    pub layout: &'a Layout,
    /// How it will play.
    pub playing: &'a Playing,
    /// What it is made of.
    pub parts: &'a PartSet,
}
