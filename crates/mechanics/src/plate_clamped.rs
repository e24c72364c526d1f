//! How far does a clamped rectangular plate sink?
//!
//! The supported plate of Navier's series, turned back to level along its edges by edge moments: each moment is a
//! sine series whose terms are the multipliers of the condition that the slope's term vanishes there. The slope that
//! a moment makes at its own edge converges slowly in Navier's series and is summed in closed form.
//!
//! Sines of odd and of even number do not mix, so that the multipliers fall apart into four small systems. Source of
//! the method: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells (1959), from memory, there by the double
//! symmetric case alone; the sums in closed form are derived.

use units::math;

use crate::{
    plate::{Plate, Span},
    plate_supported::{TERMS, VANISHED, mean_sines, wave_numbers},
};

/// Sines of each parity along each edge. Fewer leave moments near a load unresolved; more cost time in proportion to the cube.
const EDGE_SINES: usize = 20;

/// What must be taken from the supported plate's sink, in mm at a place for each newton on a patch.
pub(crate) fn stiffening_mm_per_n(plate: &Plate, load: [Span; 2], place: [Span; 2]) -> f64 {
    let sides = plate.sides_mm();
    let waves = sides.map(wave_numbers);
    let loads = [0, 1].map(|axis| mean_sines(&waves[axis], load[axis]));
    let places = [0, 1].map(|axis| mean_sines(&waves[axis], place[axis]));
    let mut sum = 0.0;
    for parity in [[0, 0], [0, 1], [1, 0], [1, 1]] {
        let block = Block { sides, waves: &waves, parity };
        if block.is_unloaded(&loads) {
            continue;
        }
        let load_slopes = block.edge_slopes(&loads);
        let place_slopes = block.edge_slopes(&places);
        let moments = solve(block.edge_compliance(), load_slopes);
        sum += moments.iter().zip(place_slopes).map(|(moment, slope)| moment * slope).sum::<f64>();
    }
    4.0 * sum / (plate.rigidity_n_mm() * sides[0] * sides[1])
}

/// The sines of one parity along each axis: parity 0 takes the first, third and so on.
struct Block<'a> {
    sides: [f64; 2],
    waves: &'a [Vec<f64>; 2],
    parity: [usize; 2],
}

impl Block<'_> {
    /// The sines of this block along one axis, by index.
    fn sines(&self, axis: usize) -> impl Iterator<Item = usize> + use<> {
        (self.parity[axis]..TERMS).step_by(2)
    }

    /// Whether no sine along some axis feels the load, as those of even number do not under a load in the middle.
    fn is_unloaded(&self, loads: &[Vec<f64>; 2]) -> bool {
        [0, 1].into_iter().any(|axis| self.sines(axis).all(|index| loads[axis][index].abs() <= VANISHED))
    }

    fn edge_sines(&self, axis: usize) -> impl Iterator<Item = usize> + use<> {
        self.sines(axis).take(EDGE_SINES)
    }

    /// The slope's terms along the edges of a supported plate: first across x, one for each sine along y; then across y.
    fn edge_slopes(&self, sines: &[Vec<f64>; 2]) -> Vec<f64> {
        let slope = |across: usize, n: usize| -> f64 {
            let along = 1 - across;
            let sum: f64 = self
                .sines(across)
                .map(|m| {
                    let (k, l) = (self.waves[across][m], self.waves[along][n]);
                    let squares = k * k + l * l;
                    k * sines[across][m] / (squares * squares)
                })
                .sum();
            sum * sines[along][n]
        };
        let across_x = self.edge_sines(1).map(|n| slope(0, n));
        let across_y = self.edge_sines(0).map(|n| slope(1, n));
        across_x.chain(across_y).collect()
    }

    /// Slope's terms for each moment's term, row by row, in the order of [`Block::edge_slopes`].
    fn edge_compliance(&self) -> Vec<f64> {
        let size = 2 * EDGE_SINES;
        let mut matrix = vec![0.0; size * size];
        for (row, n) in self.edge_sines(1).enumerate() {
            matrix[row * size + row] = self.own_slope(0, self.waves[1][n]);
            for (column, m) in self.edge_sines(0).enumerate() {
                let (k, l) = (self.waves[0][m], self.waves[1][n]);
                let squares = k * k + l * l;
                let mixed = k * l / (squares * squares);
                matrix[row * size + EDGE_SINES + column] = mixed;
                matrix[(EDGE_SINES + column) * size + row] = mixed;
            }
        }
        for (row, m) in self.edge_sines(0).enumerate() {
            let diagonal = EDGE_SINES + row;
            matrix[diagonal * size + diagonal] = self.own_slope(1, self.waves[0][m]);
        }
        matrix
    }

    /// Sum of k^2/(k^2 + l^2)^2 over all k of this block's parity across an axis, in closed form.
    fn own_slope(&self, across: usize, l: f64) -> f64 {
        let side = self.sides[across];
        // Even sines of a side are all sines of half of it.
        let even = slope_sum(0.5 * side, l);
        if self.parity[across] == 1 { even } else { slope_sum(side, l) - even }
    }
}

