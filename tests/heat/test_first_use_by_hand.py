"""What is marched to compile the march: a tenth of a second of a whole, gentle cycle."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.heat import first_use


def test_the_march_is_compiled_on_a_whole_cycle_of_a_gentle_gas(monkeypatch):
    """720° about the firing top in steps of 2°, at 200 rad/s and 100 W/(m² K) throughout; from the
    air's temperature on, 0.1 s."""
    engine = SimpleNamespace(surroundings=SimpleNamespace(air_temperature=290.0))
    told = {}

    def running(of, cylinder, walls, gas):
        assert (of, cylinder, walls) == (engine, 0, "walls")
        told["gas"] = gas
        return "exposure"

    monkeypatch.setattr(first_use, "resolve", lambda _: engine)
    monkeypatch.setattr(first_use, "understand", lambda *_: "understood")
    monkeypatch.setattr(first_use.catalog, "load", lambda: None)
    monkeypatch.setattr(first_use, "network", lambda *given: given == (engine, 0) and "walls")
    monkeypatch.setattr(first_use, "cold", lambda *given: given)
    monkeypatch.setattr(first_use, "running", running)
    monkeypatch.setattr(first_use, "advance", lambda *given: told.update(advanced=given))
    first_use.compile_march()
    assert told["advanced"] == (("walls", 290.0), "exposure", 0.1)
    angle = told["gas"].angle
    assert angle[[0, 180, -1]] == pytest.approx([-2 * math.pi, 0.0, 2 * math.pi])
    assert np.diff(angle) == pytest.approx(np.full(360, math.radians(2.0)))
    assert told["gas"].speed.tolist() == [200.0] * 361
    assert told["gas"].coefficient.tolist() == [100.0] * 361
