//! What does a builder read at the bench once the instrument is strung and measured?

use layout::TailKind;
use layout::setup::{Contact, Judged, Outlook, StringOutlook, Uncertain, Unknown, Work};
use layout::tolerances::Dimension;
use spec::SaddleKind;
use units::Length;

use super::line;
use crate::instrument::Instrument;
use crate::setup::Setup;

/// Taps in a line of the page.
const TAPS_IN_LINE: usize = 4;

/// Buzzing notes in a line of the page.
const NOTES_IN_LINE: usize = 6;

/// The page for one instrument: what it is, how it plays, and what to do in which order.
#[must_use]
pub fn setup_page(instrument: &Instrument, setup: &Setup) -> String {
    let mut page = String::new();
    heading(&mut page, instrument, setup);
    contradictions(&mut page, setup);
    what_it_is(&mut page, setup);
    now(&mut page, setup);
    steps(&mut page, instrument, setup);
    verdict(&mut page, instrument, setup);
    page
}

fn heading(page: &mut String, instrument: &Instrument, setup: &Setup) {
    line!(page, "{}, measured: {} readings", instrument.spec().name, setup.estimate.readings.len());
}

fn now(page: &mut String, setup: &Setup) {
    line!(page);
    line!(page, "HOW IT PLAYS NOW");
    outlook(page, &setup.order.now);
}

fn contradictions(page: &mut String, setup: &Setup) {
    let found = setup.estimate.contradictions();
    if !found.is_empty() {
        line!(page);
        line!(page, "READINGS THAT CONTRADICT THE OTHERS  (set aside; measure them again)");
        for judged in found {
            line!(page, "  {}: {}", judged.reading.of, what_others_say(judged));
        }
    }
    if !setup.estimate.goes_together() && !setup.estimate.readings.is_empty() {
        line!(page);
        line!(
            page,
            "  all readings together stray farther than they should (chi-square {:.0}, at most {:.0}):",
            setup.estimate.misfit,
            setup.estimate.misfit_limit
        );
        line!(
            page,
            "  the instrument is made less well than [tolerances] says, or measured less well than [errors]"
        );
    }
}

fn what_others_say(judged: &Judged) -> String {
    let Judged { reading, others, others_error, .. } = judged;
    match reading.of.kind() {
        spec::measured::Kind::Buzz => {
            format!("heard, where the others leave {others:.2} mm of room, give or take {others_error:.2}")
        }
        kind => format!(
            "read {:.2} {unit}, the others say {others:.2} {unit}, give or take {others_error:.2}",
            reading.value,
            unit = kind.unit()
        ),
    }
}

fn what_it_is(page: &mut String, setup: &Setup) {
    line!(page);
    line!(page, "WHAT IT IS  (made minus planned in mm, give or take one standard deviation)");
    let number_of = |dimension, number| {
        let unknown = Unknown::Part { dimension, number };
        let found = setup.estimate.unknowns.iter().find(|estimated| estimated.unknown == unknown);
        found.map(|found| Uncertain { value: found.value, error: found.error })
    };
    let mut row = |what: &str, found: Option<Uncertain>| {
        if let Some(found) = found {
            line!(page, "  {what:<42} {}", signed(found));
        }
    };
    row(Dimension::NeckSet.words(), number_of(Dimension::NeckSet, 0));
    let bow = setup.estimate.unknowns.iter().find(|estimated| estimated.unknown == Unknown::Bow);
    row("the neck's bow", bow.map(|bow| Uncertain { value: bow.value, error: bow.error }));
    row(Dimension::ZeroFretHeight.words(), number_of(Dimension::ZeroFretHeight, 0));
    for dimension in [Dimension::SaddleHeight, Dimension::SaddlePlace] {
        for (number, end) in ["bass", "treble"].into_iter().enumerate() {
            row(&format!("{}, {end} end", dimension.words()), number_of(dimension, number));
        }
    }
    for dimension in [Dimension::TailHeight, Dimension::TailDistance] {
        row(dimension.words(), number_of(dimension, 0));
    }
    let heights: Vec<String> = (0..)
        .map_while(|number| number_of(Dimension::FretHeights, number))
        .enumerate()
        .map(|(index, found)| format!("{:>2}  {}", index + 1, signed(found)))
        .collect();
    if !heights.is_empty() {
        line!(page, "  the frets' heights{}", strayed(setup.estimate.frets_stray));
        for row in heights.chunks(TAPS_IN_LINE) {
            line!(page, "    {}", row.join("   "));
        }
    }
}

