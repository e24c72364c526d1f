//! Do simple parts have the volumes that are worked out by hand?

use layout::Layout;
use parts::Part;
use spec::Document;
use units::{ChordTolerance, Length, math};

const PI: f64 = std::f64::consts::PI;

/// Fine enough that facets count for less than the 0.005 % that is allowed, which is half of a zero fret's slot.
const CHORD: ChordTolerance = ChordTolerance::new(Length::mm(0.0002));

fn laid_out(text: &str) -> Layout {
    let document = Document::parse(format!("units = \"mm\"\n{text}").as_bytes());
    let (spec, _) = document.read().into_result().unwrap_or_else(|faults| panic!("unsound: {faults:#?}"));
    layout::layout(&spec).unwrap_or_else(|fault| panic!("cannot be laid out: {fault}"))
}

fn part(layout: &Layout, name: &str) -> Part {
    let set = parts::parts(layout);
    assert!(set.faults.is_empty(), "no part may fail: {:?}", set.faults);
    set.parts.into_iter().find(|part| part.name == name).unwrap_or_else(|| panic!("there is a {name}"))
}

/// The volume of a part's mesh against a closed form, in cubic millimetres, within 0.005 %.
#[track_caller]
fn check_volume(layout: &Layout, name: &str, expected: f64) {
    let solid = part(layout, name).solid.unwrap_or_else(|| panic!("the {name} is solid"));
    let mesh = solid.body.mesh(CHORD).unwrap_or_else(|fault| panic!("{name}: {fault}"));
    let found = mesh.volume();
    assert!(
        (found - expected).abs() <= 5e-5 * expected,
        "{name}: expected {expected} mm3 within 0.005 %, found {found}"
    );
}

/// A stick of 40 mm by 20 mm, butted to a box that begins 635 - (254 - 63.5) = 444.5 mm from the zero fret; the nut's
/// front face lies 4 mm before the zero fret, and a headstock of 6 + 150 mm by 10 mm beyond it.
const STICK: &str = "neck.joint = \"butt\"\nneck.width_at_nut = 40\nneck.width_at_box = 40\nneck.thickness = 20\n\
                     headstock.length = 150\nheadstock.thickness = 10\nheadstock.tuner_bore = 8\n\
                     heel.depth = 50\nheel.reach = 30\n";

const HEADSTOCK: f64 = 156.0 * 40.0 * 10.0 - 3.0 * PI * 16.0 * 10.0;
const PLAYING_LENGTH: f64 = 448.5;

/// The zero fret's slot, 0.6 mm wide and 1.6 mm deep.
const SLOT: f64 = 0.6 * 1.6;

#[test]
fn a_square_neck_is_two_bars_less_bores_and_a_slot() {
    let layout = laid_out(&format!("{STICK}neck.section = \"square\""));
    check_volume(&layout, "neck", HEADSTOCK + PLAYING_LENGTH * 800.0 - SLOT * 40.0);
}

#[test]
fn an_eased_neck_loses_what_squares_have_over_quarter_circles() {
    let layout = laid_out(&format!("{STICK}neck.section = \"eased\"\nneck.edge_radius = 8"));
    let eased = 800.0 - 2.0 * 64.0 * (1.0 - PI / 4.0);
    check_volume(&layout, "neck", HEADSTOCK + PLAYING_LENGTH * eased - SLOT * 40.0);
}

// Half width 20, rise 12, small radius 6, large radius 76/3, its centre 40/3 above the shoulders: two sectors of the small
// circles, one of the large circle, less the triangle between the three centres, whose base is 28 and height 40/3.
#[test]
fn an_oval_neck_ends_in_a_three_centred_arch() {
    let layout = laid_out(&format!("{STICK}neck.section = \"oval\""));
    let flat = math::atan2(14.0, 40.0 / 3.0);
    let large: f64 = 76.0 / 3.0;
    let arch = 36.0 * (PI / 2.0 - flat) + large * large * flat - 14.0 * 40.0 / 3.0;
    check_volume(&layout, "neck", HEADSTOCK + PLAYING_LENGTH * (40.0 * 8.0 + arch) - SLOT * 40.0);
}

