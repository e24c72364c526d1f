//! How is a large thing cut into tiles that can be put together again?
//!
//! Tiles form a grid, rows lettered from the top, columns numbered from the left. Neighbours overlap; in the middle of
//! each overlap lies a *seam*, and where seams meet the edge of the grid or one another stand *crosses*, each with a
//! number of its own. A cross is drawn on every tile that it touches, so that two neighbours share at least two.

use geometry::{Bounds2, Point2, Vector2};
use units::Length;

use super::caption::Caption;
use super::pages::Room;
use super::template::{Mark, Template, Words};
use super::typeface::Typeface;
use crate::ExportFault;

/// How much neighbours overlap. Larger wastes paper; smaller leaves no room for a cross and for tape.
const OVERLAP: f64 = 10.0;
/// Room beside the thing for the crosses at the ends of a seam.
const BESIDE: f64 = 8.0;
/// Room around what needs no crosses: the lines' own width is within the bounds, this keeps them off the edge.
const AROUND: f64 = 0.2;
/// Half the size of a cross.
pub(super) const CROSS: Length = Length::mm(3.5);
/// Room between words and the edge of a tile.
const WORDS_INSIDE: f64 = 0.3;

/// A template cut into tiles, with what stands above each of them.
pub(super) struct Piece<'a> {
    /// What it is cut from.
    pub template: &'a Template,
    /// Its marks, words moved to where one tile holds them whole.
    pub marks: Vec<(Mark, Bounds2)>,
    /// How many columns and rows.
    pub count: [usize; 2],
    /// Row by row from the top, each from the left.
    pub tiles: Vec<Tile>,
    /// The crosses, in the order of their numbers, which begin with 1.
    pub crosses: Vec<Point2>,
    /// What stands above each tile.
    pub caption: Caption,
}

/// A window on a template.
pub(super) struct Tile {
    /// Its column from the left and its row from the top.
    pub place: [usize; 2],
    /// What it shows, in the template's frame.
    pub window: Bounds2,
}

impl<'a> Piece<'a> {
    /// Cuts a template, as little as the room on a page makes it.
    pub fn cut(
        template: &'a Template,
        bounds: Bounds2,
        room: &Room,
        typeface: &Typeface,
    ) -> Result<Self, ExportFault> {
        let field = room.field();
        let whole = grown(bounds, [AROUND, AROUND]);
        let caption = Caption::of_whole(template, whole.width(), typeface);
        let fits = caption.width <= field[0] && whole.height() + caption.height <= field[1];
        if fits {
            let tiles = vec![Tile { place: [0, 0], window: whole }];
            let marks = template.marks.iter().map(|mark| (mark.clone(), mark.bounds(typeface))).collect();
            return Ok(Self { template, marks, count: [1, 1], tiles, crosses: Vec::new(), caption });
        }
        let mut beside = [AROUND, AROUND];
        let (area, count, caption) = loop {
            let area = grown(bounds, beside);
            let columns = least_count(area.width(), field[0]);
            let (rows, caption) = rows(template, area, columns, field, typeface);
            let needed = [if rows > 1 { BESIDE } else { AROUND }, if columns > 1 { BESIDE } else { AROUND }];
            let wider = [beside[0].max(needed[0]), beside[1].max(needed[1])];
            if wider == beside {
                break (area, [columns, rows], caption);
            }
            beside = wider;
        };
        let (across, up) =
            (Cuts::of(area.min.x, area.max.x, count[0]), Cuts::of(area.min.y, area.max.y, count[1]));
        let tiles: Vec<Tile> = (0..count[1])
            .flat_map(|row| (0..count[0]).map(move |column| [column, row]))
            .map(|place| {
                let ([left, right], [low, high]) = (across.ends(place[0]), up.ends(count[1] - 1 - place[1]));
                Tile { place, window: Bounds2 { min: Point2::mm(left, low), max: Point2::mm(right, high) } }
            })
            .collect();
        let crosses = crosses(&across, &up);
        let marks = template
            .marks
            .iter()
            .map(|mark| held(mark, &tiles, typeface).map(|mark| (mark.clone(), mark.bounds(typeface))))
            .collect::<Option<Vec<_>>>()
            .ok_or_else(|| ExportFault::WordsTooLong { name: template.name.clone() })?;
        Ok(Self { template, marks, count, tiles, crosses, caption })
    }

    /// Whether it lies in one piece.
    pub fn is_whole(&self) -> bool {
        self.tiles.len() == 1
    }

    /// The size that a tile takes on the page, with its caption.
    pub fn cell(&self, tile: &Tile) -> [Length; 2] {
        [tile.window.width().max(self.caption.width), tile.window.height() + self.caption.height]
    }
}

impl Tile {
    /// Its name in the grid.
    pub fn name(&self) -> String {
        name(self.place)
    }
}

