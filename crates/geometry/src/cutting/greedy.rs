//! Which plan comes quickly, and how is a plan tidied?

use super::problem::{Cut, Problem};

/// Into which bar a piece goes.
#[derive(Clone, Copy)]
enum Fit {
    /// The first that has room.
    First,
    /// The one in which the least room stays.
    Best,
}

/// Which kind of bar is begun when no bar has room.
#[derive(Clone, Copy)]
enum Begin {
    /// The one that costs least by its length, then the shortest.
    Cheapest,
    /// The shortest.
    Shortest,
    /// The one that costs least by its length, then the longest.
    Longest,
}

/// The best of the quick plans for all pieces.
pub(super) fn best(problem: &Problem) -> Vec<Cut> {
    completed(problem, Vec::new(), &problem.demand, &problem.counts)
}

/// Cuts that are settled, and the best of the quick plans for what is still wanted.
pub(super) fn completed(problem: &Problem, done: Vec<Cut>, demand: &[usize], counts: &[usize]) -> Vec<Cut> {
    let ways = [Begin::Cheapest, Begin::Shortest, Begin::Longest]
        .into_iter()
        .flat_map(|begin| [Fit::First, Fit::Best].map(|fit| (fit, begin)));
    ways.map(|(fit, begin)| {
        let quick = placed(problem, demand, counts, fit, begin);
        tidied(problem, done.iter().cloned().chain(quick).collect())
    })
    .reduce(|one, other| problem.better(one, other))
    .unwrap_or_default()
}

/// Longest first, each piece into a bar that is begun or into a new one.
fn placed(problem: &Problem, demand: &[usize], counts: &[usize], fit: Fit, begin: Begin) -> Vec<Cut> {
    let mut counts = counts.to_vec();
    let mut bars: Vec<(i64, Cut)> = Vec::new();
    for (size, wanted) in demand.iter().enumerate() {
        let length = problem.sizes[size];
        for _ in 0..*wanted {
            let mut with_room = bars.iter_mut().filter(|(room, _)| *room >= length);
            let found = match fit {
                Fit::First => with_room.next(),
                Fit::Best => with_room.min_by_key(|(room, _)| *room),
            };
            if let Some((room, cut)) = found {
                *room -= length;
                cut.sizes.push(size);
                continue;
            }
            let Some(kind) = begun(problem, &counts, length, begin) else { continue };
            counts[kind] -= 1;
            bars.push((problem.capacity[kind] - length, Cut { kind, sizes: vec![size] }));
        }
    }
    bars.into_iter().map(|(_, cut)| cut).collect()
}

/// The kind of a new bar for a piece.
fn begun(problem: &Problem, counts: &[usize], length: i64, begin: Begin) -> Option<usize> {
    let fits = |kind: &usize| counts[*kind] > 0 && problem.capacity[*kind] >= length;
    let rate = |kind: usize| problem.cost[kind] as f64 / problem.capacity[kind] as f64;
    problem.kinds().filter(fits).min_by(|&one, &other| {
        let by_length = problem.capacity[one].cmp(&problem.capacity[other]);
        match begin {
            Begin::Cheapest => rate(one).total_cmp(&rate(other)).then(by_length),
            Begin::Shortest => by_length.then(rate(one).total_cmp(&rate(other))),
            Begin::Longest => rate(one).total_cmp(&rate(other)).then(by_length.reverse()),
        }
    })
}

/// The same pieces from fewer and shorter bars, where that needs no search.
pub(super) fn tidied(problem: &Problem, mut cuts: Vec<Cut>) -> Vec<Cut> {
    let room = |cut: &Cut| problem.capacity[cut.kind] - problem.taken(cut);
    // A bar whose pieces all find room on the others is not needed; the dearest are tried first.
    let mut order: Vec<usize> = (0..cuts.len()).collect();
    order.sort_by_key(|&index| {
        (std::cmp::Reverse(problem.cost[cuts[index].kind]), problem.taken(&cuts[index]))
    });
    for index in order {
        let mut rooms: Vec<i64> = cuts.iter().map(room).collect();
        rooms[index] = -1;
        let moves: Option<Vec<usize>> = cuts[index]
            .sizes
            .iter()
            .map(|&size| {
                let to = rooms.iter().position(|room| *room >= problem.sizes[size])?;
                rooms[to] -= problem.sizes[size];
                Some(to)
            })
            .collect();
        let Some(moves) = moves.filter(|moves| !moves.is_empty()) else { continue };
        for (size, to) in std::mem::take(&mut cuts[index].sizes).into_iter().zip(moves) {
            cuts[to].sizes.push(size);
        }
    }
    cuts.retain(|cut| !cut.sizes.is_empty());
    let mut left = problem.counts.clone();
    cuts.iter().for_each(|cut| left[cut.kind] -= 1);
    for cut in &mut cuts {
        let worth = |kind: usize| (problem.cost[kind], problem.capacity[kind]);
        let taken = problem.taken(cut);
        let fits = |kind: &usize| left[*kind] > 0 && problem.capacity[*kind] >= taken;
        let found = problem.kinds().filter(fits).min_by_key(|&kind| worth(kind));
        if let Some(kind) = found.filter(|&kind| worth(kind) < worth(cut.kind)) {
            left[kind] -= 1;
            left[cut.kind] += 1;
            cut.kind = kind;
        }
        cut.sizes.sort_unstable();
    }
    cuts
}
