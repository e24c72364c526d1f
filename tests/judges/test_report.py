"""Does the report tell what `layout.json` holds, to every eye, on every screen, and ask for nothing?"""

import html.parser
import json
import re

import pytest

import builds
from browsing import opened

# Looked at in the page after its own script: what sticks out of the screen, words that lie on each other or are cut off.
LOOK = """<script>
window.addEventListener("load", () => {
  const wide = document.documentElement.clientWidth, out = [], meet = [];
  const name = (element) => `${element.tagName}.${element.getAttribute("class") ?? ""} ${element.textContent.slice(0, 40)}`;
  for (const element of document.querySelectorAll("main *")) {
    if (element.closest(".scroll")?.contains(element) && !element.matches(".scroll")) continue;
    const box = element.getBoundingClientRect();
    if (box.width > 0 && (box.right > wide + 0.5 || box.left < -0.5)) out.push(name(element));
  }
  for (const picture of document.querySelectorAll("svg.chart, svg.picture")) {
    const frame = picture.getBoundingClientRect();
    const words = [...picture.querySelectorAll("text")].map((element) => [element.textContent, element.getBoundingClientRect()]);
    words.forEach(([text, box], place) => {
      if (box.left < frame.left - 0.5 || box.right > frame.right + 0.5 || box.top < frame.top - 0.5 || box.bottom > frame.bottom + 0.5) {
        out.push(`${text} of ${picture.getAttribute("aria-label") ?? "the picture"}`);
      }
      for (const [other, second] of words.slice(place + 1)) {
        const across = Math.min(box.right, second.right) - Math.max(box.left, second.left);
        const down = Math.min(box.bottom, second.bottom) - Math.max(box.top, second.top);
        // Boxes are as high as a line; letters are not.
        if (across > 0.5 && down > 0.3 * Math.min(box.height, second.height)) meet.push(`${text} | ${other}`);
      }
    });
  }
  parent.postMessage({ wide, out, meet, scroll: document.documentElement.scrollWidth,
    paper: getComputedStyle(document.body).backgroundColor, canvases: document.querySelectorAll("canvas[aria-label]").length }, "*");
});
</script>"""

# A browser's window has a least width, larger than a phone: the page is looked at in a frame.
FRAME = """<!DOCTYPE html><body><script>
addEventListener("message", (event) => { document.body.dataset.judged = JSON.stringify(event.data); });
</script><iframe src="report.html" style="border: 0; width: {}px; height: {}px"></iframe></body>"""

# What stands on what, and the least contrast that it needs (WCAG 2.1, 1.4.3 and 1.4.11).
WORDS_ON = {"ink": ("paper", "raised", "tint"), "quiet": ("paper", "raised"), "link": ("paper", "raised"),
            "good": ("raised",), "note": ("raised",), "warning": ("raised",), "failure": ("raised",)}
LOOKS = [f"look-{number}" for number in range(1, 9)]


class Reader(html.parser.HTMLParser):
    """Headings in their order, tables by the heading before them, titles of points by the chart that they are in."""

    def __init__(self, text):
        super().__init__()
        self.headings, self.tables, self.points, self.unlabelled = [], {}, {}, []
        self.open, self.words, self.row, self.chart = [], "", None, None
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        attributes = dict(attributes)
        self.open.append(tag)
        if tag in ("h1", "h2", "h3", "th", "td", "title"):
            self.words = ""
        if tag == "table":
            self.tables.setdefault(self.headings[-1][1], [])
        if tag == "tr":
            self.row = []
        if tag == "svg":
            self.chart = attributes.get("aria-label") if attributes.get("class") == "chart" else None
            if attributes.get("role") != "img" or not (attributes.get("aria-label") or attributes.get("class") == "picture"):
                self.unlabelled.append(attributes)

    def handle_endtag(self, tag):
        while self.open and self.open.pop() != tag:
            pass
        if tag in ("h1", "h2", "h3"):
            self.headings.append((int(tag[1]), self.words))
        if tag in ("th", "td") and self.row is not None:
            self.row.append(self.words)
        if tag == "tr":
            self.tables[self.headings[-1][1]].append(self.row)
        if tag == "title" and self.chart:
            self.points.setdefault(self.chart, []).append(self.words)

    def handle_data(self, data):
        if "script" not in self.open and "style" not in self.open:
            self.words += data

    def table(self, heading):
        """The rows under a heading, as dictionaries."""
        first, *rows = self.tables[heading]
        return [dict(zip(first, row, strict=True)) for row in rows]


