//! Which formulas stand behind the numbers, and how far was each source followed?

/// How far a formula's source was followed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Status {
    /// Read in the source, or in its authors' manuscript.
    ReadInSource,
    /// Only the source's abstract was read.
    AbstractRead,
    /// Quoted from memory.
    FromMemory,
    /// Common practice, no source.
    CommonPractice,
    /// Derived here from the laws that the source names.
    Derived,
}

impl Status {
    /// The status in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::ReadInSource => "read in the source",
            Self::AbstractRead => "abstract read",
            Self::FromMemory => "from memory",
            Self::CommonPractice => "common practice, no source",
            Self::Derived => "derived",
        }
    }
}

/// One formula.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Formula {
    /// A name that does not change.
    pub id: &'static str,
    /// What it gives, with its unit.
    pub gives: &'static str,
    /// The formula, in plain text.
    pub formula: &'static str,
    /// Where it comes from.
    pub source: &'static str,
    /// How far the source was followed.
    pub status: Status,
}

/// Every formula that this crate computes with, in the order of its modules.
#[must_use]
pub const fn formulas() -> &'static [Formula] {
    FORMULAS
}

const ANDERSON_BEAUSOLEIL: &str =
    "M. Anderson and R. Beausoleil, J. Acoust. Soc. Am. 156, 683 (2024), authors' manuscript";
const PLATES: &str = "S. Timoshenko and S. Woinowsky-Krieger, Theory of Plates and Shells (1959)";
const BEAMS: &str = "J. Gere and S. Timoshenko, Mechanics of Materials";

const fn formula(
    id: &'static str,
    gives: &'static str,
    formula: &'static str,
    source: &'static str,
    status: Status,
) -> Formula {
    Formula { id, gives, formula, source, status }
}

