//! How stiff is a cross-section of the neck?

use std::f64::consts::PI;

use units::{Length, Stress};

use crate::{MechanicsError, error::positive};

/// What bending needs to know of a cross-section, about its own level axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// Area in square millimetres.
    pub area_mm2: f64,
    /// Second moment of area about the level axis through the centroid, in mm^4.
    pub second_moment_mm4: f64,
    /// Depth of the centroid below the top face.
    pub centroid_depth: Length,
    /// Depth from top to bottom.
    pub depth: Length,
}

/// A rectangle.
///
/// - **Errors**: [`MechanicsError::NotPositive`].
/// - **Source**: b h^3/12.
pub fn rectangle(width: Length, depth: Length) -> Result<Section, MechanicsError> {
    let width_mm = positive("section width in mm", width.as_mm())?;
    let depth_mm = positive("section depth in mm", depth.as_mm())?;
    let area_mm2 = width_mm * depth_mm;
    let second_moment_mm4 = area_mm2 * depth_mm * depth_mm / 12.0;
    Ok(Section { area_mm2, second_moment_mm4, centroid_depth: depth * 0.5, depth })
}

/// A rectangle whose two lower edges are rounded.
///
/// - **Errors**: [`MechanicsError::NotPositive`]; [`MechanicsError::OutsideRange`] for a radius below zero, or above half the width
///   or the depth.
/// - **Source**: derived: the rectangle less two corners, each a square of the radius less a quarter of a circle.
pub fn eased_rectangle(width: Length, depth: Length, radius: Length) -> Result<Section, MechanicsError> {
    let whole = rectangle(width, depth)?;
    let most = (width * 0.5).min(depth);
    if radius < Length::ZERO || radius > most {
        let (quantity, value) = ("edge radius in mm", radius.as_mm());
        return Err(MechanicsError::OutsideRange { quantity, above: 0.0, below: most.as_mm(), value });
    }
    let r = radius.as_mm();
    // Both corners; distances from the level line through the circles' centres, downward.
    let corner_area = 2.0 * r * r * (1.0 - PI / 4.0);
    let corner_first = 2.0 * r * r * r * (0.5 - 1.0 / 3.0);
    let corner_second = 2.0 * r * r * r * r * (1.0 / 3.0 - PI / 16.0);
    let centres_depth = depth.as_mm() - r;

    let middle = whole.centroid_depth.as_mm();
    let area_mm2 = whole.area_mm2 - corner_area;
    let first_about_top = whole.area_mm2 * middle - (corner_area * centres_depth + corner_first);
    let second_about_top = whole.second_moment_mm4 + whole.area_mm2 * middle * middle
        - (corner_second + 2.0 * corner_first * centres_depth + corner_area * centres_depth * centres_depth);
    let centroid = first_about_top / area_mm2;
    let second_moment_mm4 = second_about_top - area_mm2 * centroid * centroid;
    Ok(Section { area_mm2, second_moment_mm4, centroid_depth: Length::mm(centroid), depth })
}

/// One part of a section that is glued up of several.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer {
    /// Its own section.
    pub section: Section,
    /// Depth of its top face below the top of the whole.
    pub top_depth: Length,
    /// Its elastic modulus along the neck.
    pub elastic_modulus: Stress,
}

/// A section of several materials that bend as one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Composite {
    /// EI about the neutral axis, in N mm2.
    pub bending_stiffness_n_mm2: f64,
    /// EA in N.
    pub stretch_stiffness_n: f64,
    /// Depth of the neutral axis below the top of the whole.
    pub neutral_depth: Length,
}

