//! Does the layout say what was worked out by hand?

use layout::{BoxFrame, Layout, Obstacle, Place, StringNumber, StringPath, fret_distance};
use spec::{Document, FretKind};
use units::{Angle, Length};

fn laid_out(text: &str) -> Layout {
    let document = Document::parse(format!("units = \"mm\"\n{text}").as_bytes());
    let (spec, _) = document.read().into_result().unwrap_or_else(|faults| panic!("unsound: {faults:#?}"));
    layout::layout(&spec).unwrap_or_else(|fault| panic!("cannot be laid out: {fault}"))
}

#[track_caller]
fn near(what: &str, found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{what}: expected {expected} within {within}, found {found}");
}

/// Stations from the open string to fret 24, computed at 50 digits from `L (1 - 2^(-n / 12))` and printed to 4 places.
#[track_caller]
fn check_stations(scale_length_mm: f64, expected_mm: [f64; 25]) {
    for (semitone, expected) in (0..).zip(expected_mm) {
        let found = fret_distance(Length::mm(scale_length_mm), semitone).as_mm();
        near(&format!("fret {semitone} of {scale_length_mm} mm"), found, expected, 0.5001e-4);
    }
}

#[test]
fn stations_of_25_and_a_half_inches() {
    check_stations(
        647.7,
        [
            0.0000, 36.3526, 70.6649, 103.0514, 133.6202, 162.4733, 189.7069, 215.4121, 239.6746, 262.5753,
            284.1907, 304.5929, 323.8500, 342.0263, 359.1825, 375.3757, 390.6601, 405.0866, 418.7035,
            431.5561, 443.6873, 455.1376, 465.9453, 476.1464, 485.7750,
        ],
    );
}

#[test]
fn stations_of_24_inches() {
    check_stations(
        609.6,
        [
            0.0000, 34.2142, 66.5081, 96.9895, 125.7602, 152.9160, 178.5477, 202.7408, 225.5761, 247.1297,
            267.4736, 286.6756, 304.8000, 321.9071, 338.0541, 353.2948, 367.6801, 381.2580, 394.0739,
            406.1704, 417.5880, 428.3648, 438.5368, 448.1378, 457.2000,
        ],
    );
}

#[test]
fn stations_of_648_mm() {
    check_stations(
        648.0,
        [
            0.0000, 36.3694, 70.6976, 103.0991, 133.6821, 162.5485, 189.7948, 215.5119, 239.7856, 262.6969,
            284.3223, 304.7340, 324.0000, 342.1847, 359.3488, 375.5496, 390.8410, 405.2743, 418.8974,
            431.7559, 443.8928, 455.3484, 466.1611, 476.3670, 486.0000,
        ],
    );
}

#[test]
fn stations_of_650_mm() {
    check_stations(
        650.0,
        [
            0.0000, 36.4817, 70.9158, 103.4173, 134.0947, 163.0502, 190.3806, 216.1770, 240.5257, 263.5077,
            285.1998, 305.6745, 325.0000, 343.2408, 360.4579, 376.7087, 392.0473, 406.5251, 420.1903,
            433.0885, 445.2628, 456.7538, 467.5999, 477.8372, 487.5000,
        ],
    );
}

/// How far the frets go on a scale of 635 mm: the number of frets, of wrapped ones, and what stops the next one by how
/// much. The box begins 635 - (254 - 63.5) = 444.5 mm from the zero fret and the heel 25.4 mm before it.
#[track_caller]
fn check_reach(text: &str, frets: usize, wrapped: u8, stop: Option<(Obstacle, f64)>) {
    let layout = laid_out(text);
    let plan = layout.frets();
    assert_eq!(
        (plan.frets.len(), plan.reach.wrapped),
        (frets, wrapped),
        "frets and wrapped frets of {text:?}"
    );
    assert_eq!(plan.reach.stop.map(|stop| stop.obstacle), stop.map(|stop| stop.0), "obstacle of {text:?}");
    if let (Some(found), Some((_, lacks))) = (plan.reach.stop, stop) {
        near("room lacking", found.lacks.as_mm(), lacks, 1e-3);
    }
}

