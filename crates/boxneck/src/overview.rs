//! What does the instrument look like, from above and from the side?

use export::scene::{Figure, Item, Scene, Style, View};
use geometry::{Circle, Outline, OutlineFault, Path, Point2, Shape};
use layout::{Layout, Place, TailKind};
use parts::neck_outline;
use spec::{BoxFace, FretKind, Joint, Opening};
use units::Length;

use crate::instrument::Instrument;

/// Plan and side view to one scale. What cannot be drawn is left out: the findings say why it cannot.
pub(crate) fn overview(instrument: &Instrument, remark: Option<&str>) -> Scene {
    let layout = instrument.layout();
    let view = |caption: &str, figures: Vec<Result<Item, OutlineFault>>| View {
        caption: caption.into(),
        items: figures.into_iter().flatten().collect(),
    };
    Scene {
        name: "overview".into(),
        title: [layout.spec().name.as_str()].into_iter().chain(remark).collect::<Vec<_>>().join(" - "),
        unit: layout.spec().units,
        views: vec![view("From above", plan(layout)), view("From the side", side(layout))],
    }
}

type Drawn = Result<Item, OutlineFault>;

fn shape(outline: Result<Outline, OutlineFault>, style: Style, label: Option<&str>) -> Drawn {
    Ok(Item { figure: Figure::Shape(Shape::Outline(outline?)), style, label: label.map(String::from) })
}

fn round(center: Point2, diameter: Length, style: Style, label: Option<&str>) -> Drawn {
    let circle = Shape::Circle(Circle::of_diameter(center, diameter));
    Ok(Item { figure: Figure::Shape(circle), style, label: label.map(String::from) })
}

fn path(points: impl IntoIterator<Item = Point2>, style: Style, label: Option<&str>) -> Drawn {
    Ok(Item { figure: Figure::Path(Path::polyline(points)?), style, label: label.map(String::from) })
}

