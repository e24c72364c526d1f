//! Which tile goes on which page, and where?
//!
//! Pages are filled with shelves from the top, shelves from the left, in the order of the templates. The tiles of one
//! thing follow one another: they look for room on the last page only. What is whole goes on the first shelf that has room
//! for it, so that small things fill what large ones leave.

use geometry::{Bounds2, Point2};
use units::Length;

use super::PdfOptions;
use super::caption::Caption;
use super::content::POINTS;
use super::sheet::MARGIN;
use super::template::Template;
use super::tiles::Piece;
use super::typeface::Typeface;
use crate::ExportFault;

/// The height of a page's foot, with the rulers across and the words beside them.
pub(super) const FOOT: Length = Length::mm(9.6);
/// The width of the band on a page's left, with the rulers upward.
pub(super) const BAND: Length = Length::mm(7.6);
/// Room between the foot and what stands above it.
const ABOVE_FOOT: Length = Length::mm(1.0);
/// Room between things.
const BETWEEN: Length = Length::mm(4.0);
/// The least that one sheet for everything offers: the rulers both ways and the words of the foot.
const LEAST_FIELD: [Length; 2] = [Length::mm(260.0), Length::mm(105.0)];
/// The most units that a side of a page may have (ISO 32000-1, annex C.2).
const MOST_UNITS: f64 = 14_400.0;

/// A page's room.
pub(super) struct Room {
    /// Across and up.
    pub sheet: [Length; 2],
    /// What can be printed on, in millimetres of what is drawn, from the sheet's lower left corner.
    pub printable: Bounds2,
}

/// A tile in its place.
pub(super) struct Placed {
    /// The number of the piece.
    pub piece: usize,
    /// The number of its tile.
    pub tile: usize,
    /// From the upper left corner of the field to that of the tile's cell, right and down.
    pub corner: [Length; 2],
}

impl Room {
    /// The room on a paper; on one sheet for everything, as wide as the widest thing and without end.
    pub fn on(options: &PdfOptions, figures: &[(&Template, Bounds2)], typeface: &Typeface) -> Self {
        let sheet = options.paper.size().unwrap_or_else(|| {
            let widest = figures
                .iter()
                .map(|(template, bounds)| Caption::of_whole(template, bounds.width(), typeface).width)
                .fold(LEAST_FIELD[0], Length::max);
            let [across, _] = options.correction.factors();
            [(widest + Length::mm(1.0) + BAND) * across + MARGIN * 2.0, Length::mm(1e6)]
        });
        Self::within(sheet, options)
    }

    /// What is left of the room without end when everything has its place.
    pub fn closed(self, options: &PdfOptions, name: &str, height: Length) -> Result<Self, ExportFault> {
        if options.paper.size().is_some() {
            return Ok(self);
        }
        let [_, up] = options.correction.factors();
        let field = height.max(LEAST_FIELD[1]);
        let sheet = [self.sheet[0], (field + ABOVE_FOOT + FOOT) * up + MARGIN * 2.0];
        let most = Length::mm(MOST_UNITS / POINTS);
        if sheet.iter().any(|side| *side > most) {
            return Err(ExportFault::SheetTooLarge { name: name.to_owned(), found: sheet, most });
        }
        Ok(Self::within(sheet, options))
    }

    fn within(sheet: [Length; 2], options: &PdfOptions) -> Self {
        let factors = options.correction.factors();
        // What is drawn is scaled about the middle of the sheet, and must then lie within the margins.
        let ends = [0, 1].map(|axis| {
            let half = (sheet[axis] / 2.0 - MARGIN) / factors[axis];
            [sheet[axis] / 2.0 - half, sheet[axis] / 2.0 + half]
        });
        let printable =
            Bounds2 { min: Point2::new(ends[0][0], ends[1][0]), max: Point2::new(ends[0][1], ends[1][1]) };
        Self { sheet, printable }
    }

    /// The size of the field on which things are laid.
    pub fn field(&self) -> [Length; 2] {
        [self.printable.width() - BAND, self.printable.height() - FOOT - ABOVE_FOOT]
    }

    /// Its upper left corner on the page.
    pub fn field_corner(&self) -> Point2 {
        Point2::mm(self.printable.min.x + BAND.as_mm(), self.printable.max.y)
    }
}

/// Things on one shelf, side by side.
struct Shelf {
    top: Length,
    height: Length,
    right: Length,
}

