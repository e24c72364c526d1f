"""Is every picture sound XML, and does every drawing in it print at its true size?"""

import re
import xml.etree.ElementTree

import ezdxf
import ezdxf.bbox
import pytest

SVG = "{http://www.w3.org/2000/svg}"


def test_it_is_an_svg_that_needs_nothing_else(picture):
    root = xml.etree.ElementTree.parse(picture[1]).getroot()
    assert root.tag == f"{SVG}svg"
    text = picture[1].read_text(encoding="utf-8")
    outside = [url for url in re.findall(r"(?:href|src)\s*=\s*\"([^\"]*)\"|url\(([^)]*)\)", text)]
    assert not [pair for pair in outside if not "".join(pair).startswith("#")], "it fetches nothing"
    assert "<script" not in text
    assert not re.search(r"\b(?:nan|inf)\b", text, re.IGNORECASE), "every number is finite"


def test_a_drawing_is_in_millimetres(picture):
    """One user unit is one millimetre: width and height in mm are those of the view box (SVG 2, section 8.2)."""
    if picture[1].parent.name != "drawings":
        return
    root = xml.etree.ElementTree.parse(picture[1]).getroot()
    _, _, width, height = map(float, root.get("viewBox").split())
    for key, size in (("width", width), ("height", height)):
        told = root.get(key)
        assert told.endswith("mm"), f"{key} is {told}"
        assert float(told.removesuffix("mm")) == pytest.approx(size, abs=1e-6)


def test_a_drawing_has_room_for_what_the_dxf_holds(picture):
    build, path = picture
    if path.parent.name != "drawings":
        return
    twin = path.with_name(f"{path.stem.removesuffix('_mm')}_mm.dxf")
    box = ezdxf.bbox.extents(ezdxf.readfile(twin).modelspace(), fast=False)
    _, _, width, height = map(float, xml.etree.ElementTree.parse(path).getroot().get("viewBox").split())
    # Dimensions, notes and the title block stand round it.
    assert width >= box.size.x + 10 and height >= box.size.y + 10, "the page is larger than the drawing"
    assert width <= box.size.x + 350 and height <= box.size.y + 250, "and not much larger"
