//! How is an instrument written back as a complete document?

use std::fmt::Write as _;

use units::{Angle, Length, LengthUnit};

use crate::choice::Choice;
use crate::instrument::{
    Action, BoardRadius, BoxSpec, FretPattern, Fretboard, Frets, Headstock, Heel, Hole, Neck, Nut, Opening,
    OutlineFile, Plank, Print, Router, Saddle, Scale, Spec, StringSpec, Tail, Tolerances, ZeroFret,
};

impl Spec {
    /// The complete document: every key, defaults filled in, lengths in millimetres; the same for equal instruments.
    ///
    /// Reading it gives this instrument again, to the last bit.
    #[must_use]
    pub fn to_document_text(&self) -> String {
        let mut page = Page::default();
        page.text("name", &self.name);
        page.text("units", self.units.word());
        page.text("handed", self.handed.word());
        scale(&mut page, &self.scale);
        self.strings.iter().for_each(|string| self::string(&mut page, string));
        neck(&mut page, &self.neck);
        plank(&mut page, &self.plank);
        headstock(&mut page, &self.headstock);
        heel(&mut page, &self.heel);
        fretboard(&mut page, &self.fretboard);
        frets(&mut page, &self.frets);
        zero_fret(&mut page, &self.zero_fret);
        nut(&mut page, &self.nut);
        saddle(&mut page, &self.saddle);
        tail(&mut page, &self.tail);
        body(&mut page, &self.body);
        action(&mut page, &self.action);
        router(&mut page, &self.router);
        print(&mut page, &self.print);
        tolerances(&mut page, &self.tolerances);
        page.written
    }
}

/// The text so far.
#[derive(Default)]
struct Page {
    written: String,
}

impl Page {
    fn section(&mut self, header: &str) {
        // Writing to a string cannot fail, here and below.
        let _ = writeln!(self.written, "\n{header}");
    }

    fn bare(&mut self, key: &str, value: impl std::fmt::Display) {
        let _ = writeln!(self.written, "{key} = {value}");
    }

    fn text(&mut self, key: &str, text: &str) {
        // Names hold no control characters; backslash and quote are all that must be escaped.
        let escaped = text.replace('\\', "\\\\").replace('"', "\\\"");
        self.bare(key, format_args!("\"{escaped}\""));
    }

    fn length(&mut self, key: &str, length: Length) {
        self.text(key, &exact_length(length));
    }

    fn optional_length(&mut self, key: &str, length: Option<Length>) {
        length.into_iter().for_each(|length| self.length(key, length));
    }

    fn pair(&mut self, key: &str, [first, second]: [Length; 2]) {
        self.bare(key, format_args!("[\"{}\", \"{}\"]", exact_length(first), exact_length(second)));
    }

    fn word(&mut self, key: &str, choice: impl Choice) {
        self.text(key, choice.word());
    }
}

/// A length whose text reads back as the same length: the shortest decimal that does.
fn exact_length(length: Length) -> String {
    // Adding zero makes a negative zero plain.
    format!("{} mm", length.as_mm() + 0.0)
}

/// An angle whose text reads back as the same angle.
///
/// Going to degrees and back may move the last bit of the radians, so that decimals are tried from the shortest on, then
/// the neighbours of the number of degrees.
fn exact_angle(angle: Angle) -> String {
    let degrees = angle.as_degrees();
    let rounded = (0..=12).map(|decimals| format!("{degrees:.decimals$} deg"));
    let neighbours = [
        degrees,
        degrees.next_up(),
        degrees.next_down(),
        degrees.next_up().next_up(),
        degrees.next_down().next_down(),
    ];
    let exact = neighbours.into_iter().map(|degrees| format!("{degrees} deg"));
    let mut texts = rounded.chain(exact);
    texts
        .find(|text| Angle::parse(text).is_ok_and(|read| read == angle))
        .unwrap_or_else(|| format!("{degrees} deg"))
}

fn scale(page: &mut Page, scale: &Scale) {
    page.section("[scale]");
    page.length("length", scale.length);
    page.bare("frets", scale.frets);
    match &scale.pattern {
        FretPattern::Chromatic => page.text("pattern", "chromatic"),
        FretPattern::Diatonic => page.text("pattern", "diatonic"),
        FretPattern::Semitones(semitones) => {
            let list: Vec<String> = semitones.iter().map(u8::to_string).collect();
            page.bare("pattern", format_args!("[{}]", list.join(", ")));
        }
    }
}

fn string(page: &mut Page, string: &StringSpec) {
    page.section("[[strings]]");
    page.text("pitch", &string.pitch.to_string());
    page.length("diameter", string.diameter);
    page.optional_length("core", string.core);
    if let Some(wrap) = string.wrap {
        page.text("wrap", wrap.name());
    }
}

fn neck(page: &mut Page, neck: &Neck) {
    page.section("[neck]");
    page.word("joint", neck.joint);
    page.text("wood", neck.wood.name());
    page.length("width_at_nut", neck.width_at_nut);
    page.length("width_at_box", neck.width_at_box);
    page.length("thickness", neck.thickness);
    page.word("section", neck.section);
    page.length("edge_radius", neck.edge_radius);
    page.text("back_angle", &exact_angle(neck.back_angle));
    page.length("face_above_lid", neck.face_above_lid);
    page.length("tongue_recess", neck.tongue_recess);
    page.length("tail_overhang", neck.tail_overhang);
}

fn plank(page: &mut Page, plank: &Plank) {
    page.section("[plank]");
    page.optional_length("length", plank.length);
    page.optional_length("width", plank.width);
    page.optional_length("thickness", plank.thickness);
}

