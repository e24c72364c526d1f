"""Can every part be cut from the blank that the cut list says, and does a spreadsheet read it?"""

import csv
import fractions
import re

import pytest
import trimesh

import parts

# The part of a row, by the title that people read.
TITLES = {
    "Neck": "neck", "Fretboard": "fretboard", "Nut": "nut", "Saddle": "saddle", "Heel block": "heel-block",
    "Tail block": "tail-block",
}


# The last row of a list that was made with --anyway, for none of a piece.
MARK = "MADE ALTHOUGH A CHECK FAILS"


def rows(build):
    with (build.folder / "cut-list.csv").open(encoding="utf-8-sig", newline="") as file:
        found = list(csv.DictReader(file))
    marked = found[-1]["piece"].startswith(MARK)
    assert marked == (build.status == 1), "a list is marked when a check fails"
    return found[:-1] if marked else found


def millimetres(written):
    """`33 9/64 in + 0.08 mm`: whole inches, sixty-fourths, and what is left over in millimetres."""
    match = re.fullmatch(r"(?:(\d+) )?(?:(\d+/\d+) )?in(?: ([+-]) ([\d.]+) mm)?", written)
    assert match, f"{written!r} cannot be read"
    whole, fraction, sign, rest = match.groups()
    over = float(rest or 0) * (-1 if sign == "-" else 1)
    return float((int(whole or 0) + fractions.Fraction(fraction or 0)) * fractions.Fraction(254, 10)) + over


def test_every_row_is_whole(build):
    for row in rows(build):
        assert None not in row and None not in row.values(), f"a row has a cell too many or too few: {row}"
        assert int(row["quantity"]) >= 1 and row["piece"] and row["material"]


def test_every_solid_has_its_row(build):
    listed = {TITLES[row["piece"]] for row in rows(build) if row["piece"] in TITLES}
    # A coupon or a jig is made from what is left over, and the instrument needs none.
    assert listed == {name for name in parts.names(build) if not name.startswith(parts.NO_PLACE)}


def test_every_solid_fits_its_blank_and_wastes_little(build):
    for row in rows(build):
        part = TITLES.get(row["piece"])
        if part is None:
            continue
        blank = sorted(float(row[f"{side} mm"]) for side in ("length", "width", "thickness"))
        solid = sorted(trimesh.load(build.folder / f"solids/{part}_mm.stl").extents)
        for have, need in zip(blank, solid):
            # The list says hundredths of a millimetre; a bed's rounding to 32 bits is less.
            assert have >= need - 0.006, f"{part}: {blank} is smaller than {solid}"
            assert have <= need * 1.1 + 1, f"{part}: {blank} is much larger than {solid}"


def test_both_units_say_the_same(build):
    for row in rows(build):
        for side in ("length", "width", "thickness"):
            if row[f"{side} mm"]:
                # Both are rounded to 0.01 mm.
                found = millimetres(row[f"{side} in"])
                assert found == pytest.approx(float(row[f"{side} mm"]), abs=0.0101), row