/// The name of a column and a row: "B2" is the second of the second row.
pub(super) fn name([column, row]: [usize; 2]) -> String {
    // Rows beyond the alphabet double the letter, and so on.
    let letter = char::from(b'A' + (row % 26) as u8).to_string().repeat(row / 26 + 1);
    format!("{letter}{}", column + 1)
}

/// Equal windows along one axis.
struct Cuts {
    from: f64,
    to: f64,
    count: usize,
    step: f64,
}

impl Cuts {
    fn of(from: f64, to: f64, count: usize) -> Self {
        let overlap = if count > 1 { OVERLAP } else { 0.0 };
        Self { from, to, count, step: (to - from - overlap) / count as f64 }
    }

    fn ends(&self, place: usize) -> [f64; 2] {
        let overlap = if self.count > 1 { OVERLAP } else { 0.0 };
        let start = self.from + self.step * place as f64;
        [start, start + self.step + overlap]
    }

    fn seams(&self) -> Vec<f64> {
        (1..self.count).map(|place| self.from + self.step * place as f64 + OVERLAP / 2.0).collect()
    }

    /// The seams, and the lines on which the crosses at the ends of the other axis' seams stand.
    fn lines(&self) -> Vec<(f64, bool)> {
        let ends = [(self.from + BESIDE / 2.0, false), (self.to - BESIDE / 2.0, false)];
        let seams = self.seams().into_iter().map(|seam| (seam, true));
        [ends[0]].into_iter().chain(seams).chain([ends[1]]).collect()
    }
}

/// Where seams meet one another or the edge of the grid.
fn crosses(across: &Cuts, up: &Cuts) -> Vec<Point2> {
    let mut crosses = Vec::new();
    for (x, seam_across) in across.lines() {
        for (y, seam_up) in up.lines().into_iter().rev() {
            if seam_across || seam_up {
                crosses.push(Point2::mm(x, y));
            }
        }
    }
    crosses
}

/// The least number of overlapping windows, none wider than `most`.
fn least_count(length: Length, most: Length) -> usize {
    if length <= most {
        return 1;
    }
    ((length.as_mm() - OVERLAP) / (most.as_mm() - OVERLAP)).ceil() as usize
}

/// The least number of rows, and the caption that stands above every tile then.
fn rows(
    template: &Template,
    area: Bounds2,
    columns: usize,
    field: [Length; 2],
    typeface: &Typeface,
) -> (usize, Caption) {
    let width = Length::mm({
        let [left, right] = Cuts::of(area.min.x, area.max.x, columns).ends(0);
        right - left
    });
    let mut rows = 1;
    loop {
        let caption = Caption::of_tiles(template, width, [columns, rows], typeface);
        let needed = least_count(area.height(), field[1] - caption.height);
        if needed <= rows {
            return (rows, caption);
        }
        rows = needed;
    }
}

/// A mark that some tile holds whole, where it is made of words; `None` where no tile can.
fn held(mark: &Mark, tiles: &[Tile], typeface: &Typeface) -> Option<Mark> {
    let Mark::Words(words) = mark else { return Some(mark.clone()) };
    let bounds = words.bounds(typeface);
    let rooms = || tiles.iter().map(|tile| grown(tile.window, [-WORDS_INSIDE, -WORDS_INSIDE]));
    if rooms().any(|room| room.contains_bounds(bounds)) {
        return Some(mark.clone());
    }
    let wide_enough =
        rooms().filter(|room| room.width() >= bounds.width() && room.height() >= bounds.height());
    let moves = wide_enough.map(|room| into(bounds, room));
    let shortest = moves.min_by(|a, b| a.length().total_cmp(&b.length()))?;
    Some(Mark::Words(Words { at: words.at + shortest, ..words.clone() }))
}

/// The shortest way into a room that is large enough.
fn into(bounds: Bounds2, room: Bounds2) -> Vector2 {
    let way = |min: f64, max: f64, low: f64, high: f64| (low - min).max(0.0) + (high - max).min(0.0);
    Vector2::mm(
        way(bounds.min.x, bounds.max.x, room.min.x, room.max.x),
        way(bounds.min.y, bounds.max.y, room.min.y, room.max.y),
    )
}

fn grown(bounds: Bounds2, by: [f64; 2]) -> Bounds2 {
    let step = Vector2::mm(by[0], by[1]);
    Bounds2 { min: bounds.min - step, max: bounds.max + step }
}

#[cfg(test)]
mod tests {
    use geometry::{Outline, Shape};
    use proptest::prelude::*;

    use super::super::template::{Pen, Reading, Side};
    use super::super::{Correction, Paper, PdfOptions};
    use super::*;
    use crate::scene::Figure;

