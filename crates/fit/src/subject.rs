//! What is checked?

use std::sync::{Arc, OnceLock};

use layout::Layout;
use layout::playing::{Player, Playing};
use parts::PartSet;

use crate::assembly::Assembly;

/// An instrument as the checks see it: where everything goes, how it will play, what it is made of.
///
/// Whatever a check asks for is worked out when it is first asked for and kept, so that one check alone costs no more than
/// what it looks at.
#[derive(Clone, Debug)]
pub struct Subject {
    playing: Playing,
    parts: OnceLock<PartSet>,
    assembly: OnceLock<Arc<Assembly>>,
    /// The assembly of an instrument that differs little.
    like: Option<Arc<Assembly>>,
}

impl Subject {
    /// An instrument in the hands of a player.
    #[must_use]
    pub const fn new(layout: Layout, player: Player) -> Self {
        Self {
            playing: Playing::new(layout, player),
            parts: OnceLock::new(),
            assembly: OnceLock::new(),
            like: None,
        }
    }

    /// An instrument that differs little from this one, in the same hands: of what is known of this one, what is alike in both
    /// is not worked out again.
    #[must_use]
    pub fn changed_to(&self, layout: Layout) -> Self {
        Self {
            playing: self.playing.changed_to(layout),
            parts: OnceLock::new(),
            assembly: OnceLock::new(),
            like: self.assembly.get().cloned(),
        }
    }

    /// The same of an instrument that is called otherwise; what was worked out stays.
    #[must_use]
    pub fn renamed(mut self, name: String) -> Self {
        self.playing = self.playing.renamed(name);
        self
    }

    /// Where everything goes.
    #[must_use]
    pub const fn layout(&self) -> &Layout {
        self.playing.layout()
    }

    /// How it will play.
    #[must_use]
    pub const fn playing(&self) -> &Playing {
        &self.playing
    }

    /// What it is made of, and what of it cannot be made.
    #[must_use]
    pub fn parts(&self) -> &PartSet {
        self.parts.get_or_init(|| parts::parts(self.layout()))
    }

    /// How its solids meet.
    #[must_use]
    pub fn assembly(&self) -> &Assembly {
        self.assembly.get_or_init(|| {
            let assembly = Assembly::new(self.layout(), self.parts());
            Arc::new(match &self.like {
                Some(like) => assembly.sharing_with(like),
                None => assembly,
            })
        })
    }

    /// What working it out has taken so far, in layouts of six strings (a quarter of a millisecond or so). The same on every
    /// machine, so that a search that is cut short ends at the same place everywhere.
    pub(crate) fn effort(&self) -> u32 {
        const PARTS: u32 = 6;
        const ASSEMBLY: u32 = 12;
        const BUZZ: u32 = 8;
        1 + PARTS * u32::from(self.parts.get().is_some())
            + ASSEMBLY * u32::from(self.assembly.get().is_some())
            + BUZZ * u32::from(self.playing.is_buzz_known())
    }
}
