//! Which conditions cannot be held together?
//!
//! A set of conditions clashes when every plan breaks one of them. The smallest such sets say why nothing holds: take any one
//! condition out of such a set and some plan holds the rest.

use super::plan::{Conditions, bits_of};

/// The most sets that are looked for.
const MOST_SETS: usize = 4;

/// The most conditions of one set: a larger one explains nothing.
const MOST_CONDITIONS: u32 = 5;

/// The smallest sets of conditions that hit what each plan breaks, those of the first bits first; none where some plan breaks nothing.
///
/// - **Shape**: the conditions that each plan breaks in; sets of equal size out, each minimal.
pub(super) fn smallest_clashes(broken: impl Iterator<Item = Conditions>) -> Vec<Conditions> {
    let plans = least(broken);
    if plans.is_empty() || plans.contains(&0) {
        return Vec::new();
    }
    let columns = not_covered(&plans);
    (1..=MOST_CONDITIONS)
        .find_map(|size| {
            let mut found = Vec::new();
            hit(&plans, &columns, 0, size, &mut found);
            (!found.is_empty()).then_some(found)
        })
        .unwrap_or_default()
}

/// Those that contain no other: who breaks more than another breaks, is hit whenever that other is.
fn least(broken: impl Iterator<Item = Conditions>) -> Vec<Conditions> {
    let mut all: Vec<Conditions> = broken.collect();
    all.sort_unstable_by_key(|bits| (bits.count_ones(), *bits));
    all.dedup();
    let mut kept: Vec<Conditions> = Vec::new();
    for bits in all {
        if !kept.iter().any(|less| less & bits == *less) {
            kept.push(bits);
        }
    }
    kept
}

/// The conditions that are worth a look: where another hits all the plans that one hits, and comes first or hits more, that one says
/// nothing new.
fn not_covered(plans: &[Conditions]) -> Vec<u32> {
    let all = plans.iter().fold(0, |all, bits| all | bits);
    let is_covered = |one: u32, other: u32| {
        let covers = plans.iter().all(|bits| bits >> one & 1 == 0 || bits >> other & 1 == 1);
        let is_covered_too = || plans.iter().all(|bits| bits >> other & 1 == 0 || bits >> one & 1 == 1);
        covers && (other < one || !is_covered_too())
    };
    let bits: Vec<u32> = bits_of(all).collect();
    bits.iter()
        .copied()
        .filter(|one| !bits.iter().any(|other| other != one && is_covered(*one, *other)))
        .collect()
}

/// Every set of `size` conditions that hits all plans, by the first plan that is not hit yet.
fn hit(plans: &[Conditions], columns: &[u32], chosen: Conditions, size: u32, found: &mut Vec<Conditions>) {
    if found.len() == MOST_SETS {
        return;
    }
    let Some(open) = plans.iter().find(|bits| *bits & chosen == 0) else {
        if !found.contains(&chosen) {
            found.push(chosen);
        }
        return;
    };
    if size == 0 {
        return;
    }
    for bit in columns.iter().filter(|bit| open >> **bit & 1 == 1) {
        hit(plans, columns, chosen | 1 << bit, size - 1, found);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(broken: &[Conditions], expected: &[Conditions]) {
        let mut found = smallest_clashes(broken.iter().copied());
        found.sort_unstable();
        assert_eq!(found, expected, "of {broken:?}");
    }

    #[test]
    fn one_condition_that_nothing_holds_clashes_alone() {
        check(&[0b101, 0b100, 0b110], &[0b100]);
    }

    #[test]
    fn two_that_pull_apart_clash() {
        check(&[0b01, 0b10], &[0b11]);
        check(&[0b0001, 0b0110, 0b0010], &[0b0011]);
    }

    #[test]
    fn a_plan_that_holds_everything_leaves_no_clash() {
        check(&[0b01, 0], &[]);
        check(&[], &[]);
    }

    proptest::proptest! {
        #[test]
        fn no_smaller_set_clashes(broken in proptest::collection::vec(1..128_u128, 1..12)) {
            let found = smallest_clashes(broken.iter().copied());
            let clashes = |set: Conditions| broken.iter().all(|bits| bits & set != 0);
            let least = (1..128_u128).filter(|set| clashes(*set)).map(Conditions::count_ones).min();
            // Every random plan breaks something, so that the set of all seven clashes.
            let expected = least.filter(|size| *size <= MOST_CONDITIONS);
            proptest::prop_assert_eq!(found.first().map(|set| set.count_ones()), expected, "of {:?}", broken);
            for set in found {
                proptest::prop_assert!(clashes(set), "{set:b} is hit by every plan of {broken:?}");
            }
        }
    }
}
