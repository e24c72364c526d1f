//! The tables: kits, shopping, cuts.

use export::table::Table;
use spec::{Price, Prices, StockItem, StockList};
use units::Length;

use super::kit::{KitLine, cost, summed};
use super::member::Member;
use super::stock_plan::{StockPlan, StockRef, Unserved, Wanted};

/// What stands where a price is not known.
const UNKNOWN: &str = "unknown";

fn table(heading: &[&str], rows: Vec<Vec<String>>) -> Table {
    Table { heading: heading.iter().map(ToString::to_string).collect(), rows }
}

fn mm(length: Length) -> String {
    format!("{:.2}", length.as_mm())
}

/// A kit's line with its price and cost, and the cost where it is known.
fn kit_row(line: &KitLine, prices: Option<&Prices>) -> (Vec<String>, Option<Price>) {
    let [amount, unit] = line.amount.written();
    let price = prices.and_then(|prices| line.price(prices));
    let cost = price.map(|price| cost(line.amount, price));
    let money = |price: Option<Price>| price.map_or(UNKNOWN.to_owned(), |price| price.to_string());
    (vec![line.item.to_owned(), line.size.clone(), amount, unit, money(price), money(cost)], cost)
}

/// A sum of which some are not known: "12.50", or "at least 12.50".
fn sum(costs: &[Option<Price>]) -> String {
    let known: u64 = costs.iter().flatten().map(|price| price.as_hundredths()).sum();
    let known = Price::hundredths(known);
    match costs.iter().filter(|cost| cost.is_none()).count() {
        0 => known.to_string(),
        missing if missing == costs.len() => UNKNOWN.to_owned(),
        _ => format!("at least {known}"),
    }
}

/// What each student gets, with what it costs.
pub(super) fn kit_list(members: &[Member], stock: Option<&StockList>) -> Table {
    let prices = stock.map(|stock| &stock.prices);
    let mut rows = Vec::new();
    for (index, member) in members.iter().enumerate() {
        let tag = member.tag(index);
        let mut costs = Vec::new();
        for line in &member.made.kit {
            let line = KitLine { amount: line.amount.times(member.enrolment.quantity), ..line.clone() };
            let (cells, cost) = kit_row(&line, prices);
            costs.push(cost);
            rows.push([vec![tag.clone(), member.made.instrument.clone()], cells].concat());
        }
        let blank = String::new;
        let total = vec![
            tag,
            member.made.instrument.clone(),
            "in all".into(),
            blank(),
            blank(),
            blank(),
            blank(),
            sum(&costs),
        ];
        rows.push(total);
    }
    table(&["student", "instrument", "item", "size", "amount", "unit", "price", "cost"], rows)
}

/// What the class buys together, boards and sheets first.
pub(super) fn shopping_list(
    members: &[Member],
    stock: Option<&StockList>,
    plan: Option<&StockPlan>,
) -> Table {
    let mut rows = Vec::new();
    let mut costs: Vec<Option<Price>> = Vec::new();
    if let (Some(stock), Some(plan)) = (stock, plan) {
        for (kind, count) in plan.used() {
            let item = kind.of(stock);
            let price = if item.offcut { Some(Price::hundredths(0)) } else { item.price };
            let cost = price.map(|price| Price::hundredths(price.as_hundredths() * count as u64));
            let money = |price: Option<Price>| price.map_or(UNKNOWN.to_owned(), |price| price.to_string());
            let name = match kind {
                StockRef::Board(_) => "board",
                StockRef::Sheet(_) => "sheet",
            };
            let name = if item.offcut { format!("{name}, an offcut in hand") } else { name.to_owned() };
            rows.push(vec![
                name,
                described(item),
                count.to_string(),
                "pieces".into(),
                money(price),
                money(cost),
            ]);
            costs.push(cost);
        }
    }
    let all = members.iter().flat_map(|member| {
        let times = member.enrolment.quantity;
        member.made.kit.iter().map(move |line| KitLine { amount: line.amount.times(times), ..line.clone() })
    });
    let mut lines = summed(all);
    // Same things together, in the order in which the first instrument has them.
    let order: Vec<&str> = lines.iter().map(|line| line.item).collect();
    let place = |item: &str| order.iter().position(|other| *other == item);
    lines.sort_by(|one, other| place(one.item).cmp(&place(other.item)).then(one.size.cmp(&other.size)));
    for line in &lines {
        let (cells, cost) = kit_row(line, stock.map(|stock| &stock.prices));
        rows.push(cells);
        costs.push(cost);
    }
    let blank = String::new;
    rows.push(vec!["in all".into(), blank(), blank(), blank(), blank(), sum(&costs)]);
    table(&["item", "size", "amount", "unit", "price", "cost"], rows)
}

