//! Which files does an instrument become?

use std::collections::BTreeSet;

use export::dxf::{DxfOptions, DxfStyle};
use export::pdf::{Correction, Paper, PdfOptions};
use export::step::StepOptions;
use export::stl::StlOptions;
use export::svg::{SvgOptions, TitleBlock};
use export::viewer::{self, View};
use export::{ExportFault, Format};
use geometry::BodyFault;
use parts::Part;
use units::{ChordTolerance, Length, LengthUnit};

use crate::account::materials::{cut_list, remark_row};
use crate::instrument::Instrument;
use crate::layout_record::layout_record;
use crate::manifest::{MANIFEST, Manifest, document_sha256, options_sha256};
use crate::model::model;
use crate::overview::overview;
use crate::plates::{PLATE, Printed, plates, stem};
use crate::report::{PartFiles, Shown, report};
use crate::side_by_side::{both, has_the_cores};
use crate::templates::templates;

/// How far a mesh may deviate from the true curve. Larger shows facets on an 8 mm bore; smaller is below what a printer
/// or a router can do.
pub(crate) const CHORD: ChordTolerance = ChordTolerance::new(Length::mm(0.02));

/// What every file that can carry a mark says of an instrument that a finding says cannot be made or will not play.
const REMARK: &str = "MADE ALTHOUGH A CHECK FAILS - see layout.json";

/// What to make.
#[derive(Clone, Debug, PartialEq)]
pub struct MakeOptions {
    /// The kinds of files.
    pub formats: BTreeSet<Format>,
    /// The parts, by name; all of them where nothing is said.
    pub only: Option<BTreeSet<String>>,
    /// The unit of drawings.
    pub unit: LengthUnit,
    /// How DXF drawings are written.
    pub dxf: DxfStyle,
    /// Whether DXF drawings engrave each part's name.
    pub labels: bool,
    /// The papers of the templates, one file each.
    pub papers: BTreeSet<Paper>,
    /// What the printer does to lengths on paper, undone.
    pub correction: Correction,
}

impl Default for MakeOptions {
    /// Every kind of file of every part, in millimetres, drawings nominal and without labels, templates on both office
    /// papers for a true printer.
    fn default() -> Self {
        Self {
            formats: Format::all().collect(),
            only: None,
            unit: LengthUnit::Millimetre,
            dxf: DxfStyle::default(),
            labels: false,
            papers: BTreeSet::from([Paper::A4, Paper::Letter]),
            correction: Correction::NONE,
        }
    }
}

/// A file of a build.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BuiltFile {
    /// Relative to the build's folder, with `/` between folder and file.
    pub path: String,
    /// What is in it.
    pub bytes: Vec<u8>,
}

/// Files that could not be made.
#[derive(Clone, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum MakeFault {
    /// There is no part of that name in this instrument.
    #[error("there is no part \"{name}\" in this instrument; it has {}", .known.join(", "))]
    UnknownPart {
        /// The name asked for.
        name: String,
        /// The names there are.
        known: Vec<&'static str>,
    },
    /// A body could not be read as a mesh or as a solid.
    #[error("the {part} cannot be made: {fault}")]
    Body {
        /// Which part.
        part: &'static str,
        /// Why not.
        fault: BodyFault,
    },
    /// A file could not be written truly.
    #[error(transparent)]
    Export(#[from] ExportFault),
}

/// Every file of an instrument, `manifest.json` last. The same instrument and options give the same bytes.
///
/// # Errors
///
/// [`MakeFault`] for a part that is asked for and not there, and for what a format cannot hold.
pub fn files(instrument: &Instrument, options: &MakeOptions) -> Result<Vec<BuiltFile>, MakeFault> {
    files_with(instrument, options, Vec::new())
}

