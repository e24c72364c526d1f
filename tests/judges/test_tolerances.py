"""Do instruments of one plan differ as `check --tolerances` says? Strings and boxes are put together again here, by lot."""

import functools
import json
import subprocess

import numpy
import pytest

import builds
import strung
import written
from frame import BoxFrame

DRAWN = 1500
DRAWN_HERE = 200_000

# One standard deviation in mm with hand tools, as the schema says them.
HAND_TOOLS = {"neck_set": 0.8, "zero_fret_height": 0.06, "fret_place": 0.25, "saddle_height": 0.3, "saddle_place": 0.5}


def held_to_mm(build, key):
    """No document of the project says how well it is held but by hand tools; one that does is judged by its own words."""
    tolerances = build.document.get("tolerances", {})
    if key in tolerances:
        return float(written.parse_length_mm(tolerances[key], written.value(build.document, "units")))
    assert tolerances.get("made_with", "hand tools") == "hand tools", "the judge knows the usual values of hand tools alone"
    return HAND_TOOLS[key]


@functools.cache
def said_of(document_path):
    said = subprocess.run(
        [builds.program(), "check", document_path, f"--tolerances={DRAWN}", "--format", "json"],
        capture_output=True, text=True, timeout=300, check=False,
    )
    return json.loads(said.stdout)["tolerances"]


@pytest.fixture
def told(build):
    return said_of(build.document_path)


def outcome(told, name):
    return next(outcome for outcome in told["outcomes"] if outcome["outcome"] == name)


def drawn_actions(build):
    """Mean action of the strings of many instruments: the box stands still and the neck is turned about its edge."""
    layout, frame = build.layout, BoxFrame(build.layout)
    random = numpy.random.default_rng(2)

    def normal(key):
        return random.standard_normal(DRAWN_HERE) * held_to_mm(build, key)

    turned = numpy.arctan(normal("neck_set") / frame.x0)
    cos, sin = numpy.cos(turned), numpy.sin(turned)
    saddle_up = normal("saddle_height"), normal("saddle_height")
    saddle_back = normal("saddle_place"), normal("saddle_place")
    zero_fret_up = normal("zero_fret_height")
    semitone = written.value(build.document, "action.fret")
    has_fret = any(fret["semitone"] == semitone for fret in layout["frets"]["stations"])
    fret_x = layout["scale_length_mm"] * (1 - 2 ** (-semitone / 12))
    fret_up = random.standard_normal(DRAWN_HERE) * float(strung.length(build, "frets.height_scatter", "0.08 mm")) * has_fret
    fret_along = normal("fret_place") * has_fret

    strings = layout["strings"]
    outer = strings[0]["saddle"]["y_mm"], strings[-1]["saddle"]["y_mm"]
    actions = []
    for string in strings:
        share = (string["saddle"]["y_mm"] - outer[0]) / (outer[1] - outer[0]) if len(strings) > 1 else 0.5
        radius = string["diameter_mm"] / 2
        planned = [(place["x_mm"], place["z_mm"] - radius) for place in (string["zero_fret"], string["saddle"])]
        (x0, z0), (x1, z1) = planned
        crown = z0 + (z1 - z0) * (fret_x - x0) / (x1 - x0) - float(written.length_mm(build.document, "action.height"))

        def on_box(x, z):
            """What stands on the neck, seen from the box: a lifted zero fret turns the neck's end up."""
            along, up = x - frame.x0, z - frame.z0
            return frame.x0 + along * cos + up * sin, frame.z0 - along * sin + up * cos

        back = saddle_back[0] * (1 - share) + saddle_back[1] * share
        rise = saddle_up[0] * (1 - share) + saddle_up[1] * share
        crest = x1 + back * frame.cos + rise * frame.sin, z1 - back * frame.sin + rise * frame.cos
        zero_fret = on_box(x0, z0 + zero_fret_up)
        fret = on_box(fret_x + fret_along, crown + fret_up)
        # Height over the fret square to the neck, which is the line's height over it times the cosine, to second order.
        line = zero_fret[1] + (crest[1] - zero_fret[1]) * (fret[0] - zero_fret[0]) / (crest[0] - zero_fret[0])
        actions.append(line - fret[1])
    return numpy.mean(actions, axis=0)


def test_the_action_spreads_as_boxes_put_together_here(build, told):
    here, action = drawn_actions(build), outcome(told, "action_mm")
    error = here.std() / DRAWN ** 0.5
    assert action["mean"] == pytest.approx(here.mean(), abs=4 * error)
    # A deviation counted on n strays by 1/sqrt(2 n) of itself.
    assert action["standard_deviation"] == pytest.approx(here.std(), rel=4 / (2 * DRAWN) ** 0.5)
    assert action["quantile_5_percent"] == pytest.approx(numpy.quantile(here, 0.05), abs=10 * error)
    assert action["quantile_95_percent"] == pytest.approx(numpy.quantile(here, 0.95), abs=10 * error)


def test_what_is_planned_is_what_the_layout_says(build, told):
    playing = build.layout["playing"]
    cents = [abs(error) for string in playing["tuning"] for error in string["after_cents"]]
    expected = {
        "worst_cents": max(cents),
        "rms_cents": (sum(error * error for error in cents) / len(cents)) ** 0.5,
        "worst_drift_cents_per_mm": max(abs(string["cents_per_mm"]) for string in playing["drift"]["strings"]),
        "buzz_room_mm": min(tightest["room_mm"] for tightest in playing["buzz"]["tightest"]),
        "action_mm": float(written.length_mm(build.document, "action.height")),
    }
    assert {name: outcome(told, name)["planned"] for name in expected} == pytest.approx(expected, abs=1e-7)


def test_first_order_shares_are_shares(told):
    for outcome in told["outcomes"]:
        assert sum(cause["first_order_share"] for cause in outcome["causes"]) == pytest.approx(1, abs=1e-7)
        assert all(cause["share_of_variance"] >= 0 for cause in outcome["causes"])