/// A board or a sheet in words.
pub(super) fn described(item: &StockItem) -> String {
    format!("{}, {} by {}, {} thick", item.wood.name(), item.length, item.width, item.thickness)
}

const CUTS: [&str; 12] = [
    "stock",
    "what",
    "number",
    "cut",
    "student",
    "part",
    "length mm",
    "width mm",
    "thickness mm",
    "from left mm",
    "from below mm",
    "rest mm",
];

/// What is cut from each board and sheet, in cutting order; what nothing serves, last.
pub(super) fn cut_list(members: &[Member], stock: &StockList, plan: &StockPlan) -> Table {
    let mut rows = Vec::new();
    let cells = |wanted: Wanted, turned: bool| {
        let piece = wanted.of(members);
        let [along, across, thick] = piece.blank;
        let [along, across] = if turned { [across, along] } else { [along, across] };
        let tag = members[wanted.member].tag(wanted.member);
        vec![tag, piece.title.to_owned(), mm(along), mm(across), mm(thick)]
    };
    let head = |kind: StockRef, number: usize, cut: usize| {
        vec![kind.key(), described(kind.of(stock)), number.to_string(), cut.to_string()]
    };
    for (index, board) in plan.boards.iter().enumerate() {
        let mut from_left = stock.cutting.trim;
        for (cut, wanted) in board.pieces.iter().enumerate() {
            let is_last = cut + 1 == board.pieces.len();
            let rest = if is_last { mm(board.rest) } else { String::new() };
            let place = vec![mm(from_left), String::new(), rest];
            rows.push([head(board.stock, index + 1, cut + 1), cells(*wanted, false), place].concat());
            from_left = from_left + wanted.of(members).blank[0] + stock.cutting.kerf;
        }
    }
    for sheet in &plan.sheets {
        for (cut, (wanted, place)) in sheet.placed.iter().enumerate() {
            let at = place.room.min + sheet.margin;
            let at = vec![format!("{:.2}", at.x), format!("{:.2}", at.y), String::new()];
            rows.push([head(sheet.stock, sheet.number, cut + 1), cells(*wanted, place.turned), at].concat());
        }
    }
    for Unserved { wanted, why } in &plan.unserved {
        let head = vec!["none".to_owned(), why.clone(), String::new(), String::new()];
        rows.push([head, cells(*wanted, false), vec![String::new(); 3]].concat());
    }
    table(&CUTS, rows)
}

/// The pieces to cut where nothing is said of stock: by wood and thickness, the longest first.
pub(super) fn pieces_list(members: &[Member]) -> Table {
    let mut pieces: Vec<(&str, [Length; 3], Vec<String>)> = Vec::new();
    for (index, member) in members.iter().enumerate() {
        for piece in &member.made.pieces {
            let quantity = piece.quantity * member.enrolment.quantity;
            let [along, across, thick] = piece.blank;
            let cells = vec![
                piece.need.words().to_owned(),
                mm(thick),
                mm(along),
                mm(across),
                member.tag(index),
                piece.title.to_owned(),
                quantity.to_string(),
            ];
            pieces.push((piece.need.words(), piece.blank, cells));
        }
    }
    pieces.sort_by(|one, other| {
        let by = |axis: usize| other.1[axis].as_mm().total_cmp(&one.1[axis].as_mm());
        one.0.cmp(other.0).then(by(2)).then(by(0)).then(by(1))
    });
    let heading = ["wood", "thickness mm", "length mm", "width mm", "student", "part", "quantity"];
    table(&heading, pieces.into_iter().map(|(_, _, cells)| cells).collect())
}
