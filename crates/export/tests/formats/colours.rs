//! Can layers be told apart by readers who see colours differently?

use boxneck_export::{Layer, Micrometres};
use units::{Length, math};

const EACH: [fn() -> Layer; 8] = [
    || Layer::Guide,
    || Layer::Engrave,
    || Layer::Pocket(Micrometres::nearest(Length::mm(3.2))),
    || Layer::Slot,
    || Layer::Drill(Micrometres::nearest(Length::mm(8.0))),
    || Layer::CutInner,
    || Layer::Tab,
    || Layer::CutOuter,
];

/// Simulation of colour vision at full severity, on linear sRGB: Machado, Oliveira and Fernandes, "A physiologically
/// based model for simulation of color vision deficiency", 2009, table 1 (values from memory).
const SIGHTS: [(&str, [[f64; 3]; 3]); 4] = [
    ("normal sight", [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]),
    (
        "protanopia",
        [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]],
    ),
    (
        "deuteranopia",
        [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]],
    ),
    (
        "tritanopia",
        [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]],
    ),
];

fn times(matrix: &[[f64; 3]; 3], vector: [f64; 3]) -> [f64; 3] {
    matrix.map(|row| row.iter().zip(vector).map(|(a, b)| a * b).sum())
}

/// CIELAB of linear sRGB, white D65.
fn lab(linear: [f64; 3]) -> [f64; 3] {
    let to_xyz = [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]];
    let xyz = times(&to_xyz, linear.map(|channel| channel.clamp(0.0, 1.0)));
    let white = [0.9505, 1.0, 1.089];
    let compress = |value: f64| {
        if value > 0.008856 { math::pow(value, 1.0 / 3.0) } else { 7.787 * value + 16.0 / 116.0 }
    };
    let [x, y, z] = [0, 1, 2].map(|i| compress(xyz[i] / white[i]));
    [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
}

fn seen(rgb: [u8; 3], sight: &[[f64; 3]; 3]) -> [f64; 3] {
    let linear = rgb.map(|channel| {
        let value = f64::from(channel) / 255.0;
        if value <= 0.04045 { value / 12.92 } else { math::pow((value + 0.055) / 1.055, 2.4) }
    });
    lab(times(sight, linear))
}

#[test]
fn every_two_layers_differ_to_every_sight() {
    for (sight, matrix) in &SIGHTS {
        for (place, first) in EACH.iter().enumerate() {
            for second in &EACH[place + 1..] {
                let (first, second) = (first(), second());
                let (a, b) = (seen(first.colour().rgb, matrix), seen(second.colour().rgb, matrix));
                let apart = a.iter().zip(b).map(|(a, b)| (a - b) * (a - b)).sum::<f64>().sqrt();
                let least = if [first, second].contains(&Layer::Tab) { 19.0 } else { 22.0 };
                assert!(
                    apart >= least,
                    "{first:?} and {second:?} differ by {apart:.1} to {sight}, at least {least}"
                );
            }
        }
    }
}
