//! Which plan, of all those around a document, does what is wanted?
//!
//! Keys of the document are varied ([`Axis`]), conditions are asked of every plan ([`Want`]), and one or more measures are to be as good
//! as can be ([`measures`]). Few values are all tried; of more, a seeded swarm looks for the best. Every check must hold, unless somebody
//! asks how many fail. Plans are judged by the checks of the plan; those that are told are worked out in full.
//!
//! ```
//! use boxneck::explore::{Axis, Base, Question, Want, explore};
//! use boxneck::{layout::playing::Player, spec::Document};
//!
//! let document = Document::parse(b"name = \"Kitchen three-string\"\n[scale]\nfrets = 12\n");
//! let base = Base::of(&document)?;
//! let question = Question {
//!     axes: vec![Axis::parse(&base, "heel.reach=10 mm..60 mm:5 mm")?],
//!     wants: vec![Want::parse("wrapped-frets>=15")?],
//!     ..Question::default()
//! };
//! let answer = explore(&base, &question, &Player::default())?;
//! let best = &answer.told[0];
//! assert!(best.holds(), "there is such a heel");
//! assert!(best.document.to_text().is_some_and(|text| text.contains("frets = 15")), "and the document asks for the frets");
//! # Ok::<(), boxneck::explore::ExploreFault>(())
//! ```

mod answer;
mod axis;
mod clash;
mod evaluated;
mod fault;
mod files;
mod front;
mod measure;
mod measures;
mod number;
mod page;
mod plan;
mod question;
mod record;
mod swarm;
mod told;
mod want;
mod web_page;

pub use answer::{Answer, Clash, Front, Method, Nearest, explore};
pub use axis::{Axis, Base, MOST_VALUES};
pub use fault::ExploreFault;
pub use measure::{Better, PlanMeasure, Unit};
pub use measures::{measure_named, measures};
pub use plan::{Condition, MOST_WANTS, Plan};
pub use question::Question;
pub use record::measures_record;
pub use told::{Limit, Told};
pub use want::{Side, Want};
