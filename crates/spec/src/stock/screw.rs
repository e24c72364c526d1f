//! Wood screws: what they measure and which holes they want.
//!
//! Diameters follow from the number, 0.060 in + 0.013 in a number (from memory); pilot holes: common practice,
//! about 70 % of the root in softwood and 90 % in hardwood; head and clearance: from memory. Measure yours.

use units::Length;

use crate::instrument::ScrewGauge;

/// The size of a wood screw and of its holes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ScrewSize {
    /// Over the thread.
    pub diameter: Length,
    /// Pilot hole in hardwood.
    pub pilot_in_hardwood: Length,
    /// Pilot hole in softwood and plywood.
    pub pilot_in_softwood: Length,
    /// Hole through which the screw passes freely.
    pub clearance: Length,
    /// Over the countersunk head.
    pub head: Length,
    /// Where the numbers come from.
    pub source: &'static str,
}

/// The size of a wood screw by its number. Lengths in millimetres, good to 0.2 mm; screws differ by maker.
#[must_use]
pub const fn screw_size(gauge: ScrewGauge) -> ScrewSize {
    match gauge {
        ScrewGauge::No4 => size(2.8, 2.0, 1.6, 3.0, 5.7),
        ScrewGauge::No6 => size(3.5, 2.4, 2.0, 3.8, 7.1),
        ScrewGauge::No8 => size(4.2, 2.8, 2.4, 4.5, 8.4),
        ScrewGauge::No10 => size(4.8, 3.2, 2.8, 5.2, 9.8),
    }
}

/// One row of the table, in millimetres.
const fn size(diameter: f64, hardwood: f64, softwood: f64, clearance: f64, head: f64) -> ScrewSize {
    ScrewSize {
        diameter: Length::mm(diameter),
        pilot_in_hardwood: Length::mm(hardwood),
        pilot_in_softwood: Length::mm(softwood),
        clearance: Length::mm(clearance),
        head: Length::mm(head),
        source: "pilot holes: common practice, no source; the rest from memory",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn holes_nest() {
        for gauge in [ScrewGauge::No4, ScrewGauge::No6, ScrewGauge::No8, ScrewGauge::No10] {
            let size = screw_size(gauge);
            let rising =
                [size.pilot_in_softwood, size.pilot_in_hardwood, size.diameter, size.clearance, size.head];
            assert!(
                rising.is_sorted_by(|a, b| a < b),
                "{gauge:?}: pilots below thread below clearance below head"
            );
        }
    }

    #[test]
    fn diameters_follow_the_number() {
        // 0.060 in + 0.013 in a number, from memory.
        for (gauge, number) in
            [(ScrewGauge::No4, 4.0), (ScrewGauge::No6, 6.0), (ScrewGauge::No8, 8.0), (ScrewGauge::No10, 10.0)]
        {
            let expected = Length::inches(0.060 + 0.013 * number);
            let found = screw_size(gauge).diameter;
            assert!(
                (found - expected).abs() < Length::mm(0.06),
                "{gauge:?}: expected {expected:?}, found {found:?}"
            );
        }
    }
}
