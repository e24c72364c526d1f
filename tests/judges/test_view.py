"""Does a browser show the model of the page, obey hand and keys, and ask for nothing from anywhere?"""

import json
import re

import builds
from browsing import opened

# Played in the page after its own script: what is seen first, after each act, and how many colours there are.
# A browser without a window draws one frame and no more: here everything is drawn at once when it is asked for.
PLAY = """<script>
window.requestAnimationFrame = (draw) => { draw(); return 0; };
window.addEventListener("load", () => {
  const canvas = document.querySelector("canvas"), seen = {};
  const look = (name) => { seen[name] = canvas.toDataURL(); };
  const pointer = (kind, x, y, id = 1) => canvas.dispatchEvent(new PointerEvent(kind,
    { pointerId: id, clientX: x, clientY: y, bubbles: true, isPrimary: id === 1 }));
  canvas.setPointerCapture = () => {};
  look("first");
  for (const key of ["ArrowLeft", "ArrowUp", "+", "Home"]) {
    canvas.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true }));
    look(key);
  }
  pointer("pointerdown", 300, 300); pointer("pointermove", 380, 320); pointer("pointerup", 380, 320);
  look("drag");
  canvas.dispatchEvent(new WheelEvent("wheel", { deltaY: -300, clientX: 300, clientY: 300, cancelable: true }));
  look("wheel");
  pointer("pointerdown", 300, 300); pointer("pointerdown", 400, 300, 2); pointer("pointermove", 450, 300, 2);
  pointer("pointerup", 300, 300); pointer("pointerup", 450, 300, 2);
  look("pinch");
  canvas.dispatchEvent(new MouseEvent("dblclick"));
  look("again");
  const boxes = [...document.querySelectorAll("input[type=checkbox]")];
  for (const box of boxes) box.click();
  look("nothing");
  for (const box of boxes) box.click();
  look("everything");
  const flat = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
  [flat.canvas.width, flat.canvas.height] = [canvas.width, canvas.height];
  flat.drawImage(canvas, 0, 0);
  const pixels = new Uint32Array(flat.getImageData(0, 0, canvas.width, canvas.height).data.buffer);
  const numbers = {}, known = [];
  for (const [name, picture] of Object.entries(seen)) {
    if (!known.includes(picture)) known.push(picture);
    numbers[name] = known.indexOf(picture);
  }
  document.body.dataset.judged = JSON.stringify({
    seen: numbers, colours: new Set(pixels).size, drawn: pixels.filter((pixel) => pixel !== 0).length / pixels.length,
    label: canvas.getAttribute("aria-label"), focusable: canvas.tabIndex, boxes: boxes.length,
  });
});
</script>"""


def source(build):
    return (build.folder / "view.html").read_text(encoding="utf-8")


def test_it_can_ask_for_nothing(build):
    text = source(build)
    # The browser itself then refuses every request and says so on the console, which the test below finds silent.
    assert "content=\"default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'\"" in text
    links = set(re.findall(r"https?://[^\s\"'<>]+", text))
    assert links <= {"http://www.w3.org/2000/svg"}, "no other place is named"


def test_it_shows_the_model_and_obeys(build, browser, tmp_path):
    page = tmp_path / "view.html"
    page.write_text(source(build).replace("</body>", PLAY + "</body>"), encoding="utf-8")
    elements, console = opened(browser, page, tmp_path / "profile")
    assert console == [], "nothing is said on the console"
    judged = re.search(r'data-judged="([^"]*)"', elements)
    assert judged, "the play did not end"
    found = json.loads(judged.group(1).replace("&quot;", '"').replace("&amp;", "&"))
    assert found["colours"] > 50 and 0.02 < found["drawn"] < 0.9, "the canvas shows something"
    seen = found["seen"]
    for one, other in (("first", "ArrowLeft"), ("ArrowLeft", "ArrowUp"), ("ArrowUp", "+"), ("first", "drag"),
                       ("drag", "wheel"), ("wheel", "pinch"), ("again", "nothing")):
        assert seen[one] != seen[other], f"from {one} to {other} the picture changes: {seen}"
    for one, other in (("first", "Home"), ("first", "again"), ("first", "everything")):
        assert seen[one] == seen[other], f"{other} is what {one} was: {seen}"
    assert build.document["name"] in found["label"] and found["focusable"] == 0 and found["boxes"] > 5


def test_without_webgl_the_still_picture_stays(browser, tmp_path):
    # The page is the same for every build but for its pictures.
    build = builds.made()[0]
    elements, console = opened(browser, build.folder / "view.html", tmp_path / "profile", "--disable-3d-apis")
    assert [line for line in console if "Uncaught" in line or "Refused" in line] == []
    assert "<canvas" not in elements and 'class="picture"' in elements
