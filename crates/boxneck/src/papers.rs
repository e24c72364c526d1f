//! What does a teacher buy, cut, label and hand out for a whole class?
//!
//! A [`Member`] is what of one student's instrument is needed for that; it is small, so that a long roster fits in memory while
//! its instruments come and go. [`class_papers`] makes everything that is made once for all of them.
//!
//! | module | what it answers |
//! | --- | --- |
//! | `member` | what of an instrument does the class need to know |
//! | `kit` | what is bought for one instrument, and what does it cost |
//! | `stock_plan` | which piece is cut from which board or sheet |
//! | `nested_sheet` | what does a sheet look like that is ready to be cut |
//! | `lists` | the tables: kits, shopping, cuts |
//! | `labels` | the labels of parts and kits |
//! | `class_page` | who makes what, and what is not right yet |
//! | `safety_sheet` | what to be careful with, from what is really made and of what |

mod class_page;
mod kit;
mod labels;
mod lists;
mod member;
mod nested_sheet;
mod safety_sheet;
mod stock_plan;

use std::collections::BTreeMap;

use export::Format;
use export::dxf::DxfOptions;
use export::pdf::PdfOptions;
use export::table::Table;
use rayon::prelude::*;
use spec::StockList;
use units::Length;

use crate::make::{BuiltFile, MakeFault, MakeOptions};
use crate::plates::{PLATE, Printed, plates};
use stock_plan::StockPlan;

pub use member::{Absent, Enrolment, Member};

/// How many instruments share plates. Larger takes memory for every mesh; smaller leaves beds half empty. The folders of
/// a longer roster have plates of their own.
pub const SHARED_PLATES: usize = 200;

/// Everything that a class has in common, and who is not among them, with paths relative to the folder of the whole class; the same members give the
/// same bytes.
///
/// - `kit-list.csv`, `shopping-list.csv`, `cut-list.csv`
/// - `labels-a4.pdf` and so on, one for each paper of the options
/// - `class.html` and `safety.html`
/// - `sheets/sheet-1_mm.dxf` and so on, where there is stock that is nested
/// - `plates/plate.3mf` and so on, a bed each, for up to [`SHARED_PLATES`] members
///
/// # Errors
///
/// [`MakeFault`] for what a format cannot hold.
pub fn class_papers(
    title: &str,
    members: &[Member],
    absent: &[Absent],
    stock: Option<&StockList>,
    options: &MakeOptions,
) -> Result<Vec<BuiltFile>, MakeFault> {
    let plan = stock.map(|stock| StockPlan::of(members, stock));
    let mut files = Vec::new();
    let mut add = |path: String, bytes: Vec<u8>| files.push(BuiltFile { path, bytes });
    let shopping = lists::shopping_list(members, stock, plan.as_ref());
    if options.formats.contains(&Format::Csv) {
        let mut table = |stem: &str, table: &Table| -> Result<(), MakeFault> {
            add(Format::Csv.path(stem, options.unit), export::table::write(table)?.into_bytes());
            Ok(())
        };
        table("kit-list", &lists::kit_list(members, stock))?;
        table("shopping-list", &shopping)?;
        let cut_list = match (stock, &plan) {
            (Some(stock), Some(plan)) => lists::cut_list(members, stock, plan),
            _ => lists::pieces_list(members),
        };
        table("cut-list", &cut_list)?;
    }
    if let (Some(stock), Some(plan), true) = (stock, &plan, options.formats.contains(&Format::Dxf)) {
        let dxf = DxfOptions { unit: options.unit, style: options.dxf, ..DxfOptions::default() };
        let drawn = plan.sheets.par_iter().map(|sheet| {
            let drawing = nested_sheet::drawing(members, stock, sheet);
            let stem = export::dxf::stem(&drawing.name, &options.dxf);
            export::dxf::write(&drawing, &dxf).map(|text| (stem, text))
        });
        for (stem, text) in drawn.collect::<Result<Vec<_>, _>>()? {
            let path = Format::Dxf.path(&stem, options.unit);
            add(path.replacen(Format::Dxf.folder(), "sheets", 1), text.into_bytes());
        }
    }
    if options.formats.contains(&Format::ThreeMf) && members.len() <= SHARED_PLATES {
        for (number, plate) in class_plates(title, members).iter().enumerate() {
            let path = format!("plates/{}.3mf", crate::plates::stem(PLATE, number));
            add(path, export::threemf::write(plate)?);
        }
    }
    if options.formats.contains(&Format::Templates) && !members.is_empty() {
        let booklet = labels::booklet(title, members);
        for paper in &options.papers {
            let pdf = PdfOptions { paper: *paper, correction: options.correction };
            let stem = format!("labels-{}", paper.name());
            add(Format::Templates.path(&stem, options.unit), export::pdf::write(&booklet, &pdf)?);
        }
    }
    let page = class_page::page(title, members, absent, stock.zip(plan.as_ref()), &shopping)?;
    add("class.html".into(), page.into_bytes());
    add("safety.html".into(), safety_sheet::page(title, members)?.into_bytes());
    Ok(files)
}

/// The printed parts of all members, bed by bed.
fn class_plates(title: &str, members: &[Member]) -> Vec<export::threemf::Plate> {
    let mut by_bed: BTreeMap<[u64; 2], ([Length; 2], Vec<Printed>)> = BTreeMap::new();
    for (index, member) in members.iter().enumerate() {
        // Lengths of beds are positive, so that their bits are in their order.
        let key = member.made.bed.map(|side| side.as_mm().to_bits());
        let (_, printed) = by_bed.entry(key).or_insert_with(|| (member.made.bed, Vec::new()));
        printed.extend(member.made.printed.iter().map(|part| Printed {
            name: format!("{}: {}", member.tag(index), part.name),
            lying: part.lying.clone(),
            quantity: part.quantity * member.enrolment.quantity as usize,
        }));
    }
    by_bed
        .into_values()
        .flat_map(|(bed, printed)| plates(&format!("{title}: printed parts"), &printed, bed, None))
        .collect()
}
