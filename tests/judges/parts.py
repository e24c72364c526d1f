"""Which solid should each part of a build be? One line a part, for every judge of solids."""

import brought
import jigs
import modelled
import volumes
import written


def of_layout(formula):
    return lambda build: formula(build.layout)


def of_plan(formula):
    """The headstock may have been drawn elsewhere."""
    return lambda build: formula(build.layout, brought.headstock(build))


def of_coupon(formula):
    """How much of the saddle's foot is tried depends on the bit."""
    return lambda build: formula(build.layout, float(written.length_mm(build.document, "router.bit")))


# Name of the part: its volume by formula, and its model by another kernel.
PARTS = {
    "neck": (of_plan(volumes.neck), of_plan(modelled.neck)),
    "fretboard": (of_layout(volumes.fretboard), of_layout(modelled.fretboard)),
    "nut": (of_layout(volumes.nut), of_layout(modelled.nut)),
    "saddle": (of_layout(volumes.saddle), of_layout(modelled.saddle)),
    "heel-block": (of_layout(volumes.heel_block), of_layout(modelled.heel_block)),
    "tail-block": (of_layout(volumes.tail_block), of_layout(modelled.tail_block)),
    "coupon-printed": (of_coupon(volumes.coupon_printed), of_coupon(modelled.coupon_printed)),
    "tail-drill-guide": (volumes.tail_guide, modelled.tail_guide),
    **{
        f"fret-jig-{number}": (
            lambda build, number=number: volumes.fret_jig(build, number),
            lambda build, number=number: modelled.fret_jig(build, number),
        )
        for number in range(1, 7)
    },
}

# How the names of parts begin that the instrument needs none of.
NO_PLACE = ("coupon-", "fret-jig-", "tail-drill-guide")

_MODELS = {}


def part_of(path):
    """The part that a file in `solids/` holds: `tail-block_mm.stl`, `tail-block.step`."""
    return path.stem.removesuffix("_mm")


def expected(build, part):
    return PARTS[part][0](build)


def model(build, part):
    """Built once a session: booleans are slow."""
    key = (build.name, part)
    if key not in _MODELS:
        _MODELS[key] = PARTS[part][1](build)
    return _MODELS[key]


def names(build):
    """The parts that an instrument has a solid of: no fretboard of no thickness, no block where strings go through."""
    layout = build.layout
    absent = {f"fret-jig-{number}" for number in range(len(jigs.sections(build)) + 1, 7)}
    if not jigs.has_tail_guide(build):
        absent.add("tail-drill-guide")
    if layout["fretboard"]["thickness_mm"] == 0.0:
        absent.add("fretboard")
    if layout["heel"] is None:
        absent.add("heel-block")
    if layout["tail"]["kind"] == "string through":
        absent.add("tail-block")
    return set(PARTS) - absent
