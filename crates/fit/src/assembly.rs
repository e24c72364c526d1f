//! Do the solids of an instrument meet as they are meant to, and keep clear of each other where they are?
//!
//! Every solid stands at its place in the instrument frame. A table says of each pair what is meant: the two *lie on* each
//! other, or there is *air* between them. Strings and wire are measured exactly, by their middle line, and taken as rounded
//! at their ends; what is faceted by the distance between its triangles and the other's.
//!
//! Faces that coincide, as those of parts that lie on each other do, are neither apart nor through each other, and a
//! distance of 0 says nothing. So contact is judged by two solids that are certain: drawn in by a hair all round and lifted
//! by a hair the one is clear of the other and no more than a few hairs away; pressed in by a hair it reaches into it.

mod pairs;
mod solid;

use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

use geometry::Vector3;
use layout::Layout;
use parts::{Form, PartSet, Placed, Thing};
use units::{ChordTolerance, Length};

use pairs::{Meant, Pair};
use solid::{Faceted, Solid};

/// How nearly meshes follow what is round. Larger blurs contacts with arched faces; smaller takes longer.
const TOLERANCE: ChordTolerance = ChordTolerance::new(Length::mm(0.004));

/// The hair. Larger than what facets, rounding and a tenth of a micrometre of the crests leave undecided, smaller than what
/// any tool can cut.
pub(crate) const HAIR: Length = Length::mm(0.01);

/// How deep a wrapped wire may be drawn in the wood: between two oval sections of different width the neck is not quite as
/// oval. Larger hides a wire in the wood; wire that is bent by hand lies no nearer than this.
const BENT_BY_HAND: Length = Length::mm(0.05);

/// How the solids of an instrument meet: worked out when it is first asked for, and kept.
///
/// Two instruments that differ little share what is alike in both, whichever is asked first.
#[derive(Clone, Debug)]
pub struct Assembly {
    placed: Vec<Placed>,
    solids: BTreeMap<Thing, Arc<OnceLock<Option<Solid>>>>,
    pairs: Vec<(Pair, Arc<OnceLock<Option<Meeting>>>)>,
    contacts: OnceLock<Vec<Meeting>>,
    clearances: OnceLock<Vec<Meeting>>,
}

/// How two solids meet.
#[derive(Clone, Debug, PartialEq)]
pub struct Meeting {
    /// The two.
    pub pair: [Thing; 2],
    /// What is meant.
    pub relation: Relation,
    /// The air between them; negative where one reaches into the other. No more than 10 mm, and 0 within a hair of contact.
    pub air: Length,
}

/// How two solids are meant to meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Relation {
    /// They lie on each other.
    Touch {
        /// How deep one may be drawn inside the other, because it is drawn sharp where it bends round it.
        dip: Length,
    },
    /// There is air between them.
    Clear {
        /// How much, at least; negative where a sharp bend may be drawn inside a rounded mouth.
        least: Length,
    },
}

impl Assembly {
    /// The solids of an instrument and how they are meant to meet.
    #[must_use]
    pub fn new(layout: &Layout, set: &PartSet) -> Self {
        let placed = parts::placed(layout, set, TOLERANCE);
        let solids = placed.iter().map(|placed| (placed.thing, Arc::default())).collect();
        let pairs = pairs::pairs(layout, &placed).into_iter().map(|pair| (pair, Arc::default())).collect();
        let (contacts, clearances) = (OnceLock::new(), OnceLock::new());
        Self { placed, solids, pairs, contacts, clearances }
    }

    /// The same assembly, which takes from another what is alike in both: solids of the same shape at the same place, and
    /// how two of them meet of which the same is meant.
    #[must_use]
    pub fn sharing_with(mut self, other: &Self) -> Self {
        let theirs: BTreeMap<Thing, &Placed> =
            other.placed.iter().map(|placed| (placed.thing, placed)).collect();
        for placed in &self.placed {
            if theirs.get(&placed.thing).is_some_and(|their| *their == placed) {
                self.solids.insert(placed.thing, Arc::clone(&other.solids[&placed.thing]));
            }
        }
        let is_alike = |thing: &Thing| match (self.solids.get(thing), other.solids.get(thing)) {
            (Some(one), Some(other)) => Arc::ptr_eq(one, other),
            (one, other) => one.is_none() && other.is_none(),
        };
        let their_pairs: BTreeMap<[Thing; 2], &(Pair, _)> =
            other.pairs.iter().map(|pair| (pair.0.things, pair)).collect();
        for (pair, meeting) in &mut self.pairs {
            if let Some((their, theirs)) = their_pairs.get(&pair.things)
                && their == pair
                && pair.things.iter().all(is_alike)
            {
                *meeting = Arc::clone(theirs);
            }
        }
        self
    }

    /// Everything solid at its place.
    #[must_use]
    pub fn placed(&self) -> &[Placed] {
        &self.placed
    }

