//! How far does a simply supported rectangular plate sink? Navier's double sine series.

use std::f64::consts::PI;

use units::math;

use crate::plate::{Plate, Span};

/// Terms along each axis. Fewer leave the sink under a point short (by 0.7 over the square of this, as a share); more
/// cost time in proportion to the square.
pub(crate) const TERMS: usize = 120;

/// A mean of a sine below this is nothing but rounding: under a load in the middle every second one is, and is left out.
pub(crate) const VANISHED: f64 = 1e-12;

/// Sink in mm at a place for each newton on a patch.
///
/// w = 4/(D a b) sum of sine products over (k^2 + l^2)^2 with k = m pi/a and l = n pi/b.
pub(crate) fn deflection_mm_per_n(plate: &Plate, load: [Span; 2], place: [Span; 2]) -> f64 {
    let sides = plate.sides_mm();
    let waves = sides.map(wave_numbers);
    let loads = [0, 1].map(|axis| mean_sines(&waves[axis], load[axis]));
    let places = [0, 1].map(|axis| mean_sines(&waves[axis], place[axis]));
    let loaded: Vec<usize> = (0..TERMS).filter(|n| loads[1][*n].abs() > VANISHED).collect();
    let mut sum = 0.0;
    for m in 0..TERMS {
        let mut row = 0.0;
        for n in loaded.iter().copied() {
            let squares = waves[0][m] * waves[0][m] + waves[1][n] * waves[1][n];
            row += loads[1][n] * places[1][n] / (squares * squares);
        }
        sum += loads[0][m] * places[0][m] * row;
    }
    4.0 * sum / (plate.rigidity_n_mm() * sides[0] * sides[1])
}

/// pi/side, 2 pi/side, and so on.
pub(crate) fn wave_numbers(side_mm: f64) -> Vec<f64> {
    (1..=TERMS).map(|index| index as f64 * PI / side_mm).collect()
}

/// Mean of each sine over a span: its value at the middle times sin(h)/h.
pub(crate) fn mean_sines(waves: &[f64], span: Span) -> Vec<f64> {
    let mean = |wave: &f64| {
        let half = 0.5 * wave * span.size_mm;
        let spread = if half > 0.0 { math::sin(half) / half } else { 1.0 };
        math::sin(wave * span.middle_mm) * spread
    };
    waves.iter().map(mean).collect()
}
