//! What does a builder read at the bench once the instrument is strung and measured?

mod web_page;

pub use web_page::setup_web_page;

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
    for (what, found) in parts(setup) {
        line!(page, "  {what:<42} {}", signed(found));
    }
    let heights: Vec<String> = heights(setup)
        .into_iter()
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

/// What is known of one number of a dimension.
fn number_of(setup: &Setup, dimension: Dimension, number: usize) -> Option<Uncertain> {
    let unknown = Unknown::Part { dimension, number };
    let found = setup.estimate.unknowns.iter().find(|estimated| estimated.unknown == unknown);
    found.map(|found| Uncertain { value: found.value, error: found.error })
}

/// The instrument's parts but for its frets, from the neck to the tail, each with what is known of it.
fn parts(setup: &Setup) -> Vec<(String, Uncertain)> {
    let bow = setup.estimate.unknowns.iter().find(|estimated| estimated.unknown == Unknown::Bow);
    let bow = bow.map(|bow| Uncertain { value: bow.value, error: bow.error });
    let single = |dimension: Dimension| (dimension.words().to_owned(), number_of(setup, dimension, 0));
    let mut rows = vec![
        single(Dimension::NeckSet),
        ("the neck's bow".to_owned(), bow),
        single(Dimension::ZeroFretHeight),
    ];
    for dimension in [Dimension::SaddleHeight, Dimension::SaddlePlace] {
        for (number, end) in ["bass", "treble"].into_iter().enumerate() {
            rows.push((format!("{}, {end} end", dimension.words()), number_of(setup, dimension, number)));
        }
    }
    rows.extend([Dimension::TailHeight, Dimension::TailDistance].map(single));
    rows.into_iter().filter_map(|(what, found)| Some((what, found?))).collect()
}

/// What is known of each fret's height.
fn heights(setup: &Setup) -> Vec<Uncertain> {
    (0..).map_while(|number| number_of(setup, Dimension::FretHeights, number)).collect()
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
    let [action, room, cents] = number_lines(outlook);
    if room.is_empty() {
        return format!("action {action} mm");
    }
    format!("action {action} mm, least room {room} mm, notes within {cents} cents")
}

/// The action of all strings, the least room over any fret, and the largest root mean square error; the last two are empty without frets.
fn number_lines(outlook: &Outlook) -> [String; 3] {
    let actions = || outlook.strings.iter().map(|string| string.action);
    let lowest = actions().map(|action| action.value).fold(f64::INFINITY, f64::min);
    let highest = actions().map(|action| action.value).fold(f64::NEG_INFINITY, f64::max);
    let error = actions().map(|action| action.error).fold(0.0, f64::max);
    let action = format!("{lowest:.2} to {highest:.2} \u{b1} {error:.2}");
    let all = outlook.strings.iter().filter_map(StringOutlook::tightest);
    match all.max_by(|a, b| a.probability.total_cmp(&b.probability)) {
        Some(contact) => [action, signed(contact.room), format!("{:.1}", outlook.worst_rms_cents())],
        None => [action, String::new(), String::new()],
    }
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
            let rows = each.chunks(TAPS_IN_LINE).enumerate();
            said.extend(rows.map(|(row, taps)| {
                let is_last = (row + 1) * TAPS_IN_LINE >= each.len();
                format!("{}{}", taps.join(", "), if is_last { "" } else { "," })
            }));
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
    line!(page);
    line!(page, "WHEN IT IS DONE");
    outlook(page, setup.order.done());
    for said in left_over(instrument, setup) {
        line!(page, "  {said}");
    }
}

/// What is still not as it should be when all is done; that all is well, where it is.
fn left_over(instrument: &Instrument, setup: &Setup) -> Vec<String> {
    let order = &setup.order;
    let wanted = instrument.spec().action.height;
    let mut said = Vec::new();
    if !order.is_low_enough() {
        let actions = order.done().strings.iter().map(|string| string.action.value);
        said.push(format!(
            "the wires cannot free the strings as surely at {wanted}: {:.2} mm is as low as they can lie",
            actions.fold(0.0, f64::max)
        ));
    }
    if !order.is_free() && order.unmeasured.is_empty() {
        said.push("a string may still touch: measure the frets better, or raise action.height".to_owned());
    }
    if !order.is_free() && !order.unmeasured.is_empty() {
        said.push(format!(
            "a string may still touch: measure fret {}, none of which is tapped",
            runs(&order.unmeasured)
        ));
    }
    if !order.is_in_tune() {
        said.push(
            "a string stays out of tune: the saddle can go no farther, and no gauge near it helps".to_owned(),
        );
    }
    if !setup.estimate.contradictions().is_empty() {
        said.push("readings that contradict the others were set aside: measure them again first".to_owned());
    }
    if setup.holds() {
        said.push("every string free, in tune, and as low as is wanted".to_owned());
    }
    said
}

/// Numbers that rise, in short: "1 to 3, 7".
fn runs(numbers: &[u8]) -> String {
    let runs = numbers.chunk_by(|before, after| before + 1 == *after);
    let said = runs.filter_map(|run| match run {
        [] => None,
        [only] => Some(only.to_string()),
        [first, .., last] => Some(format!("{first} to {last}")),
    });
    said.collect::<Vec<_>>().join(", ")
}
