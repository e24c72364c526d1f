"""What does a document say, read without the program?

Only what the judges need: lengths as exact fractions of a millimetre (an inch is 25.4 mm exactly, by the international
yard and pound agreement of 1959) and the few values that a document may leave to its defaults.
"""

import fractions
import re

INCH = fractions.Fraction(254, 10)
FACTORS = {
    "mm": fractions.Fraction(1), "cm": fractions.Fraction(10), "m": fractions.Fraction(1000),
    "in": INCH, "inch": INCH, "inches": INCH, '"': INCH, "ft": INCH * 12,
}

# The defaults, as the document that `boxneck new` writes says them.
DEFAULTS = {
    "units": "in",
    "scale.length": "25 in",
    "scale.pattern": "chromatic",
    "action.fret": 12,
    "action.height": "2.8 mm",
    "box.length": "10 in",
    "box.width": "7 in",
    "box.depth": "2 in",
    "box.wall": "1/4 in",
    "box.lid": "1/8 in",
    "neck.joint": "through",
    "neck.tongue_recess": "1/8 in",
    "fretboard.radius": "flat",
    "frets.seat_depth": "0 mm",
    "nut.spacing": "equal gaps",
    "saddle.from_tail_end": "2 1/2 in",
    "saddle.adjust": "8 mm",
    "router.bit": "1/8 in",
    "router.corner_relief": "dogbone",
    "print.clearance": "0.15 mm",
    "print.nozzle": "0.4 mm",
    "print.bed": ["220 mm", "220 mm"],
}


def value(document, key):
    """What stands at a dotted key, or its default."""
    found = document
    for step in key.split("."):
        if not isinstance(found, dict) or step not in found:
            return DEFAULTS[key]
        found = found[step]
    return found


def length_mm(document, key):
    """The length at a dotted key as an exact fraction of millimetres."""
    return parse_length_mm(value(document, key), value(document, "units"))


def parse_length_mm(written, units):
    """`25`, `"25.5 in"`, `"25 1/2 in"`, `"25-1/2\\""`, `"648 mm"`."""
    if isinstance(written, (int, float)):
        # `str` gives the shortest decimal that reads back as the same number: what the person wrote.
        return fractions.Fraction(str(written)) * FACTORS[units]
    match = re.fullmatch(r'\s*([-+]?)\s*([\d.]+(?:[ -]+\d+/\d+)?|\d+/\d+)\s*([a-z"]*)\s*', written)
    assert match, f"the judge cannot read the length {written!r}"
    sign, number, unit = match.groups()
    magnitude = sum(fractions.Fraction(piece) for piece in re.split(r"[ -]+", number))
    return (-magnitude if sign == "-" else magnitude) * FACTORS[unit or units]
