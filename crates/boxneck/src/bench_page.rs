//! What does a builder read at the bench?
//!
//! Plain text, at most 100 columns: every station in millimetres and inches from one datum, what stops the next fret,
//! heights, angles, places on the box, wire to buy, and what does not fit.

macro_rules! line {
    ($page:expr) => { line($page, format_args!("")) };
    ($page:expr, $($text:tt)*) => { line($page, format_args!($($text)*)) };
}

mod how_it_plays;
mod setup;
mod tolerances;

use std::fmt::Write;

use fit::{Remedy, Severity};
use layout::{Layout, Obstacle, Shortfall, TailKind};
use spec::{BoardRadius, Choice, FretKind, Joint};
use units::{Length, LengthForm};

use crate::instrument::Instrument;

pub use setup::setup_page;
pub use tolerances::tolerances_page;

/// The page for one instrument.
#[must_use]
pub fn bench_page(instrument: &Instrument) -> String {
    let layout = instrument.layout();
    let mut page = String::new();
    heading(&mut page, layout);
    findings(&mut page, instrument);
    frets(&mut page, layout);
    strings(&mut page, layout);
    how_it_plays::playing(&mut page, instrument);
    nut(&mut page, layout);
    places(&mut page, layout);
    wire(&mut page, layout);
    page
}

/// Writing to a string cannot fail; this says so once.
fn line(page: &mut String, text: std::fmt::Arguments<'_>) {
    writeln!(page, "{text}").expect("a string takes all text");
}

fn both(length: Length) -> String {
    format!("{length} ({})", length.written(LengthForm::Sixtyfourths))
}

fn heading(page: &mut String, layout: &Layout) {
    let spec = layout.spec();
    line!(page, "{}", spec.name);
    line!(
        page,
        "{}-handed, {} string{}, {} neck of {}, scale length {}",
        spec.handed.word(),
        spec.strings.len(),
        if spec.strings.len() == 1 { "" } else { "s" },
        spec.neck.joint.word(),
        spec.neck.wood.name(),
        both(spec.scale.length),
    );
}

fn findings(page: &mut String, instrument: &Instrument) {
    line!(page);
    line!(page, "WHAT DOES NOT FIT");
    let mut worth_saying: Vec<_> =
        instrument.findings().iter().filter(|finding| finding.severity > Severity::Pass).collect();
    worth_saying.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    for finding in &worth_saying {
        line!(page, "  {:4}  {}: {finding}", finding.severity.word(), finding.check.id);
    }
    mends(page, instrument.remedies());
    if worth_saying.is_empty() {
        line!(page, "  nothing: {} checks hold", instrument.findings().len());
    }
}

fn mends(page: &mut String, remedies: &[Remedy]) {
    if remedies.is_empty() {
        return;
    }
    line!(page);
    line!(page, "WHAT WOULD CURE IT  (each tried: it cures, and breaks nothing that holds)");
    for Remedy { check, mends, at_odds, is_cut_short } in remedies {
        for (place, mend) in mends.iter().enumerate() {
            let or = if place == 0 { "" } else { "or " };
            line!(page, "  {}: {or}{mend}", check.id);
        }
        match (mends.as_slice(), at_odds.as_slice()) {
            ([], _) if *is_cut_short => {
                line!(page, "  {}: not found in the time that is taken; mend the others first", check.id);
            }
            ([], []) => line!(page, "  {}: no key that it names cures it", check.id),
            ([], at_odds) => {
                line!(
                    page,
                    "  {}: every change that cures it breaks another: {}",
                    check.id,
                    at_odds.join(", ")
                );
            }
            _ => {}
        }
    }
}

fn frets(page: &mut String, layout: &Layout) {
    let plan = layout.frets();
    line!(page);
    line!(
        page,
        "FRETS  {} of the {} that are wanted, measured from the crown of the zero fret",
        plan.frets.len(),
        plan.reach.wanted
    );
    if let Some(stop) = &plan.reach.wrapped_stop {
        line!(page, "  seated wire from fret {} on: {}", stop.number, stopped(stop));
    }
    match &plan.reach.stop {
        Some(stop) => line!(page, "  no more than these: {}", stopped(stop)),
        None => line!(page, "  nothing stops the next one"),
    }
    line!(page, "  fret  semitone  {:>10}  {:<24}  {:<12}  neck width", "mm", "inches", "made of");
    for fret in &plan.frets {
        line!(
            page,
            "  {:>4}  {:>8}  {:>10.2}  {:<24}  {:<12}  {}",
            fret.number,
            fret.semitone,
            fret.x.as_mm(),
            fret.x.written(LengthForm::Sixtyfourths).to_string(),
            fret.kind.word(),
            fret.width,
        );
    }
}

fn stopped(stop: &Shortfall) -> String {
    let obstacle = match stop.obstacle {
        Obstacle::Heel => "the heel",
        Obstacle::Box => "the box",
        Obstacle::Neighbour => "the wire before it",
    };
    format!("fret {} would be at {} and lacks {} to {obstacle}", stop.number, stop.x, stop.lacks)
}

