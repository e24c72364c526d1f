//! How do the series of a chart differ to the eye?

use super::unit;

/// How many looks there are; the next series after the last looks like the first.
pub const LOOKS: usize = 8;

/// The style sheet of charts, for a page that has [`crate::page`]'s own: colours on a light and on a dark page.
///
/// Each colour stands off the page by a contrast of at least 3, words by 4.5 (WCAG 2.1, success criteria 1.4.11 and 1.4.3); a
/// judge measures it. No two looks share a dash or a marker.
pub const STYLE: &str = include_str!("chart.css");

/// The class of a look.
pub(super) fn class(look: usize) -> String {
    format!("look-{}", look % LOOKS + 1)
}

/// The marker of a look round a place, as path data.
pub(super) fn marker(look: usize, x: f64, y: f64) -> String {
    let corners: &[(f64, f64)] = match look % LOOKS {
        0 => return disc(x, y),
        1 => &[(-3.2, -3.2), (3.2, -3.2), (3.2, 3.2), (-3.2, 3.2)],
        2 => &[(0.0, -4.4), (4.2, 3.2), (-4.2, 3.2)],
        3 => &[(0.0, -4.8), (4.8, 0.0), (0.0, 4.8), (-4.8, 0.0)],
        4 => &[(0.0, 4.4), (4.2, -3.2), (-4.2, -3.2)],
        5 => &[
            (-1.3, -4.4),
            (1.3, -4.4),
            (1.3, -1.3),
            (4.4, -1.3),
            (4.4, 1.3),
            (1.3, 1.3),
            (1.3, 4.4),
            (-1.3, 4.4),
            (-1.3, 1.3),
            (-4.4, 1.3),
            (-4.4, -1.3),
            (-1.3, -1.3),
        ],
        6 => &[(4.4, 0.0), (-3.2, 4.2), (-3.2, -4.2)],
        _ => &[(-4.4, 0.0), (3.2, 4.2), (3.2, -4.2)],
    };
    let rows = corners.iter().enumerate().map(|(place, (across, down))| {
        let command = if place == 0 { 'M' } else { 'L' };
        format!("{command}{} {}", unit(x + across), unit(y + down))
    });
    rows.collect::<String>() + "Z"
}

fn disc(x: f64, y: f64) -> String {
    let [left, right, y] = [x - 3.6, x + 3.6, y].map(unit);
    format!("M{left} {y}A3.6 3.6 0 0 1 {right} {y}A3.6 3.6 0 0 1 {left} {y}Z")
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn no_two_looks_share_a_marker_or_a_dash() {
        let markers: BTreeSet<String> = (0..LOOKS).map(|look| marker(look, 10.0, 10.0)).collect();
        assert_eq!(markers.len(), LOOKS, "markers: {markers:?}");
        let dashes: BTreeSet<&str> = (1..=LOOKS)
            .map(|look| {
                let rule = format!(".chart .look-{look} {{ ");
                let line = STYLE.lines().find(|line| line.starts_with(&rule)).expect("every look has a rule");
                line.split("stroke-dasharray: ").nth(1).unwrap_or("none")
            })
            .collect();
        assert_eq!(dashes.len(), LOOKS, "dashes: {dashes:?}");
        assert_eq!(class(LOOKS), class(0), "they are counted round");
    }
}
