//! What does a sheet look like that is ready to be cut?

use geometry::{Datum, Drawing, Operation, Outline, Point2, Shape};
use spec::StockList;
use units::Angle;

use super::member::{Member, at_its_outside};
use super::stock_plan::NestedSheet;

/// The parts' own drawings in their places, each marked with its student, and the edges of the sheet as a guide.
pub(super) fn drawing(members: &[Member], stock: &StockList, sheet: &NestedSheet) -> Drawing {
    let corner = Point2::new(sheet.size[0], sheet.size[1]);
    let edges = Outline::rectangle(Point2::ORIGIN, corner).map(Shape::Outline);
    let mut operations: Vec<Operation> = edges.into_iter().map(Operation::GuideShape).collect();
    for (wanted, place) in &sheet.placed {
        let piece = wanted.of(members);
        let tag = members[wanted.member].tag(wanted.member);
        let number = (wanted.member + 1).to_string();
        let wordings = [format!("{tag} - {}", piece.title), tag, number];
        let marked =
            export::dxf::labelled(&piece.drawing, &wordings).unwrap_or_else(|| piece.drawing.clone());
        let turned = if place.turned { marked.rotated(Angle::degrees(90.0)) } else { marked };
        // A piece has an outside: it was placed by it.
        let Some((laid, _)) = at_its_outside(&turned) else { continue };
        operations.extend(laid.translated(place.room.min.to_vector() + sheet.margin).operations);
    }
    let item = sheet.stock.of(stock);
    Drawing {
        name: format!("sheet-{}", sheet.number),
        title: format!("Sheet {}: {} of {}", sheet.number, sheet.stock.key(), item.wood.name()),
        datum: Datum { point: Point2::ORIGIN, meaning: "lower left corner of the sheet, grain along".into() },
        operations,
    }
}