// From 40 mm to 50 mm wide: 45 mm in the mean, and each slot as long as the board is wide there.
#[test]
fn a_flat_fretboard_is_a_tapered_plank_less_its_slots() {
    let text = "neck.width_at_box = 50\nneck.width_at_nut = 40\nfretboard.thickness = 6\nfrets.kind = \"fret wire\"\n\
                scale.frets = 12\nneck.thickness = 20\nneck.joint = \"butt\"";
    let layout = laid_out(text);
    let slots: f64 = (0..=12)
        .map(|fret| 635.0 * (1.0 - math::exp2(-f64::from(fret) / 12.0)))
        .map(|x| SLOT * (40.0 + 10.0 * (x + 4.0) / PLAYING_LENGTH))
        .sum();
    check_volume(&layout, "fretboard", PLAYING_LENGTH * 6.0 * 45.0 - slots);
}

// Half width 20 on a radius of 250 mm: the crown over the edges is a segment of a circle.
#[test]
fn a_crowned_fretboard_is_a_plank_under_a_segment_of_a_circle() {
    let text = "neck.width_at_box = 40\nneck.width_at_nut = 40\nfretboard.thickness = 6\nfretboard.radius = 250\n\
                frets.kind = \"fret wire\"\nscale.frets = 12\nneck.thickness = 20\nneck.joint = \"butt\"";
    let layout = laid_out(text);
    let half_sweep = math::asin(20.0 / 250.0);
    let sagitta = 250.0 * (1.0 - math::cos(half_sweep));
    let segment = 250.0 * 250.0 * (2.0 * half_sweep - math::sin(2.0 * half_sweep)) / 2.0;
    let section = 40.0 * (6.0 - sagitta) + segment;
    check_volume(&layout, "fretboard", PLAYING_LENGTH * section - 13.0 * SLOT * 40.0);
}

// A slot's section is a half circle under straight walls; between the two faces its floor falls evenly.
#[test]
fn a_nut_is_a_block_less_its_slots() {
    let layout = laid_out("");
    let nut = layout.nut();
    let thickness = (nut.front_x - nut.rear_x).as_mm();
    let slots: f64 = nut
        .slots
        .iter()
        .map(|slot| {
            // Cut across aslant, a slot is wider than the saw.
            let aslant = (slot.front.y - slot.rear.y).as_mm() / (slot.front.x - slot.rear.x).as_mm();
            let width = slot.width.as_mm() * math::hypot(1.0, aslant);
            let floor = (slot.front.z + slot.rear.z).as_mm() / 2.0;
            width * (nut.top_z.as_mm() - floor - width / 2.0) + PI * width * width / 8.0
        })
        .sum();
    let block = nut.length.as_mm() * (nut.top_z - nut.base_z).as_mm();
    check_volume(&layout, "nut", thickness * (block - slots));
}

/// A block less stepped string bores, and screw holes with right-angled countersinks.
#[track_caller]
fn check_tail_block(text: &str, string_bores: f64, screw_holes: f64) {
    let layout = laid_out(text);
    let tail = layout.tail();
    let size = |ends: [Length; 2]| (ends[1] - ends[0]).as_mm();
    let (along, across, above) = (size(tail.along), size(tail.across), size(tail.above));
    let (deep_for_strings, deep_for_screws) = match tail.kind {
        layout::TailKind::BlockOnLid => (along, above),
        _ => (above, along),
    };
    let string = PI * (0.64 * (deep_for_strings - 4.0) + 5.0625 * 4.0);
    let screw = &tail.screws[0].screw;
    let (hole, head) = (screw.clearance.as_mm() / 2.0, screw.head.as_mm() / 2.0);
    let sink = head - hole;
    let cone = PI * sink * (head * head + head * hole + hole * hole) / 3.0;
    let drilled = cone + PI * hole * hole * (deep_for_screws - sink);
    check_volume(
        &layout,
        "tail-block",
        along * across * above - string_bores * string - screw_holes * drilled,
    );
}

