//! What does a builder read on one page, before, during and after?
//!
//! `report.html` asks for nothing from anywhere: what to mend first, then the instrument to scale and in space, its parts and
//! what to buy, how it will play with plots, where everything goes, what was assumed, and what can hurt.

mod parts;
mod plots;

use export::page::{Notice, Page, Tone};
use export::viewer::{self, View};
use export::{ExportFault, chart};
use fit::Severity;

use crate::account::cautions::CAUTIONS;
use crate::account::findings::{Complaint, complaints, count};
use crate::account::{Passage, building, in_short, materials, playing};
use crate::instrument::Instrument;

pub(crate) use parts::PartFiles;

/// What the report shows and cannot make by itself.
pub(crate) struct Shown<'a> {
    /// The instrument from above and from the side: an `<svg>` element.
    pub picture: &'a str,
    /// The instrument in space: a GLB file.
    pub model: &'a [u8],
    /// Which files each part has become.
    pub files: &'a [PartFiles],
}

/// The report as the text of an HTML file.
pub(crate) fn report(
    instrument: &Instrument,
    remark: Option<&str>,
    shown: &Shown<'_>,
) -> Result<String, ExportFault> {
    let mut page = Page::new(&instrument.spec().name);
    page.paragraph(&in_short(instrument.layout()));
    if let Some(remark) = remark {
        page.notice(&notice(Tone::Failure, "Caution", "", [remark.to_owned()]));
    }
    sections(&mut page, instrument, shown)?;
    Ok(page.finish())
}

/// Everything that the report says of an instrument as it is planned, after what a page says first.
pub(crate) fn sections(
    page: &mut Page,
    instrument: &Instrument,
    shown: &Shown<'_>,
) -> Result<(), ExportFault> {
    page.style(chart::STYLE);
    page.style(viewer::STYLE);
    page.script(viewer::SCRIPT);
    findings(page, instrument);
    whole(page, instrument, shown);
    what_it_takes(page, instrument, shown)?;
    how_it_plays(page, instrument)?;
    where_it_goes(page, instrument)?;
    assumed(page, instrument)?;
    page.section("Cautions");
    page.list(CAUTIONS);
    Ok(())
}

fn notice(tone: Tone, word: &str, of: &str, lines: impl IntoIterator<Item = String>) -> Notice {
    Notice { tone, word: word.to_owned(), of: of.to_owned(), lines: lines.into_iter().collect() }
}

fn findings(page: &mut Page, instrument: &Instrument) {
    let complaints = complaints(instrument);
    page.section("What does not fit");
    if complaints.is_empty() {
        page.notice(&notice(Tone::Good, "Nothing", "", [count(instrument.findings())]));
        return;
    }
    page.paragraph(&count(instrument.findings()));
    if complaints.iter().any(|complaint| complaint.has_mend) {
        page.paragraph(
            "Each mend was tried on the whole instrument: it cures what it stands under, and breaks nothing that holds.",
        );
    }
    for complaint in &complaints {
        page.notice(&complained(complaint));
    }
}

fn complained(complaint: &Complaint<'_>) -> Notice {
    let (tone, word) = match complaint.severity {
        Severity::Pass => (Tone::Good, "Holds"),
        Severity::Note => (Tone::Note, "Note"),
        Severity::Warn => (Tone::Warning, "Warning"),
        Severity::Fail => (Tone::Failure, "Fails"),
    };
    let cures = complaint.cures.iter().enumerate().map(|(place, cure)| {
        let before = match (complaint.has_mend, place) {
            (true, 0) => "Mend: ",
            (true, _) => "or ",
            (false, _) => "No mend: ",
        };
        format!("{before}{cure}")
    });
    let found = complaint.findings.iter().map(ToString::to_string);
    // What to do comes before why.
    notice(tone, word, complaint.check.id, cures.chain(found))
}