fn headstock(page: &mut Page, headstock: &Headstock) {
    page.section("[headstock]");
    match &headstock.outline {
        // The outline says how long it is.
        Some(drawn) => outline(page, drawn, headstock.outline_units),
        None => page.length("length", headstock.length),
    }
    page.length("thickness", headstock.thickness);
    page.length("tuner_bore", headstock.tuner_bore);
    page.bare("tuner_rows", headstock.tuner_rows);
    page.length("post_height", headstock.post_height);
    page.length("tuner_reach", headstock.tuner_reach);
    page.pair("tuner_body", headstock.tuner_body);
    page.pair("tuner_button", headstock.tuner_button);
}

fn outline(page: &mut Page, drawn: &OutlineFile, units: Option<LengthUnit>) {
    page.text("outline", &drawn.file);
    if let Some(units) = units {
        page.word("outline_units", units);
    }
}

fn heel(page: &mut Page, heel: &Heel) {
    page.section("[heel]");
    page.length("reach", heel.reach);
    page.length("depth", heel.depth);
}

fn fretboard(page: &mut Page, fretboard: &Fretboard) {
    page.section("[fretboard]");
    page.length("thickness", fretboard.thickness);
    match fretboard.radius {
        BoardRadius::Flat => page.text("radius", "flat"),
        BoardRadius::Radius(radius) => page.length("radius", radius),
    }
}

fn frets(page: &mut Page, frets: &Frets) {
    page.section("[frets]");
    page.word("kind", frets.kind);
    page.text("wire", &frets.wire.to_string());
    page.length("seat_depth", frets.seat_depth);
    page.length("height_scatter", frets.height_scatter);
    page.word("past_heel", frets.past_heel);
}

fn zero_fret(page: &mut Page, zero_fret: &ZeroFret) {
    page.section("[zero_fret]");
    page.length("crown_height", zero_fret.crown_height);
    page.length("crown_width", zero_fret.crown_width);
    page.length("slot_width", zero_fret.slot_width);
    page.length("slot_depth", zero_fret.slot_depth);
}

fn nut(page: &mut Page, nut: &Nut) {
    page.section("[nut]");
    page.length("thickness", nut.thickness);
    page.word("spacing", nut.spacing);
    page.length("edge_margin", nut.edge_margin);
    page.length("slot_clearance", nut.slot_clearance);
    page.length("gap_behind_zero_fret", nut.gap_behind_zero_fret);
}

fn saddle(page: &mut Page, saddle: &Saddle) {
    page.section("[saddle]");
    page.word("kind", saddle.kind);
    page.length("thickness", saddle.thickness);
    page.length("spread", saddle.spread);
    page.length("from_tail_end", saddle.from_tail_end);
    page.length("adjust", saddle.adjust);
}

fn tail(page: &mut Page, tail: &Tail) {
    page.section("[tail]");
    page.word("kind", tail.kind);
    page.length("hole_height", tail.hole_height);
    page.length("distance", tail.distance);
    page.length("hole_bore", tail.hole_bore);
    page.length("ball_bore", tail.ball_bore);
    page.length("ball_depth", tail.ball_depth);
    page.word("screw", tail.screw);
    page.bare("screws", tail.screws);
}

fn body(page: &mut Page, body: &BoxSpec) {
    page.section("[box]");
    page.length("length", body.length);
    page.length("width", body.width);
    page.length("depth", body.depth);
    page.length("wall", body.wall);
    page.length("lid", body.lid);
    page.text("lid_wood", body.lid_wood.name());
    if body.holes.is_empty() {
        // Left out, the list would mean the default one.
        page.bare("holes", "[]");
    }
    body.holes.iter().for_each(|hole| self::hole(page, hole));
}

fn hole(page: &mut Page, hole: &Hole) {
    page.section("[[box.holes]]");
    page.word("purpose", hole.purpose);
    page.word("face", hole.face);
    page.pair("at", hole.at);
    match &hole.opening {
        Opening::Round { diameter } => page.length("diameter", *diameter),
        Opening::Rectangle { length, width } => {
            page.length("length", *length);
            page.length("width", *width);
        }
        Opening::Drawn { outline, outline_units } => self::outline(page, outline, *outline_units),
    }
    page.optional_length("depth", hole.depth);
}

fn action(page: &mut Page, action: &Action) {
    page.section("[action]");
    page.bare("fret", action.fret);
    page.length("height", action.height);
}

fn router(page: &mut Page, router: &Router) {
    page.section("[router]");
    page.length("bit", router.bit);
    page.word("corner_relief", router.corner_relief);
}

fn print(page: &mut Page, print: &Print) {
    page.section("[print]");
    page.length("clearance", print.clearance);
    page.length("layer", print.layer);
    page.length("nozzle", print.nozzle);
    page.pair("bed", print.bed);
}

fn tolerances(page: &mut Page, tolerances: &Tolerances) {
    page.section("[tolerances]");
    page.word("made_with", tolerances.made_with);
    page.length("neck_set", tolerances.neck_set);
    page.length("zero_fret_height", tolerances.zero_fret_height);
    page.length("fret_place", tolerances.fret_place);
    page.length("saddle_height", tolerances.saddle_height);
    page.length("saddle_place", tolerances.saddle_place);
    page.length("tail_height", tolerances.tail_height);
    page.length("tail_distance", tolerances.tail_distance);
    page.length("string_diameter", tolerances.string_diameter);
}