const FORMULAS: &[Formula] = &[
    formula(
        "fret-place",
        "distance from zero fret to fret n, mm",
        "x = L (1 - 2^(-n/12))",
        "Mersenne's law",
        Status::Derived,
    ),
    formula(
        "plain-mass",
        "mass per length of a plain string, kg/m",
        "mu = rho pi d^2/4",
        "area of a circle",
        Status::Derived,
    ),
    formula(
        "wound-mass",
        "mass per length of a wound string, kg/m",
        "mu = rho_c pi dc^2/4 + rho_w (pi dw^2/4) sqrt((pi (dc + dw))^2 + dw^2)/dw, dw = (D - dc)/2",
        "length of a helix; round wrap, turn against turn",
        Status::Derived,
    ),
    formula(
        "core-estimate",
        "core diameter of a wound string that was not measured, mm",
        "dc = 0.206 mm + 0.227 D, give or take a fifth, at most 0.75 D",
        "usual pairs of gauge and core",
        Status::CommonPractice,
    ),
    formula(
        "core-carries",
        "stretch and bending stiffness of a wound string",
        "EA and EI of the core alone",
        "lower bound",
        Status::CommonPractice,
    ),
    formula("tension", "tension, N", "T = mu (2 L f)^2", "Mersenne's law", Status::Derived),
    formula(
        "wire-strength",
        "least tensile strength of music wire, MPa",
        "table from 0.008 in to 0.026 in, straight lines between",
        "data sheet for tinned music wire of the class of ASTM A228",
        Status::ReadInSource,
    ),
    formula(
        "steel",
        "density and modulus of music wire",
        "7850 kg/m3, 203 GPa (published range 190 to 207 GPa)",
        "engineering handbooks",
        Status::FromMemory,
    ),
    formula(
        "pinned-string",
        "partials of a stiff string between pinned ends, Hz",
        "f_n = n f sqrt(1 + B n^2), B = pi^2 EI/(T L^2)",
        "H. Fletcher, J. Acoust. Soc. Am. 36, 203 (1964)",
        Status::FromMemory,
    ),
    formula(
        "clamped-pinned-string",
        "partials of a stiff string clamped at the fret and pinned at the saddle, Hz",
        "f_q = q f (1 + e + (1 + pi^2 q^2/2) e^2), e = sqrt(EI/T)/L",
        ANDERSON_BEAUSOLEIL,
        Status::ReadInSource,
    ),
    formula(
        "clamped-string",
        "partials of a stiff string between clamped ends, Hz",
        "f_q = q f (1 + 2 e + (4 + pi^2 q^2/2) e^2)",
        "P. Morse, Vibration and Sound (1936), as quoted by Anderson and Beausoleil (2024)",
        Status::ReadInSource,
    ),
    formula(
        "intonation",
        "error of a fretted note, cents",
        "1200 log2(L0/(g Ln)) + 600 log2(1 + Q) + 600 log2(1 + (EA/T) Q) + 1200 log2(F(Bn)/F(B0)), F(B) = 1 + B + (1 + pi^2/2) B^2, \
         Q = (Ln + L'n - L0)/L0, B0 = sqrt(EI/T)/X0, Bn = B0 L0/(Ln sqrt(1 + (EA/T) Q))",
        ANDERSON_BEAUSOLEIL,
        Status::ReadInSource,
    ),
    formula(
        "compensation",
        "setbacks of saddle and zero fret, mm",
        "least root mean square of the errors over the frets that exist, by Gauss and Newton on the exact model",
        "least squares",
        Status::Derived,
    ),
    formula(
        "path-length",
        "length of a string from tail to zero fret, mm",
        "L = sqrt(l^2 + rise^2) + sqrt(d^2 + drop^2) + what slides behind the zero fret",
        "Pythagoras",
        Status::Derived,
    ),
    formula(
        "drift",
        "change of the open pitch when the saddle is slid, cents",
        "f = sqrt(T/mu)/(2 l), T1 = EA (L1/U - 1), U = L0/(1 + T0/EA), mu1 = mu0 (1 + T0/EA)/(1 + T1/EA)",
        "Hooke's and Mersenne's laws",
        Status::Derived,
    ),
    formula(
        "drift-per-mm",
        "the same for a small slide, cents per mm",
        "(1200/ln 2) ((EA/T + 2) (cos a - cos b)/(2 L) - cos a/l)",
        "derivative of drift",
        Status::Derived,
    ),
    formula(
        "break-even",
        "tail angle at which the open pitch stands still",
        "(EA/T + 2) (cos a - cos b)/(2 L) = cos a/l",
        "root of drift-per-mm",
        Status::Derived,
    ),
    formula(
        "capstan",
        "tensions on both sides of a crest that a string slips over",
        "T2 = T1 e^(friction (a + b))",
        "J. Groves and J. Kemp, Archives of Acoustics (2019): friction below 0.26 wound, 0.17 plain",
        Status::AbstractRead,
    ),
    formula(
        "tail-height",
        "tail height that serves a set of strings best, mm",
        "where the sharpest and the flattest drift are equally far out",
        "minimax of falling functions",
        Status::Derived,
    ),
    formula(
        "bearing-force",
        "force of a string on saddle, nut or zero fret, N",
        "F = T (u1 + u2), the two directions in which it leaves",
        "statics",
        Status::Derived,
    ),
    formula(
        "standing",
        "whether a floating saddle tips or slides",
        "lands at h Fx/Fz from under the crest; slides when sqrt(Fx^2 + Fy^2) > friction Fz",
        "statics",
        Status::Derived,
    ),
    formula(
        "plate-rigidity",
        "flexural rigidity of the lid, N mm",
        "D = E t^3/(12 (1 - v^2))",
        PLATES,
        Status::FromMemory,
    ),
    formula(
        "plate-supported",
        "sink of a simply supported lid, mm",
        "w = 4 P/(D a b) sum of sine products over (k^2 + l^2)^2, k = m pi/a, l = n pi/b",
        PLATES,
        Status::FromMemory,
    ),
    formula(
        "plate-clamped",
        "sink of a clamped lid, mm",
        "plate-supported, turned level along the edges by edge moments in sine series",
        PLATES,
        Status::FromMemory,
    ),
    formula(
        "action-lost",
        "action lost over a fret when the lid sinks, mm",
        "w x/l",
        "similar triangles",
        Status::Derived,
    ),
    formula(
        "pluck",
        "how far a plucked string is drawn aside, mm",
        "a = F p (l - p)/(T l)",
        "statics of a string",
        Status::Derived,
    ),
    formula(
        "envelope",
        "lowest place of a plucked string at u from the fret, mm",
        "-a u/p up to p, -a (l - u)/(l - p) beyond",
        "d'Alembert's solution of the wave equation",
        Status::Derived,
    ),
    formula(
        "clearance",
        "room of a fretted string over a later fret, mm",
        "(1 - t) z_k + t z_s - z_m - swing, t the share of the way to the saddle",
        "straight line",
        Status::Derived,
    ),
    formula(
        "touch-probability",
        "probability that a pair of fret and string buzzes",
        "normal below -room/s, s^2 = (1 - t)^2 s_k^2 + s_m^2",
        "sum of independent normal heights",
        Status::Derived,
    ),
    formula(
        "free-of-buzz",
        "share of instruments free of buzz, and the raise for a wanted share",
        "Monte Carlo; each instrument's least raise is the largest of -room/t over all pairs",
        "SplitMix64: G. Steele, D. Lea and C. Flood, OOPSLA 2014; normal numbers by G. Marsaglia's polar method (1964)",
        Status::FromMemory,
    ),
    formula(
        "care-share",
        "share of an outcome's variance that goes when one dimension is held perfectly",
        "mean of (y - y')^2 / (2 variance of y), y' with that dimension drawn anew",
        "M. Jansen, Computer Physics Communications 117, 35 (1999)",
        Status::FromMemory,
    ),
    formula(
        "first-order-spread",
        "standard deviation of an outcome under small errors",
        "s^2 = sum of (dy/dx s_x)^2",
        "propagation of independent errors",
        Status::Derived,
    ),
    formula(
        "section",
        "area and second moment of a neck's section",
        "b h^3/12; less two rounded corners",
        BEAMS,
        Status::FromMemory,
    ),
    formula(
        "composite",
        "EI of a fretboard glued to a neck, N mm2",
        "sum of E (I + A (z - z0)^2), z0 the mean of z by E A",
        BEAMS,
        Status::FromMemory,
    ),
    formula(
        "neck-bending",
        "how far the strings bend the neck, mm",
        "y(x) = integral of (x - s) T e(s)/EI(s) ds",
        BEAMS,
        Status::FromMemory,
    ),
    formula("neck-stress", "stress in the neck, MPa", "M c/I and T/A", BEAMS, Status::FromMemory),
    formula(
        "amplification",
        "how many times compression enlarges bending",
        "1/(1 - T s^2/(pi^2 EI))",
        BEAMS,
        Status::FromMemory,
    ),
    formula(
        "creep",
        "long-term bending over first bending",
        "1.5 to 2",
        "builders' experience",
        Status::CommonPractice,
    ),
];

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn every_id_stands_once() {
        let ids: BTreeSet<_> = formulas().iter().map(|formula| formula.id).collect();
        assert_eq!(ids.len(), formulas().len(), "an id is used twice");
    }

    #[test]
    fn every_formula_is_complete_plain_text() {
        for formula in formulas() {
            for text in [formula.id, formula.gives, formula.formula, formula.source, formula.status.words()] {
                assert!(
                    !text.is_empty() && text.is_ascii(),
                    "{} has an empty or unprintable part: {text:?}",
                    formula.id
                );
            }
        }
    }
}