fn whole(page: &mut Page, instrument: &Instrument, shown: &Shown<'_>) {
    page.section("The instrument");
    page.wide_figure("From above and from the side, to scale", shown.picture);
    let label = format!("{} in space", instrument.spec().name);
    let still = "<p>To turn the instrument in space this page needs a script and WebGL 2.</p>";
    page.for_the_screen(&viewer::element(&View { label: &label, still, model: shown.model }));
}

fn what_it_takes(page: &mut Page, instrument: &Instrument, shown: &Shown<'_>) -> Result<(), ExportFault> {
    page.section("Parts and what to buy");
    page.cards(parts::cards(instrument, shown.files)?);
    let faults = &instrument.parts().faults;
    for fault in faults {
        page.notice(&notice(Tone::Failure, "Not made", "", [fault.to_string()]));
    }
    page.subsection("Cut list");
    page.table("blanks, before anything is cut from them", &materials::blanks(instrument))?;
    set(page, &materials::wire(instrument), Vec::new())?;
    set(page, &materials::hardware(instrument), Vec::new())
}

fn how_it_plays(page: &mut Page, instrument: &Instrument) -> Result<(), ExportFault> {
    page.section("How it will play");
    set(page, &playing::tension(instrument), Vec::new())?;
    set(page, &playing::intonation(instrument), plots::intonation(instrument))?;
    set(page, &playing::drift(instrument), plots::drift(instrument).into_iter().collect())?;
    let heights = [plots::action(instrument), plots::buzz(instrument)];
    match playing::buzz(instrument) {
        Some(buzz) => set(page, &buzz, heights.into_iter().flatten().collect())?,
        None => page.paragraph("Without frets no string can buzz on one."),
    }
    set(page, &playing::bending(instrument), plots::relief(instrument).into_iter().collect())?;
    let fret_by_fret = playing::fret_by_fret(instrument);
    if fret_by_fret.table.rows.is_empty() { Ok(()) } else { set(page, &fret_by_fret, Vec::new()) }
}

fn where_it_goes(page: &mut Page, instrument: &Instrument) -> Result<(), ExportFault> {
    let layout = instrument.layout();
    page.section("Where everything goes");
    let passages =
        [building::frets(layout), building::strings(layout), building::nut(layout), building::places(layout)];
    passages.iter().try_for_each(|passage| set(page, passage, Vec::new()))
}

fn assumed(page: &mut Page, instrument: &Instrument) -> Result<(), ExportFault> {
    let player = instrument.playing().player();
    page.section("What was assumed");
    page.list([
        format!(
            "Strings are plucked with {} at {} from the saddle, {:.0} % of the swing toward the neck.",
            player.pluck.force,
            player.pluck.from_saddle,
            player.pluck.normal_share * 100.0
        ),
        format!(
            "Crowns lie uneven by {} (one standard deviation), drawn {} times with seed {}; {:.0} % of such instruments are to \
             be free of buzz.",
            instrument.spec().frets.height_scatter,
            player.trials,
            player.seed,
            player.free_of_buzz * 100.0
        ),
        "A core that the document does not give is a guess, and what follows from it a range.".to_owned(),
        "Woods differ from board to board: modulus and strength are means of their kind.".to_owned(),
        "Each formula with its source, and how far that source was read: `boxneck check --explain`.".to_owned(),
    ]);
    for warning in instrument.warnings() {
        page.notice(&notice(Tone::Note, "Note", "the document", [warning.to_string()]));
    }
    Ok(())
}

/// A passage with its plots.
fn set(page: &mut Page, passage: &Passage, plots: Vec<(String, chart::Chart)>) -> Result<(), ExportFault> {
    page.subsection(passage.heading);
    passage.before.iter().for_each(|words| page.paragraph(words));
    if !plots.is_empty() {
        let written = plots.into_iter().map(|(caption, plot)| Ok((caption, chart::write(&plot)?)));
        page.figures(written.collect::<Result<Vec<_>, ExportFault>>()?);
    }
    if !passage.table.rows.is_empty() {
        page.table(&passage.aside, &passage.table)?;
    }
    passage.after.iter().for_each(|words| page.paragraph(words));
    Ok(())
}
