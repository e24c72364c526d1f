//! Which printed parts go on which bed, and where on it?

use std::collections::BTreeMap;

use export::threemf::{Plate, PlateObject, PlatePlace};
use geometry::{Bounds2, Packed, Point2, Rectangle, Sheet, pack};
use parts::{Lying, Part};
use units::Length;

/// Between two parts of a plate. Larger makes more plates; smaller lets the skirts and brims that slicers add meet.
const GAP: Length = Length::mm(5.0);

/// How the files of plates are called that hold parts of instruments.
pub(crate) const PLATE: &str = "plate";

/// A part to print, and how many.
#[derive(Clone, Debug)]
pub(crate) struct Printed {
    /// Its name in the slicer's list.
    pub name: String,
    /// As it lies on the bed.
    pub lying: Lying,
    pub quantity: usize,
}

impl Printed {
    /// What an instrument's part is printed as; nothing where it is not printed.
    pub fn of(part: &Part, lying: &Lying) -> Option<Self> {
        let quantity = part.quantity as usize;
        part.is_printed().then(|| Self { name: part.name.into(), lying: lying.clone(), quantity })
    }
}

/// The plates that print the parts, in the middle of the bed. A part that is larger than the bed is on none of them.
pub(crate) fn plates(title: &str, printed: &[Printed], bed: [Length; 2], remark: Option<&str>) -> Vec<Plate> {
    let copies: Vec<usize> = printed
        .iter()
        .enumerate()
        .flat_map(|(index, part)| std::iter::repeat_n(index, part.quantity))
        .collect();
    let rectangles: Vec<Rectangle> = copies
        .iter()
        .map(|&index| {
            let [across, up, _] = printed[index].lying.size;
            Rectangle { size: [across, up], may_turn: true }
        })
        .collect();
    let beds = [Sheet { size: bed, count: None, cost: 1 }];
    let places: Vec<(usize, Packed)> = copies
        .iter()
        .zip(pack(&rectangles, &beds, GAP).places)
        .filter_map(|(index, place)| Some((*index, place?)))
        .collect();
    let count = places.iter().map(|(_, place)| place.sheet + 1).max().unwrap_or(0);
    let plate = |sheet: usize| {
        let on_it: Vec<&(usize, Packed)> = places.iter().filter(|(_, place)| place.sheet == sheet).collect();
        let used = on_it.iter().map(|(_, place)| place.room).reduce(Bounds2::union);
        let center = used.map_or(Point2::ORIGIN, Bounds2::center);
        let to_middle = Point2::mm(bed[0].as_mm() / 2.0, bed[1].as_mm() / 2.0) - center;
        let mut objects: BTreeMap<usize, PlateObject> = BTreeMap::new();
        for (index, place) in on_it {
            let part = &printed[*index];
            let object = objects.entry(*index).or_insert_with(|| PlateObject {
                name: part.name.clone(),
                mesh: part.lying.mesh.clone(),
                places: Vec::new(),
            });
            object.places.push(PlatePlace { room: place.room.translated(to_middle), turned: place.turned });
        }
        let objects: Vec<PlateObject> = objects.into_values().collect();
        Plate {
            title: numbered(title, sheet, count),
            description: description(&objects, bed, remark),
            objects,
        }
    };
    (0..count).map(plate).collect()
}

/// The stem of the file of a plate of a kind, counted from 0.
pub(crate) fn stem(kind: &str, plate: usize) -> String {
    if plate == 0 { kind.to_owned() } else { format!("{kind}-{}", plate + 1) }
}

fn numbered(title: &str, plate: usize, of: usize) -> String {
    if of == 1 { title.to_owned() } else { format!("{title}, plate {} of {of}", plate + 1) }
}

/// What lies on the plate, and for which bed.
fn description(objects: &[PlateObject], bed: [Length; 2], remark: Option<&str>) -> String {
    let names: Vec<String> =
        objects.iter().map(|object| format!("{} x {}", object.places.len(), object.name)).collect();
    let said = format!(
        "{}; for a bed of {} by {} mm, {} mm apart",
        names.join(", "),
        bed[0].as_mm(),
        bed[1].as_mm(),
        GAP.as_mm()
    );
    remark.map_or(said.clone(), |remark| format!("{remark}. {said}"))
}

#[cfg(test)]
mod tests {
    use spec::Document;
    use units::ChordTolerance;

    use super::*;
    use crate::instrument::Instrument;

    /// How many parts lie on each plate for a bed, when the parts of the default instrument are wanted some times over.
    #[track_caller]
    fn check(bed: &str, times: usize, expected: &[usize]) {
        let document = Document::parse(b"").with_override("name", "Porch").with_override("print.bed", bed);
        let instrument = Instrument::of(&document).expect("the default instrument is sound");
        let chord = ChordTolerance::new(Length::mm(0.1));
        let printed: Vec<Printed> = instrument
            .parts()
            .parts
            .iter()
            .filter(|part| part.quantity > 0)
            .filter_map(|part| Printed::of(part, &part.solid.as_ref()?.lying(chord).expect("it has a mesh")))
            .collect();
        let wanted: Vec<Printed> = std::iter::repeat_n(printed, times).flatten().collect();
        let plates = plates("Porch: printed parts", &wanted, instrument.spec().print.bed, None);
        let counts: Vec<usize> = plates.iter().map(|plate| plate.objects.len()).collect();
        assert_eq!(counts, expected, "the parts on the plates for a bed of {bed}");
    }

    // A tail block of about 64 by 12 mm, a saddle of 43 by 8 mm and a nut of 38 by 6 mm.

    #[test]
    fn a_bed_takes_all_parts() {
        check("220 mm, 220 mm", 1, &[3]);
        check("70 mm, 51 mm", 1, &[3]);
    }

    #[test]
    fn what_is_larger_than_the_bed_is_left_off() {
        check("51 mm, 51 mm", 1, &[2]);
    }

    #[test]
    fn more_parts_make_more_plates() {
        // Two tail blocks and a saddle are 42 mm deep with their gaps; a nut more would make it 53.
        check("70 mm, 51 mm", 2, &[3, 3]);
    }

    #[test]
    fn plates_are_counted_from_the_second_on() {
        let stems = [0, 1, 9].map(|plate| stem("jigs", plate));
        assert_eq!(stems, ["jigs", "jigs-2", "jigs-10"], "stems of files");
    }
}
