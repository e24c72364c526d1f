//! What does the file say of itself at its head, for whoever opens it with an editor?

use units::LengthUnit;

use super::{ArcStyle, DxfOptions, Tabs};
use crate::number::decimal;

/// One line each, ASCII.
pub(super) fn remarks(options: &DxfOptions, has_label: bool, tabs: usize) -> Vec<String> {
    let unit = match options.unit {
        LengthUnit::Millimetre => "MILLIMETRES",
        LengthUnit::Inch => "INCHES; NUMBERS IN LAYER NAMES ARE MILLIMETRES",
    };
    let mut lines: Vec<String> = options.remark.map(String::from).into_iter().collect();
    lines.push(format!("UNIT: {unit}"));
    lines.push(match options.style.cut_line {
        None => "OUTLINES: NOMINAL, TO BE OFFSET ONCE FOR YOUR BIT OR KERF".into(),
        Some(diameter) => format!(
            "OUTLINES: CUT LINE OF A BIT OR KERF OF {} MM, NOT TO BE OFFSET AGAIN; OUTSIDES ARE GROWN AND OPENINGS SHRUNK",
            decimal(diameter.as_mm(), 6)
        ),
    });
    match options.style.arcs {
        ArcStyle::Bulges => lines.push("ARCS: BULGES OF POLYLINES".into()),
        ArcStyle::Separate => lines.push("ARCS: LINE AND ARC END TO END".into()),
        ArcStyle::Flattened(chord) => lines.push(format!(
            "ARCS: LINES WITHIN {} MM OF THE TRUE CURVE",
            decimal(chord.deviation().as_mm(), 6)
        )),
    }
    lines.extend(options.style.tabs.map(|asked| told(asked, tabs)));
    if !options.label.is_empty() && !has_label {
        lines.push("LABEL: NO ROOM FOR ONE".into());
    }
    lines
}

fn told(asked: Tabs, count: usize) -> String {
    format!(
        "TABS: {count} OF {} MM ON LAYER TAB, TO BE LEFT STANDING OR CUT LESS DEEP; ASKED FOR {} AN OUTLINE",
        decimal(asked.width().as_mm(), 6),
        asked.count(),
    )
}
