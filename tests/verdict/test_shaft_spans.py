"""Low and high of torque and power at the shaft: from engines drawn, against whole ones."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

import firstfire as ff
from firstfire.runs.moved import Trials
from firstfire.runs.run import run
from firstfire.runs.truth import truth
from firstfire.verdict.facts.shaft_span import shaft_spans

WREN = Path(__file__).resolve().parents[2] / "engines" / "wren.toml"
AT = [4000 * math.pi / 30]
COUNT, SEED = 60, 4711


def spans_of(trials):
    """Of full throttle at 4000 rpm."""
    event = run(trials.engine, "full_throttle", speeds=AT, trials=trials, drawn=14)
    return event.points[0], shaft_spans([event])[0]


def test_low_and_high_have_the_engine_itself_between_them(result):
    spans = shaft_spans(result.events)
    assert len(spans) == len(result.points)
    told = [(p, s) for p, s in zip(result.points, spans, strict=True) if s is not None]
    assert {point.event for point, _ in told} >= {"cranking", "first_fire", "full_throttle"}
    for point, span in told:
        assert span.torque_low <= point.brake_torque <= span.torque_high
        assert span.power_low <= point.brake_power <= span.power_high
        assert span.torque_low < span.torque_high


def test_an_idle_gives_what_turns_it_and_has_no_span(result):
    spans = dict(zip((p.event for p in result.points), shaft_spans(result.events), strict=True))
    assert spans["idle"] is None
    told = {point["event"]: point for point in result.as_dict()["operating_points"]}
    assert told["idle"]["brake_power_low_w"] is None
    full = told["full_throttle"]
    assert full["brake_torque_low_nm"] == spans["full_throttle"].torque_low
    assert full["brake_power_high_w"] == spans["full_throttle"].power_high


def test_without_engines_drawn_there_is_no_span(wren):
    event = run(wren, "cranking", drawn=0)
    assert shaft_spans([event]) == (None,)


def test_a_held_speed_gives_power_as_it_gives_torque(result):
    for point, span in zip(result.points, shaft_spans(result.events), strict=True):
        if span is not None and point.event in ("cranking", "full_throttle"):
            assert span.power_low == pytest.approx(point.speed * span.torque_low)
            assert span.power_high == pytest.approx(point.speed * span.torque_high)


@pytest.mark.parametrize("path", ["doubt.wall_heat", "doubt.friction.ring", "doubt.flow"])
def test_a_wider_doubt_gives_a_wider_span(wren, path):
    """One doubt alone, and the same twice as wide in its logarithm, or in its own unit."""
    widths = []
    for times in (1.0, 2.0):
        trials = Trials(wren)
        one = next(u for u in trials.unknowns if u.path == path)
        if one.distribution == "normal":
            low, high = (one.centre + times * (end - one.centre) for end in (one.low, one.high))
        else:
            low, high = (one.centre * (end / one.centre) ** times for end in (one.low, one.high))
        trials.unknowns = (replace(one, low=low, high=high),)
        _, span = spans_of(trials)
        widths.append(span.torque_high - span.torque_low)
    assert widths[1] > 1.4 * widths[0] > 0


@pytest.mark.long
def test_against_60_whole_engines():
    """Nine tenths of whole engines lie within a span that is really 5-95 %.

    A share of 60 scatters by 0.04 and the ends of 32 engines by 0.045 of chance: 0.8 to 1.
    """
    found = truth(ff.read(WREN), COUNT, SEED)
    for event, result in found.results.items():
        for number, span in enumerate(shaft_spans([result])):
            if span is None:
                continue
            fates = [f[event, number] for f in found.fates if (event, number) in f]
            torque = np.array([fate.brake_torque for fate in fates])
            power = np.array([fate.brake_power for fate in fates])
            for each, low, high in (
                (torque, span.torque_low, span.torque_high),
                (power, span.power_low, span.power_high),
            ):
                inside = np.mean((each >= low) & (each <= high))
                assert 0.8 <= inside <= 1.0, (event, number, inside)
