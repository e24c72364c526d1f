"""Is what `layout.json` says of playing true? Every number is worked out again in another way (see `strung`)."""

import math

import mpmath
import numpy
import pytest

import strung
import written
from frame import BoxFrame

mpf = mpmath.mpf


def count(build):
    return len(build.layout["strings"])


def strings(build):
    return [strung.String(build, index) for index in range(count(build))]


def paths(build):
    return [strung.Path(build.layout, index) for index in range(count(build))]


def playing(build):
    return build.layout["playing"]


def action_share(build):
    """Which share of the way from zero fret to saddle line the action is measured at."""
    return 1 - 2 ** (-written.value(build.document, "action.fret") / 12)


def test_tension_is_that_of_a_helix_round_a_core(build):
    for index in range(count(build)):
        for which in ("low", "nominal", "high"):
            string = strung.String(build, index, which)
            assert string.pull["core_mm"][which] == pytest.approx(float(string.core), abs=1e-8), which
            assert string.pull["tension_n"][which] == pytest.approx(float(string.tension), abs=1e-6), which
        string = strung.String(build, index)
        assert string.pull["core_is_estimated"] == string.estimated
        assert string.pull["stretch_ratio"] == pytest.approx(float(string.stretch / string.tension), abs=1e-6)


def test_all_strings_pull_together(build):
    total = sum(string.tension for string in strings(build))
    assert playing(build)["neck"]["tension_n"] == pytest.approx(float(total), abs=1e-6)


def test_drift_by_path_lengths_and_hookes_law(build):
    for string, path, told in zip(strings(build), paths(build), playing(build)["drift"]["strings"]):
        assert told["slipping_cents"] == pytest.approx(float(strung.slipping_cents(string, path, mpf(1))), abs=1e-5)
        assert told["dragged_cents"] == pytest.approx(float(strung.dragged_cents(string, path, mpf(1), mpf("0.26"))), abs=1e-5)


def test_drift_per_mm_is_the_derivative(build):
    for string, path, told in zip(strings(build), paths(build), playing(build)["drift"]["strings"]):
        assert told["cents_per_mm"] == pytest.approx(float(strung.drift_per_mm(string, path)), abs=1e-5)


def test_break_even_is_a_root_of_the_derivative(build):
    for string, path, told in zip(strings(build), paths(build), playing(build)["drift"]["strings"]):
        drop = strung.break_even_drop(string, path)
        if drop is None:
            assert told["break_even_tail_angle_deg"] is None
            continue
        angle = float(mpmath.degrees(mpmath.atan(drop / path.tail_run)))
        assert told["break_even_tail_angle_deg"] == pytest.approx(angle, abs=1e-5)
        assert told["break_even_hole_height_mm"] == pytest.approx(float(path.crest - drop), abs=1e-5)


def height_limits(build):
    """Strings keep 4 degrees of break over the saddle; a ball end needs 0.8 mm under it; a tail on the end stays below the lid."""
    layout = build.layout
    kind, ball = layout["tail"]["kind"], layout["tail"]["bores"][0]["ball_diameter_mm"]
    flattest = [
        float(path.crest) - float(path.tail_run) * math.tan(max(0.0, math.radians(4) - math.atan2(path.front_rise, path.front_run)))
        for path in paths(build)
    ]
    if kind == "block on the lid":
        return ball / 2 + 0.8, min(flattest)
    return -layout["box"]["depth_mm"], min(min(flattest), 0.0)


def test_no_tail_height_is_better_than_the_advised_one(build):
    advice = playing(build)["drift"]["advice"]
    low, high = height_limits(build)
    if advice is None:
        assert low >= high - 1e-9, "no advice only where there is no room"
        return
    worst = lambda heights: strung.worst_drift(strings(build), paths(build), numpy.asarray(heights))
    assert low - 1e-6 <= advice["hole_height_mm"] <= high + 1e-6
    assert worst([advice["hole_height_mm"]])[0] == pytest.approx(advice["worst_cents"], abs=1e-5)
    best = strung.least(worst, low, high)
    assert advice["worst_cents"] <= worst([best])[0] + 1e-3, f"{best} mm is better"
    at_end = min(abs(advice["hole_height_mm"] - end) for end in (low, high)) < 1e-6
    assert advice["is_at_limit"] == at_end
    rows = [(row["hole_height_mm"], row["worst_cents"]) for row in advice["curve"]]
    assert rows[-1][0] == pytest.approx(high, abs=1e-6)
    # The plot shows the saddle moved back only.
    assert all(cents <= worst([height])[0] + 1e-5 for height, cents in rows)


def test_intonation_is_the_published_models(build):
    for index, (string, told) in enumerate(zip(strings(build), playing(build)["tuning"])):
        run = strung.Run(build, index)
        assert told["setback_mm"] == pytest.approx(run.setback, abs=1e-6)
        for key, setback in (("before_cents", 0.0), ("after_cents", run.setback)):
            if not told[key]:
                continue
            assert len(told[key]) == len(run.places)
            for fret, cents in enumerate(told[key]):
                expected = strung.error_cents(string, run, fret, mpf(setback), run.crest_height)
                assert cents == pytest.approx(float(expected), abs=1e-6), f"string {index + 1}, fret {fret + 1}, {key}"