/// The same with more files, which the manifest lists too.
pub(crate) fn files_with(
    instrument: &Instrument,
    options: &MakeOptions,
    more: Vec<BuiltFile>,
) -> Result<Vec<BuiltFile>, MakeFault> {
    let failed = instrument.worst() == fit::Severity::Fail;
    let remark = failed.then_some(REMARK);
    let chosen = chosen_parts(instrument, options)?;
    // What takes longest is done side by side where it may be, and laid down in one order; the mends are looked up below.
    let apart = has_the_cores();
    let made = || {
        let flat = || drawings(instrument, &chosen, options, remark);
        let thick = || solids(instrument, &chosen, options, remark);
        both(apart, || both(apart, flat, thick), || papers(instrument, &chosen, options, remark))
    };
    let (_, ((flat, solid), papers)) = both(apart, || instrument.remedies(), made);
    let mut files = flat?;
    files.extend(solid?);
    let part_files: Vec<PartFiles> = chosen.iter().map(|part| part_files(part, options, &files)).collect();
    let mut add = |path: String, bytes: Vec<u8>| files.push(BuiltFile { path, bytes });
    if options.formats.contains(&Format::Csv) {
        let mut table = cut_list(instrument);
        table.rows.extend(remark.map(remark_row));
        let table = export::table::write(&table)?;
        add(Format::Csv.path("cut-list", options.unit), table.into_bytes());
    }
    let wants = |formats: &[Format]| formats.iter().any(|format| options.formats.contains(format));
    let picture = wants(&[Format::Picture, Format::View, Format::Report])
        .then(|| export::scene::write(&overview(instrument, remark)))
        .transpose()?;
    let model = wants(&[Format::Glb, Format::View, Format::Report])
        .then(|| export::gltf::write(&model(instrument, remark)))
        .transpose()?;
    if let (Some(picture), Some(model)) = (&picture, &model) {
        if wants(&[Format::Report]) {
            let shown = Shown { picture, model, files: &part_files };
            let page = report(instrument, remark, &shown)?;
            add(Format::Report.path("report", options.unit), page.into_bytes());
        }
        if wants(&[Format::View]) {
            let label = format!("{} in space", instrument.spec().name);
            let page =
                viewer::page(&title(instrument, remark), &View { label: &label, still: picture, model });
            add(Format::View.path("view", options.unit), page.into_bytes());
        }
    }
    if let Some(model) = model.filter(|_| wants(&[Format::Glb])) {
        add(Format::Glb.path("instrument", options.unit), model);
    }
    if let Some(picture) = picture.filter(|_| wants(&[Format::Picture])) {
        add(Format::Picture.path("overview", options.unit), picture.into_bytes());
    }
    files.extend(papers?);
    let mut record = serde_json::to_vec_pretty(&layout_record(instrument)).expect("a record is plain data");
    record.push(b'\n');
    files.push(BuiltFile { path: "layout.json".into(), bytes: record });
    files.extend(more);
    let document = instrument.document();
    let document_sha256 = document_sha256(document.source(), document);
    let manifest = Manifest::of(&files, document_sha256, options_sha256(options))
        .made_despite_failures(failed)
        .with_drawings(options);
    files.push(BuiltFile { path: MANIFEST.into(), bytes: manifest.to_bytes() });
    Ok(files)
}

/// The files that a part has become, of those that are there.
fn part_files(part: &Part, options: &MakeOptions, files: &[BuiltFile]) -> PartFiles {
    let drawings = part.drawings.iter().flat_map(|drawing| {
        let dxf = Format::Dxf.path(&export::dxf::stem(&drawing.name, &options.dxf), options.unit);
        [dxf, Format::Svg.path(&drawing.name, options.unit)]
    });
    let solids = [Format::Stl, Format::Step].map(|format| format.path(part.name, options.unit));
    let is_there = |path: &String| files.iter().any(|file| file.path == *path);
    PartFiles { part: part.name, paths: drawings.chain(solids).filter(is_there).collect() }
}

/// The heading of a page.
fn title(instrument: &Instrument, remark: Option<&str>) -> String {
    let name = &instrument.spec().name;
    remark.map_or(name.clone(), |remark| format!("{name}: {remark}"))
}

fn chosen_parts<'a>(instrument: &'a Instrument, options: &MakeOptions) -> Result<Vec<&'a Part>, MakeFault> {
    let parts = &instrument.parts().parts;
    let known = || parts.iter().map(|part| part.name).collect();
    for name in options.only.iter().flatten() {
        if parts.iter().all(|part| part.name != name) {
            return Err(MakeFault::UnknownPart { name: name.clone(), known: known() });
        }
    }
    let wanted = |part: &&Part| options.only.as_ref().is_none_or(|only| only.contains(part.name));
    Ok(parts.iter().filter(wanted).collect())
}

/// The drawings of all parts, in their order.
fn drawings(
    instrument: &Instrument,
    chosen: &[&Part],
    options: &MakeOptions,
    remark: Option<&'static str>,
) -> Result<Vec<BuiltFile>, MakeFault> {
    let mut files = Vec::new();
    for (part, drawing) in
        chosen.iter().flat_map(|part| part.drawings.iter().map(move |drawing| (part, drawing)))
    {
        if options.formats.contains(&Format::Dxf) {
            let label = if options.labels { wordings(instrument, part) } else { Vec::new() };
            let dxf =
                DxfOptions { unit: options.unit, style: options.dxf, label, remark, ..DxfOptions::default() };
            let text = export::dxf::write(drawing, &dxf)?;
            let path = Format::Dxf.path(&export::dxf::stem(&drawing.name, &options.dxf), options.unit);
            files.push(BuiltFile { path, bytes: text.into_bytes() });
        }
        if options.formats.contains(&Format::Svg) {
            let title_block = title_block(instrument, part);
            let svg = SvgOptions { unit: options.unit, title_block, remark, ..SvgOptions::default() };
            let text = export::svg::write(drawing, &svg)?;
            let path = Format::Svg.path(&drawing.name, options.unit);
            files.push(BuiltFile { path, bytes: text.into_bytes() });
        }
    }
    Ok(files)
}

