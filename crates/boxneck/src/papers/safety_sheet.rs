//! What to be careful with, from what is really made and of what?
//!
//! Common practice, no source: the usual cautions of a workshop, each only where the class meets it. The machine's manual and the
//! school's own rules come first.

use export::page::{Notice, Page, Tone};
use export::table::Table;
use spec::stock::Wood;

use super::kit::Supply;
use super::member::Member;
use crate::account::cautions::CAUTIONS;
use crate::make::MakeFault;

/// One thing to be careful with.
struct Caution {
    what: &'static str,
    /// Whether a member meets it.
    applies: fn(&Member) -> bool,
    lines: &'static [&'static str],
}

const MET: [Caution; 8] = [
    Caution {
        what: "Saws and blades",
        applies: |member| !member.made.pieces.is_empty(),
        lines: &[
            "Clamp the work, keep both hands behind the cut, and let the blade stop before you reach for anything.",
            "Only those who have been shown a power saw use it, with its guard on and a push stick for short pieces.",
        ],
    },
    Caution {
        what: "Router",
        applies: |member| !member.made.pieces.is_empty(),
        lines: &[
            "Eye and ear protection; no gloves, loose sleeves, or long hair untied near a turning bit.",
            "Hold small parts with screws, tape or tabs, never by hand. Stop the spindle before you touch the work.",
        ],
    },
    Caution {
        what: "Wood dust",
        applies: |member| !member.made.pieces.is_empty(),
        lines: &[
            "Fine dust harms lungs, that of hardwoods most of all: collect it where it is made, wear a mask that fits, wipe and vacuum, do not sweep or blow.",
            "Sanding dust and oily rags can burn: empty bags outdoors, dry rags flat.",
        ],
    },
    Caution {
        what: "Drills",
        applies: |member| member.made.kit.iter().any(|line| line.supply == Some(Supply::Tuner)),
        lines: &[
            "Clamp the headstock on a scrap board; back the bit out often, and never hold a part by hand under a drill press.",
        ],
    },
    Caution {
        what: "3D printer",
        applies: |member| !member.made.printed.is_empty(),
        lines: &[
            "Nozzle and bed burn for minutes after a print. Air the room: melting plastic gives off vapours and fine particles.",
            "Support and brim leave sharp edges: cut away from yourself.",
        ],
    },
    Caution {
        what: "Wire",
        applies: |member| {
            member.made.kit.iter().any(|line| matches!(line.supply, Some(Supply::Wire | Supply::FretWire)))
        },
        lines: &[
            "Cut ends fly: hold both sides of a cut and wear eye protection. File every end round, and under the neck too.",
            "Metal filings stay in skin and eyes: brush them up, do not blow.",
        ],
    },
    Caution {
        what: "Strings under tension",
        applies: |member| !member.made.kit.is_empty(),
        lines: &[
            "A string that breaks cuts, and can put out an eye: eye protection while tuning up, and no face over the strings.",
            "Bring all strings up in small steps and look at joints, saddle and tail block in between. Cut and bend in the ends at the tuners.",
        ],
    },
    Caution {
        what: "Electricity",
        applies: |member| member.made.is_electric,
        lines: &[
            "Solder in moving air, on a stand, and wash hands afterwards.",
            "What is plugged into the mains is left to a licensed electrician; do not open an amplifier.",
        ],
    },
];

/// The page of what this class meets.
pub(super) fn page(title: &str, members: &[Member]) -> Result<String, MakeFault> {
    let mut page = Page::new(&format!("{title}: safety"));
    page.paragraph(
        "The usual cautions for what this class really does; common practice, no source. The manuals of your machines, the \
         rules of your school and local codes come first.",
    );
    page.section("Be careful with");
    for caution in MET.iter().filter(|caution| members.iter().any(caution.applies)) {
        let who = members.iter().filter(|member| (caution.applies)(member)).count();
        let of =
            if who == members.len() { "everybody".to_owned() } else { format!("{who} of {}", members.len()) };
        let lines = caution.lines.iter().map(ToString::to_string).collect();
        page.notice(&Notice { tone: Tone::Warning, word: caution.what.into(), of, lines });
    }
    page.section("Always");
    page.list(CAUTIONS);
    page.section("Materials");
    let mut woods: Vec<&str> = members.iter().flat_map(|member| member.made.woods.iter().copied()).collect();
    woods.sort_unstable();
    woods.dedup();
    let rows = woods.into_iter().map(|name| vec![name.to_owned(), about(name).to_owned()]).collect();
    let heading = ["material", "what to know"].map(String::from).to_vec();
    page.table("What is cut in this class", &Table { heading, rows })?;
    Ok(page.finish())
}

/// What to know of a wood by its name.
fn about(name: &str) -> &'static str {
    match Wood::named(name) {
        _ if name.contains("plywood") => {
            "its dust holds glue as well as wood: collect it, and mind splinters at sawn edges"
        }
        Ok(wood) if !wood.is_hardwood() => "softwood: resin clogs blades; dust irritates skin and eyes",
        _ => "hardwood: its dust is the more harmful one; collect it and wear a mask that fits",
    }
}