// Fret 19 at 423.0942 mm, half a wire of 1.2908 mm and 1 mm of free neck: 424.7396, less 419.1.
#[test]
fn wrapped_frets_stop_at_the_heel() {
    check_reach("scale.frets = 22", 18, 18, Some((Obstacle::Heel, 5.6396)));
}

// Fret 21 at 446.2134 mm needs 447.8588; the wall stands at 444.5.
#[test]
fn seated_frets_go_on_over_the_heel_to_the_box() {
    check_reach("scale.frets = 22\nfrets.past_heel = \"seated\"", 20, 18, Some((Obstacle::Box, 3.3588)));
}

#[test]
fn without_a_heel_wrapped_frets_stop_at_the_box() {
    check_reach("scale.frets = 22\nheel.reach = 0", 20, 20, Some((Obstacle::Box, 3.3588)));
}

#[test]
fn nothing_stops_frets_that_leave_room_for_one_more() {
    check_reach("scale.frets = 12", 12, 12, None);
}

// Scale 600 mm, box from 560 mm on. From fret 34 to fret 35: 600 * 2^(-34/12) * (1 - 2^(-1/12)) = 4.7249 mm, where a wire
// of 4 mm wants 4 mm and 1 mm of free neck.
#[test]
fn thick_wires_stop_at_their_neighbours() {
    let text = "scale.length = 600\nscale.frets = 36\nheel.reach = 0\nfrets.wire = \"4 mm\"\n\
                box.length = 100\nsaddle.from_tail_end = 60\nbox.holes = []";
    check_reach(text, 34, 34, Some((Obstacle::Neighbour, 0.2751)));
}

/// Wire for one fret on a neck of 40 mm by 20 mm, wire 1.5 mm, less 30 mm to twist.
#[track_caller]
fn check_wire(text: &str, expected_mm: f64) {
    let layout = laid_out(&format!(
        "neck.width_at_nut = 40\nneck.width_at_box = 40\nneck.thickness = 20\nfrets.wire = \"1.5 mm\"\n{text}"
    ));
    let fret = layout.frets().frets[0];
    assert_eq!(fret.kind, FretKind::WrappedWire, "the default fret is wrapped");
    near(&format!("wire of {text:?}"), fret.wire.as_mm() - 30.0, expected_mm, 1e-9);
}

/// A line at the distance `r` outside a convex outline is longer than it by `2 pi r` (Steiner's formula).
const ROUND_THE_CORNERS: f64 = 1.5 * std::f64::consts::PI;

#[test]
fn wire_round_a_square_neck() {
    check_wire("neck.section = \"square\"", 120.0 + ROUND_THE_CORNERS);
}

#[test]
fn wire_round_an_eased_neck() {
    let text = "neck.section = \"eased\"\nneck.edge_radius = 4";
    check_wire(text, 120.0 - 16.0 + 4.0 * std::f64::consts::PI + ROUND_THE_CORNERS);
}

// Half width 20, rise 0.6 * 20 = 12, small radius 6: the large one is (400 + 144 - 240) / 12 = 76/3, its centre 40/3 above
// the shoulders and 14 inside them, so that the flat arc turns through atan(14 / (40/3)) on either side.
#[test]
fn wire_round_an_oval_neck() {
    let flat = units::math::atan2(14.0, 40.0 / 3.0);
    let arch = 2.0 * 6.0 * (std::f64::consts::FRAC_PI_2 - flat) + 2.0 * (76.0 / 3.0) * flat;
    check_wire("neck.section = \"oval\"", 40.0 + 2.0 * 8.0 + arch + ROUND_THE_CORNERS);
}

// A flat board of 5 mm on a square neck: both of its edges are more to go round.
#[test]
fn wire_round_a_neck_with_a_board() {
    check_wire("neck.section = \"square\"\nfretboard.thickness = 5", 130.0 + ROUND_THE_CORNERS);
}

#[test]
fn a_radius_without_a_board_is_without_effect() {
    let (flat, round) = (laid_out(""), laid_out("fretboard.radius = 200"));
    assert_eq!(flat.strings(), round.strings(), "the frets sit on the flat neck");
    assert_eq!(flat.wire(), round.wire(), "the wire goes round the flat neck");
}

