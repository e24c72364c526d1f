//! Which printed parts go on which bed, and where on it?

use export::threemf::{Plate, PlateObject, PlatePlace};
use geometry::{Bounds2, Packed, Point2, Rectangle, Sheet, pack};
use parts::{Lying, Part};
use units::Length;

use crate::instrument::Instrument;

/// Between two parts of a plate. Larger makes more plates; smaller lets the skirts and brims that slicers add meet.
const GAP: Length = Length::mm(5.0);

/// The plates that print the parts, as many of each as the instrument needs, in the middle of the bed. A part that is
/// larger than the bed is on none of them.
pub(crate) fn plates(
    instrument: &Instrument,
    lying: &[(&Part, Lying)],
    remark: Option<&'static str>,
) -> Vec<Plate> {
    let printed: Vec<&(&Part, Lying)> = lying.iter().filter(|(part, _)| part.is_printed()).collect();
    let copies: Vec<usize> = printed
        .iter()
        .enumerate()
        .flat_map(|(index, (part, _))| (0..part.quantity).map(move |_| index))
        .collect();
    let rectangles: Vec<Rectangle> = copies
        .iter()
        .map(|&index| {
            let [across, up, _] = printed[index].1.size;
            Rectangle { size: [across, up], may_turn: true }
        })
        .collect();
    let bed = instrument.spec().print.bed;
    let places: Vec<(usize, Packed)> = copies
        .iter()
        .zip(pack(&rectangles, &[Sheet { size: bed, count: None, cost: 1 }], GAP).places)
        .filter_map(|(index, place)| Some((*index, place?)))
        .collect();
    let count = places.iter().map(|(_, place)| place.sheet + 1).max().unwrap_or(0);
    let plate = |sheet: usize| {
        let on_it: Vec<&(usize, Packed)> = places.iter().filter(|(_, place)| place.sheet == sheet).collect();
        let used = on_it.iter().map(|(_, place)| place.room).reduce(Bounds2::union);
        let center = used.map_or(Point2::ORIGIN, Bounds2::center);
        let to_middle = Point2::mm(bed[0].as_mm() / 2.0, bed[1].as_mm() / 2.0) - center;
        let object = |(index, (part, lying)): (usize, &&(&Part, Lying))| PlateObject {
            name: part.name.into(),
            mesh: lying.mesh.clone(),
            places: on_it
                .iter()
                .filter(|(of, _)| *of == index)
                .map(|(_, place)| PlatePlace { room: place.room.translated(to_middle), turned: place.turned })
                .collect(),
        };
        let objects: Vec<PlateObject> =
            printed.iter().enumerate().map(object).filter(|object| !object.places.is_empty()).collect();
        Plate {
            title: title(&instrument.spec().name, sheet, count),
            description: description(&objects, bed, remark),
            objects,
        }
    };
    (0..count).map(plate).collect()
}

/// The stem of the file of a plate, counted from 0.
pub(crate) fn stem(plate: usize) -> String {
    if plate == 0 { "plate".into() } else { format!("plate-{}", plate + 1) }
}

fn title(instrument: &str, plate: usize, of: usize) -> String {
    if of == 1 {
        format!("{instrument}: printed parts")
    } else {
        format!("{instrument}: printed parts, plate {} of {of}", plate + 1)
    }
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

    /// How many parts lie on each plate for a bed, when the parts of the default instrument are wanted some times over.
    #[track_caller]
    fn check(bed: &str, times: usize, expected: &[usize]) {
        let document = Document::parse(b"").with_override("name", "Porch").with_override("print.bed", bed);
        let instrument = Instrument::of(&document).expect("the default instrument is sound");
        let chord = ChordTolerance::new(Length::mm(0.1));
        let lying: Vec<(&Part, Lying)> = instrument
            .parts()
            .parts
            .iter()
            .filter_map(|part| Some((part, part.solid.as_ref()?.lying(chord).expect("it has a mesh"))))
            .collect();
        let wanted: Vec<(&Part, Lying)> = std::iter::repeat_n(lying, times).flatten().collect();
        let counts: Vec<usize> =
            plates(&instrument, &wanted, None).iter().map(|plate| plate.objects.len()).collect();
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
        assert_eq!([stem(0), stem(1), stem(9)], ["plate", "plate-2", "plate-10"], "stems of files");
    }
}
