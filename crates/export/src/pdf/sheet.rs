//! How large is the paper, how much of it can be printed, and what does a printer make of a length?

use units::Length;

/// What leaves the printer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Paper {
    /// 297 mm by 210 mm.
    A4,
    /// 11 in by 8 1/2 in.
    Letter,
    /// One sheet as large as it takes, for a plotter.
    Plotter,
}

/// One line a paper: its name where people choose, and its size where it has one.
const PAPERS: [(Paper, &str, Option<[Length; 2]>); 3] = [
    (Paper::A4, "a4", Some([Length::mm(297.0), Length::mm(210.0)])),
    (Paper::Letter, "letter", Some([Length::inches(11.0), Length::inches(8.5)])),
    (Paper::Plotter, "plotter", None),
];

/// What a printer leaves white at each edge, at most: a quarter of an inch. Larger wastes paper; smaller is cut off by
/// office printers. Common practice, no source.
pub(super) const MARGIN: Length = Length::inches(0.25);

/// How far a mark of 100 mm may be off, in millimetres. What is farther off was printed with scaling, or measured wrongly.
const MOST_OFF: f64 = 3.0;

/// The factors, across the page and up it, by which a printer's own error is undone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Correction {
    across: f64,
    up: f64,
}

/// A measured mark that no printer can be blamed for.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CorrectionFault {
    /// Too far from what it should be.
    #[error("a mark of 100 mm must measure between {:.0} mm and {:.0} mm, found {} mm: print at 100 %, without fitting to the page, and measure again", 100.0 - MOST_OFF, 100.0 + MOST_OFF, found.as_mm())]
    TooFarOff {
        /// The measured length.
        found: Length,
    },
}

impl Paper {
    /// Every paper, in the order in which they are listed for people.
    pub fn all() -> impl Iterator<Item = Self> {
        PAPERS.iter().map(|line| line.0)
    }

    /// The paper that people call by a name: "a4", "letter", "plotter".
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        PAPERS.iter().find(|line| line.1 == name).map(|line| line.0)
    }

    /// The name by which people choose it.
    #[must_use]
    pub fn name(self) -> &'static str {
        PAPERS[self as usize].1
    }

    /// Across and up, lying on its long side; `None` where it is as large as it takes.
    #[must_use]
    pub fn size(self) -> Option<[Length; 2]> {
        PAPERS[self as usize].2
    }
}

impl Correction {
    /// For a printer that is true.
    pub const NONE: Self = Self { across: 1.0, up: 1.0 };

    /// For a printer whose marks of 100 mm measured so much across the page and up it.
    ///
    /// - **Errors**: [`CorrectionFault::TooFarOff`] for a mark that is off by more than 3 mm.
    ///
    /// ```
    /// use boxneck_export::pdf::Correction;
    /// use units::Length;
    ///
    /// let correction = Correction::measured([Length::mm(99.8), Length::mm(100.0)])?;
    /// let [across, up] = correction.factors();
    /// assert!((across * 99.8 - 100.0).abs() < 1e-9, "what came out short is drawn longer");
    /// assert!((up - 1.0).abs() < 1e-12, "the other way stays");
    /// # Ok::<(), boxneck_export::pdf::CorrectionFault>(())
    /// ```
    pub fn measured(marks: [Length; 2]) -> Result<Self, CorrectionFault> {
        let factor = |found: Length| {
            let sound = (found.as_mm() - 100.0).abs() <= MOST_OFF;
            sound.then(|| 100.0 / found.as_mm()).ok_or(CorrectionFault::TooFarOff { found })
        };
        Ok(Self { across: factor(marks[0])?, up: factor(marks[1])? })
    }

    /// Across the page, and up it.
    #[must_use]
    pub const fn factors(self) -> [f64; 2] {
        [self.across, self.up]
    }
}

impl Default for Correction {
    fn default() -> Self {
        Self::NONE
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_paper_is_on_its_own_line_and_found_by_its_name() {
        for (place, paper) in Paper::all().enumerate() {
            assert_eq!(paper as usize, place, "{paper:?} stands on its own line");
            assert_eq!(Paper::named(paper.name()), Some(paper), "{paper:?} is found by its name");
        }
        assert_eq!(Paper::named("a5"), None, "what is not listed is not found");
    }

    #[track_caller]
    fn check(measured_mm: f64, sound: bool) {
        let found = Correction::measured([Length::mm(100.0), Length::mm(measured_mm)]);
        assert_eq!(found.is_ok(), sound, "a mark that measured {measured_mm} mm gives {found:?}");
    }

    #[test]
    fn what_no_printer_does_is_refused() {
        check(97.0, true);
        check(103.0, true);
        check(96.9, false);
        check(103.1, false);
        check(0.0, false);
        check(-100.0, false);
    }
}