/// `x` and `y`: the box is seen square to its lid, the rest square to the playing plane; a few degrees apart at most.
fn plan(layout: &Layout) -> Vec<Drawn> {
    let (spec, neck, frame) = (layout.spec(), layout.neck(), layout.frame());
    let flat = |place: Place| Point2::new(place.x, place.y);
    let on_lid = |along: Length, across: Length| flat(frame.place(along, across, Length::ZERO));
    let rectangle = |along: [Length; 2], across: [Length; 2]| {
        Outline::polygon([
            on_lid(along[0], across[0]),
            on_lid(along[1], across[0]),
            on_lid(along[1], across[1]),
            on_lid(along[0], across[1]),
        ])
    };
    let half_box = spec.body.width / 2.0;
    let edge = |x: Length, side: f64| Point2::new(x, neck.width(x) * (side / 2.0));
    let mut items = Vec::new();
    if neck.joint == Joint::Through {
        let end = [neck.box_x, neck.tail_end_x];
        items.push(shape(
            Outline::polygon([edge(end[0], -1.0), edge(end[1], -1.0), edge(end[1], 1.0), edge(end[0], 1.0)]),
            Style::Wood,
            None,
        ));
    }
    items.push(shape(
        rectangle([Length::ZERO, spec.body.length], [-half_box, half_box]),
        Style::PaleWood,
        Some("box"),
    ));
    for hole in layout.holes().iter().filter(|hole| hole.face == BoxFace::Lid) {
        items.push(match &hole.opening {
            Opening::Round { diameter } => {
                round(on_lid(hole.first, hole.second), *diameter, Style::Opening, None)
            }
            Opening::Rectangle { length, width } => shape(
                rectangle(
                    [hole.first - *length / 2.0, hole.first + *length / 2.0],
                    [hole.second - *width / 2.0, hole.second + *width / 2.0],
                ),
                Style::Opening,
                None,
            ),
            // The lid leans a few degrees at most: drawn as if it lay level, from its middle on.
            Opening::Drawn { outline, .. } => {
                let place = on_lid(hole.first, hole.second).to_vector();
                shape(Ok(outline.outline.translated(place)), Style::Opening, None)
            }
        });
    }
    if neck.joint == Joint::Through {
        for side in [-1.0, 1.0] {
            items.push(path([edge(neck.box_x, side), edge(neck.tail_end_x, side)], Style::Hidden, None));
        }
    }
    items.push(shape(neck_outline(layout, neck.box_x), Style::Wood, Some("neck")));
    if spec.fretboard.thickness > Length::ZERO {
        let ends = [neck.nut_front_x, neck.box_x];
        items.push(shape(
            Outline::polygon([
                edge(ends[0], -1.0),
                edge(ends[1], -1.0),
                edge(ends[1], 1.0),
                edge(ends[0], 1.0),
            ]),
            Style::DarkWood,
            Some("fretboard"),
        ));
    }
    items.push(path([edge(Length::ZERO, -1.0), edge(Length::ZERO, 1.0)], Style::Metal, Some("zero fret")));
    for fret in &layout.frets().frets {
        let style = match fret.kind {
            FretKind::FretWire => Style::Metal,
            FretKind::WrappedWire | FretKind::SeatedWire => Style::Copper,
        };
        let label = [1, 5, 12].contains(&fret.number).then(|| format!("fret {}", fret.number));
        items.push(path([edge(fret.x, -1.0), edge(fret.x, 1.0)], style, label.as_deref()));
    }
    let nut = layout.nut();
    let half_nut = nut.length / 2.0;
    items.push(shape(
        Outline::rectangle(Point2::new(nut.rear_x, -half_nut), Point2::new(nut.front_x, half_nut)),
        Style::DarkWood,
        Some("nut"),
    ));
    let (saddle, tail) = (layout.saddle(), layout.tail());
    let half_saddle = saddle.thickness / 2.0;
    items.push(shape(
        rectangle([saddle.center_along() - half_saddle, saddle.center_along() + half_saddle], saddle.ends),
        Style::DarkWood,
        Some("saddle"),
    ));
    if tail.kind != TailKind::StringThrough {
        items.push(shape(rectangle(tail.along, tail.across), Style::DarkWood, Some("tail block")));
        let middle = (tail.along[0] + tail.along[1]) / 2.0;
        if tail.kind == TailKind::BlockOnLid {
            for placed in &tail.screws {
                items.push(round(on_lid(middle, placed.across), placed.screw.head, Style::Metal, None));
            }
        }
    }
    for tuner in layout.tuners() {
        items.push(round(flat(tuner.bore), tuner.diameter, Style::Metal, None));
    }
    for string in layout.strings() {
        let run = [string.post, string.nut, string.saddle, string.tail];
        items.push(path(run.map(flat), Style::Strand, None));
    }
    items
}