def test_the_setback_leaves_the_least_error(build):
    for index, (string, told) in enumerate(zip(strings(build), playing(build)["tuning"])):
        run = strung.Run(build, index)
        if not told["before_cents"]:
            continue
        best = strung.least(lambda setbacks: strung.rms_cents(string, run, setbacks), -10.0, 40.0)
        assert told["setback_mm"] == pytest.approx(best, abs=1e-3)


def test_the_neck_bends_as_a_beam_of_its_sections(build):
    told, neck = playing(build)["neck"], strung.Neck(build)
    if not told["settled"]:
        return
    allowed = 0.005 * abs(told["droop_mm"])
    assert told["droop_mm"] == pytest.approx(neck.rise(0.0), abs=allowed)
    for station, bow in zip(build.layout["frets"]["stations"], told["bow_mm"]):
        assert bow == pytest.approx(neck.bow(station["x_mm"]), abs=allowed), f"fret {station['number']}"
    assert told["stress_mpa"] == pytest.approx(neck.stress, rel=0.005)


def pushes(build, at, ends):
    """What each string presses on what it bends over, square to the lid."""
    frame = BoxFrame(build.layout)
    for string, plan in zip(strings(build), build.layout["strings"]):
        spot = lambda name: numpy.array([frame.along(plan[name]), plan[name]["y_mm"], frame.above(plan[name])])
        leaves = [spot(end) - spot(at) for end in ends]
        yield -float(string.tension) * sum(way[2] / numpy.linalg.norm(way) for way in leaves)


def test_down_force_is_the_sum_of_two_pulls(build):
    told = playing(build)["saddle"]
    assert told["down_n"] == pytest.approx(list(pushes(build, "saddle", ("zero_fret", "tail"))), abs=1e-6)
    assert told["down_on_zero_fret_n"] == pytest.approx(list(pushes(build, "zero_fret", ("saddle", "nut"))), abs=1e-6)


def test_the_lid_sinks_as_a_supported_plate(build):
    told = playing(build)["saddle"]
    if told["lid_sink_supported_mm"] is None:
        return
    sink = strung.lid_sink(build.layout, sum(pushes(build, "saddle", ("zero_fret", "tail"))))
    assert told["lid_sink_supported_mm"] == pytest.approx(sink, rel=0.01)
    assert 0 < told["lid_sink_clamped_mm"] / told["lid_sink_supported_mm"] < 1, "clamped edges are stiffer"
    assert told["action_lost_mm"] == pytest.approx(told["lid_sink_supported_mm"] * action_share(build), abs=1e-6)


def scatter_mm(build):
    return strung.length(build, "frets.height_scatter", "0.08 mm")


def test_the_tightest_place_touches_with_the_probability_of_a_normal_gap(build):
    buzz, stations = playing(build)["buzz"], build.layout["frets"]["stations"]
    if buzz is None:
        assert not stations, "nothing to tell only without frets"
        return
    numbers = [0] + [station["number"] for station in stations]
    scatter = scatter_mm(build)
    for index, told in enumerate(buzz["tightest"]):
        pairs = strung.buzz_pairs(build, index)
        fretted, over, share, room = min(pairs, key=lambda pair: pair[3])
        assert told["room_mm"] == pytest.approx(room, abs=1e-6)
        told_pair, = [pair for pair in pairs if (numbers[pair[0]], numbers[pair[1]]) == (told["fretted"], told["over"])]
        assert told_pair[3] == pytest.approx(room, abs=1e-6), "it is the tightest, or as tight"
        fretted, over, share, room = told_pair
        deviation = math.hypot((1 - share) * (scatter if fretted else 0.0), scatter)
        if deviation:
            assert told["probability"] == pytest.approx(float(mpmath.ncdf(-room / deviation)), abs=1e-6)
        else:
            assert told["probability"] == (1.0 if room < 0 else 0.0)


def test_the_share_free_of_buzz_is_that_of_other_draws(build):
    buzz = playing(build)["buzz"]
    if buzz is None:
        return
    assumed, instruments = playing(build)["assumed"], 20000
    pairs = [pair for index in range(count(build)) for pair in strung.buzz_pairs(build, index)]
    frets, scatter = len(build.layout["frets"]["stations"]), scatter_mm(build)
    raises = strung.needed_raises(pairs, frets, scatter, instruments, seed=20231)
    level = strung.needed_raises(pairs, frets, 0.0, 1, seed=0)[0]
    wanted_action = float(written.length_mm(build.document, "action.height"))
    raise_for = lambda action: (action - wanted_action) / action_share(build)
    assert raise_for(buzz["lowest_action_level_mm"]) == pytest.approx(level, abs=1e-5), "with level frets"

    def close(found, share):
        # At an end of the range the deviation is that of a share that would show once in the program's own draws.
        bounded = min(max(share, 1 / assumed["instruments"]), 1 - 1 / assumed["instruments"])
        deviation = math.sqrt(bounded * (1 - bounded) * (1 / assumed["instruments"] + 1 / instruments))
        assert found == pytest.approx(share, abs=4 * deviation)

    if scatter:
        close(buzz["share_free"], float(numpy.mean(raises <= 0.0)))
        # At the lowest action the wanted share is free of buzz, on other draws too.
        free = float(numpy.mean(raises <= raise_for(buzz["lowest_action_mm"]) + 1e-9))
        close(free, assumed["free_of_buzz_share"])
