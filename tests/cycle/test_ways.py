"""Openings side by side: worked out as one, told one by one."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from firstfire.cycle import layout
from firstfire.cycle.build import build_engine, start_state
from firstfire.cycle.layout import Floats
from firstfire.cycle.records import CylinderSpec, EngineSpec, PassageSpec, VolumeSpec
from firstfire.cycle.run import run_to


def engine(*passages: PassageSpec) -> EngineSpec:
    cylinder = CylinderSpec("cylinder", 0.044, 0.020, 0.070, 1e-5)
    volumes = (VolumeSpec("outside", fixed=True), VolumeSpec("case", 3e-4))
    return EngineSpec("petrol", 1.0, (cylinder,), volumes, passages)


def passed(spec: EngineSpec) -> Floats:
    """Sums of every passage over compression and expansion."""
    engines = build_engine(spec)
    state = start_state(spec, engines, -math.pi, 200.0)
    end = run_to(engines, state, until_angle=math.pi)
    at = int(engines[0]["passage_sums_at"])
    count = int(engines[0]["passage_count"])
    sums = end.values[at : at + count * layout.PASSAGE_SUMS]
    return np.array(sums.reshape(count, layout.PASSAGE_SUMS))


def test_sums_are_shared_by_area() -> None:
    gasket = PassageSpec("gasket", "cylinder", "outside", 0.1e-6)
    plug = PassageSpec("plug", "cylinder", "outside", 0.3e-6)
    # The other way round: what leaves counts negative.
    wall = PassageSpec("wall", "outside", "cylinder", 0.2e-6)
    ring = PassageSpec("ring", "cylinder", "case", 0.2e-6)
    apart = passed(engine(gasket, plug, wall, ring))
    whole = passed(engine(replace(gasket, area=0.6e-6), ring))
    for row, share in ((0, 1 / 6), (1, 3 / 6), (2, -2 / 6)):
        ahead = slice(0, layout.PASSED_BACK)
        assert apart[row, ahead] == pytest.approx(share * whole[0, ahead], rel=1e-9)
    assert apart[3] == pytest.approx(whole[1], rel=1e-9)
    # Out through all of them at first, a little back at the end of the expansion.
    forth_and_back = apart[:, layout.PASSED_BACK]
    assert forth_and_back[0] == pytest.approx(whole[0, layout.PASSED_BACK] / 6, rel=1e-9)
    assert forth_and_back[2] == pytest.approx(
        2 / 6 * (whole[0, layout.PASSED_BACK] + whole[0, layout.PASSED_MASS]), rel=1e-9
    )


def test_what_flows_as_one() -> None:
    plain = PassageSpec("a", "cylinder", "outside", 1e-7)
    reed = replace(plain, name="b", one_way=True)
    record = build_engine(engine(plain, reed, replace(plain, name="c")))[0]
    assert list(record["passages"]["way"][:3]) == [0, 1, 0]
    assert record["ways"]["area"][:2] == pytest.approx([2e-7, 1e-7])
    shut = build_engine(engine(replace(plain, area=0.0)))[0]
    assert shut["passages"]["share"][0] == 1.0
