//! How do the strings press on the saddle, does it stand, and how far does the lid sink?

use mechanics::down_force::{Direction, ForceVector, bearing_force};
use mechanics::plate::{Edges, Patch, Plate, action_lost, deflection};
use mechanics::standing::{FloatingSaddle, Standing, standing};
use spec::SaddleKind;
use units::{Force, Length};

use crate::fret_distance;
use crate::instrument::Layout;
use crate::place::Place;

/// Poisson's ratio of a wooden plate. Larger makes the lid stiffer by a few per cent. Common practice, no source.
const POISSON: f64 = 0.3;

/// How the strings press on the saddle and the lid.
#[derive(Clone, Debug, PartialEq)]
pub struct SaddlePush {
    /// What each string presses on its crest, down and square to the lid, bass to treble.
    pub down: Vec<Force>,
    /// What each string presses down on the zero fret.
    pub down_on_zero_fret: Vec<Force>,
    /// How a floating saddle stands; nothing for one that is let in.
    pub standing: Option<Standing>,
    /// How far the lid sinks under the saddle: with its edges held down, and with its edges clamped. Nothing where the saddle
    /// stands off the lid.
    pub sink: Option<[Length; 2]>,
    /// The action that the larger of these costs where the action is measured.
    pub action_lost: Option<Length>,
}

/// All of it, with the sink under supported edges that is known already.
pub(super) fn saddle_push(layout: &Layout, supported: Option<Length>) -> SaddlePush {
    let on_saddle = on_saddle(layout);
    let down_on_zero_fret = layout.strings().iter().zip(layout.tuned()).map(|(string, tuned)| {
        let tension = tuned.model.nominal.tension();
        push(layout, tension, string.zero_fret, [string.saddle, string.nut]).down()
    });
    let clamped = sink(layout, Edges::Clamped);
    let sink = supported.zip(clamped).map(|(supported, clamped)| [supported, clamped]);
    let spec = layout.spec();
    let action_x = fret_distance(spec.scale.length, spec.action.fret);
    SaddlePush {
        down: on_saddle.iter().map(ForceVector::down).collect(),
        down_on_zero_fret: down_on_zero_fret.collect(),
        standing: stand(layout),
        sink,
        action_lost: sink.map(|[supported, _]| action_lost(supported, action_x, spec.scale.length)),
    }
}

/// How a floating saddle stands; nothing for one that is let in.
pub(super) fn stand(layout: &Layout) -> Option<Standing> {
    let total: ForceVector = on_saddle(layout).into_iter().sum();
    (layout.spec().saddle.kind == SaddleKind::Floating).then(|| standing(&foot(layout), &total))
}

/// What each string presses on its crest.
fn on_saddle(layout: &Layout) -> Vec<ForceVector> {
    let tensions = layout.tuned().iter().map(|string| string.model.nominal.tension());
    let strings = layout.strings().iter().zip(tensions);
    strings
        .map(|(string, tension)| push(layout, tension, string.saddle, [string.zero_fret, string.tail]))
        .collect()
}

/// The push of a string on what it bends over, in the box's frame.
fn push(layout: &Layout, tension: Force, at: Place, ends: [Place; 2]) -> ForceVector {
    let frame = layout.frame();
    let on_lid = |place: Place| [frame.along(place), place.y, frame.above(place)];
    let toward = |end: Place| Direction::toward(on_lid(at), on_lid(end));
    match (toward(ends[0]), toward(ends[1])) {
        (Ok(one), Ok(other)) => bearing_force(tension, [one, other]),
        // A string that ends where it bears presses on nothing.
        _ => ForceVector::default(),
    }
}

/// The saddle as it stands under the mean of its crests.
fn foot(layout: &Layout) -> FloatingSaddle {
    let saddle = layout.saddle();
    let count = saddle.crests.len() as f64;
    let height = saddle.crests.iter().map(|crest| crest.above).sum::<Length>() / count;
    let crest = saddle.crests.iter().map(|crest| crest.offset).sum::<Length>() / count;
    FloatingSaddle {
        height,
        foot_front: -saddle.thickness / 2.0 - crest,
        foot_back: saddle.thickness / 2.0 - crest,
    }
}

/// The lid between the walls, pressed by the saddle's foot.
pub(super) fn sink(layout: &Layout, edges: Edges) -> Option<Length> {
    let (spec, saddle) = (layout.spec(), layout.saddle());
    let wall = spec.body.wall;
    let (length, width) = (spec.body.length - wall * 2.0, spec.body.width - wall * 2.0);
    let plate = Plate::new(length, width, spec.body.lid, spec.body.lid_wood.modulus(), POISSON).ok()?;
    let total: ForceVector = on_saddle(layout).into_iter().sum();
    let load = Patch {
        x: saddle.center_along() - wall,
        y: width / 2.0,
        length: saddle.thickness,
        width: (saddle.ends[1] - saddle.ends[0]).min(width),
        force: total.down(),
    };
    deflection(&plate, edges, &load, [load.x, load.y]).ok()
}
