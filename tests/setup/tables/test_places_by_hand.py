"""At which speeds and throttle openings the tables stand, by hand; what a table notes."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.setup.spark import advance_table
from firstfire.setup.tables import grid

RPM = math.pi / 30


def plain(limit=None, idle=1000.0, speeds=(2000.0, 4000.0), opening=1.0):
    return SimpleNamespace(
        use=SimpleNamespace(
            full_throttle_speeds=tuple(one * RPM for one in speeds), idle_speed=idle * RPM
        ),
        spark=SimpleNamespace(limit_speed=None if limit is None else limit * RPM),
        intake=SimpleNamespace(throttle_opening=opening),
    )


@pytest.mark.parametrize(
    ("limit", "idle", "low", "top"),
    [
        (None, 1000, 600, 4000),  # 0.6 of idle, to full throttle
        (4800, 1000, 600, 4800),  # or to the limiter
        (9000, 1000, 600, 5200),  # but not beyond 1.3 times that
        (3000, 1000, 600, 4000),
        (None, 6000, 3200, 4000),  # 0.8 of the top at most
    ],
)
def test_an_advance_table_stands_at_six_even_speeds(limit, idle, low, top):
    found = advance_table.table_speeds(plain(limit, idle)) / RPM
    assert found == pytest.approx(np.linspace(low, top, 6))


@pytest.mark.parametrize(
    ("limit", "idle", "low", "top"),
    [
        (None, 1000, 600, 4400),  # a tenth beyond full throttle
        (4200, 1000, 600, 4200),
        (3000, 1000, 600, 4000),
        (9000, 1000, 600, 5720),  # 1.3 × 4400
        (None, 9000, 2200, 4400),
    ],
)
def test_a_map_stands_at_thirteen_whole_tens_of_rpm(limit, idle, low, top):
    found = grid.speeds_of(plain(limit, idle)) / RPM
    assert found == pytest.approx(np.rint(np.linspace(low, top, 13) / 10) * 10)


def test_openings_step_evenly_in_air_and_in_the_openings_logarithm(monkeypatch):
    """Of an engine whose air rises as the root of its opening: 0.35 of each step is of air."""
    asked = []

    def breathed(_plain, speed, opening, **_):
        asked.append(speed / RPM)
        return SimpleNamespace(air=(math.sqrt(opening),))

    monkeypatch.setattr(grid, "breathed", breathed)
    monkeypatch.setattr(grid, "first_opening", lambda _plain, _speed: 0.04)
    found = grid.openings_of(plain(), None)
    assert (found[0], found[-1], len(found)) == (0.02, 1.0, 17)
    # the ninth of thirteen from 600 to 4400: 3133, in whole tens
    assert sorted({round(one, 6) for one in asked}) == [3130.0]
    air = (np.sqrt(found) - math.sqrt(0.02)) / (1.0 - math.sqrt(0.02))
    logarithm = np.log(found / 0.02) / math.log(1.0 / 0.02)
    there = 0.35 * air + 0.65 * logarithm
    assert there == pytest.approx(np.linspace(0.0, 1.0, 17), abs=0.01)


def cell(governs="torque", best=0.3, steady=True):
    return SimpleNamespace(governs=governs, best=best, steady=steady)


def test_notes_count_places():
    """Two of six met the earliest spark, one repeats itself never, three do not burn."""
    at_bound = cell(best=advance_table.EARLIEST)
    cells = [[at_bound, at_bound, cell(steady=False)], [cell("not lit")] * 3]
    first, met, wild, dead = advance_table._notes("No kick-back is known.", cells)
    assert first == "No kick-back is known."
    assert met.startswith("in 2 of 6 places torque still rose at 60°")
    assert wild.startswith("in 1 of 6 places no cycle repeats")
    assert dead.startswith("in 3 of 6 places nothing burns")
    assert advance_table._notes("", [[cell()]]) == ()
    assert advance_table._notes("", [[cell("knock", best=advance_table.EARLIEST)]]) == ()