#[test]
fn a_tail_block_on_the_lid_is_a_block_less_its_bores() {
    check_tail_block("", 3.0, 2.0);
}

#[test]
fn a_tail_block_on_the_end_is_a_block_less_its_bores() {
    check_tail_block("tail.hole_height = -5\ntail.distance = 75", 3.0, 2.0);
}

// A bar with a 2 mm wall round its slots and its bore, 6 mm of bore behind the counterbore, and 12 mm of the saddle's
// foot behind it, as thick as the saddle and higher than the bar by what is let in.
#[test]
fn a_printed_coupon_is_a_bar_less_slots_and_a_bore_and_with_a_foot() {
    for (text, foot) in [("", 0.0), ("saddle.kind = \"let in\"\nsaddle.thickness = 8\nbox.lid = 3", 8.0)] {
        let layout = laid_out(text);
        let nut = layout.nut();
        let slots: Vec<(f64, f64)> =
            nut.slots.iter().map(|slot| (slot.width.as_mm(), (nut.top_z - slot.front.z).as_mm())).collect();
        let sections: f64 =
            slots.iter().map(|(width, depth)| width * (depth - width / 2.0) + PI * width * width / 8.0).sum();
        let across: f64 = 2.0 + slots.iter().map(|slot| slot.0 + 2.0).sum::<f64>() + 6.5;
        let deepest = slots.iter().map(|slot| slot.1).fold(0.0, f64::max);
        let height = (deepest + 2.0).max(8.5);
        let width = across + if foot > 0.0 { 12.0 } else { 0.0 };
        let bore = PI * (2.25 * 2.25 * 4.0 + 0.8 * 0.8 * 6.0);
        let expected = (width * height - sections) * 10.0 - bore + 12.0 * foot * (height + 1.5);
        check_volume(&layout, "coupon-printed", expected);
        let size = part(&layout, "coupon-printed").blank.map(Length::as_mm);
        for (side, most) in size.iter().zip([60.0, 30.0, 12.0]) {
            assert!(*side < most, "a coupon is small: {size:?} mm");
        }
    }
}

// 30 mm by 30 mm under a neck 40 mm wide, less a bevel of half the reach.
#[test]
fn a_heel_is_a_bevelled_bar() {
    let layout = laid_out(&format!("{STICK}neck.section = \"square\""));
    check_volume(&layout, "heel-block", 40.0 * (30.0 * 30.0 - 15.0 * 15.0 / 2.0));
}

/// What is gone beside a crest of 2 mm radius, on a side `room` wide whose flank falls by `fall` radians: over the arc,
/// then over the straight flank.
fn beside_crest(room: f64, fall: f64) -> f64 {
    let out = 2.0 * math::sin(fall);
    let down = 2.0 * (1.0 - math::cos(fall));
    let over_arc = 2.0 * out - (out * 2.0 * math::cos(fall) + 4.0 * fall) / 2.0;
    let flank = room - out;
    over_arc + flank * down + flank * flank * math::tan(fall) / 2.0
}

// One string: the same section all along. Flanks fall by 15 degrees, or 5 degrees more than the string behind them.
#[test]
fn a_saddle_for_one_string_is_a_prism() {
    let layout = laid_out("strings = [{ pitch = \"G3\", diameter = 0.43 }]\nsaddle.spread = 10");
    let saddle = layout.saddle();
    let crest = saddle.crests[0];
    let string = &layout.strings()[0];
    let behind = (string.tail_angle(layout.frame()).as_degrees() + 5.0).max(15.0);
    let (offset, half) = (crest.offset.as_mm(), saddle.thickness.as_mm() / 2.0);
    let section = crest.above.as_mm() * half * 2.0
        - beside_crest(half + offset, 15.0_f64.to_radians())
        - beside_crest(half - offset, behind.to_radians());
    check_volume(&layout, "saddle", (saddle.ends[1] - saddle.ends[0]).as_mm() * section);
}