/// A remark where the frets stray farther than the document says.
fn strayed(times: f64) -> String {
    if times > 1.0 {
        format!(", up to {times:.0} times as uneven as the document says")
    } else {
        String::new()
    }
}

fn signed(number: Uncertain) -> String {
    // A negative nothing is nothing.
    let value = (number.value * 100.0).round() / 100.0 + 0.0;
    format!("{value:+.2} \u{b1} {:.2}", number.error)
}

fn outlook(page: &mut String, outlook: &Outlook) {
    line!(
        page,
        "  string  {:<13}  {:<35}  {:<14}  {}",
        "action, mm",
        "tightest, and the room there in mm",
        "notes, cents",
        "drift, cents/mm"
    );
    for string in &outlook.strings {
        line!(
            page,
            "  {:>6}  {:<13}  {:<35}  {:<14}  {}",
            string.number.0,
            format!("{:.2} \u{b1} {:.2}", string.action.value, string.action.error),
            string.tightest().map_or_else(String::new, tightest),
            notes(string),
            signed(string.drift)
        );
    }
    for string in &outlook.strings {
        let notes: Vec<String> = string.buzzes().map(note).collect();
        for row in notes.chunks(NOTES_IN_LINE) {
            line!(page, "  buzzes on string {}: {}", string.number.0, row.join(", "));
        }
    }
}

fn note(contact: &Contact) -> String {
    match contact.fretted {
        0 => format!("open (over {})", contact.over),
        fretted => format!("{fretted} (over {})", contact.over),
    }
}

fn tightest(contact: &Contact) -> String {
    let from = if contact.fretted == 0 { "open".to_owned() } else { format!("fret {}", contact.fretted) };
    format!("{from} over {}: {}", contact.over, signed(contact.room))
}

fn notes(string: &StringOutlook) -> String {
    match string.worst_cents() {
        Some(worst) => format!("{:.1}, worst {:+.1}", string.rms_cents(), worst.value),
        None => String::new(),
    }
}

fn steps(page: &mut String, instrument: &Instrument, setup: &Setup) {
    line!(page);
    line!(page, "WHAT TO DO, IN THIS ORDER");
    if setup.order.steps.is_empty() {
        line!(page, "  nothing");
    }
    for (place, step) in setup.order.steps.iter().enumerate() {
        let words = words(instrument, &step.work);
        for (index, text) in words.iter().enumerate() {
            if index == 0 {
                line!(page, "  {:>2}  {text}", place + 1);
            } else {
                line!(page, "      {text}");
            }
        }
        line!(page, "      then {}", in_short(&step.after));
    }
}

/// "action 2.78 to 2.84 ± 0.04 mm, least room +0.12 ± 0.04 mm, notes within 2.3 cents".
fn in_short(outlook: &Outlook) -> String {
    let actions = || outlook.strings.iter().map(|string| string.action);
    let lowest = actions().map(|action| action.value).fold(f64::INFINITY, f64::min);
    let highest = actions().map(|action| action.value).fold(f64::NEG_INFINITY, f64::max);
    let error = actions().map(|action| action.error).fold(0.0, f64::max);
    let mut said = vec![format!("action {lowest:.2} to {highest:.2} \u{b1} {error:.2} mm")];
    let all = outlook.strings.iter().filter_map(StringOutlook::tightest);
    if let Some(contact) = all.max_by(|a, b| a.probability.total_cmp(&b.probability)) {
        said.push(format!("least room {} mm", signed(contact.room)));
        said.push(format!("notes within {:.1} cents", outlook.worst_rms_cents()));
    }
    said.join(", ")
}

