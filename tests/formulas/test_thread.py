"""Threads: what must hold for every size, not only for the tabled ones."""

import pytest
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import thread

diameters = st.floats(1.6e-3, 12e-3)


def test_what_is_no_thread_is_refused_with_a_reason() -> None:
    with pytest.raises(OutsideValidity, match="no core left"):
        thread.stress_area(3e-3, 2.5e-3)
    with pytest.raises(OutsideValidity, match="no property class"):
        thread.proof_load(14e-6, "9")
    with pytest.raises(OutsideValidity, match="M16"):
        thread.proof_load(245e-6, "8.8")
    with pytest.raises(OutsideValidity, match="one to four diameters"):
        thread.shear_area_on_pitch_cylinder(5e-3, 0.8e-3, 30e-3)
    with pytest.raises(OutsideValidity, match="not negative"):
        thread.pull_out_load(-1e-6, 18e6)