def source(build):
    return (build.folder / "report.html").read_text(encoding="utf-8")


def judged(browser, build, tmp_path, *options, size):
    (tmp_path / "report.html").write_text(source(build).replace("</body>", LOOK + "</body>"), encoding="utf-8")
    frame = tmp_path / "frame.html"
    # Not by `format`, which would take the script's braces for its own.
    frame.write_text(FRAME.replace("{}", str(size[0]), 1).replace("{}", str(size[1]), 1), encoding="utf-8")
    elements, console = opened(browser, frame, tmp_path / "profile", "--hide-scrollbars", *options, size=(1400, 1000))
    assert console == [], "nothing is said on the console, so nothing was asked for: the page's policy would refuse it aloud"
    found = re.search(r'data-judged="([^"]*)"', elements)
    assert found, "the page was not looked at to its end"
    return json.loads(html.unescape(found.group(1)))


def test_it_is_one_small_file_that_asks_for_nothing(build):
    text = source(build)
    assert len(text.encode()) < 1_500_000, "it can be sent by mail"
    assert "content=\"default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'\"" in text
    assert set(re.findall(r"https?://[^\s\"'<>]+", text)) <= {"http://www.w3.org/2000/svg"}, "no other place is named"
    for link in re.findall(r'href="([^"]+)"', text):
        assert link.startswith("#section-") or (build.folder / html.unescape(link)).is_file(), f"{link} leads somewhere"


def test_headings_stand_in_order_and_pictures_have_names(build):
    found = Reader(source(build))
    levels = [level for level, _ in found.headings]
    assert levels[0] == 1 and levels.count(1) == 1, "one title, at the top"
    assert all(after <= before + 1 for before, after in zip(levels, levels[1:])), f"no level is left out: {found.headings}"
    assert found.headings[0][1] == build.document["name"]
    sections = [words for level, words in found.headings if level == 2]
    assert sections == ["What does not fit", "The instrument", "Parts and what to buy", "How it will play",
                        "Where everything goes", "What was assumed", "Cautions"]
    assert found.unlabelled == [], "every picture says what it shows"


def test_a_failure_is_marked(build):
    fails = any(finding["severity"] == "fail" for finding in build.layout["findings"])
    assert ("MADE ALTHOUGH A CHECK FAILS" in source(build)) == fails


def test_every_finding_and_mend_is_told_the_worst_first(build):
    text = html.unescape(re.sub(r"</?code>", "`", source(build)))
    for finding in build.layout["findings"]:
        assert finding["severity"] == "pass" or finding["sentence"] in text, finding["sentence"]
    for remedy in build.layout["remedies"]:
        for mend in remedy["mends"]:
            assert mend["sentence"] in text, mend["sentence"]
    order = ["failure", "warning", "note"]
    part = text[text.index('id="section-1"'):text.index('id="section-2"')]
    tones = [order.index(tone) for tone in re.findall(r'class="notice (failure|warning|note)"', part)]
    assert tones == sorted(tones), "the worst first"


def test_stations_are_those_of_the_layout(build):
    rows = Reader(source(build)).tables.get("Frets", [[]])[1:]
    told = [(int(row[0]), float(row[2])) for row in rows]
    held = [(fret["number"], fret["x_mm"]) for fret in build.layout["frets"]["stations"]]
    assert [number for number, _ in told] == [number for number, _ in held]
    assert all(abs(one[1] - other[1]) <= 0.005 + 1e-9 for one, other in zip(told, held)), (told, held)


def test_cents_in_tables_and_plots_are_those_of_the_layout(build):
    found = Reader(source(build))
    playing, strings = build.layout["playing"], build.layout["strings"]
    for row, tuning in zip(found.table("Intonation"), playing["tuning"], strict=True):
        if not tuning["after_cents"]:
            assert row["before"] == row["after"] == "", "without frets there is no error"
            continue
        assert float(row["before"]) == pytest.approx(tuning["rms_before_cents"], abs=0.0501)
        assert float(row["after"]) == pytest.approx(tuning["rms_after_cents"], abs=0.0501)
    for string, tuning in zip(strings, playing["tuning"], strict=True):
        named = f"string {string['number']} ({string['pitch']})"
        plotted = [points for label, points in found.points.items() if label.startswith(f"Error in cents at each fret of {named}")]
        if not tuning["after_cents"]:
            assert plotted == [], f"{named} has no frets and no plot"
            continue
        for series, key in (("crest on the saddle line", "before_cents"), ("set back", "after_cents")):
            values = [float(point.rsplit(" ", 1)[1]) for point in plotted[0] if point.startswith(f"{series}: ")]
            assert values == pytest.approx(tuning[key], abs=0.000501), f"{named}, {series}"


