//! Which piece is cut from which board or sheet?
//!
//! Pieces of one wood and thickness are one task. Boards that hold one piece across are cut to length; sheets, and boards
//! that hold two pieces side by side, are nested.

use std::collections::BTreeMap;

use geometry::{Bar, Packed, Rectangle, Saw, Sheet, Vector2, cut_bars, pack};
use spec::{Grain, StockItem, StockList};
use units::Length;

use super::member::{Member, Piece};

/// How much thinner than its part stock may be. Larger makes parts that do not fit; smaller refuses a board for the last
/// pass of the planer. Common practice, no source.
const THINNER: Length = Length::mm(0.1);

/// One piece, once for each that is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Wanted {
    pub member: usize,
    pub piece: usize,
}

/// A kind of board or sheet of the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum StockRef {
    Board(usize),
    Sheet(usize),
}

/// A board and the pieces that are cut off it, in cutting order.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct CutBoard {
    pub stock: StockRef,
    pub pieces: Vec<Wanted>,
    /// What is left of it.
    pub rest: Length,
}

/// A sheet with pieces on it. Its `x` runs along its grain.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct NestedSheet {
    /// Counted from 1.
    pub number: usize,
    pub stock: StockRef,
    pub size: [Length; 2],
    /// From the corner of the sheet to that of what is used of it.
    pub margin: Vector2,
    pub placed: Vec<(Wanted, Packed)>,
}

/// What is cut of one wood and thickness.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Task {
    pub wood: &'static str,
    pub thickness: Length,
    /// How many boards and sheets.
    pub stock: usize,
    /// Which part of their area becomes blanks.
    pub used: f64,
    /// By which part it may cost more than the cheapest plan, at most; nothing where that is not known.
    pub above_least: Option<f64>,
}

/// A piece that nothing serves, and why.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Unserved {
    pub wanted: Wanted,
    pub why: String,
}

/// Everything that is cut.
#[derive(Clone, Debug, PartialEq, Default)]
pub(super) struct StockPlan {
    pub boards: Vec<CutBoard>,
    pub sheets: Vec<NestedSheet>,
    pub tasks: Vec<Task>,
    pub unserved: Vec<Unserved>,
}

impl Wanted {
    pub fn of(self, members: &[Member]) -> &Piece {
        &members[self.member].made.pieces[self.piece]
    }
}

impl StockRef {
    pub fn of(self, stock: &StockList) -> &StockItem {
        match self {
            Self::Board(index) => &stock.boards[index],
            Self::Sheet(index) => &stock.sheets[index],
        }
    }

    /// As the stock list's keys have it: "boards.2".
    pub fn key(self) -> String {
        match self {
            Self::Board(index) => format!("boards.{}", index + 1),
            Self::Sheet(index) => format!("sheets.{}", index + 1),
        }
    }

    fn all(stock: &StockList) -> impl Iterator<Item = Self> {
        (0..stock.boards.len()).map(Self::Board).chain((0..stock.sheets.len()).map(Self::Sheet))
    }
}

impl StockPlan {
    pub fn of(members: &[Member], stock: &StockList) -> Self {
        let mut plan = Self::default();
        let mut left: BTreeMap<StockRef, usize> = StockRef::all(stock)
            .filter_map(|kind| Some((kind, usize::from(kind.of(stock).count?))))
            .collect();
        for (kinds, wanted) in tasks(members, stock, &mut plan.unserved) {
            Tasking { members, stock, kinds: &kinds, wanted: &wanted }.solve(&mut plan, &mut left);
        }
        plan
    }

    /// How many of each kind are used.
    pub fn used(&self) -> BTreeMap<StockRef, usize> {
        let mut used = BTreeMap::new();
        let kinds =
            self.boards.iter().map(|board| board.stock).chain(self.sheets.iter().map(|sheet| sheet.stock));
        kinds.for_each(|kind| *used.entry(kind).or_insert(0) += 1);
        used
    }
}

