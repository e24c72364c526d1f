//! How far down does a plucked string swing?

use units::{Force, Length};

/// A pluck: the string is drawn aside at one place and let go.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pluck {
    /// How hard it is drawn aside; 2 to 4 N is usual (Zollner, Physics of the Electric Guitar, section 1.5.1, read in the
    /// source: 6 to 10 cm from the saddle, about 2 mm).
    pub force: Force,
    /// Where, measured from the saddle.
    pub from_saddle: Length,
    /// Which share of the swing is at right angles to the neck's face, 0 to 1; 0.2 to 0.5 is common practice, no source.
    pub normal_share: f64,
}

/// The lowest places that a plucked string reaches on its sounding part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Envelope {
    depth_mm: f64,
    deepest_mm: f64,
    sounding_mm: f64,
}

/// Lower envelope of an ideal string plucked at right angles to the neck's face by its share.
///
/// A pluck nearer the fret than the middle of the sounding part is taken at the middle: the hand does not follow the fret.
///
/// - **Shape**: tension, sounding length and pluck in; an envelope to be asked for depths out.
/// - **Units**: millimetres, newtons.
/// - **Accuracy**: exact for an ideal string: no stiffness, no damping, no touch; the first swing.
/// - **Source**: derived: amplitude a = F p (l - p)/(T l); d'Alembert's travelling waves mirror the drawn shape about the middle
///   and upside down half a period later, so that the string is deepest at p from the fret. That is a string drawn away from the face; one drawn toward it is deepest at p from the saddle,
///   where no fret is.
#[must_use]
pub fn envelope(tension: Force, sounding_length: Length, pluck: &Pluck) -> Envelope {
    let sounding_mm = sounding_length.as_mm();
    let deepest_mm = pluck.from_saddle.as_mm().min(0.5 * sounding_mm);
    let share = pluck.force / tension * pluck.normal_share;
    Envelope {
        depth_mm: share * deepest_mm * (sounding_mm - deepest_mm) / sounding_mm,
        deepest_mm,
        sounding_mm,
    }
}

impl Envelope {
    /// The largest depth: how far the string was drawn aside.
    #[must_use]
    pub fn amplitude(&self) -> Length {
        Length::mm(self.depth_mm)
    }

    /// Depth below the string at rest, at a distance from the fret or zero fret that it sounds from.
    #[must_use]
    pub fn depth_at(&self, from_fret: Length) -> Length {
        let u = from_fret.as_mm();
        let share = if u <= self.deepest_mm {
            u / self.deepest_mm
        } else {
            (self.sounding_mm - u) / (self.sounding_mm - self.deepest_mm)
        };
        Length::mm(self.depth_mm * share)
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use units::math;

    use super::*;
    use crate::string_model::{
        StringModel,
        tests::{E4, G3, plain, wound_d3},
    };

    fn pluck(force_n: f64) -> Pluck {
        Pluck { force: Force::newtons(force_n), from_saddle: Length::mm(100.0), normal_share: 1.0 }
    }

    #[track_caller]
    fn check(string: &StringModel, force_n: f64, expected_mm: f64) {
        let found = envelope(string.tension(), string.sounding_length(), &pluck(force_n)).amplitude().as_mm();
        assert!((found - expected_mm).abs() < 6e-5, "found {found}, expected {expected_mm}");
    }

    // Computed from the closed form (derived), plucked 100 mm from the saddle over 648 mm.
    #[test]
    fn e4() {
        for (force_n, expected_mm) in
            [(0.5, 0.5825), (1.0, 1.1650), (2.0, 2.3300), (3.0, 3.4950), (4.0, 4.6600)]
        {
            check(&plain(0.010, E4), force_n, expected_mm);
        }
    }
    #[test]
    fn g3() {
        for (force_n, expected_mm) in
            [(0.5, 0.5701), (1.0, 1.1402), (2.0, 2.2803), (3.0, 3.4205), (4.0, 4.5607)]
        {
            check(&plain(0.017, G3), force_n, expected_mm);
        }
    }
    #[test]
    fn d3() {
        for (force_n, expected_mm) in
            [(0.5, 0.3351), (1.0, 0.6703), (2.0, 1.3405), (3.0, 2.0108), (4.0, 2.6810)]
        {
            check(&wound_d3(), force_n, expected_mm);
        }
    }

    #[test]
    fn the_envelope_is_what_the_wave_equation_reaches() {
        // The wave equation's own solution as a sum of modes, 2 a l^2/(pi^2 p (l - p)) sin(n pi p/l)/n^2, over a period.
        let string = plain(0.017, G3);
        let (sounding, plucked, terms) = (648.0, 100.0, 4000);
        let envelope = envelope(string.tension(), Length::mm(sounding), &pluck(2.0));
        let amplitude = envelope.amplitude().as_mm();
        // Height at x from the saddle, the string drawn up at `plucked` and let go.
        let swing = |x: f64, phase: f64| -> f64 {
            let mode = |n: u32| {
                let n = f64::from(n);
                math::sin(n * PI * plucked / sounding) / (n * n)
                    * math::sin(n * PI * x / sounding)
                    * math::cos(n * phase)
            };
            let scale = 2.0 * amplitude * sounding * sounding / (PI * PI * plucked * (sounding - plucked));
            scale * (1..=terms).map(mode).sum::<f64>()
        };
        for from_fret in [20.0, 60.0, 100.0, 200.0, 324.0, 500.0, 620.0] {
            let x = sounding - from_fret;
            let lowest =
                (0..=400).map(|step| swing(x, PI * f64::from(step) / 400.0)).fold(f64::INFINITY, f64::min);
            let found = -envelope.depth_at(Length::mm(from_fret)).as_mm();
            // Modes left out are worth 2 a l^2/(pi^2 p (l-p) 4000).
            assert!((lowest - found).abs() < 2e-3, "at {from_fret}: envelope {found}, modes {lowest}");
        }
    }

    #[test]
    fn no_depth_at_either_end() {
        let envelope = envelope(Force::newtons(70.0), Length::mm(400.0), &pluck(3.0));
        assert_eq!(envelope.depth_at(Length::ZERO), Length::ZERO, "the fret holds it");
        assert_eq!(envelope.depth_at(Length::mm(400.0)), Length::ZERO, "the saddle holds it");
    }

    #[test]
    fn a_short_string_is_plucked_at_its_middle() {
        let envelope = envelope(Force::newtons(70.0), Length::mm(150.0), &pluck(3.0));
        assert_eq!(envelope.amplitude(), envelope.depth_at(Length::mm(75.0)), "deepest at the middle");
    }
}