/// A box that leans by 3 degrees: sine 0.0523360, cosine 0.9986295, tangent 0.0524078.
const LEANING: BoxFrame =
    BoxFrame { neck_end_x: Length::mm(400.0), lid_z: Length::mm(-5.0), back_angle: Angle::degrees(3.0) };

#[test]
fn a_leaning_box_has_its_own_coordinates() {
    let place = LEANING.place(Length::mm(100.0), Length::mm(7.0), Length::mm(10.0));
    near("x", place.x.as_mm(), 500.386_313_04, 1e-8);
    near("y", place.y.as_mm(), 7.0, 0.0);
    near("z", place.z.as_mm(), -0.247_300_28, 1e-8);
    near("along", LEANING.along(place).as_mm(), 100.0, 1e-9);
    near("above", LEANING.above(place).as_mm(), 10.0, 1e-9);
}

#[test]
fn the_wall_and_the_lid_of_a_leaning_box() {
    near("wall", LEANING.neck_wall_x(Length::mm(-25.0)).as_mm(), 398.951_844_41, 1e-8);
    near("level", LEANING.level_z(Length::mm(-8.0), Length::mm(500.0)).as_mm(), -18.251_756_70, 1e-8);
    near("height", LEANING.above_at(Length::mm(1.0), Length::mm(100.0)).as_mm(), 11.249_012_00, 1e-8);
}

/// A string that runs 600 mm and rises 6, falls 4 in the next 30, and turns square sideways by 45 degrees at the nut.
fn hand_worked_string() -> StringPath {
    let place = |x, y, z| Place { x: Length::mm(x), y: Length::mm(y), z: Length::mm(z) };
    StringPath {
        number: StringNumber(1),
        pitch: spec::Spec::default().strings[0].pitch,
        diameter: Length::mm(0.4),
        post: place(-29.0, 25.0, 2.0),
        nut: place(-4.0, 0.0, 2.0),
        zero_fret: place(0.0, 0.0, 2.0),
        saddle: place(600.0, 0.0, 8.0),
        tail: place(630.0, 0.0, 4.0),
        actions: Vec::new(),
    }
}

// atan(6 / 600) = 0.5729387 and atan(4 / 30) = 7.5946434 degrees.
#[test]
fn breaks_of_a_hand_worked_string() {
    let string = hand_worked_string();
    near("saddle", string.break_at_saddle().as_degrees(), 8.167_582_1, 1e-6);
    near("zero fret", string.break_at_zero_fret().as_degrees(), 0.572_938_7, 1e-6);
    near("nut", string.break_at_nut().as_degrees(), 45.0, 1e-9);
    let level = BoxFrame { back_angle: Angle::ZERO, ..LEANING };
    near("tail against the lid", string.tail_angle(&level).as_degrees(), 7.594_643_4, 1e-6);
    near("front against the lid", string.front_angle(&level).as_degrees(), 0.572_938_7, 1e-6);
    near("tail against a leaning lid", string.tail_angle(&LEANING).as_degrees(), 4.594_643_4, 1e-6);
    near("front against a leaning lid", string.front_angle(&LEANING).as_degrees(), 3.572_938_7, 1e-6);
}

// Half-way up the string: 5 mm, less half its diameter.
#[test]
fn the_underside_of_a_hand_worked_string() {
    near("underside", hand_worked_string().underside(Length::mm(300.0)).z.as_mm(), 4.8, 1e-12);
}

/// The action over the wanted fret is the wanted action, for every string, whatever else bends.
#[track_caller]
fn check_action(text: &str, fret: usize, expected_mm: f64) {
    for string in laid_out(text).strings() {
        near(
            &format!("action of string {}", string.number.0),
            string.actions[fret - 1].as_mm(),
            expected_mm,
            1e-3,
        );
    }
}

#[test]
fn the_wanted_action_is_there() {
    check_action("", 12, 2.8);
    check_action("action.fret = 7\naction.height = 2", 7, 2.0);
    check_action("fretboard.thickness = 6\nfretboard.radius = 250", 12, 2.8);
}