/// Every piece with the stock that serves it by wood and thickness; what nothing serves is told.
fn tasks(
    members: &[Member],
    stock: &StockList,
    unserved: &mut Vec<Unserved>,
) -> BTreeMap<Vec<StockRef>, Vec<Wanted>> {
    let mut tasks: BTreeMap<Vec<StockRef>, Vec<Wanted>> = BTreeMap::new();
    for (member, of_member) in members.iter().enumerate() {
        for (place, piece) in of_member.made.pieces.iter().enumerate() {
            let copies = piece.quantity as usize * of_member.enrolment.quantity as usize;
            let wanted = std::iter::repeat_n(Wanted { member, piece: place }, copies);
            let serves = |kind: &StockRef| {
                let item = kind.of(stock);
                piece.need.is_met_by(item.wood)
                    && item.thickness >= piece.blank[2] - THINNER
                    && item.thickness <= piece.blank[2] + stock.cutting.planing
            };
            let kinds: Vec<StockRef> = StockRef::all(stock).filter(serves).collect();
            if kinds.is_empty() {
                let why = why_unserved(piece, stock);
                unserved.extend(wanted.map(|wanted| Unserved { wanted, why: why.clone() }));
            } else {
                tasks.entry(kinds).or_default().extend(wanted);
            }
        }
    }
    tasks
}

/// How far from its part's thickness stock may be to be worth naming, as a share of it. Larger proposes another
/// instrument; smaller proposes nothing.
const NEAR: f64 = 0.35;

/// What would serve a piece that nothing serves: the stock that comes nearest, and the keys that meet it.
fn why_unserved(piece: &Piece, stock: &StockList) -> String {
    let [_, _, thickness] = piece.blank;
    let wants = format!("{} of {} to {}", piece.need.words(), thickness, thickness + stock.cutting.planing);
    let off = |kind: &StockRef| {
        let found = kind.of(stock).thickness;
        let serves = found >= thickness - THINNER && found <= thickness + stock.cutting.planing;
        if serves { 0.0 } else { (found - thickness).as_mm().abs() / thickness.as_mm() }
    };
    let is_met = |kind: &StockRef| piece.need.is_met_by(kind.of(stock).wood);
    let nearest = StockRef::all(stock)
        .filter(|kind| off(kind) <= NEAR)
        .min_by(|one, other| is_met(other).cmp(&is_met(one)).then(off(one).total_cmp(&off(other))));
    let Some(kind) = nearest else {
        return format!("wants {wants}; nothing in stock comes near: add some to the stock list");
    };
    let item = kind.of(stock);
    let found = format!("{} of {}, {} thick", kind.key(), item.wood.name(), item.thickness);
    let (thickness_key, wood_key) = keys(piece.part);
    let wood = (!is_met(&kind)).then(|| wood_key.map(|key| format!("{key} = \"{}\"", item.wood.name())));
    let thick =
        (off(&kind) > 0.0).then(|| thickness_key.map(|key| format!("{key} = \"{}\"", item.thickness)));
    let changes: Option<Vec<String>> = [wood, thick].into_iter().flatten().collect();
    match changes {
        Some(changes) => {
            format!("wants {wants}; the nearest in stock is {found}: {} would meet it", changes.join(" and "))
        }
        None => format!("wants {wants}; the nearest in stock is {found}: add some, or glue up or plane down"),
    }
}

/// The keys that say how thick a part is and of which wood.
fn keys(part: &str) -> (Option<&'static str>, Option<&'static str>) {
    match part {
        "neck" => (Some("neck.thickness"), Some("neck.wood")),
        "lid" => (Some("box.lid"), Some("box.lid_wood")),
        "fretboard" => (Some("fretboard.thickness"), None),
        "heel-block" => (None, Some("neck.wood")),
        _ => (None, None),
    }
}

/// One task and the stock that serves it.
struct Tasking<'a> {
    members: &'a [Member],
    stock: &'a StockList,
    kinds: &'a [StockRef],
    wanted: &'a [Wanted],
}