/// `x` and `z`, from the treble side of a right-handed instrument.
fn side(layout: &Layout) -> Vec<Drawn> {
    let (spec, neck, frame) = (layout.spec(), layout.neck(), layout.frame());
    let flat = |place: Place| Point2::new(place.x, place.z);
    let in_box = |along: Length, above: Length| flat(frame.place(along, Length::ZERO, above));
    let block = |along: [Length; 2], above: [Length; 2]| {
        Outline::polygon([
            in_box(along[0], above[0]),
            in_box(along[1], above[0]),
            in_box(along[1], above[1]),
            in_box(along[0], above[1]),
        ])
    };
    let mut items = Vec::new();
    if neck.joint == Joint::Through {
        let recess = -spec.body.lid - spec.neck.tongue_recess;
        let end_z = match layout.tail().kind {
            TailKind::StringThrough => layout.strings().first().map_or(neck.top_z, |string| string.tail.z),
            TailKind::BlockOnLid | TailKind::BlockOnEnd => frame.level_z(recess, neck.tail_end_x),
        };
        let wall = in_box(spec.body.length, Length::ZERO);
        items.push(shape(
            Outline::polygon([
                Point2 { y: neck.bottom_z.as_mm(), ..wall },
                Point2::new(neck.tail_end_x, neck.bottom_z),
                Point2::new(neck.tail_end_x, end_z),
                Point2 { y: end_z.as_mm(), ..wall },
            ]),
            Style::Wood,
            None,
        ));
    }
    items.push(shape(
        block([Length::ZERO, spec.body.length], [-spec.body.depth, -spec.body.lid]),
        Style::PaleWood,
        Some("box"),
    ));
    items.push(shape(
        block([Length::ZERO, spec.body.length], [-spec.body.lid, Length::ZERO]),
        Style::PaleWood,
        Some("lid"),
    ));
    if neck.joint == Joint::Through {
        let recess = -spec.body.lid - spec.neck.tongue_recess;
        items.push(path(
            [in_box(Length::ZERO, recess), in_box(spec.body.length, recess)],
            Style::Hidden,
            Some("tongue"),
        ));
        let bottom = [neck.box_x, frame.place(spec.body.length, Length::ZERO, Length::ZERO).x];
        items.push(path(bottom.map(|x| Point2::new(x, neck.bottom_z)), Style::Hidden, None));
    }
    if let Some(heel) = layout.heel() {
        items.push(shape(
            Outline::polygon([
                Point2::new(heel.front_x, heel.top_z),
                Point2::new(heel.front_x, heel.bottom_z),
                Point2::new(heel.wall_x[1], heel.bottom_z),
                Point2::new(heel.wall_x[0], heel.top_z),
            ]),
            Style::DarkWood,
            Some("heel"),
        ));
    }
    items.push(shape(
        Outline::polygon([
            Point2::new(neck.head_end_x, neck.bottom_z),
            Point2::new(frame.neck_wall_x(neck.bottom_z), neck.bottom_z),
            Point2::new(frame.neck_wall_x(neck.top_z), neck.top_z),
            Point2::new(neck.nut_front_x, neck.top_z),
            Point2::new(neck.nut_front_x, neck.head_top_z),
            Point2::new(neck.head_end_x, neck.head_top_z),
        ]),
        Style::Wood,
        Some("neck"),
    ));
    if spec.fretboard.thickness > Length::ZERO {
        items.push(shape(
            Outline::rectangle(
                Point2::new(neck.nut_front_x, neck.top_z),
                Point2::new(neck.box_x, Length::ZERO),
            ),
            Style::DarkWood,
            None,
        ));
    }
    let nut = layout.nut();
    items.push(shape(
        Outline::rectangle(Point2::new(nut.rear_x, nut.base_z), Point2::new(nut.front_x, nut.top_z)),
        Style::DarkWood,
        Some("nut"),
    ));
    for fret in &layout.frets().frets {
        let (style, size) = match fret.kind {
            FretKind::FretWire => (Style::Metal, fret.crown),
            FretKind::WrappedWire | FretKind::SeatedWire => (Style::Copper, spec.frets.wire.diameter()),
        };
        items.push(round(Point2::new(fret.x, fret.crown - size / 2.0), size, style, None));
    }
    for tuner in layout.tuners() {
        let half = Length::mm(3.0);
        items.push(shape(
            Outline::rectangle(
                Point2::new(tuner.bore.x - half, tuner.bore.z),
                Point2::new(tuner.bore.x + half, tuner.post.z + Length::mm(2.0)),
            ),
            Style::Metal,
            None,
        ));
    }
    let (saddle, tail) = (layout.saddle(), layout.tail());
    let half = saddle.thickness / 2.0;
    let highest = saddle.crests.iter().map(|crest| crest.above).fold(Length::ZERO, Length::max);
    items.push(shape(
        Outline::polygon([
            in_box(saddle.center_along() - half, -saddle.let_in),
            in_box(saddle.center_along() + half, -saddle.let_in),
            in_box(saddle.center_along(), highest),
        ]),
        Style::DarkWood,
        Some("saddle"),
    ));
    if tail.kind != TailKind::StringThrough {
        items.push(shape(block(tail.along, tail.above), Style::DarkWood, Some("tail block")));
    }
    for string in layout.strings() {
        let run = [string.post, string.nut, string.zero_fret, string.saddle, string.tail];
        items.push(path(run.map(flat), Style::Strand, None));
    }
    items
}
