//! What do the styles of a picture look like, on a light and on a dark page?

use super::Style;

/// The class of a style.
pub(super) const fn class(style: Style) -> &'static str {
    match style {
        Style::PaleWood => "pale-wood",
        Style::Wood => "wood",
        Style::DarkWood => "dark-wood",
        Style::Opening => "opening",
        Style::Metal => "metal",
        Style::Copper => "copper",
        Style::Strand => "strand",
        Style::Outline => "outline",
        Style::Hidden => "hidden",
        Style::Mark => "mark",
    }
}

/// The style sheet and the shadings of wood. Every rule is confined to the picture, so that it may stand in a page.
pub(super) const STYLE_SHEET: &str = "\
<style>
.picture text{font-family:system-ui,sans-serif;fill:#2b2520}
.picture .heading{font-size:24px;font-weight:600}
.picture .caption{font-size:14px;fill:#75695c;letter-spacing:.04em}
.picture .label{font-size:13px;text-anchor:middle}
.picture .page{fill:#fbf8f2}
.picture path,.picture circle{stroke-width:1;stroke-linejoin:round;stroke-linecap:round}
.picture .pale-wood{fill:url(#picture-pale-wood);stroke:#a27a49}
.picture .wood{fill:url(#picture-wood);stroke:#875c30}
.picture .dark-wood{fill:url(#picture-dark-wood);stroke:#4e3019}
.picture .opening{fill:#463528;stroke:#2f231a}
.picture .metal{fill:#b9c0c6;stroke:#5a636b}
.picture .copper{fill:#c8743a;stroke:#a65420}
.picture .strand{fill:none;stroke:#2e2b29;stroke-width:.9}
.picture .outline{fill:none;stroke:#4a4139}
.picture .hidden{fill:none;stroke:#6a5b4b;stroke-dasharray:5 3.5}
.picture .mark{fill:none;stroke:#0a62a6;stroke-dasharray:12 3 2 3}
.picture .line{fill:none}
.picture .copper.line{stroke-width:2}
.picture .metal.line{stroke-width:1.8}
.picture .leader{fill:none;stroke:#75695c;stroke-width:.7}
.picture .dot{fill:#75695c;stroke:#fbf8f2;stroke-width:.8}
.picture .bar-dark{fill:#4a4139;stroke:#4a4139;stroke-width:.8}
.picture .bar-light{fill:#fbf8f2;stroke:#4a4139;stroke-width:.8}
.picture .pale-from{stop-color:#f3e0bd}
.picture .pale-to{stop-color:#e6cb9b}
.picture .wood-from{stop-color:#e0bb85}
.picture .wood-to{stop-color:#cb9f66}
.picture .dark-from{stop-color:#9a6b43}
.picture .dark-to{stop-color:#7d5231}
@media (prefers-color-scheme:dark){
.picture text{fill:#ede5d8}
.picture .caption{fill:#b0a392}
.picture .page{fill:#1c1916}
.picture .pale-wood{stroke:#d3b07c}
.picture .wood{stroke:#b98d58}
.picture .dark-wood{stroke:#99704a}
.picture .opening{fill:#100d0a;stroke:#8d7558}
.picture .metal{fill:#8b949c;stroke:#c5ccd2}
.picture .copper{fill:#d98549;stroke:#f0a268}
.picture .strand{stroke:#fbf5ea}
.picture .outline{stroke:#d9cdbc}
.picture .hidden{stroke:#cbbca6}
.picture .mark{stroke:#7cc4f8}
.picture .leader{stroke:#b0a392}
.picture .dot{fill:#ede5d8;stroke:#1c1916}
.picture .bar-dark{fill:#d9cdbc;stroke:#d9cdbc}
.picture .bar-light{fill:#1c1916;stroke:#d9cdbc}
.picture .pale-from{stop-color:#94784c}
.picture .pale-to{stop-color:#846a41}
.picture .wood-from{stop-color:#7b5d38}
.picture .wood-to{stop-color:#6c5130}
.picture .dark-from{stop-color:#5f422a}
.picture .dark-to{stop-color:#4e3521}
}
</style>
<defs>
<linearGradient id=\"picture-pale-wood\" x2=\"0\" y2=\"1\"><stop class=\"pale-from\"/><stop class=\"pale-to\" offset=\"1\"/></linearGradient>
<linearGradient id=\"picture-wood\" x2=\"0\" y2=\"1\"><stop class=\"wood-from\"/><stop class=\"wood-to\" offset=\"1\"/></linearGradient>
<linearGradient id=\"picture-dark-wood\" x2=\"0\" y2=\"1\"><stop class=\"dark-from\"/><stop class=\"dark-to\" offset=\"1\"/></linearGradient>
</defs>
";