    fn plate(width: f64, height: f64) -> Template {
        let outline =
            Outline::rectangle(Point2::ORIGIN, Point2::mm(width, height)).expect("a plate is sound");
        Template {
            name: "plate".into(),
            title: "Plate".into(),
            notes: vec!["1 × steel, 3 mm thick".into()],
            marks: vec![Mark::Figure(Figure::Shape(Shape::Outline(outline)), Pen::Cut)],
        }
    }

    fn cut(template: &Template) -> Result<(Piece<'_>, Room), ExportFault> {
        let typeface = Typeface::new();
        let bounds = template.bounds(&typeface).expect("something is drawn");
        let options = PdfOptions { paper: Paper::A4, correction: Correction::NONE };
        let room = Room::on(&options, &[(template, bounds)], &typeface);
        Piece::cut(template, bounds, &room, &typeface).map(|piece| (piece, room))
    }

    #[track_caller]
    fn check(width: f64, height: f64, expected: [usize; 2]) {
        let template = plate(width, height);
        let (piece, _) = cut(&template).expect("a plate can be cut");
        assert_eq!(piece.count, expected, "columns and rows of {width} mm by {height} mm on A4");
    }

    #[test]
    fn what_fits_stays_whole() {
        check(50.0, 20.0, [1, 1]);
        check(254.0, 177.8, [1, 1]);
    }

    #[test]
    fn what_is_long_is_cut_across() {
        check(300.0, 40.0, [2, 1]);
        check(900.0, 40.0, [4, 1]);
        check(40.0, 300.0, [1, 2]);
        check(500.0, 300.0, [2, 2]);
    }

    #[test]
    fn tiles_are_named_by_row_and_column() {
        assert_eq!(name([0, 0]), "A1", "the upper left tile");
        assert_eq!(name([1, 1]), "B2", "the second of the second row");
        assert_eq!(name([0, 26]), "AA1", "the row after Z");
    }

    #[test]
    fn words_go_whole_to_one_tile() {
        let mut template = plate(400.0, 30.0);
        // Seams lie in the middle, and these words are longer than the overlap.
        template.marks.push(Mark::Words(Words {
            at: Point2::mm(200.0, 15.0),
            side: Side::Middle,
            reading: Reading::Across,
            size: Length::mm(4.0),
            text: "words over the seam".into(),
        }));
        let (piece, _) = cut(&template).expect("there is room beside the seam");
        let (_, bounds) = piece.marks.last().expect("the words are there");
        let holding = piece.tiles.iter().filter(|tile| tile.window.contains_bounds(*bounds)).count();
        assert_eq!((piece.count, holding), ([2, 1], 1), "one of two tiles holds the words at {bounds:?}");
    }

    #[test]
    fn words_longer_than_a_tile_are_refused() {
        let mut template = plate(400.0, 30.0);
        template.marks.push(Mark::Words(Words {
            at: Point2::mm(0.0, 15.0),
            side: Side::Start,
            reading: Reading::Across,
            size: Length::mm(4.0),
            text: "long ".repeat(40),
        }));
        let found = cut(&template).map(|_| ());
        assert_eq!(found, Err(ExportFault::WordsTooLong { name: "plate".into() }), "240 letters on a tile");
    }

    proptest! {
        #[test]
        fn tiles_cover_the_thing_and_neighbours_share_crosses(width in 1.0..1500.0_f64, height in 1.0..1500.0_f64) {
            let template = plate(width, height);
            let (piece, room) = cut(&template).expect("a plate can be cut");
            let field = room.field();
            prop_assert_eq!(piece.tiles.len(), piece.count[0] * piece.count[1], "a tile for every place");
            let all = piece.tiles.iter().map(|tile| tile.window).reduce(Bounds2::union).expect("there are tiles");
            let drawn = Bounds2 { min: Point2::ORIGIN, max: Point2::mm(width, height) };
            prop_assert!(all.contains_bounds(drawn), "{:?} covers {:?}", all, drawn);
            for tile in &piece.tiles {
                let [across, up] = piece.cell(tile);
                let slack = Length::mm(1e-9);
                prop_assert!(across <= field[0] + slack && up <= field[1] + slack, "{} by {} on {:?}", across, up, field);
            }
            for (place, tile) in piece.tiles.iter().enumerate() {
                for other in &piece.tiles[place + 1..] {
                    let apart = [0, 1].map(|axis| tile.place[axis].abs_diff(other.place[axis]));
                    let both = |cross: &&Point2| [tile, other].iter().all(|tile| {
                        tile.window.contains_bounds(Bounds2::at(**cross).grown(CROSS))
                    });
                    let shared = piece.crosses.iter().filter(both).count();
                    let least = if apart[0] + apart[1] == 1 { 2 } else { 0 };
                    prop_assert!(shared >= least, "{} and {} share {} crosses", tile.name(), other.name(), shared);
                }
            }
        }
    }
}
