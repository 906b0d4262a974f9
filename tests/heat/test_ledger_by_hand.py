"""Where the heat of a step is booked, of two faces, with a calculator."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.heat.march import _ledger

PLAIN = getattr(_ledger, "py_func", _ledger)


def test_what_a_source_sends_out_again_is_booked_off_the_gas_or_the_air():
    """For 10 s. From gas of 900 K over 2 W/K into 400 K come 1000 W, with 3 W of a source of 5 that
    go in: 1003 W, of which 998 are the gas's. Into air of 300 K over ½ W/K from 500 K go 100 W,
    with 1 W of a source of 4 that goes in: -99 W, so -103 are the air's. 1, 2 and 3 J stand."""
    faces = SimpleNamespace(node=np.array([1, 0]), gas=np.array([1, 0]))
    felt = SimpleNamespace(
        through=np.array([2.0, 0.5]), outside=np.array([900.0, 300.0]),
        inwards=np.array([3.0, 1.0]), source=np.array([5.0, 4.0]),
    )  # fmt: skip
    booked = np.array([1.0, 2.0, 3.0])
    PLAIN(faces, felt, np.array([500.0, 400.0]), 10.0, booked)
    assert booked == pytest.approx([1.0 + 9980.0, 2.0 + 90.0, 3.0 - 1030.0])
