//! What is bought for one instrument, and what does it cost?

use layout::{Layout, TailKind};
use spec::{Choice, FretKind, HolePurpose, Opening, Price, Prices};
use units::Length;

/// Something that is bought for an instrument.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct KitLine {
    pub item: &'static str,
    /// What tells it from others of its kind.
    pub size: String,
    pub amount: Amount,
    pub supply: Option<Supply>,
}

/// How much of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Amount {
    Pieces(u32),
    Wire(Length),
}

/// What a stock list may have a price for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Supply {
    Tuner,
    String,
    Screw,
    FretWire,
    Wire,
}

impl Amount {
    pub fn times(self, quantity: u32) -> Self {
        match self {
            Self::Pieces(pieces) => Self::Pieces(pieces * quantity),
            Self::Wire(length) => Self::Wire(length * f64::from(quantity)),
        }
    }

    pub fn plus(self, other: Self) -> Self {
        match (self, other) {
            (Self::Pieces(one), Self::Pieces(other)) => Self::Pieces(one + other),
            (Self::Wire(one), Self::Wire(other)) => Self::Wire(one + other),
            // Lines of one name and size are of one kind.
            (one, _) => one,
        }
    }

    /// The number, and its unit.
    pub fn written(self) -> [String; 2] {
        match self {
            Self::Pieces(pieces) => [pieces.to_string(), "pieces".into()],
            Self::Wire(length) => [format!("{:.2}", length.as_metres()), "m".into()],
        }
    }
}

impl KitLine {
    fn pieces(item: &'static str, size: String, pieces: usize, supply: Option<Supply>) -> Self {
        Self { item, size, amount: Amount::Pieces(pieces as u32), supply }
    }

    /// What one of it costs, or a metre.
    pub fn price(&self, prices: &Prices) -> Option<Price> {
        match self.supply? {
            Supply::Tuner => prices.tuner,
            Supply::String => prices.string,
            Supply::Screw => prices.screw,
            Supply::FretWire => prices.fret_wire,
            Supply::Wire => prices.wire,
        }
    }
}

/// What an amount costs at a price: wire to the next hundredth.
pub(super) fn cost(amount: Amount, price: Price) -> Price {
    Price::hundredths(match amount {
        Amount::Pieces(pieces) => price.as_hundredths() * u64::from(pieces),
        // Prices and lengths are bounded by their keys, far below what an f64 counts exactly.
        Amount::Wire(length) => {
            (price.as_hundredths() as f64 * length.as_metres() - 1e-9).ceil().max(0.0) as u64
        }
    })
}

/// Everything to buy for one instrument beside wood.
pub(super) fn kit(layout: &Layout) -> Vec<KitLine> {
    let spec = layout.spec();
    let mut lines = Vec::new();
    let tuner = format!(
        "for a bore of {}, post at least {} high",
        spec.headstock.tuner_bore, spec.headstock.post_height
    );
    lines.push(KitLine::pieces("tuner", tuner, layout.tuners().len(), Some(Supply::Tuner)));
    for string in &spec.strings {
        let size = match (string.core, string.wrap) {
            (Some(core), Some(wrap)) => {
                format!("{} over a core of {core}, {} wound", string.diameter, wrap.name())
            }
            (Some(core), None) => format!("{} over a core of {core}, wound", string.diameter),
            _ => format!("{}, plain", string.diameter),
        };
        lines.push(KitLine::pieces("string", size, 1, Some(Supply::String)));
    }
    for cut in &layout.wire().cuts {
        let (item, size, supply) = match cut.kind {
            FretKind::FretWire => ("fret wire", fret_wire(layout), Supply::FretWire),
            FretKind::WrappedWire | FretKind::SeatedWire => {
                ("copper wire", spec.frets.wire.to_string(), Supply::Wire)
            }
        };
        lines.push(KitLine { item, size, amount: Amount::Wire(cut.total), supply: Some(supply) });
    }
    let zero_fret = Amount::Wire(layout.wire().zero_fret);
    lines.push(KitLine {
        item: "fret wire",
        size: fret_wire(layout),
        amount: zero_fret,
        supply: Some(Supply::FretWire),
    });
    if !layout.tail().screws.is_empty() {
        let size = format!("{}, for the tail block", spec.tail.screw.word());
        lines.push(KitLine::pieces("wood screw", size, layout.tail().screws.len(), Some(Supply::Screw)));
    }
    if layout.tail().kind == TailKind::StringThrough {
        let size = format!("for strings through a bore of {}, if wanted", spec.tail.hole_bore);
        lines.push(KitLine::pieces("ferrule", size, layout.tail().bores.len(), None));
    }
    for hole in &spec.body.holes {
        let item = match hole.purpose {
            HolePurpose::Sound => continue,
            HolePurpose::Jack => "jack",
            HolePurpose::Pot => "pot",
            HolePurpose::Pickup => "pickup",
        };
        let size = match &hole.opening {
            Opening::Round { diameter } => format!("for a hole of {diameter}"),
            Opening::Rectangle { length, width } => format!("for an opening of {length} by {width}"),
            Opening::Drawn { outline, .. } => format!("for the opening drawn in {}", outline.file),
        };
        lines.push(KitLine::pieces(item, size, 1, None));
    }
    summed(lines)
}

fn fret_wire(layout: &Layout) -> String {
    let zero_fret = &layout.spec().zero_fret;
    format!("crown {} high and {} wide", zero_fret.crown_height, zero_fret.crown_width)
}

/// Lines of the same thing as one, where the first of them stood.
pub(super) fn summed(lines: impl IntoIterator<Item = KitLine>) -> Vec<KitLine> {
    let mut sums: Vec<KitLine> = Vec::new();
    for line in lines {
        match sums.iter_mut().find(|sum| sum.item == line.item && sum.size == line.size) {
            Some(sum) => sum.amount = sum.amount.plus(line.amount),
            None => sums.push(line),
        }
    }
    sums
}
