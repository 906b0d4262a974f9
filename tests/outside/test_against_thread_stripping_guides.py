"""Pull-out of a screw from plastic.

Sources: the pitch-cylinder form of plastics makers' screw guides and the internal-thread area
of FED-STD-H28/2 Appendix B (both from memory, values computed from the forms).
"""

import pytest

from firstfire.formulas import thread

EXACT_FORM = 2e-3  # a closed form; the rest is the rounding of the printed number


def test_m5_in_plastic_over_8_mm() -> None:
    area = thread.shear_area_on_pitch_cylinder(5e-3, 0.8e-3, 8e-3)
    assert area == pytest.approx(112.6e-6, rel=EXACT_FORM)
    assert thread.pull_out_load(area, 18e6) == pytest.approx(2027, rel=EXACT_FORM)