/// The paper templates, a file for each paper.
fn papers(
    instrument: &Instrument,
    chosen: &[&Part],
    options: &MakeOptions,
    remark: Option<&'static str>,
) -> Result<Vec<BuiltFile>, MakeFault> {
    if !options.formats.contains(&Format::Templates) {
        return Ok(Vec::new());
    }
    let booklet = templates(instrument, chosen, remark)?;
    let files = options.papers.iter().map(|paper| {
        let pdf = PdfOptions { paper: *paper, correction: options.correction };
        let path = Format::Templates.path(&format!("templates-{}", paper.name()), options.unit);
        Ok(BuiltFile { path, bytes: export::pdf::write(&booklet, &pdf)? })
    });
    files.collect()
}

/// What a drawing says of the part that it shows.
fn title_block(instrument: &Instrument, part: &Part) -> TitleBlock {
    let spec = instrument.spec();
    let [along, across, thick] = part.blank.map(|size| size.to_string());
    let hand = match spec.handed {
        spec::Handed::Right => "right-handed",
        spec::Handed::Left => "left-handed",
    };
    let rows = [
        ("part", part.title.to_owned()),
        ("instrument", spec.name.clone()),
        ("material", part.material.clone()),
        ("blank", format!("{along} x {across} x {thick}")),
        ("quantity", part.quantity_words()),
        ("hand", hand.to_owned()),
    ];
    TitleBlock { rows: rows.map(|(what, value)| (what.to_owned(), value)).to_vec() }
}

/// What a label may say of a part, the most telling first.
fn wordings(instrument: &Instrument, part: &Part) -> Vec<String> {
    let spec = instrument.spec();
    let hand = match spec.handed {
        spec::Handed::Right => "",
        spec::Handed::Left => ", left hand",
    };
    let with = |rest: &str| format!("{}{rest}", part.title);
    vec![with(&format!(" - {}{hand}", spec.name)), with(hand), with("")]
}

/// The solids of all parts, in their order, and the plates that print them.
fn solids(
    instrument: &Instrument,
    chosen: &[&Part],
    options: &MakeOptions,
    remark: Option<&'static str>,
) -> Result<Vec<BuiltFile>, MakeFault> {
    let wants = |format| options.formats.contains(&format);
    let mut files = Vec::new();
    if ![Format::Stl, Format::Step, Format::ThreeMf].into_iter().any(wants) {
        return Ok(files);
    }
    let mut printed: Vec<Printed> = Vec::new();
    for part in chosen {
        let Some(solid) = &part.solid else { continue };
        let bad_body = |fault| MakeFault::Body { part: part.name, fault };
        let laid = solid.lying(CHORD).map_err(bad_body)?;
        if wants(Format::Stl) {
            let bytes = export::stl::write(part.name, &laid.mesh, &StlOptions { remark })?;
            files.push(BuiltFile { path: Format::Stl.path(part.name, options.unit), bytes });
        }
        if wants(Format::Step) {
            let mut step = StepOptions::default();
            if let Some(remark) = remark {
                step.description = remark.into();
            }
            let brep = solid.body.moved(&laid.motion).brep().map_err(bad_body)?;
            let text = export::step::write(part.name, &brep, &step)?;
            let path = Format::Step.path(part.name, options.unit);
            files.push(BuiltFile { path, bytes: text.into_bytes() });
        }
        printed.extend(Printed::of(part, &laid));
    }
    if wants(Format::ThreeMf) {
        let spec = instrument.spec();
        let (mut to_work_with, of_instrument): (Vec<_>, Vec<_>) =
            printed.into_iter().partition(|part| part.quantity == 0);
        to_work_with.iter_mut().for_each(|part| part.quantity = 1);
        for (kind, what, printed) in
            [(PLATE, "printed parts", of_instrument), ("jigs", "jigs and coupon", to_work_with)]
        {
            let title = format!("{}: {what}", spec.name);
            for (number, plate) in plates(&title, &printed, spec.print.bed, remark).iter().enumerate() {
                let path = Format::ThreeMf.path(&stem(kind, number), options.unit);
                files.push(BuiltFile { path, bytes: export::threemf::write(plate)? });
            }
        }
    }
    Ok(files)
}
