//! What is a part, and why can one not be made?

use geometry::{Body, BodyFault, Drawing, Mesh, OutlineFault, Point3, ReliefFault, Rigid3, Vector3};
use layout::{BoxFrame, Place};
use units::{ChordTolerance, Length};

/// One part of the instrument.
#[derive(Clone, Debug)]
pub struct Part {
    /// Lower-case letters, digits and dashes; the stem of the part's solid's file.
    pub name: &'static str,
    /// What it is, for people.
    pub title: &'static str,
    /// What it is made of.
    pub material: String,
    /// The blank to start from: along, across and thick.
    pub blank: [Length; 3],
    /// How many the instrument needs: none of a coupon, which is made first to try the fit, from what is left over, and none of
    /// a jig.
    pub quantity: u32,
    /// Its flat drawings.
    pub drawings: Vec<Drawing>,
    /// Its body, where it is one.
    pub solid: Option<Solid>,
}

/// The body of a part.
#[derive(Clone, Debug)]
pub struct Solid {
    /// The body, in the instrument frame.
    pub body: Body,
    /// The motion that lays it on the face that it is made on; [`Solid::lying`] moves it to the origin as well.
    pub laid: Rigid3,
    /// How it is best made.
    pub process: Process,
}

/// A body as it lies to be made.
#[derive(Clone, Debug, PartialEq)]
pub struct Lying {
    /// Its triangles: the lower left of its bounds on x = 0 and y = 0, its lowest point on z = 0.
    pub mesh: Mesh,
    /// The motion from the instrument frame to where it lies.
    pub motion: Rigid3,
    /// Its size along x, y and z.
    pub size: [Length; 3],
}

/// How a part is best made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Process {
    /// Small enough to print.
    Printed,
    /// Cut from a plank.
    Machined,
}

/// A part that the plan leaves no room for.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PartFault {
    /// The slots of the nut reach its underside.
    #[error(
        "the nut's slots must stay {least} above its foot, found {found}: a smaller headstock.thickness makes the nut taller"
    )]
    NutTooLow {
        /// What is left under the deepest slot.
        found: Length,
        /// What must be left.
        least: Length,
    },
    /// The saddle would be lower than its own crest is thick.
    #[error(
        "the saddle must stand at least {least} above the lid, found {found}: a larger action.height, neck.back_angle or neck.face_above_lid raises it, a smaller saddle.thickness needs less"
    )]
    SaddleTooLow {
        /// The height of the lowest crest.
        found: Length,
        /// The least height.
        least: Length,
    },
    /// The saddle would be high enough on a neck that the strings did not bend.
    #[error(
        "the strings bend the neck so far that it takes {lost} of the saddle's height, of which {found} is left where {least} is needed: a larger neck.thickness or a smaller neck.tongue_recess makes the neck stiffer"
    )]
    NeckBendsTooFar {
        /// The height of the lowest crest.
        found: Length,
        /// The least height.
        least: Length,
        /// By how much the bent neck lowers the crests.
        lost: Length,
    },
    /// A compensated crest would leave the saddle.
    #[error(
        "a crest of the saddle must stay within {most} of its middle, found {found}: a larger saddle.thickness or saddle.adjust makes room, a smaller action.height needs less"
    )]
    CrestOffSaddle {
        /// The crest that stands farthest from the middle.
        found: Length,
        /// The farthest that it may stand.
        most: Length,
    },
    /// The tongue of a through neck would be too thin.
    #[error(
        "the tongue must stay {least} thick, found {found}: a larger neck.thickness, a smaller neck.tongue_recess or neck.back_angle leaves more, and a higher tail.hole_height where the strings go through it"
    )]
    TongueTooThin {
        /// The thinnest place.
        found: Length,
        /// The least thickness.
        least: Length,
    },
    /// A slot would go through the fretboard, or leave too little of it.
    #[error(
        "the fretboard must stay {least} thick at its edges under the slots, found {found}: a larger fretboard.thickness or fretboard.radius, or a smaller zero_fret.slot_depth or frets.seat_depth leaves more"
    )]
    BoardTooThin {
        /// What is left at the thinnest place.
        found: Length,
        /// What must be left.
        least: Length,
    },
    /// The underside of the heel would end before the wall that leans over it.
    #[error(
        "the heel's underside must be at least {least} long, found {found}: a larger heel.reach, or a smaller heel.depth or neck.back_angle makes room"
    )]
    HeelTooShort {
        /// Its size along the neck, from the bevel to the box wall.
        found: Length,
        /// The least size.
        least: Length,
    },
    /// A block on the tail end of the box would begin before that end.
    #[error(
        "the tail block on the end of the box must be at least {least} long, found {found}: a larger tail.distance or a smaller saddle.from_tail_end makes room"
    )]
    TailBlockInsideBox {
        /// Its size along the strings: negative where the string holes lie before the box's end.
        found: Length,
        /// The least size.
        least: Length,
    },
    /// The corners that another part must enter leave no room for the relief that the router's bit needs.
    #[error(
        "the {part} cannot be cut with corner relief: {fault}: a smaller router.bit makes room, and router.corner_relief = \"none\" needs none"
    )]
    Relief {
        /// Which part.
        part: &'static str,
        /// Why not.
        fault: ReliefFault,
    },
    /// An outline of the part cannot be drawn.
    #[error("the {part} cannot be drawn: {}", outline_words(fault))]
    Outline {
        /// Which part.
        part: &'static str,
        /// Why not.
        fault: OutlineFault,
    },
    /// The body of the part cannot be built.
    #[error("the {part} cannot be built: {}", body_words(fault))]
    Body {
        /// Which part.
        part: &'static str,
        /// Why not.
        fault: BodyFault,
    },
}