/// Stiffness of layers glued to one another, such as a fretboard on a neck.
///
/// - **Units**: N mm2, N, mm.
/// - **Accuracy**: exact for plane sections and glue that does not give.
/// - **Errors**: [`MechanicsError::Empty`]; [`MechanicsError::NotPositive`].
/// - **Source**: transformed section: each layer counts by its modulus.
pub fn composite(layers: &[Layer]) -> Result<Composite, MechanicsError> {
    if layers.is_empty() {
        return Err(MechanicsError::Empty { what: "layers" });
    }
    let (mut stretch, mut first, mut second) = (0.0, 0.0, 0.0);
    for layer in layers {
        let modulus = positive("elastic modulus in MPa", layer.elastic_modulus.as_megapascals())?;
        let area = positive("section area in mm2", layer.section.area_mm2)?;
        let centroid = (layer.top_depth + layer.section.centroid_depth).as_mm();
        stretch += modulus * area;
        first += modulus * area * centroid;
        second += modulus * (layer.section.second_moment_mm4 + area * centroid * centroid);
    }
    let neutral = first / stretch;
    Ok(Composite {
        bending_stiffness_n_mm2: second - stretch * neutral * neutral,
        stretch_stiffness_n: stretch,
        neutral_depth: Length::mm(neutral),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(value: f64) -> Length {
        Length::mm(value)
    }

    /// Area, centroid and second moment by thin strips of the width at each depth.
    #[track_caller]
    fn check_by_strips(section: &Section, width_at_mm: impl Fn(f64) -> f64) {
        let strips = 200_000;
        let depth = section.depth.as_mm();
        let (mut area, mut first, mut second) = (0.0, 0.0, 0.0);
        for strip in 0..strips {
            let z = depth * (f64::from(strip) + 0.5) / f64::from(strips);
            let part = width_at_mm(z) * depth / f64::from(strips);
            area += part;
            first += part * z;
            second += part * z * z;
        }
        let centroid = first / area;
        let near = |what: &str, found: f64, expected: f64| {
            assert!((found / expected - 1.0).abs() < 1e-6, "{what}: found {found}, strips give {expected}");
        };
        near("area", section.area_mm2, area);
        near("centroid", section.centroid_depth.as_mm(), centroid);
        near("second moment", section.second_moment_mm4, second - area * centroid * centroid);
    }

    #[test]
    fn rectangle_by_strips() {
        check_by_strips(&rectangle(mm(38.0), mm(19.0)).expect("sound"), |_| 38.0);
    }

    #[test]
    fn eased_rectangle_by_strips() {
        let width_at = |z: f64| {
            let below = (z - 13.0).max(0.0);
            38.0 - 2.0 * (6.0 - (36.0 - below * below).sqrt())
        };
        check_by_strips(&eased_rectangle(mm(38.0), mm(19.0), mm(6.0)).expect("sound"), width_at);
    }

    #[test]
    fn a_radius_of_nothing_is_a_rectangle() {
        let (eased, plain) =
            (eased_rectangle(mm(38.0), mm(19.0), Length::ZERO), rectangle(mm(38.0), mm(19.0)));
        let (eased, plain) = (eased.expect("sound"), plain.expect("sound"));
        assert!((eased.second_moment_mm4 - plain.second_moment_mm4).abs() < 1e-9, "{eased:?} and {plain:?}");
    }

    #[test]
    fn a_radius_wider_than_the_neck_is_refused() {
        let found = eased_rectangle(mm(20.0), mm(19.0), mm(10.5));
        assert!(matches!(found, Err(MechanicsError::OutsideRange { .. })), "found {found:?}");
    }

    #[test]
    fn two_halves_of_one_wood_are_one_rectangle() {
        let (board, neck) =
            (rectangle(mm(38.0), mm(6.0)).expect("sound"), rectangle(mm(38.0), mm(19.0)).expect("sound"));
        let elastic_modulus = Stress::megapascals(13_000.0);
        let layers = [
            Layer { section: board, top_depth: Length::ZERO, elastic_modulus },
            Layer { section: neck, top_depth: mm(6.0), elastic_modulus },
        ];
        let (found, whole) =
            (composite(&layers).expect("sound"), rectangle(mm(38.0), mm(25.0)).expect("sound"));
        assert!((found.neutral_depth - mm(12.5)).abs() < mm(1e-12), "found {found:?}");
        let share = found.bending_stiffness_n_mm2 / (13_000.0 * whole.second_moment_mm4);
        assert!((share - 1.0).abs() < 1e-12, "glued halves over whole: {share}");
    }

    #[test]
    fn a_stiffer_board_draws_the_neutral_axis_up() {
        // Closed form for two equal squares of moduli 3 and 1: the axis lies a quarter of the depth from the top of the pair.
        let square = rectangle(mm(10.0), mm(10.0)).expect("sound");
        let layers = [
            Layer { section: square, top_depth: Length::ZERO, elastic_modulus: Stress::megapascals(3000.0) },
            Layer { section: square, top_depth: mm(10.0), elastic_modulus: Stress::megapascals(1000.0) },
        ];
        let found = composite(&layers).expect("sound").neutral_depth;
        assert!((found - mm(7.5)).abs() < mm(1e-12), "found {found:?}");
    }
}
