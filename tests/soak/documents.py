"""Which instruments has nobody thought of?

Writes random documents, most of them sound, some impossible: `documents.py FOLDER COUNT SEED`. The same seed gives the
same documents. Sizes are drawn from what builders use, a little beyond at both ends, in both units.
"""

import pathlib
import random
import sys

# Bass to treble; any neighbouring few make an instrument.
STRINGS = [
    ("E2", 0.046, 0.018), ("A2", 0.036, 0.017), ("D3", 0.026, 0.015), ("G3", 0.017, None), ("B3", 0.013, None),
    ("E4", 0.010, None),
]


def length(chance, low_mm, high_mm):
    """A length as people write it: millimetres, inches with decimals, or sixty-fourths."""
    value = chance.uniform(low_mm, high_mm)
    form = chance.randrange(3)
    if form == 0:
        return f'"{value:.2f} mm"'
    if form == 1:
        return f'"{value / 25.4:.4f} in"'
    sixtyfourths = max(1, round(value / 25.4 * 64))
    whole, rest = divmod(sixtyfourths, 64)
    return f'"{whole} {rest}/64 in"' if rest and whole else f'"{rest}/64 in"' if rest else f'"{whole} in"'


def document(chance, name):
    pick, size = chance.choice, lambda low, high: length(chance, low, high)
    count = chance.randint(1, 6)
    first = chance.randint(0, 6 - count)
    joint = pick(["through", "butt"])
    section = pick(["square", "eased", "oval"])
    narrow = 26 + 5 * count + chance.uniform(0, 10)
    wide = narrow + pick([0.0, chance.uniform(0, 12)])
    tail = pick(["lid", "end", "through"]) if joint == "through" else pick(["lid", "end"])
    board = pick([0.0, 0.0, chance.uniform(3, 7)])
    scale = chance.uniform(420, 700)
    box = chance.uniform(160, 300)
    kind = pick(["wrapped wire", "seated wire", "fret wire"])
    rows = [f'name = "{name}"', f'units = "{pick(["mm", "in"])}"', f'handed = "{pick(["right", "left"])}"']
    rows += ["[scale]", f'length = "{scale:.3f} mm"', f"frets = {chance.randint(5, 15)}"]
    rows += [f'pattern = "{pick(["chromatic", "chromatic", "diatonic"])}"']
    for pitch, gauge, core in STRINGS[first : first + count]:
        rows += ["[[strings]]", f'pitch = "{pitch}"', f'diameter = "{gauge} in"']
        rows += [f'core = "{core} in"', 'wrap = "phosphor bronze"'] if core else []
    # The saddle's place on the box, and a tail that lies behind it: on the lid, past the end, or over the stick's end.
    from_end, overhang = chance.uniform(48, 80), chance.uniform(18, 26)
    distance = {"lid": chance.uniform(22, 32), "end": from_end + chance.uniform(5, 9), "through": from_end + overhang / 2}[tail]
    rows += ["[neck]", f'joint = "{joint}"', f'section = "{section}"', f"thickness = {size(18, 28)}"]
    rows += [f'width_at_nut = "{narrow:.2f} mm"', f'width_at_box = "{wide:.2f} mm"']
    rows += [f'back_angle = "{pick([0, 0, round(chance.uniform(0.2, 3.5), 2)])} deg"']
    rows += [f'face_above_lid = "{pick([0, round(chance.uniform(0, 6), 2)])} mm"']
    if section == "eased":
        rows += [f"edge_radius = {size(1, 6)}"]
    if joint == "through":
        rows += [f"tongue_recess = {size(0.5, 4)}", f'tail_overhang = "{overhang:.3f} mm"']
    rows += ["[headstock]", f"length = {size(110, 170)}", f"thickness = {size(10, 14)}", f"tuner_rows = {pick([1, 2])}"]
    rows += ["[heel]", f"reach = {pick(['0', size(8, 40)])}", f"depth = {size(30, 42)}"]
    if board:
        rows += ["[fretboard]", f'thickness = "{board:.2f} mm"']
        rows += [f"radius = {size(180, 500)}"] if chance.random() < 0.5 else []
    rows += ["[frets]", f'kind = "{kind}"', f'past_heel = "{pick(["stop", "seated"])}"']
    if kind != "fret wire":
        rows += [f'seat_depth = "{pick([0, round(chance.uniform(0.1, 0.5), 2)])} mm"']
    rows += ["[zero_fret]", f"crown_height = {size(1.3, 1.9)}"]
    rows += ["[nut]", f"thickness = {size(4, 8)}", f'spacing = "{pick(["equal gaps", "equal centres"])}"']
    rows += ["[saddle]", f'kind = "{pick(["floating", "let in"])}"', f"thickness = {size(8, 14)}", f"adjust = {size(8, 19)}"]
    rows += [f'spread = "{chance.uniform(8, 11) * max(1, count - 1):.2f} mm"', f'from_tail_end = "{from_end:.3f} mm"']
    rows += ["[tail]", f'kind = "{"string through" if tail == "through" else "block"}"', f"screws = {chance.randint(1, 3)}"]
    rows += [f'hole_height = "{round(chance.uniform(2, 8) if tail == "lid" else chance.uniform(-14, -6), 2)} mm"']
    rows += [f'distance = "{distance:.3f} mm"']
    rows += [f'screw = "{pick(["No. 4", "No. 6", "No. 8", "No. 10"])}"']
    rows += ["[box]", f'length = "{box:.2f} mm"', f"width = {size(120, 220)}", f"depth = {size(45, 70)}"]
    rows += [f"wall = {size(5, 9)}", f"lid = {size(2, 4)}"]
    for face, along in (("bass side", box / 2), ("treble side", box / 3)):
        if chance.random() < 0.3:
            rows += ["[[box.holes]]", f'purpose = "{pick(["sound", "jack"])}"', f'face = "{face}"']
            rows += [f'at = ["{along:.2f} mm", "22 mm"]', f"diameter = {size(8, 15)}"]
    rows += ["[action]", f"fret = {pick([7, 12])}", f"height = {size(2.2, 4.5)}"]
    return "\n".join(rows) + "\n"


def main(folder, count, seed):
    folder = pathlib.Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    for index in range(count):
        name = f"random-{seed}-{index:04}"
        (folder / f"{name}.toml").write_text(document(random.Random(f"{seed} {index}"), name), encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]))
