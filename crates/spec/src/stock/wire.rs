//! Wire for frets, by gauge number or by diameter.

use units::{Length, WireGauge};

/// Round wire.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Wire {
    /// By its American wire gauge.
    Gauge(WireGauge),
    /// By its measured diameter.
    Diameter(Length),
}

impl Wire {
    /// Its diameter; a gauge is taken at its nominal one.
    #[must_use]
    pub fn diameter(self) -> Length {
        match self {
            Self::Gauge(gauge) => gauge.diameter(),
            Self::Diameter(diameter) => diameter,
        }
    }
}

/// As a document writes it: "16 AWG", "1.3 mm"; exact.
impl std::fmt::Display for Wire {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Gauge(gauge) => write!(formatter, "{gauge}"),
            Self::Diameter(diameter) => write!(formatter, "{} mm", diameter.as_mm()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gauge_has_its_tabulated_diameter() {
        // ASTM B258: 16 AWG is 0.0508 in.
        let wire = Wire::Gauge(WireGauge::new(16).expect("16 is a gauge"));
        assert!(
            (wire.diameter().as_inches() - 0.0508).abs() < 0.000_05,
            "16 AWG measures {:?}",
            wire.diameter()
        );
        assert_eq!(wire.to_string(), "16 AWG", "as written");
        assert_eq!(Wire::Diameter(Length::mm(1.3)).to_string(), "1.3 mm", "as written");
    }
}
