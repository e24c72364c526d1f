"""Is the least work on uneven wires the least? Another solver plans it again, from strings and crowns worked out here."""

import json
import os
import pathlib

import numpy
import pytest
from scipy.optimize import linprog

CASES = os.environ.get("BOXNECK_TAPPINGS")
# What two solvers may differ by rounding. mm.
ROUNDING = 1e-6


def cases():
    if not CASES:
        raise RuntimeError("BOXNECK_TAPPINGS is not set: run tests/run, which writes the random cases and then calls the judges")
    return [json.loads(line) for line in pathlib.Path(CASES).read_text().splitlines()]


def swing(string, sounding, at):
    """How deep a plucked string swings at a distance from where it sounds: highest where it is drawn aside, mirrored."""
    deepest = min(string["pluck_from_saddle"], sounding / 2)
    depth = string["pluck_n"] / string["tension_n"] * string["pluck_toward_neck_share"] * deepest * (sounding - deepest) / sounding
    return numpy.interp(at, [0, deepest, sounding], [0, depth, 0])


def height(ends, x):
    """The straight line through two ends, each an x and a height that may be a row of coefficients."""
    (x0, h0), (x1, h1) = ends
    return h0 + (h1 - h0) * (x - x0) / (x1 - x0)


class Plan:
    """Heights as rows of coefficients of: a one, each wire's way down, the saddle's ends up, the height above what is wanted."""

    def __init__(self, case):
        self.case, self.frets = case, len(case["crowns"])
        self.width = 1 + self.frets + 2 + 1
        self.crowns = [self.row(0, h) - self.row(1 + index, 1) for index, (_, h) in enumerate(case["crowns"])]
        self.conditions = []  # each row is at least nothing
        for string in case["strings"]:
            self.free(string)
            self.as_wanted(string)

    def row(self, column, value):
        row = numpy.zeros(self.width)
        row[column] = value
        return row

    def saddle(self, string):
        place, crest = string["saddle"]
        up = self.row(1 + self.frets, 1 - string["across"]) + self.row(2 + self.frets, string["across"])
        return place, self.row(0, crest) + (up if self.case["saddle_may_sink"] is not None else 0)

    def free(self, string):
        places = [place for place, _ in self.case["crowns"]]
        zero_fret = (string["zero_fret"][0], self.row(0, string["zero_fret"][1]))
        for fretted, end in enumerate([zero_fret, *zip(places, self.crowns)]):
            ends = (end, self.saddle(string))
            for over in range(fretted, self.frets):
                deep = swing(string, ends[1][0] - ends[0][0], places[over] - ends[0][0])
                self.conditions.append(height(ends, places[over]) - self.crowns[over] - self.row(0, deep + self.case["spare"]))

    def as_wanted(self, string):
        fret, wanted, within = (self.case[key] for key in ("action_fret", "wanted", "within"))
        ends = ((string["zero_fret"][0], self.row(0, string["zero_fret"][1])), self.saddle(string))
        action = height(ends, self.case["crowns"][fret][0]) - self.crowns[fret]
        self.conditions.append(self.row(0, wanted + within) + self.row(self.width - 1, 1) - action)
        self.conditions.append(action - self.row(0, wanted - within))

    def least(self, costs, above_wanted=None):
        rows = numpy.array(self.conditions)
        sinks = self.case["saddle_may_sink"]
        saddle = (0, 0) if sinks is None else (-sinks, None)
        bounds = [(0, most) for most in self.case["may_sink"]] + [saddle, saddle, (0, above_wanted)]
        found = linprog(costs, A_ub=-rows[:, 1:], b_ub=rows[:, 0], bounds=bounds, method="highs")
        assert found.status in (0, 2), found.message
        return found.fun if found.status == 0 else None

    def answer(self):
        found = self.case["found"]
        return numpy.array([1, *found["taps"], *found["saddle"], found["above_wanted"]])


@pytest.fixture(scope="module")
def plans():
    return [Plan(case) for case in cases()]


@pytest.fixture(scope="module")
def answered(plans):
    return [(index, plan) for index, plan in enumerate(plans) if plan.case["found"]]


def test_there_are_cases_of_every_kind(plans, answered):
    found = [plan.case["found"] for _, plan in answered]
    assert len(found) >= 200
    assert len(plans) - len(found) > 10, "cases without an answer"
    assert sum(sum(one["taps"]) > 0.01 for one in found) > 100, "wires to tap"
    assert sum(one["above_wanted"] > 0.01 for one in found) > 10, "strings that cannot be as low as wanted"
    assert sum(plan.case["saddle_may_sink"] is None for _, plan in answered) > 20, "saddles that stay"


def test_where_no_answer_is_told_there_is_none(plans):
    for index, plan in enumerate(plans):
        if not plan.case["found"]:
            assert plan.least([0] * (plan.width - 1)) is None, f"case {index} can be met"


def test_every_answer_meets_every_condition(answered):
    for index, plan in answered:
        least = (numpy.array(plan.conditions) @ plan.answer()).min()
        assert least >= -ROUNDING, f"case {index} lacks {-least} mm"
        taps, most = plan.case["found"]["taps"], plan.case["may_sink"]
        assert all(-ROUNDING <= tap <= limit + ROUNDING for tap, limit in zip(taps, most)), f"case {index}: {taps}"


def test_the_strings_are_as_low_as_they_can_be_and_the_work_is_the_least(answered):
    for index, plan in answered:
        above = plan.least([0] * (plan.width - 2) + [1])
        found = plan.case["found"]
        assert found["above_wanted"] == pytest.approx(above, abs=ROUNDING), f"case {index}"
        # As low as that again but for rounding, of which a little buys a little work.
        work = plan.least([1] * plan.frets + [0, 0, 0], above_wanted=above + ROUNDING / 100)
        assert sum(found["taps"]) == pytest.approx(work, abs=10 * ROUNDING), f"case {index}"