impl Part {
    /// How many the instrument needs, in words.
    #[must_use]
    pub fn quantity_words(&self) -> String {
        match self.quantity {
            0 => "1 to work with, none in the instrument".into(),
            quantity => quantity.to_string(),
        }
    }

    /// Whether it is best printed, so that no bit cuts what its drawings show.
    #[must_use]
    pub fn is_printed(&self) -> bool {
        self.solid.as_ref().is_some_and(|solid| solid.process == Process::Printed)
    }
}

impl Solid {
    /// The solid of a body that can be built: its skin is made once to see that.
    pub(crate) fn new(
        part: &'static str,
        body: Body,
        laid: Rigid3,
        process: Process,
    ) -> Result<Self, PartFault> {
        body.skin().map_err(PartFault::body(part))?;
        Ok(Self { body, laid, process })
    }

    /// The body laid on its face at the origin.
    ///
    /// - **Accuracy**: curved faces within the tolerance; so are the size and the place at the origin, which are those of
    ///   the mesh.
    /// - **Errors**: a [`BodyFault`] where the body has no mesh.
    pub fn lying(&self, tolerance: ChordTolerance) -> Result<Lying, BodyFault> {
        let turned = self.body.mesh(tolerance)?.moved(&self.laid);
        let bounds = turned.bounds().expect("a body's mesh has points");
        let to_origin = Rigid3::translation(Point3::ORIGIN - bounds.min);
        Ok(Lying {
            mesh: turned.moved(&to_origin),
            motion: self.laid.then(&to_origin),
            size: [bounds.width(), bounds.height(), bounds.depth()],
        })
    }
}

impl PartFault {
    /// For `map_err`: an outline's fault, with the part that it befell.
    pub(crate) fn outline(part: &'static str) -> impl Fn(OutlineFault) -> Self + Copy {
        move |fault| Self::Outline { part, fault }
    }

    /// For `map_err`: a body's fault, with the part that it befell.
    pub(crate) fn body(part: &'static str) -> impl Fn(BodyFault) -> Self + Copy {
        move |fault| Self::Body { part, fault }
    }
}

/// What is wrong with an outline, without the numbers of its vertices.
fn outline_words(fault: &OutlineFault) -> String {
    match fault {
        OutlineFault::Crossing { .. } => "its outline crosses itself".to_owned(),
        OutlineFault::ShortSegment { found, .. } => format!("its outline has a side of {found}"),
        OutlineFault::NoArea { .. } => "nothing is left of it".to_owned(),
        other => other.to_string(),
    }
}

/// What is wrong with a body, without the numbers of its bores and the places of its corners.
fn body_words(fault: &BodyFault) -> String {
    match fault {
        BodyFault::BoreLeavesFace { radius, room, .. } => format!(
            "a bore of {} runs over an edge that is {} from its middle",
            Length::mm(radius * 2.0),
            Length::mm(*room)
        ),
        BodyFault::BoresMeet { .. } => "two of its bores meet".to_owned(),
        BodyFault::BoreBreaksOut { depth, .. } => {
            format!("a bore comes out at its side, {} deep", Length::mm(*depth))
        }
        BodyFault::BoreMissesFace { .. } => "a bore begins beside it".to_owned(),
        BodyFault::TooThin { .. } | BodyFault::EdgeTouch { .. } => "it is too thin somewhere".to_owned(),
        other => other.to_string(),
    }
}

/// A place of the layout as a point of the geometry; both are in the instrument frame.
pub(crate) fn point(place: Place) -> Point3 {
    Point3::new(place.x, place.y, place.z)
}

/// The directions of the box in the instrument frame: along the lid, across, and up from it.
pub(crate) fn box_directions(frame: &BoxFrame) -> [Vector3; 3] {
    let origin = point(frame.place(Length::ZERO, Length::ZERO, Length::ZERO));
    let one = Length::mm(1.0);
    let toward = |along, across, above| point(frame.place(along, across, above)) - origin;
    [
        toward(one, Length::ZERO, Length::ZERO),
        toward(Length::ZERO, one, Length::ZERO),
        toward(Length::ZERO, Length::ZERO, one),
    ]
}