impl Tasking<'_> {
    fn solve(&self, plan: &mut StockPlan, left: &mut BTreeMap<StockRef, usize>) {
        let (boards, sheets) = (plan.boards.len(), plan.sheets.len());
        let (left_over, cost, least) =
            if self.is_cut_to_length() { self.cut_to_length(plan, left) } else { self.nest(plan, left) };
        for index in left_over {
            let why = self.why_left_over(self.wanted[index]);
            plan.unserved.push(Unserved { wanted: self.wanted[index], why });
        }
        let fresh_boards = plan.boards[boards..].iter().map(|board| (board.stock, board.pieces.clone()));
        let fresh_sheets = plan.sheets[sheets..].iter().map(|sheet| {
            (sheet.stock, sheet.placed.iter().map(|(wanted, _)| *wanted).collect::<Vec<Wanted>>())
        });
        let (mut count, mut taken, mut whole) = (0, 0.0, 0.0);
        for (kind, pieces) in fresh_boards.chain(fresh_sheets) {
            let area = |size: [Length; 2]| size[0].as_mm() * size[1].as_mm();
            let item = kind.of(self.stock);
            count += 1;
            whole += area([item.length, item.width]);
            taken += pieces.iter().map(|wanted| area(self.size(*wanted))).sum::<f64>();
            if let Some(left) = left.get_mut(&kind) {
                *left = left.saturating_sub(1);
            }
        }
        let first = self.wanted[0].of(self.members);
        plan.tasks.push(Task {
            wood: first.need.words(),
            thickness: first.blank[2],
            stock: count,
            used: if whole > 0.0 { taken / whole } else { 0.0 },
            above_least: (least > 0 || cost == 0)
                .then(|| if cost == 0 { 0.0 } else { (cost - least) as f64 / least as f64 }),
        });
    }

    fn size(&self, wanted: Wanted) -> [Length; 2] {
        let [along, across, _] = wanted.of(self.members).blank;
        [along, across]
    }

    /// Whether every board is wide enough for every piece, and none for two side by side.
    fn is_cut_to_length(&self) -> bool {
        let widths = || self.wanted.iter().map(|wanted| self.size(*wanted)[1]);
        let widest = widths().fold(Length::ZERO, Length::max);
        let narrowest = widths().fold(widest, Length::min);
        self.kinds.iter().all(|kind| {
            let width = kind.of(self.stock).width;
            let is_single = width < narrowest * 2.0 + self.stock.cutting.kerf;
            matches!(kind, StockRef::Board(_)) && width >= widest && is_single
        })
    }

    /// What one of each kind counts for: its price, or its size where not every price is known; offcuts nothing.
    fn costs(&self) -> Vec<u64> {
        let items = || self.kinds.iter().map(|kind| kind.of(self.stock)).collect::<Vec<&StockItem>>();
        let is_priced = items().iter().all(|item| item.offcut || item.price.is_some());
        let cost = |item: &&StockItem| match item.price {
            _ if item.offcut => 0,
            Some(price) if is_priced => price.as_hundredths().max(1),
            // Hundredths of a millimetre along, or square millimetres: far from the limits of the numbers.
            _ if self.is_cut_to_length() => (item.length.as_mm() * 100.0).round() as u64,
            _ => (item.length.as_mm() * item.width.as_mm()).round() as u64,
        };
        items().iter().map(cost).collect()
    }

    /// The pieces left over, what the plan costs, and the least that a plan can cost.
    fn cut_to_length(
        &self,
        plan: &mut StockPlan,
        left: &BTreeMap<StockRef, usize>,
    ) -> (Vec<usize>, u64, u64) {
        let pieces: Vec<Length> = self.wanted.iter().map(|wanted| self.size(*wanted)[0]).collect();
        let bars: Vec<Bar> = self
            .kinds
            .iter()
            .zip(self.costs())
            .map(|(kind, cost)| Bar {
                length: kind.of(self.stock).length,
                count: left.get(kind).copied(),
                cost,
            })
            .collect();
        let saw = Saw { kerf: self.stock.cutting.kerf, trim: self.stock.cutting.trim };
        let cut = cut_bars(&pieces, &bars, saw);
        plan.boards.extend(cut.cuts.iter().map(|bar| CutBoard {
            stock: self.kinds[bar.bar],
            pieces: bar.pieces.iter().map(|&piece| self.wanted[piece]).collect(),
            rest: bar.rest,
        }));
        (cut.left_over.clone(), cut.cost, cut.least_cost)
    }

    fn nest(&self, plan: &mut StockPlan, left: &BTreeMap<StockRef, usize>) -> (Vec<usize>, u64, u64) {
        let cutting = &self.stock.cutting;
        let may_turn = self.kinds.iter().all(|kind| kind.of(self.stock).grain == Grain::Free);
        let rectangles: Vec<Rectangle> =
            self.wanted.iter().map(|wanted| Rectangle { size: self.size(*wanted), may_turn }).collect();
        // A router's bit runs between the parts of a sheet; what only boards serve is sawn.
        let bits = self.wanted.iter().map(|wanted| self.members[wanted.member].made.bit);
        let is_sawn = self.kinds.iter().all(|kind| matches!(kind, StockRef::Board(_)));
        let gap = if is_sawn { cutting.kerf } else { bits.fold(Length::ZERO, Length::max) + cutting.between };
        let frame = |kind: &StockRef| {
            let item = kind.of(self.stock);
            let size = match item.grain {
                Grain::Length | Grain::Free => [item.length, item.width],
                Grain::Width => [item.width, item.length],
            };
            let margin = match kind {
                StockRef::Board(_) => [cutting.trim, Length::ZERO],
                StockRef::Sheet(_) => [cutting.margin; 2],
            };
            (size, margin)
        };
        let sheets: Vec<Sheet> = self
            .kinds
            .iter()
            .zip(self.costs())
            .map(|(kind, cost)| {
                let (size, margin) = frame(kind);
                let usable = [0, 1].map(|axis| (size[axis] - margin[axis] * 2.0).max(Length::ZERO));
                Sheet { size: usable, count: left.get(kind).copied(), cost }
            })
            .collect();
        let packing = pack(&rectangles, &sheets, gap);
        let before = plan.sheets.len();
        plan.sheets.extend(packing.sheets.iter().enumerate().map(|(index, kind)| {
            let stock = self.kinds[*kind];
            let (size, [x, y]) = frame(&stock);
            let number = before + index + 1;
            NestedSheet { number, stock, size, margin: Vector2::new(x, y), placed: Vec::new() }
        }));
        let mut left_over = Vec::new();
        for (index, place) in packing.places.iter().enumerate() {
            match place {
                Some(place) => plan.sheets[before + place.sheet].placed.push((self.wanted[index], *place)),
                None => left_over.push(index),
            }
        }
        // From left to right, as a saw takes them off a board.
        for sheet in &mut plan.sheets[before..] {
            let corner = |(_, place): &(Wanted, Packed)| [place.room.min.x, place.room.min.y];
            sheet.placed.sort_by(|one, other| {
                let ([left, below], [other_left, other_below]) = (corner(one), corner(other));
                left.total_cmp(&other_left).then(below.total_cmp(&other_below))
            });
        }
        (left_over, packing.cost, packing.least_cost)
    }

    fn why_left_over(&self, wanted: Wanted) -> String {
        let [along, across] = self.size(wanted);
        let keys: Vec<String> = self.kinds.iter().map(|kind| kind.key()).collect();
        let longest =
            self.kinds.iter().map(|kind| kind.of(self.stock).length).fold(Length::ZERO, Length::max);
        format!(
            "{along} by {across} finds no room on {}, of which the longest has {longest}: add one that is longer and wider, or a larger count",
            keys.join(", ")
        )
    }
}
