"""Every way to fail, against a case that was worked out by hand or by a book."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.parts.moments import moment, said

from firstfire.engine.moment import Breath
from firstfire.engine.read import with_values
from firstfire.engine.working import recorded
from firstfire.parts.all import JUDGEMENTS
from firstfire.parts.failure import Example, Judgement

BASE = """
name = "hand"
[layout]
kind = "single"
[cylinder]
bore = "44 mm"
stroke = "40 mm"
[printing]
material = "petg"
moisture = "dry"
"""
# Each breathes alike: its inlet is shut 69° after bottom, and it spits 3.7 % of its charge back.
BREATH = Breath(inlet_shut=1.2, spat_back=0.037)
# No part is colder than a winter's morning, K; no number above the hottest is a temperature.
COLDEST, HOTTEST = 240.0, 2000.0
CASES = [(judge, example) for judge in JUDGEMENTS for example in judge.failure.examples]


@pytest.mark.parametrize(
    ("judge", "example"), CASES, ids=[f"{judge.failure.id}" for judge, _ in CASES]
)
def test_it_comes_to_what_was_worked_out_elsewhere(judge: Judgement, example: Example) -> None:
    engine = with_values(said(BASE), dict(example.said))
    here = recorded(
        moment(
            engine,
            event=example.event,
            peak=example.peak,
            rpm=example.rpm,
            cycles=example.cycles,
            hours=example.hours,
            rises={name: (rise, rise) for name, rise in example.rises.items()},
        )
    )
    assert judge.applies(here)
    way = judge(replace(here, instead=dict(example.given), breath=BREATH))
    assert way.judged, way.why_not
    assert set(example.given) <= set(way.inputs), "a number given that nothing asks for"
    assert way.demand == pytest.approx(example.demand, rel=example.within)
    assert way.capacity == pytest.approx(example.capacity, rel=example.within)
    if way.temperature is not None:
        air = here.engine.surroundings.air_temperature
        known = [air, *(air + rise for rise in example.rises.values()), *example.given.values()]
        assert COLDEST <= way.temperature <= max(one for one in known if one < HOTTEST) + 1


def test_every_way_that_is_judged_has_an_example() -> None:
    without = {j.failure.id for j in JUDGEMENTS if not j.never and not j.failure.examples}
    assert without == set()
