"""Printed pins so hot that nothing is left of them, and the mean that wears a bearing."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.parts.moments import moment, numbers, said, wall
from tests.parts.test_examples import BASE

from firstfire.engine.moment import Moment
from firstfire.engine.read import with_values
from firstfire.engine.records import Way
from firstfire.engine.working import recorded
from firstfire.parts import ways

PRINTED = {
    "crank.crankpin_material": "petg", "crank.crankpin_diameter": "14 mm",
    "crank.crankpin_length": "21 mm", "crank.joint.length": "8 mm", "rod.big_end_width": "15 mm",
    "crank.journal.material": "petg", "crank.journal.joint.kind": "solid",
    "crank.journal.fillet": "0.9 mm", "crank.cheek_width": "40 mm",
}  # fmt: skip


def judged(at: Moment, name: str) -> Way:
    return next(way for way in ways(at) if way.id == name)


def hot() -> Moment:
    """Webs at 160 °C, where nothing is left of PETG."""
    here = moment(with_values(said(BASE), PRINTED), rpm=30.0)
    webs = wall(433.15, 433.15, 1e-3, 5e-3, 0.0)
    return replace(here, temperatures=replace(
        here.temperatures, parts={**here.temperatures.parts, "webs": webs}
    ))  # fmt: skip


def test_a_molten_crankpin_holds_nothing_and_is_still_bent() -> None:
    # (3.5 - 0.1013) MPa × π/4 × (44 mm)² × (29/4 - 15/8) mm = 27.78 N·m: 32 × 27777/(π 14³) =
    # 103.1 MPa (Shigley 9, Eq. 3-24).
    way = judged(recorded(hot()), "crank.pin.split")
    assert way.demand == pytest.approx(103.11e6, rel=1e-4)
    assert way.capacity == 0.0
    assert way.governs == "temperature"
    assert numbers(way)["capacity"] == 0.0


def test_a_molten_journal_holds_nothing_and_is_still_bent_and_twisted() -> None:
    # 2.096 × 32 × 3100/(π 15³) = 19.61 MPa and 1.690 × 16 × 2900/(π 15³) = 7.394 MPa: √(19.61² +
    # 3 × 7.394²) = 23.42 MPa (Shigley 9, Eq. 3-24, 3-37, 5-15; Peterson's charts, r/d 0.06).
    loaded = {"journal_moment": 3.1, "journal_torque": 2.9}
    way = judged(replace(recorded(hot()), instead=loaded), "crank.journal.split")
    assert way.demand == pytest.approx(23.4235e6, rel=1e-3)
    assert way.capacity == 0.0
    assert way.governs == "temperature"


def test_a_bearing_feels_the_cubic_mean_of_its_worst_mate() -> None:
    # 2 kN for a tenth of the turns and 300 N for the rest wear as 937.6 N do (Shigley 9, Eq.
    # 11-14): (0.1 × 2000³ + 0.9 × 300³)^(1/3). The other one carries less.
    here = moment(said(BASE), cycles=50.0)
    force = np.where(np.arange(100) < 10, 2000.0, 300.0)
    here = replace(here, loads=replace(here.loads, main_bearings=(0.6 * force, force)))
    life = judged(recorded(here), "crank.bearing.life")
    assert life.inputs["cubic_mean_force"] == pytest.approx(937.6, rel=1e-4)
    rating = life.inputs["crank.main_bearing_dynamic_load"]
    assert life.capacity == pytest.approx(1e6 * (rating / 937.6) ** 3, rel=1e-3)
    # two turns a cycle at 3000 rpm: so many hours
    hours = life.inputs["life_hours"]
    assert hours == pytest.approx(life.capacity / 3000.0 / 60.0, rel=1e-9)