fn strings(page: &mut String, layout: &Layout) {
    let spec = layout.spec();
    let frets = &layout.frets().frets;
    line!(page);
    line!(
        page,
        "STRINGS  bass to treble; action is the underside over the crown; angles are turns of the string"
    );
    let last = frets.last().map_or(0, |fret| fret.number);
    line!(
        page,
        "  string  note   diameter   action at 1  at {:>2}      at {last:>2}      zero fret  nut      saddle",
        middle(layout).map_or(0, |index| frets[index].number),
    );
    for path in layout.strings() {
        let action = |index: Option<usize>| {
            index.and_then(|index| path.actions.get(index)).map_or_else(String::new, ToString::to_string)
        };
        line!(
            page,
            "  {:>6}  {:<5}  {:<9}  {:<11}  {:<8}  {:<8}  {:<9}  {:<7}  {}",
            path.number.0,
            path.pitch.to_string(),
            path.diameter.to_string(),
            action(Some(0)),
            action(middle(layout)),
            action(frets.len().checked_sub(1)),
            path.break_at_zero_fret().to_string(),
            path.break_at_nut().to_string(),
            path.break_at_saddle().to_string(),
        );
    }
    line!(page, "  wanted: {} over the {}th semitone", spec.action.height, spec.action.fret);
}

/// The fret at which the document wants its action, or the middle one.
fn middle(layout: &Layout) -> Option<usize> {
    let frets = &layout.frets().frets;
    let wanted = layout.spec().action.fret;
    frets
        .iter()
        .position(|fret| fret.semitone == wanted)
        .or_else(|| frets.len().checked_sub(1).map(|last| last / 2))
}

fn nut(page: &mut String, layout: &Layout) {
    let nut = layout.nut();
    let edge = -nut.length / 2.0;
    line!(page);
    line!(
        page,
        "NUT  {} long, {} thick, {} high; front face {} behind the zero fret",
        nut.length,
        nut.front_x - nut.rear_x,
        nut.top_z - nut.base_z,
        -nut.front_x
    );
    line!(page, "  string  slot from the bass edge   width     floor above the foot, front and rear");
    for (slot, path) in nut.slots.iter().zip(layout.strings()) {
        let from_edge = if layout.spec().handed == spec::Handed::Left {
            -edge - slot.front.y
        } else {
            slot.front.y - edge
        };
        line!(
            page,
            "  {:>6}  {:<24}  {:<8}  {} and {}",
            path.number.0,
            both(from_edge),
            slot.width.to_string(),
            slot.front.z - nut.base_z,
            slot.rear.z - nut.base_z,
        );
    }
}

fn places(page: &mut String, layout: &Layout) {
    let spec = layout.spec();
    let (neck, frame, saddle, tail) = (layout.neck(), layout.frame(), layout.saddle(), layout.tail());
    line!(page);
    line!(page, "PLACES  from the zero fret along the neck, or on the box as said");
    line!(page, "  neck end of the box     {} from the zero fret", both(frame.neck_end_x));
    if let Some(heel) = layout.heel() {
        line!(page, "  heel                    begins {} from the zero fret", both(heel.front_x));
    }
    line!(
        page,
        "  saddle line             {} from the neck end, {} from the tail end",
        both(saddle.along),
        both(spec.saddle.from_tail_end)
    );
    let heights = saddle.crests.iter().map(|crest| crest.above.to_string()).collect::<Vec<_>>().join(", ");
    line!(page, "  saddle crest            {heights} above the lid, bass to treble");
    let kind = match tail.kind {
        TailKind::BlockOnLid => "block on the lid",
        TailKind::BlockOnEnd => "block on the tail end",
        TailKind::StringThrough => "through the stick's end",
    };
    line!(
        page,
        "  tail                    {kind}, holes {} from the saddle line, {} above the lid",
        spec.tail.distance,
        spec.tail.hole_height
    );
    line!(
        page,
        "  neck                    {} long, headstock {} thick, {} at the nut, {} at the box",
        both(neck.length()),
        spec.headstock.thickness,
        neck.width_at_nut,
        neck.width_at_box
    );
    if neck.joint == Joint::Through {
        line!(
            page,
            "  tongue                  top {} below the lid's top",
            spec.body.lid + spec.neck.tongue_recess
        );
    }
    if let BoardRadius::Radius(radius) = spec.fretboard.radius {
        line!(page, "  fretboard               radius {}", both(radius));
    }
}

fn wire(page: &mut String, layout: &Layout) {
    line!(page);
    line!(page, "WIRE TO BUY  with ends to twist or file, and nothing for mistakes");
    line!(page, "  zero fret               fret wire, {}", both(layout.wire().zero_fret));
    for cut in &layout.wire().cuts {
        let what = match cut.kind {
            FretKind::FretWire => "fret wire".to_owned(),
            FretKind::WrappedWire | FretKind::SeatedWire => {
                let wire = layout.spec().frets.wire;
                format!("copper wire {wire} ({})", wire.diameter())
            }
        };
        line!(page, "  {:<22}  {what}, {} pieces, {} together", cut.kind.word(), cut.pieces, both(cut.total));
    }
}
