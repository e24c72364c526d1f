//! Where does everything go?

use layout::{Layout, Obstacle, Shortfall, TailKind};
use spec::{BoardRadius, Choice, Handed, Joint};
use units::LengthForm;

use super::{Passage, both, list, named, table};

/// Every station, and what stops the next one.
pub(crate) fn frets(layout: &Layout) -> Passage {
    let plan = layout.frets();
    let rows = plan.frets.iter().map(|fret| {
        [
            fret.number.to_string(),
            fret.semitone.to_string(),
            format!("{:.2}", fret.x.as_mm()),
            fret.x.written(LengthForm::Sixtyfourths).to_string(),
            fret.kind.word().to_owned(),
            fret.width.to_string(),
        ]
    });
    let table = table(["fret", "semitone", "mm", "inches", "made of", "neck width"], rows);
    let aside = format!(
        "{} of the {} that are wanted, measured from the crown of the zero fret",
        plan.frets.len(),
        plan.reach.wanted
    );
    let mut passage = Passage::new("Frets", aside, table);
    if let Some(stop) = &plan.reach.wrapped_stop {
        passage.before.push(format!("seated wire from fret {} on: {}", stop.number, stopped(stop)));
    }
    passage.before.push(match &plan.reach.stop {
        Some(stop) => format!("no more than these: {}", stopped(stop)),
        None => "nothing stops the next one".to_owned(),
    });
    passage
}

fn stopped(stop: &Shortfall) -> String {
    let obstacle = match stop.obstacle {
        Obstacle::Heel => "the heel",
        Obstacle::Box => "the box",
        Obstacle::Neighbour => "the wire before it",
    };
    format!("fret {} would be at {} and lacks {} to {obstacle}", stop.number, stop.x, stop.lacks)
}

/// Each string's action and turns.
pub(crate) fn strings(layout: &Layout) -> Passage {
    let spec = layout.spec();
    let frets = &layout.frets().frets;
    let last = frets.len().checked_sub(1);
    let places: Vec<usize> = match (last, middle(layout)) {
        (Some(last), Some(middle)) => {
            let mut places = vec![0, middle, last];
            places.dedup();
            places
        }
        _ => Vec::new(),
    };
    let actions = places.iter().map(|index| format!("action at fret {}", frets[*index].number));
    let heading = ["string", "note", "diameter"].map(String::from).into_iter().chain(actions);
    let turns = ["at zero fret", "at nut", "at saddle"].map(String::from);
    let rows = layout.strings().iter().map(|path| {
        let actions = places.iter().map(|index| path.actions[*index].to_string());
        let turns = [path.break_at_zero_fret(), path.break_at_nut(), path.break_at_saddle()];
        named(path)
            .into_iter()
            .chain([path.diameter.to_string()])
            .chain(actions)
            .chain(turns.map(|turn| turn.to_string()))
            .collect()
    });
    let table = export::table::Table { heading: heading.chain(turns).collect(), rows: rows.collect() };
    let aside = "bass to treble; action is the underside over the crown; angles are turns of the string";
    let mut passage = Passage::new("Strings", aside, table);
    passage.after.push(format!("wanted: {} over the {}th semitone", spec.action.height, spec.action.fret));
    passage
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

/// Each slot of the nut.
pub(crate) fn nut(layout: &Layout) -> Passage {
    let nut = layout.nut();
    let edge = -nut.length / 2.0;
    let rows = nut.slots.iter().zip(layout.strings()).map(|(slot, path)| {
        let from_edge = match layout.spec().handed {
            Handed::Left => -edge - slot.front.y,
            Handed::Right => slot.front.y - edge,
        };
        let [number, note] = named(path);
        [
            number,
            note,
            both(from_edge),
            slot.width.to_string(),
            (slot.front.z - nut.base_z).to_string(),
            (slot.rear.z - nut.base_z).to_string(),
        ]
    });
    let heading =
        ["string", "note", "slot from the bass edge", "width", "floor at the front", "floor at the rear"];
    let aside = format!(
        "{} long, {} thick, {} high; front face {} behind the zero fret; floors are measured from the foot",
        nut.length,
        nut.front_x - nut.rear_x,
        nut.top_z - nut.base_z,
        -nut.front_x
    );
    Passage::new("Nut", aside, table(heading, rows))
}

/// Box, saddle, tail and neck.
pub(crate) fn places(layout: &Layout) -> Passage {
    let spec = layout.spec();
    let (neck, frame, saddle, tail) = (layout.neck(), layout.frame(), layout.saddle(), layout.tail());
    let heights = saddle.crests.iter().map(|crest| crest.above.to_string()).collect::<Vec<_>>().join(", ");
    let kind = match tail.kind {
        TailKind::BlockOnLid => "block on the lid",
        TailKind::BlockOnEnd => "block on the tail end",
        TailKind::StringThrough => "through the stick's end",
    };
    let rows = [
        Some(("neck end of the box", format!("{} from the zero fret", both(frame.neck_end_x)))),
        layout.heel().map(|heel| ("heel", format!("begins {} from the zero fret", both(heel.front_x)))),
        Some((
            "saddle line",
            format!(
                "{} from the neck end, {} from the tail end",
                both(saddle.along),
                both(spec.saddle.from_tail_end)
            ),
        )),
        Some(("saddle crest", format!("{heights} above the lid, bass to treble"))),
        Some((
            "tail",
            format!(
                "{kind}, holes {} from the saddle line, {} above the lid",
                spec.tail.distance, spec.tail.hole_height
            ),
        )),
        Some((
            "neck",
            format!(
                "{} long, headstock {} thick, {} at the nut, {} at the box",
                both(neck.length()),
                spec.headstock.thickness,
                neck.width_at_nut,
                neck.width_at_box
            ),
        )),
        (neck.joint == Joint::Through).then(|| {
            ("tongue", format!("top {} below the lid's top", spec.body.lid + spec.neck.tongue_recess))
        }),
        match spec.fretboard.radius {
            BoardRadius::Radius(radius) => Some(("fretboard", format!("radius {}", both(radius)))),
            BoardRadius::Flat => None,
        },
    ];
    let aside = "from the zero fret along the neck, or on the box as said";
    Passage::new("Places", aside, list(["what", "where"], rows))
}