def test_drift_is_that_of_the_layout(build):
    found, drift = Reader(source(build)), build.layout["playing"]["drift"]
    for row, string in zip(found.table("Sliding the saddle"), drift["strings"], strict=True):
        if string["slipping_cents"] is not None:
            assert float(row["slipping"]) == pytest.approx(string["slipping_cents"], abs=0.0501)
    plots = [label for label in re.findall(r'class="chart"[^>]*aria-label="([^"]*)"', source(build)) if "drifts" in label]
    advice = drift["advice"]
    assert bool(plots) == bool(advice and advice["curve"]), "there is a plot where there is a height to recommend"
    if plots:
        assert float(re.search(r"best at (-?[\d.]+) mm", plots[0]).group(1)) == pytest.approx(advice["hole_height_mm"], abs=0.00501)


@pytest.mark.parametrize("size", [(390, 844), (1280, 800)], ids=["phone", "desk"])
def test_it_fits_the_screen_and_no_words_meet(build, browser, tmp_path, size):
    found = judged(browser, build, tmp_path, size=size)
    assert found["wide"] == size[0], "the frame is as wide as asked"
    assert found["scroll"] <= size[0], "the page does not scroll sideways"
    assert found["out"] == [], "nothing sticks out of the screen, no words out of their picture"
    assert found["meet"] == [], "no words lie on others"
    assert found["canvases"] == 1, "the instrument stands in space"


def test_without_scripts_all_but_the_view_is_there(browser, tmp_path):
    build = builds.made()[0]
    page = tmp_path / "report.html"
    # The page's own policy, made stricter, keeps its script from running.
    page.write_text(source(build).replace(" script-src 'unsafe-inline';", ""), encoding="utf-8")
    elements, _ = opened(browser, page, tmp_path / "profile")
    assert "<canvas" not in elements and "needs a script" in elements
    assert elements.count('class="chart"') == source(build).count('class="chart"') > 0


def luminance(colour):
    parts = [int(colour[place:place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    low, high = sorted(map(luminance, (one, other)))
    return (high + 0.05) / (low + 0.05)


def palettes(text):
    """The colours of the page by name, light and dark."""
    style = re.search(r"<style>(.*?)</style>", text, re.DOTALL).group(1)
    rules = lambda part: dict(re.findall(r"--([a-z0-9-]+): (#[0-9a-f]{6})", part))
    dark_part = "".join(re.findall(r"@media screen and \(prefers-color-scheme: dark\) \{\s*:root \{(.*?)\}", style, re.DOTALL))
    style = re.sub(r"@media print \{\s*:root \{.*?\}", "", style)
    light = rules(re.sub(r"@media screen and \(prefers-color-scheme: dark\) \{\s*:root \{.*?\}\s*\}", "", style, flags=re.DOTALL))
    return {"light": light, "dark": rules(dark_part)}


@pytest.mark.parametrize("mode", ["light", "dark"])
def test_colours_stand_off_the_page(mode):
    colours = palettes(source(builds.made()[0]))[mode]
    for words, grounds in WORDS_ON.items():
        for ground in grounds:
            found = contrast(colours[words], colours[ground])
            assert found >= 4.5, f"{words} on {ground} in {mode}: {found:.2f}"
    for look in LOOKS:
        for ground in ("paper", "tint"):
            found = contrast(colours[look], colours[ground])
            assert found >= 3.0, f"{look} on {ground} in {mode}: {found:.2f}"


@pytest.mark.parametrize("mode", ["light", "dark"])
def test_it_follows_the_readers_light_or_dark_screen(mode, browser, tmp_path):
    build = builds.made()[0]
    number = {"dark": 0, "light": 1}[mode]
    found = judged(browser, build, tmp_path, f"--blink-settings=preferredColorScheme={number}", size=(1280, 800))
    paper = palettes(source(build))[mode]["paper"]
    expected = "rgb({}, {}, {})".format(*(int(paper[place:place + 2], 16) for place in (1, 3, 5)))
    assert found["paper"] == expected, f"the paper of the {mode} page"