fn words(instrument: &Instrument, work: &Work) -> Vec<String> {
    match work {
        Work::ChangeString { number, from, to } => vec![format!(
            "string {} of {:.3} in ({from}) for one of {:.3} in ({to})",
            number.0,
            from.as_inches(),
            to.as_inches()
        )],
        Work::MoveTail { up } => {
            let how = match (instrument.layout().tail().kind, *up > Length::ZERO) {
                (TailKind::BlockOnLid, true) => "a shim under the block",
                (TailKind::BlockOnLid, false) => "plane the block's foot, or drill lower",
                (TailKind::BlockOnEnd | TailKind::StringThrough, _) => "drill again, and plug the old holes",
            };
            vec![format!(
                "the tail's string holes {} by {:.1} mm: {how}",
                way(*up, "up", "down"),
                up.abs().as_mm()
            )]
        }
        Work::LowerNut { by } => vec![format!(
            "the slots of the nut down by {:.2} mm, so that the strings press on the zero fret",
            by.as_mm()
        )],
        Work::TapWires { taps } => {
            let all: Length = taps.iter().map(|(_, tap)| *tap).sum();
            let each: Vec<String> =
                taps.iter().map(|(fret, tap)| format!("fret {fret} by {:.2} mm", tap.as_mm())).collect();
            let mut said = vec![format!("tap {} down, {:.2} mm in all:", wires(taps.len()), all.as_mm())];
            said.extend(each.chunks(TAPS_IN_LINE).map(|row| row.join(", ")));
            said
        }
        Work::SetSaddleHeight { bass, treble } => {
            let end = |by: &Length| format!("{} {:.2} mm", way(*by, "shim", "plane"), by.abs().as_mm());
            vec![format!(
                "the saddle's height: {} under the bass string, {} under the treble",
                end(bass),
                end(treble)
            )]
        }
        Work::SlideSaddle { bass, treble, turned } => {
            let end = |by: &Length| format!("{:+.1} mm", by.as_mm());
            let what = match instrument.spec().saddle.kind {
                SaddleKind::Floating => "slide the saddle",
                SaddleKind::LetIn => "file the saddle's crests",
            };
            let turned = turned.abs().as_degrees();
            vec![format!(
                "{what} (+ toward the tail): bass {}, treble {}, turned by {turned:.1} deg",
                end(bass),
                end(treble)
            )]
        }
    }
}

fn wires(count: usize) -> String {
    if count == 1 { "one wire".to_owned() } else { format!("{count} wires") }
}

fn way(by: Length, up: &'static str, down: &'static str) -> &'static str {
    if by >= Length::ZERO { up } else { down }
}

fn verdict(page: &mut String, instrument: &Instrument, setup: &Setup) {
    let order = &setup.order;
    line!(page);
    line!(page, "WHEN IT IS DONE");
    outlook(page, order.done());
    let wanted = instrument.spec().action.height;
    if !order.is_low_enough() {
        line!(
            page,
            "  the strings cannot be as low as the {wanted} that is wanted: the wires go down no farther; {} is",
            wanted + order.above_wanted
        );
        line!(page, "  the lowest that frees them. What is measured better can be set lower");
    }
    let unmeasured: Vec<String> = order.unmeasured.iter().map(u8::to_string).collect();
    if !order.is_free() && unmeasured.is_empty() {
        line!(page, "  a string may still touch: measure the frets better, or raise action.height");
    }
    if !order.is_free() && !unmeasured.is_empty() {
        line!(
            page,
            "  a string may still touch: nobody has measured fret {}, so none of them is tapped",
            unmeasured.join(", ")
        );
    }
    if !order.is_in_tune() {
        line!(
            page,
            "  a string stays out of tune: the saddle can be moved no farther, and no gauge near it helps"
        );
    }
    if setup.holds() {
        line!(page, "  every string free, in tune, and as low as is wanted");
    }
}
