"""What should the jigs measure, by their descriptions and `layout.json`?

The fret jig lies on the playing surface: 3 mm thick, with a fence of 3 mm that hangs 5 mm down beside the edge at negative `y`
and a spine of 10 mm inside it, 8 mm beyond its first and last slot; a slot is two nozzles wide. A section is as long as the
longer side of the bed allows with 5 mm free at each end, and begins with the last slot of the one before. One dimple, 2 mm wide and
half through, marks every fifth fret and two, 2.2 mm to each side, every tenth, in the middle of spine and fence.

The tail guide has a plate of 10 mm, ledge and cheeks of 3 mm that reach 12 mm over what is bored or as far as that goes, the
clearance of the printer beside it and in the bores.
"""

import itertools
import math

import written

THICKNESS, HOOK, SPINE, FENCE, END, TOOTH, DIMPLE, BESIDE, BED_MARGIN = 3.0, 5.0, 10.0, 3.0, 8.0, 2.0, 2.0, 2.2, 5.0
GUIDE, REACH, WALL = 10.0, 12.0, 3.0
# Between two guiding bores, and round each.
LEAST_WALL = 0.8


def kerf(build):
    return 2 * float(written.length_mm(build.document, "print.nozzle"))


def half(layout, x):
    """Half the width of the neck, its taper carried on."""
    neck = layout["neck"]
    share = (x - neck["nut_front_x_mm"]) / (neck["box_x_mm"] - neck["nut_front_x_mm"])
    return (neck["width_at_nut_mm"] + share * (neck["width_at_box_mm"] - neck["width_at_nut_mm"])) / 2


def sections(build):
    """For each section its slots, as number and place; the zero fret is number 0."""
    units = written.value(build.document, "units")
    bed = max(float(written.parse_length_mm(side, units)) for side in written.value(build.document, "print.bed"))
    longest = bed - 2 * (BED_MARGIN + END)
    stations = [(0, 0.0)]
    for fret in build.layout["frets"]["stations"]:
        if fret["x_mm"] - stations[-1][1] < TOOTH + kerf(build):
            break
        stations.append((fret["number"], fret["x_mm"]))
    found, section = [], stations[:1]
    for station in stations[1:]:
        if len(section) > 1 and station[1] - section[0][1] > longest:
            found.append(section)
            section = section[-1:]
        section = section + [station]
    found += [section] if len(section) > 1 else []
    neck = build.layout["neck"]
    wide = min(neck["width_at_nut_mm"], neck["width_at_box_mm"]) >= SPINE + 2 * TOOTH
    return found if wide and len(found) <= 6 else []


def ends(section):
    return section[0][1] - END, section[-1][1] + END


def dimples(build, section):
    for number, x in section:
        middle = (SPINE - FENCE) / 2 - half(build.layout, x)
        if number and number % 10 == 0:
            yield from [(x, middle - BESIDE), (x, middle + BESIDE)]
        elif number and number % 5 == 0:
            yield x, middle


def tail_guide(build):
    """Sizes, and where the bores are for an eye that looks along the bit with the ledge below."""
    layout = build.layout
    tail, neck, air = layout["tail"], layout["neck"], float(written.length_mm(build.document, "print.clearance"))
    span = lambda ends: ends[1] - ends[0]
    if tail["kind"] == "block on the lid":
        # Looking toward the nut: the treble side of a right-handed instrument to the right.
        bores = [(bore["across_mm"], bore["above_mm"] - tail["above_mm"][0]) for bore in tail["bores"]]
        room, height, reach = tail["across_mm"][1], span(tail["above_mm"]), min(REACH, span(tail["along_mm"]))
    elif tail["kind"] == "block on the end":
        # Looking up from below, the box before the eye's feet.
        bores = [(bore["across_mm"], bore["along_mm"] - tail["along_mm"][0]) for bore in tail["bores"]]
        room, height, reach = tail["across_mm"][1], span(tail["along_mm"]), min(REACH, span(tail["above_mm"]))
    else:
        # Looking up from below at the stick's end.
        places = [string["tail"] for string in layout["strings"]]
        bores = [(-place["y_mm"], neck["tail_end_x_mm"] - place["x_mm"]) for place in places]
        room, height, reach = neck["width_at_box_mm"] / 2, max(up for _, up in bores) + GUIDE, REACH
    room += air
    return {
        "bores": bores, "bore": tail["bores"][0]["diameter_mm"] + air, "room": room, "half": room + WALL, "height": height,
        "reach": reach,
    }


def has_tail_guide(build):
    """Whether every guiding bore has a wall round it."""
    guide = tail_guide(build)
    apart = guide["bore"] + LEAST_WALL
    inside = all(
        abs(x) + apart / 2 <= guide["room"] and apart / 2 <= y <= guide["height"] - apart / 2 for x, y in guide["bores"]
    )
    return inside and all(math.dist(a, b) >= apart for a, b in itertools.combinations(guide["bores"], 2))
