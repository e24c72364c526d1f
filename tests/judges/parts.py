"""Which solid should each part of a build be? One line a part, for every judge of solids."""

import modelled
import volumes

# Name of the part: its volume by formula, and its model by another kernel.
PARTS = {
    "neck": (volumes.neck, modelled.neck),
    "fretboard": (volumes.fretboard, modelled.fretboard),
    "nut": (volumes.nut, modelled.nut),
    "saddle": (volumes.saddle, modelled.saddle),
    "heel-block": (volumes.heel_block, modelled.heel_block),
    "tail-block": (volumes.tail_block, modelled.tail_block),
    "coupon-printed": (volumes.coupon_printed, modelled.coupon_printed),
}

_MODELS = {}


def part_of(path):
    """The part that a file in `solids/` holds: `tail-block_mm.stl`, `tail-block.step`."""
    return path.stem.removesuffix("_mm")


def expected(build, part):
    return PARTS[part][0](build.layout)


def model(build, part):
    """Built once a session: booleans are slow."""
    key = (build.name, part)
    if key not in _MODELS:
        _MODELS[key] = PARTS[part][1](build.layout)
    return _MODELS[key]


def names(build):
    """The parts that an instrument has a solid of: no fretboard of no thickness, no block where strings go through."""
    layout = build.layout
    absent = set()
    if layout["fretboard"]["thickness_mm"] == 0.0:
        absent.add("fretboard")
    if layout["heel"] is None:
        absent.add("heel-block")
    if layout["tail"]["kind"] == "string through":
        absent.add("tail-block")
    return set(PARTS) - absent