/// Sum of k^2/(k^2 + l^2)^2 over k = pi/s, 2 pi/s, and so on: s (coth(s l) - s l/sinh^2(s l))/(4 l).
fn slope_sum(s: f64, l: f64) -> f64 {
    let decay = math::exp(-2.0 * s * l);
    let coth = (1.0 + decay) / (1.0 - decay);
    let over_sinh_squared = 4.0 * decay / ((1.0 - decay) * (1.0 - decay));
    s * (coth - s * l * over_sinh_squared) / (4.0 * l)
}

/// Solves a symmetric positive definite system by Cholesky's factors.
fn solve(mut matrix: Vec<f64>, mut right: Vec<f64>) -> Vec<f64> {
    let size = right.len();
    for row in 0..size {
        for column in 0..=row {
            let dot: f64 =
                (0..column).map(|inner| matrix[row * size + inner] * matrix[column * size + inner]).sum();
            let rest = matrix[row * size + column] - dot;
            matrix[row * size + column] = if row == column {
                assert!(rest > 0.0, "edge moments turn a plate's edges, which is for this file to ensure");
                rest.sqrt()
            } else {
                rest / matrix[column * size + column]
            };
        }
    }
    for row in 0..size {
        let dot: f64 = (0..row).map(|inner| matrix[row * size + inner] * right[inner]).sum();
        right[row] = (right[row] - dot) / matrix[row * size + row];
    }
    for row in (0..size).rev() {
        let dot: f64 = (row + 1..size).map(|inner| matrix[inner * size + row] * right[inner]).sum();
        right[row] = (right[row] - dot) / matrix[row * size + row];
    }
    right
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::*;

    #[test]
    fn the_closed_form_is_the_sum() {
        for (s, l) in [(1.0, 0.5), (1.0, 3.0), (2.5, 7.0), (180.0, 0.02)] {
            let terms = 200_000;
            let term = |m: usize| {
                let k = m as f64 * PI / s;
                k * k / ((k * k + l * l) * (k * k + l * l))
            };
            // What follows the last term is the integral of 1/k^2, to the same accuracy.
            let rest = s * s / (PI * PI * (terms as f64 + 0.5));
            let sum = (1..=terms).map(term).sum::<f64>() + rest;
            let found = slope_sum(s, l);
            assert!((found / sum - 1.0).abs() < 1e-10, "s {s}, l {l}: found {found}, summed {sum}");
        }
    }

    #[test]
    fn solve_undoes_a_product() {
        let matrix = vec![4.0, 2.0, 0.5, 2.0, 5.0, 1.0, 0.5, 1.0, 3.0];
        let expected = [1.0, -2.0, 3.0];
        let right = (0..3)
            .map(|row| (0..3).map(|column| matrix[row * 3 + column] * expected[column]).sum())
            .collect();
        for (found, expected) in solve(matrix, right).into_iter().zip(expected) {
            assert!((found - expected).abs() < 1e-14, "found {found}, expected {expected}");
        }
    }
}