/// The tiles of each page, and the height that the fullest page takes.
pub(super) fn packed(pieces: &[Piece<'_>], room: &Room) -> (Vec<Vec<Placed>>, Length) {
    let field = room.field();
    let mut pages: Vec<(Vec<Shelf>, Vec<Placed>)> = Vec::new();
    for (number, piece) in pieces.iter().enumerate() {
        for (tile, shown) in piece.tiles.iter().enumerate() {
            let size = piece.cell(shown);
            let found = pages
                .iter_mut()
                .find_map(|(shelves, placed)| place_on(shelves, size, field).map(|corner| (placed, corner)));
            match found {
                Some((placed, corner)) => placed.push(Placed { piece: number, tile, corner }),
                None => {
                    let shelf = Shelf { top: Length::ZERO, height: size[1], right: size[0] };
                    let corner = [Length::ZERO, Length::ZERO];
                    pages.push((vec![shelf], vec![Placed { piece: number, tile, corner }]));
                }
            }
        }
    }
    let bottom = |shelf: &Shelf| shelf.top + shelf.height;
    let fullest =
        pages.iter().flat_map(|(shelves, _)| shelves.iter().map(bottom)).fold(Length::ZERO, Length::max);
    (pages.into_iter().map(|(_, placed)| placed).collect(), fullest)
}

/// The corner of a place on a shelf with room, or on a new shelf.
fn place_on(shelves: &mut Vec<Shelf>, size: [Length; 2], field: [Length; 2]) -> Option<[Length; 2]> {
    let fits = |shelf: &&mut Shelf| size[1] <= shelf.height && shelf.right + BETWEEN + size[0] <= field[0];
    if let Some(shelf) = shelves.iter_mut().find(fits) {
        let left = shelf.right + BETWEEN;
        shelf.right = left + size[0];
        return Some([left, shelf.top]);
    }
    let top = shelves.last().map_or(Length::ZERO, |shelf| shelf.top + shelf.height + BETWEEN);
    (top + size[1] <= field[1] && size[0] <= field[0]).then(|| {
        shelves.push(Shelf { top, height: size[1], right: size[0] });
        [Length::ZERO, top]
    })
}

#[cfg(test)]
mod tests {
    use geometry::{Outline, Shape};
    use proptest::prelude::*;

    use super::super::template::{Mark, Pen};
    use super::super::{Correction, Paper};
    use super::*;
    use crate::scene::Figure;

    fn plate((width, height): (f64, f64)) -> Template {
        let outline =
            Outline::rectangle(Point2::ORIGIN, Point2::mm(width, height)).expect("a plate is sound");
        let mark = Mark::Figure(Figure::Shape(Shape::Outline(outline)), Pen::Cut);
        Template { name: "plate".into(), title: "Plate".into(), notes: Vec::new(), marks: vec![mark] }
    }

    fn paper() -> impl Strategy<Value = PdfOptions> {
        let measured = || (97.0..103.0_f64).prop_map(Length::mm);
        let papers = proptest::sample::select(Paper::all().collect::<Vec<_>>());
        (papers, measured(), measured()).prop_map(|(paper, across, up)| PdfOptions {
            paper,
            correction: Correction::measured([across, up]).expect("within what a printer does"),
        })
    }

    proptest! {
        #[test]
        fn every_tile_has_a_place_of_its_own_on_paper(
            sizes in proptest::collection::vec((1.0..500.0_f64, 1.0..300.0_f64), 1..12),
            options in paper(),
        ) {
            let templates: Vec<Template> = sizes.into_iter().map(plate).collect();
            let typeface = Typeface::new();
            let figures: Vec<_> = templates
                .iter()
                .map(|template| (template, template.bounds(&typeface).expect("something is drawn")))
                .collect();
            let room = Room::on(&options, &figures, &typeface);
            let pieces: Vec<Piece<'_>> = figures
                .iter()
                .map(|(template, bounds)| Piece::cut(template, *bounds, &room, &typeface).expect("plates are cut"))
                .collect();
            let (pages, height) = packed(&pieces, &room);
            let room = room.closed(&options, "plates", height).expect("twelve plates fit a sheet");
            prop_assert!(options.paper != Paper::Plotter || pages.len() == 1, "one sheet for everything");
            let count: usize = pages.iter().map(Vec::len).sum();
            prop_assert_eq!(count, pieces.iter().map(|piece| piece.tiles.len()).sum::<usize>(), "each tile once");
            let factors = options.correction.factors();
            for page in &pages {
                let cells: Vec<Bounds2> = page
                    .iter()
                    .map(|placed| {
                        let piece = &pieces[placed.piece];
                        let size = piece.cell(&piece.tiles[placed.tile]);
                        let corner = room.field_corner() + geometry::Vector2::new(placed.corner[0], -placed.corner[1]);
                        let other = corner + geometry::Vector2::new(size[0], -size[1]);
                        Bounds2::at(corner).union(Bounds2::at(other))
                    })
                    .collect();
                for (place, cell) in cells.iter().enumerate() {
                    prop_assert!(
                        cells[place + 1..].iter().all(|other| !cell.overlaps(*other)),
                        "{:?} overlaps another", cell
                    );
                    for (axis, ends) in [[cell.min.x, cell.max.x], [cell.min.y, cell.max.y]].into_iter().enumerate() {
                        let middle = room.sheet[axis].as_mm() / 2.0;
                        for end in ends {
                            let off = (end - middle).abs() * factors[axis];
                            let most = middle - MARGIN.as_mm() + 1e-9;
                            prop_assert!(off <= most, "{} mm from the middle, at most {}", off, most);
                        }
                    }
                }
            }
        }
    }
}