    /// How those pairs meet that are meant to lie on each other.
    #[must_use]
    pub fn contacts(&self) -> &[Meeting] {
        self.contacts.get_or_init(|| self.meetings(Meant::is_contact))
    }

    /// How near those pairs come that are meant to keep clear of each other.
    #[must_use]
    pub fn clearances(&self) -> &[Meeting] {
        self.clearances.get_or_init(|| self.meetings(|meant| !meant.is_contact()))
    }

    fn meetings(&self, wanted: impl Fn(&Meant) -> bool) -> Vec<Meeting> {
        let wanted = self.pairs.iter().filter(|(pair, _)| wanted(&pair.meant));
        wanted
            .filter_map(|(pair, met)| {
                let meet = || {
                    let [one, other] = pair.things.map(|thing| self.solid(thing));
                    Some(meeting(pair, one?, other?))
                };
                met.get_or_init(meet).clone()
            })
            .collect()
    }

    /// The solid of a thing, made when it is first asked for; nothing where the instrument has no such thing.
    fn solid(&self, thing: Thing) -> Option<&Solid> {
        let made = self.solids.get(&thing)?.get_or_init(|| {
            let placed = self.placed.iter().find(|placed| placed.thing == thing)?;
            match (&placed.form, thing) {
                (Form::Rod(rod), Thing::String(_) | Thing::Fret(_)) => Solid::of_rod(rod),
                _ => Solid::of_mesh(&placed.mesh(TOLERANCE).ok()?),
            }
        });
        made.as_ref()
    }
}

impl Meeting {
    /// By how much they fail to meet as they are meant to; none or less where they do.
    #[must_use]
    pub fn wrong_by(&self) -> Length {
        match self.relation {
            Relation::Touch { dip } => (self.air - HAIR * 3.0).max(-self.air - dip - HAIR),
            Relation::Clear { least } => least - self.air - HAIR,
        }
    }
}

fn meeting(pair: &Pair, one: &Solid, other: &Solid) -> Meeting {
    let touch = Relation::Touch { dip: Length::ZERO };
    let (relation, air) = match (&pair.meant, one, other) {
        (Meant::LieOn { parting }, Solid::Faceted(one), Solid::Faceted(other)) => {
            (touch, air_of_contact(one, other, *parting))
        }
        (Meant::LieOn { .. }, ..) => (touch, one.air(other)),
        (Meant::WrappedRound, ..) => (Relation::Touch { dip: BENT_BY_HAND }, one.air(other)),
        (Meant::BendOver { dip }, ..) => (Relation::Touch { dip: *dip }, one.air(other)),
        (Meant::Beside { parting }, Solid::Faceted(one), Solid::Faceted(other)) => {
            (Relation::Clear { least: Length::ZERO }, air_beside(one, other, *parting))
        }
        (Meant::Beside { .. }, ..) => (Relation::Clear { least: Length::ZERO }, one.air(other)),
        (Meant::Clear { least }, ..) => (Relation::Clear { least: *least }, one.air(other)),
        (Meant::Under { up, inside, least }, Solid::Faceted(one), Solid::Faceted(other)) => {
            let is_inside = |point| inside.iter().all(|plane| plane.height(point) < -HAIR.as_mm());
            let under = one.looking(*up, is_inside);
            (Relation::Clear { least: *least }, Length::mm(other.nearest(&under)))
        }
        (Meant::Under { least, .. }, ..) => (Relation::Clear { least: *least }, one.air(other)),
    };
    Meeting { pair: pair.things, relation, air }
}

/// The air between two faceted solids that are meant to lie on each other, the one lifted off along a direction.
fn air_of_contact(one: &Faceted, other: &Faceted, parting: Vector3) -> Length {
    let lift = parting * HAIR.as_mm();
    if one.reaches(other, HAIR, lift, Length::ZERO) {
        return -one.depth_in(other, parting, HAIR) - HAIR;
    }
    if !one.reaches(other, HAIR, lift, HAIR * 3.0) {
        return Length::mm(one.apart(other, HAIR, lift)) - HAIR;
    }
    if one.presses_into(other, parting, HAIR) {
        return Length::ZERO;
    }
    // They are near, and yet would slide past each other: the nearest that they come is not a contact.
    Length::mm(one.apart(other, Length::ZERO, Vector3::ZERO)).max(HAIR * 4.0)
}

/// The air between two faceted solids that may touch but not reach into each other.
fn air_beside(one: &Faceted, other: &Faceted, parting: Vector3) -> Length {
    if one.reaches(other, HAIR, Vector3::ZERO, Length::ZERO) {
        return -one.depth_in(other, parting, HAIR) - HAIR;
    }
    let air = Length::mm(one.apart(other, HAIR, Vector3::ZERO));
    if air <= HAIR * 3.0 { Length::ZERO } else { air }
}
